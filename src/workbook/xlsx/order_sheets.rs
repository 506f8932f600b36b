//! The workbook of an order list: a sheet to print and tick for each supplier, and one of what stands beside the orders.

use std::collections::BTreeSet;

use jiff::civil::DateTime;
use rust_xlsxwriter::XlsxError;

use super::binder::Binder;
use super::notes::CellNotes;
use super::page_setup::Paper;
use super::sheet::Drawn;
use crate::analysis::OrderList;
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::schema::marker;
use crate::workbook::context::Context;
use crate::workbook::layout::Layout;
use crate::workbook::layout::dish_cells::DishesOnCards;
use crate::workbook::layout::effective_settings::SettingsLayout;
use crate::workbook::layout::inputs::Inputs;
use crate::workbook::layout::own_columns::Beside;
use crate::workbook::layout::sheet_names::SheetNames;
use crate::workbook::sheets::order;
use crate::workbook::stamp;

/// The workbook's bytes.
///
/// # Errors
/// When an order has more rows than a sheet can hold.
pub fn write(
    kitchen: &Kitchen,
    costing: &Costing,
    list: Option<&OrderList>,
    origins: &[String],
    at: DateTime,
) -> Result<Vec<u8>, XlsxError> {
    let layout = Layout::of(kitchen, &[], Beside::Figures, &BTreeSet::new());
    let settings_layout = SettingsLayout::of(kitchen);
    let mark = marker::text(stamp::VERSION, origins);
    let context = Context {
        inputs: Inputs { kitchen, layout: &layout },
        costing,
        settings: &settings_layout,
        mark: &mark,
        dishes_on_cards: DishesOnCards::of(kitchen, costing),
    };
    let paper = Paper::of(&context, Some(costing.scenario.date));
    let mut binder = Binder::new(&paper);
    let mut names = SheetNames::default();
    names.take(order::BESIDE);
    if let Some(list) = list {
        for of in &list.orders {
            let name = names.card(order::supplier(of));
            let frame = order::frame(&name);
            binder.take(Drawn::of(frame, CellNotes::new(), |out| order::rows(&context, list, of, &name, out))?)?;
        }
    }
    binder.take(Drawn::of(order::frame_beside(), CellNotes::new(), |out| order::rows_beside(&context, list, out))?)?;
    binder.bound(|workbook| super::stamp(workbook, &format!("Orders of {}", costing.scenario.date), at))
}

//! The workbook of an order list: a sheet to print and tick for each supplier, and one of what stands beside the orders.

use jiff::civil::DateTime;
use rust_xlsxwriter::XlsxError;

use super::binder::Binder;
use super::notes::CellNotes;
use super::page_setup::Paper;
use super::sheet::Drawn;
use super::{to_print, workers};
use crate::analysis::OrderList;
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::workbook::layout::CardsAsked;
use crate::workbook::layout::sheet_names::SheetNames;
use crate::workbook::sheets::order;

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
    to_print::drawn(kitchen, costing, CardsAsked::USUAL, origins, |context| {
        let paper = Paper::of(context, Some(costing.scenario.date));
        workers::hire(|crew| {
            let mut binder = Binder::new(&paper, crew);
            let mut names = SheetNames::default();
            names.take(order::BESIDE);
            for (list, of) in list.iter().flat_map(|list| list.orders.iter().map(move |of| (*list, of))) {
                let name = names.card(order::supplier(of));
                let frame = order::frame(&name);
                binder.take(Drawn::of(frame, CellNotes::new(), |out| order::rows(context, list, of, &name, out))?)?;
            }
            binder.take(Drawn::of(order::frame_beside(), CellNotes::new(), |out| {
                order::rows_beside(context, list, out)
            })?)?;
            binder.bound(&super::stamped(&format!("Orders of {}", costing.scenario.date), at)?, Vec::new())
        })
    })
}

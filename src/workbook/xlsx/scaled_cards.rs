//! The workbook of a recipe in another size: a kitchen card to print for it, and for each recipe within it that is scaled
//! as well. It holds no money.

use std::collections::BTreeSet;

use jiff::civil::DateTime;
use rust_xlsxwriter::XlsxError;

use super::binder::Binder;
use super::notes::CellNotes;
use super::page_setup::Paper;
use super::sheet::Drawn;
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::schema::marker;
use crate::workbook::context::Context;
use crate::workbook::layout::Layout;
use crate::workbook::layout::dish_cells::DishesOnCards;
use crate::workbook::layout::effective_settings::SettingsLayout;
use crate::workbook::layout::inputs::Inputs;
use crate::workbook::layout::own_columns::Beside;
use crate::workbook::sheets::kitchen_cards::scaled::{Scaled, frame, rows, starts};
use crate::workbook::stamp;

/// The workbook's bytes.
///
/// # Errors
/// When a card has more rows than a sheet can hold.
pub fn write(
    kitchen: &Kitchen,
    costing: &Costing,
    all: &[Scaled<'_>],
    origins: &[String],
    at: DateTime,
) -> Result<Vec<u8>, XlsxError> {
    let cards: BTreeSet<_> = all.iter().map(|(id, _)| *id).collect();
    let layout = Layout::of(kitchen, &[], Beside::Figures, &cards);
    let settings_layout = SettingsLayout::of(kitchen);
    let mark = marker::text(stamp::VERSION, origins);
    let context = Context {
        inputs: Inputs { kitchen, layout: &layout },
        costing,
        settings: &settings_layout,
        mark: &mark,
        dishes_on_cards: DishesOnCards::of(kitchen, costing),
    };
    let paper = Paper::of(&context, None);
    let mut binder = Binder::new(&paper);
    let starts = starts(&context, all);
    binder.take(Drawn::of(frame(&starts), CellNotes::new(), |out| rows(&context, all, &starts, out))?)?;
    let title = all.first().map(|(_, scaled)| scaled.name).unwrap_or_default();
    binder.bound(|workbook| super::stamp(workbook, &format!("Kitchen card: {}", short(title)), at))
}

/// A name as a title holds it.
fn short(name: &str) -> String {
    const MOST: usize = 100;
    name.chars().filter(|c| !c.is_control()).take(MOST).collect()
}

//! The book itself: every table and card as typed, and nothing that was figured. It is the kitchen's own from then on,
//! so it bears neither the mark nor the stamp by which a costed workbook is known.

use jiff::civil::DateTime;
use rust_xlsxwriter::{DocProperties, Workbook, XlsxError};

use super::sheet::{Drawn, Pen};
use super::{PACKED, WriteError, created, workers};
use crate::kitchen::Kitchen;
use crate::schema::{CarriedSheet, TableKind};
use crate::workbook::layout::Layout;
use crate::workbook::layout::inputs::Inputs;
use crate::workbook::layout::own_columns::Beside;
use crate::workbook::sheets::{cards, carried, lists, table};
use crate::workbook::xlsx::page_setup::Paper;
use crate::workbook::xlsx::sheet_order::{Leaf, in_order};

/// The bytes of a book of inputs.
///
/// # Errors
/// [`WriteError`] when it has more rows or sheets than a workbook can hold.
pub fn write_inputs(kitchen: &Kitchen, carried: &[CarriedSheet], at: DateTime) -> Result<Vec<u8>, WriteError> {
    let layout = Layout::of(kitchen, carried, Beside::Nothing);
    let inputs = Inputs { kitchen, layout: &layout };
    let order = in_order(&layout, carried, None, None);
    let paper = Paper::of(&inputs, None);
    let mut workbook = Workbook::new();
    workbook.set_zip_compression_level(PACKED);
    for drawn in workers::all(&order, || Pen::new(&paper), |pen, leaf| draw(&inputs, leaf, pen)) {
        if let Some((sheet, _)) = drawn? {
            workbook.push_worksheet(sheet);
        }
    }
    workbook.set_properties(&DocProperties::new().set_creation_datetime(&created(at)?));
    Ok(workbook.save_to_buffer()?)
}

/// The sheet of a leaf of inputs; `None` where nothing was typed.
fn draw(inputs: &Inputs<'_>, leaf: &Leaf<'_>, pen: &mut Pen<'_>) -> Result<Option<Drawn>, XlsxError> {
    let mut table = |layout| pen.sheet(&table::frame(layout), |out| table::typed_rows(inputs, layout, out));
    let drawn = match leaf {
        Leaf::Table(layout) => table(layout),
        // The rows as typed, not the values in force.
        Leaf::Settings => match inputs.layout.table(TableKind::Settings) {
            Some(layout) => table(layout),
            None => return Ok(None),
        },
        Leaf::Card(id, card) => {
            let Some(entry) = inputs.kitchen.entries.recipes.get(id.index()) else { return Ok(None) };
            pen.sheet(&cards::frame(card), |out| cards::typed_rows(inputs, entry, card, out))
        }
        Leaf::Facts(lists) => pen.sheet(&table::frame(&lists.facts), |out| lists::typed_facts(inputs, lists, out)),
        Leaf::Lines(sheet, recipes) => {
            pen.sheet(&table::frame(sheet), |out| lists::typed_lines_of(inputs, sheet, recipes.clone(), out))
        }
        Leaf::Carried(sheet, name) => pen.sheet(&carried::frame(name), |out| carried::rows(inputs, sheet, out)),
        Leaf::Summary | Leaf::Changed(_) | Leaf::Trim(_) | Leaf::Problems | Leaf::Working => return Ok(None),
    };
    drawn.map(Some)
}

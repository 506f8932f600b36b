//! The book itself: every table and card as typed, and nothing that was figured. It is the kitchen's own from then on,
//! so it bears neither the mark nor the stamp by which a costed workbook is known.

use std::ops::Range;

use jiff::civil::DateTime;
use rust_xlsxwriter::{DocProperties, XlsxError};

use super::binder::Binder;
use super::notes::CellNotes;
use super::sheet::Drawn;
use super::{created, house, workers};
use crate::kitchen::Kitchen;
use crate::schema::{CarriedSheet, TableKind};
use crate::workbook::cells::row::RowSink;
use crate::workbook::layout::inputs::Inputs;
use crate::workbook::layout::own_columns::Beside;
use crate::workbook::layout::{CardsAsked, Layout, TableLayout};
use crate::workbook::sheets::{cards, carried, lists, table};
use crate::workbook::xlsx::page_setup::Paper;
use crate::workbook::xlsx::sheet_order::{Leaf, ListPart, ShownSheets, in_order};

/// The bytes of a book of inputs.
///
/// # Errors
/// When it has more rows or sheets than a workbook can hold.
pub fn write_inputs(kitchen: &Kitchen, carried: &[CarriedSheet], at: DateTime) -> Result<Vec<u8>, XlsxError> {
    let layout = Layout::of(kitchen, carried, Beside::Nothing, CardsAsked::USUAL);
    let inputs = Inputs { kitchen, layout: &layout };
    let order = in_order(&layout, carried, None, None, ShownSheets::default());
    let paper = Paper::of(&inputs, None);
    let properties = DocProperties::new().set_creation_datetime(&created(at)?).set_title(title(kitchen));
    let draw = |leaf: &Leaf<'_>| draw(&inputs, leaf);
    workers::hire(|crew| {
        let mut binder = Binder::new(&paper, crew);
        crew.in_order(&order, &draw, |drawn| drawn?.map_or(Ok(()), |one| binder.take(one)))?;
        binder.bound(&properties, Vec::new())
    })
}

/// The title of the book, as programs and screen readers tell it.
fn title(kitchen: &Kitchen) -> String {
    let house = house(kitchen);
    if house.is_empty() { "A kitchen's book".to_owned() } else { format!("{house}: the kitchen's book") }
}

/// The sheet of a leaf of inputs; `None` where nothing was typed.
fn draw(inputs: &Inputs<'_>, leaf: &Leaf<'_>) -> Result<Option<Drawn>, XlsxError> {
    let list = |layout: &TableLayout, part: &ListPart, rows: &dyn Fn(Range<usize>, &mut RowSink<'_>)| {
        let on_sheet = Some(part.on_sheet(layout));
        Drawn::of_list(table::frame(layout), CellNotes::new(), on_sheet, |out| rows(part.rows(), out))
    };
    let drawn = match leaf {
        Leaf::Table(layout, part) => list(layout, part, &|rows, out| table::typed_rows(inputs, layout, rows, out)),
        // The rows as typed, not the values in force.
        Leaf::Settings => match inputs.layout.table(TableKind::Settings) {
            Some(layout) => {
                let all = ListPart::whole(layout);
                list(layout, &all, &|rows, out| table::typed_rows(inputs, layout, rows, out))
            }
            None => return Ok(None),
        },
        Leaf::Card(id, card) => {
            let Some(entry) = inputs.kitchen.entries.recipes.get(id.index()) else { return Ok(None) };
            Drawn::of(cards::frame(card), CellNotes::new(), |out| cards::typed_rows(inputs, entry, card, out))
        }
        Leaf::Facts(lists, part) => list(&lists.facts, part, &|rows, out| lists::typed_facts(inputs, lists, rows, out)),
        Leaf::Lines { sheet, recipes, begins, ends } => {
            Drawn::of_list(table::frame(sheet), CellNotes::new(), (*begins && *ends).then_some(0..u32::MAX), |out| {
                if *begins {
                    out(table::header(sheet));
                }
                lists::typed_lines_of(inputs, sheet, recipes.clone(), out);
            })
        }
        Leaf::Carried(sheet, name) => {
            Drawn::of(carried::frame(name), CellNotes::new(), |out| carried::rows(inputs, sheet, out))
        }
        Leaf::Summary
        | Leaf::Changed(_)
        | Leaf::KitchenCards
        | Leaf::Trim(..)
        | Leaf::MenuMix
        | Leaf::FoodCost
        | Leaf::InPictures
        | Leaf::Problems
        | Leaf::Working => {
            return Ok(None);
        }
    };
    drawn.map(Some)
}

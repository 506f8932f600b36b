//! Loose cards: recipes as people type them, without the word Recipe. A name, what it makes below it, then lines.
//!
//! Takes a sheet on which nothing of ours was found; gives its recipes with every line's cells told apart, and says
//! what of the sheet was not read. What a line means is not decided here.

mod body;
mod columns;
mod starts;

use crate::book::grid::Grid;
use crate::kitchen::InputCell;
use crate::problem::{CellRef, Place, Problem};
use crate::schema::Typed;

/// A text and where it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlacedText {
    /// What is said.
    pub text: String,
    /// Where.
    pub place: Place,
}

/// A recipe without the word Recipe.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LooseCard {
    /// Its first cell.
    pub place: Place,
    /// Its name: the text above its lines, or the sheet's.
    pub name: PlacedText,
    /// Whether only the sheet names it.
    pub is_named_by_sheet: bool,
    /// What it makes, when it says so.
    pub makes: Option<PlacedText>,
    /// Its lines, in order.
    pub lines: Vec<LooseLine>,
    /// How it is made: texts below or beside the lines.
    pub method: Vec<PlacedText>,
    /// Lines in one cell, as whole texts.
    pub whole_lines: bool,
}

/// A line of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LooseLine {
    /// Its first filled cell.
    pub place: Place,
    /// The cells of its quantity, unit, item and preparation, as far as they are filled.
    pub cells: Vec<InputCell>,
    /// The unit that the heading over the quantity names.
    pub unit_above: Option<String>,
    /// The heading it stands under.
    pub group: Option<String>,
}

/// The rows in which a card begins for certain, whatever else is on the sheet: a name alone below a blank row, and
/// below it words that say what it makes.
pub(super) fn certain_starts(grid: &Grid) -> Vec<u32> {
    let mut rows: Vec<u32> = starts::certain(grid).map(|start| start.cell.row).collect();
    rows.dedup();
    rows
}

/// The loose cards in the rows from `first` up to but without `end`, each with where it begins, and what was not
/// read.
pub(super) fn find(grid: &Grid, first: u32, end: u32) -> (Vec<(CellRef, LooseCard)>, Vec<Problem>) {
    let starts = starts::within(grid, first, end);
    let (mut cards, mut problems) = (Vec::new(), Vec::new());
    for (start, block) in starts.iter().zip(starts::blocks_of(&starts, grid)) {
        let block = starts::CardArea { end: block.end.min(end), ..block };
        let (card, mut told) = body::card(grid, start, &block);
        if !card.lines.is_empty() {
            cards.push((start.cell, card));
            problems.append(&mut told);
        }
    }
    (cards, problems)
}

/// The text of a cell; `None` when it is blank or no text.
fn text(typed: &Typed) -> Option<&str> {
    match &typed.value {
        crate::schema::Value::Text(text) => Some(text.trim()).filter(|text| !text.is_empty()),
        _ => None,
    }
}

fn stated(grid: &Grid, cell: CellRef) -> PlacedText {
    PlacedText { text: grid.get(cell.row, cell.column).seen().trim().to_owned(), place: grid.place_of(cell) }
}

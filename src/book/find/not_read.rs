//! Sheets on which nothing was found: what to say of them, and whether anything need be said.

use crate::book::find::headings::Headings;
use crate::book::find::{bare_prices, lines, near};
use crate::book::grid::Grid;
use crate::problem::{CellRef, Code, Fault, Problem};
use crate::schema::{Typed, Value, marker};

/// Whether the sheet begins as the instructions of a template do.
pub(super) fn is_guide(grid: &Grid) -> bool {
    let texts = [0, 1].map(|row| &grid.get(row, 0).value);
    marker::is_guide(texts.into_iter().filter_map(|value| match value {
        Value::Text(text) => Some(text.as_str()),
        _ => None,
    }))
}

/// What to say of a sheet on which nothing was found.
pub(super) fn not_read(grid: &Grid, headings: &Headings) -> Problem {
    let formula = grid.rows().iter().find_map(|row| {
        let lost = |(_, typed): &&(u32, Typed)| typed.lost_formula().is_some();
        row.cells().iter().find(lost).map(|(at, _)| CellRef::new(row.row, *at))
    });
    if let Some(cell) = formula {
        return Fault::new(
            Code::FormulaWithoutValue,
            "this sheet has formulas that were saved without their results, so no table could be found on it",
            "Open the book once in a spreadsheet program and save it.",
        )
        .at(grid.place_of(cell));
    }
    if let Some(cell) = lines::printed_page(grid) {
        return Fault::new(
            Code::SheetOfLines,
            "this sheet is lines of text with prices in them, as of a printed page, and no table",
            lines::ask(grid),
        )
        .at(grid.place_of(cell));
    }
    let hint = bare_prices::headings_to_type(grid).or_else(|| near::nearest_header(grid, headings));
    let (place, help) = match hint {
        Some((cell, hint)) => (grid.place_of(cell), hint),
        None => (
            grid.place().clone(),
            "Nothing to do, unless it holds something that should count: then give it a header row.".to_owned(),
        ),
    };
    Fault::new(Code::SheetNotRead, "no table or recipe card was found on this sheet", help).at(place)
}

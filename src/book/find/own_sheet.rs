//! Output sheets of our own: known by the mark, wherever hands have moved it, else by a title or headers that no other
//! sheet has.

use crate::book::grid::Grid;
use crate::problem::{CellRef, Code, Fault, Problem};
use crate::schema::{Typed, Value, marker, own_sheets};

/// Filled rows and cells of a row that are looked at: more than anybody puts in above or left of a title.
const ROWS: usize = 60;
const CELLS: usize = 40;

/// How a sheet is known as our own output.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct OwnSheet {
    /// The cell by which it is known.
    at: CellRef,
    /// Whether that is the mark.
    marked: bool,
}

/// The mark of a sheet of our output.
pub fn mark(grid: &Grid) -> Option<&str> {
    marked(grid).map(|(_, text)| text)
}

/// How the sheet is known as our output; `None` for any other.
pub(super) fn known(grid: &Grid) -> Option<OwnSheet> {
    let by_mark = marked(grid).map(|(at, _)| OwnSheet { at, marked: true });
    by_mark.or_else(|| otherwise(grid).map(|at| OwnSheet { at, marked: false }))
}

fn marked(grid: &Grid) -> Option<(CellRef, &str)> {
    texts(grid).find(|(_, text)| marker::is_output(text))
}

fn otherwise(grid: &Grid) -> Option<CellRef> {
    let title = texts(grid).find(|(_, text)| own_sheets::is_title(text)).map(|(at, _)| at);
    title.or_else(|| {
        let headers = |cells: &[(u32, Typed)]| own_sheets::is_header_row(cells.iter().filter_map(text_of));
        grid.rows()
            .iter()
            .take(ROWS)
            .map(|row| (row.row, row.cells().get(..CELLS).unwrap_or(row.cells())))
            .find(|(_, cells)| headers(cells))
            .map(|(row, cells)| CellRef::new(row, cells.first().map_or(0, |(at, _)| *at)))
    })
}

/// The texts where a mark may stand.
fn texts(grid: &Grid) -> impl Iterator<Item = (CellRef, &str)> {
    grid.rows().iter().take(ROWS).flat_map(|row| {
        let cells = row.cells().iter().take(CELLS);
        cells.filter_map(|cell| text_of(cell).map(|text| (CellRef::new(row.row, cell.0), text)))
    })
}

fn text_of((_, typed): &(u32, Typed)) -> Option<&str> {
    if let Value::Text(text) = &typed.value { Some(text.trim()) } else { None }
}

impl OwnSheet {
    /// What to say of it: nothing where the mark stands first, or nothing above it.
    pub fn problem(self, grid: &Grid) -> Option<Problem> {
        let first = grid.rows().first().map_or(0, |row| row.row);
        if self.marked && first >= self.at.row {
            return None;
        }
        let message = if self.marked {
            "this sheet was written by parings and is not read; nor is what stands above its title".to_owned()
        } else {
            let words = grid.get(self.at.row, self.at.column).seen();
            format!("by “{}” here this is known as a sheet that parings wrote, so it was not read", words.trim())
        };
        let help =
            "Nothing to do, unless you typed something here that should count: then put it on a sheet of its own.";
        Some(Fault::new(Code::OwnSheetChanged, message, help).at(grid.place_of(self.at)))
    }
}

//! Notes at the cells where something was assumed, is doubtful or wrong, as the sheet Problems lists it, and on headers
//! whose columns follow a published rule.

use indexmap::IndexMap;
use rust_xlsxwriter::{Note, Worksheet, XlsxError};

use crate::workbook::cells::unprintable::is_unprintable;
use crate::workbook::layout::problem_places::Landed;

/// The most notes of a sheet: more would hide it.
const MOST: usize = 200;
/// The most characters of one problem: a long cell may be quoted in it.
const MOST_CHARACTERS: usize = 600;
/// The size of a note in pixels.
const WIDTH: u32 = 320;
const HEIGHT: u32 = 120;

/// The notes of a sheet by row and column, in the order in which they were found.
pub(super) type CellNotes = IndexMap<(u32, u16), Vec<String>>;

/// The notes on the sheet `name`, one a cell: `told` on its headers, and what `landed` on it.
pub(super) fn of(name: &str, told: Option<(u16, &'static str)>, landed: &[Landed]) -> CellNotes {
    let mut at = CellNotes::new();
    if let Some((column, text)) = told {
        at.entry((0, column)).or_default().push(text.to_owned());
    }
    for problem in landed.iter().filter(|problem| *problem.at.sheet == *name) {
        let text = format!("{}: {}\n{}", problem.severity, problem.message, problem.help);
        let text: String = text.chars().filter(|c| *c == '\n' || !is_unprintable(*c)).take(MOST_CHARACTERS).collect();
        let cell = (problem.at.row, problem.at.column);
        if at.len() < MOST || at.contains_key(&cell) {
            at.entry(cell).or_default().push(text);
        }
    }
    at
}

/// Puts the notes on their sheet.
pub(super) fn put(sheet: &mut Worksheet, notes: &CellNotes) -> Result<(), XlsxError> {
    for ((row, column), texts) in notes {
        let note = Note::new(texts.join("\n\n")).add_author_prefix(false).set_author("parings");
        sheet.insert_note(*row, *column, &note.set_width(WIDTH).set_height(HEIGHT))?;
    }
    Ok(())
}

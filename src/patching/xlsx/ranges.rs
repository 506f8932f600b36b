//! Ranges of cells, and how those that end with a table's last row grow with it.

use super::{Addition, NotPatched};
use crate::problem::place::column_letters;

/// The last row and column of a sheet, from zero (ECMA-376 part 1, 18.3.1.73).
const LAST_ROW: u32 = 1_048_575;
const LAST_COLUMN: u32 = 16_383;

/// A block of cells, from zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct CellRange {
    pub first: (u32, u32),
    pub last: (u32, u32),
}

/// How a table grows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Growth {
    /// The row of its headers.
    pub header: u32,
    /// Its last row before and after.
    pub last: u32,
    pub now: u32,
    /// Its columns before, and the last one after.
    pub span: (u32, u32),
    pub wide: u32,
}

impl Growth {
    /// # Errors
    /// [`NotPatched`] where a sheet has no more rows or columns.
    pub fn of(addition: &Addition) -> Result<Self, NotPatched> {
        let full = || NotPatched("its sheet has no room for more rows or columns".to_owned());
        let more = |count: usize, from: u32, most: u32| {
            u32::try_from(count)
                .ok()
                .and_then(|count| from.checked_add(count))
                .filter(|to| *to <= most)
                .ok_or_else(full)
        };
        let now = more(addition.rows.len(), addition.last, LAST_ROW)?;
        let wide = more(addition.headers.len(), addition.span.1, LAST_COLUMN)?;
        Ok(Growth { header: addition.header, last: addition.last, now, span: addition.span, wide })
    }

    /// A block as it is after the rows were added: one that ends with the table's last row, or within the new rows,
    /// ends with them.
    pub fn grown(&self, block: CellRange) -> CellRange {
        let beside = block.first.1 > self.wide || block.last.1 < self.span.0;
        let within = block.first.0 <= self.last && (self.last..self.now).contains(&block.last.0);
        if beside || !within { block } else { CellRange { last: (self.now, block.last.1), ..block } }
    }

    /// Whether a block has the rows of the table, headers and all.
    pub fn has_rows_of(&self, block: CellRange) -> bool {
        block.first.0 == self.header && block.last.0 >= self.last
    }

    /// A list of ranges as an attribute has them, `A2:A9 C4`; `None` where nothing grows.
    pub fn grown_list(&self, text: &str) -> Option<String> {
        let mut moved = false;
        let ranges: Vec<String> = text
            .split_ascii_whitespace()
            .map(|range| match CellRange::read(range) {
                Some(block) if self.grown(block) != block => {
                    moved = true;
                    self.grown(block).written()
                }
                _ => range.to_owned(),
            })
            .collect();
        moved.then(|| ranges.join(" "))
    }
}

impl CellRange {
    /// `A1` or `A1:F10`, without dollar signs.
    pub fn read(text: &str) -> Option<CellRange> {
        let (first, last) = text.split_once(':').unwrap_or((text, text));
        Some(CellRange { first: cell(first)?, last: cell(last)? })
    }

    /// As a range is written.
    pub fn written(&self) -> String {
        let first = name(self.first);
        if self.first == self.last { first } else { format!("{first}:{}", name(self.last)) }
    }

    /// Whether two blocks share a cell.
    pub fn meets(&self, other: &CellRange) -> bool {
        self.first.0 <= other.last.0
            && other.first.0 <= self.last.0
            && self.first.1 <= other.last.1
            && other.first.1 <= self.last.1
    }
}

/// A cell's name as a row and a column from zero.
pub(super) fn cell(text: &str) -> Option<(u32, u32)> {
    let letters = text.find(|c: char| !c.is_ascii_alphabetic())?;
    let (column, row) = text.split_at_checked(letters)?;
    let column = column_number(column)?;
    let row: u32 = row.parse().ok().filter(|row: &u32| row.to_string().len() == text.len().saturating_sub(letters))?;
    Some((row.checked_sub(1).filter(|row| *row <= LAST_ROW)?, column))
}

/// The letters of a column as its number from zero.
pub(super) fn column_number(letters: &str) -> Option<u32> {
    if letters.is_empty() || letters.len() > 3 {
        return None;
    }
    let mut number = 0_u32;
    for letter in letters.bytes() {
        let digit = u32::from(letter.to_ascii_uppercase().checked_sub(b'A').filter(|digit| *digit < 26)?);
        number = number.checked_mul(26)?.checked_add(digit)?.checked_add(1)?;
    }
    number.checked_sub(1).filter(|column| *column <= LAST_COLUMN)
}

/// A cell's name.
pub(super) fn name((row, column): (u32, u32)) -> String {
    format!("{}{}", column_letters(column), row.saturating_add(1))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn growth() -> Growth {
        // A table in A3:F10 that grows by two rows.
        Growth { header: 2, last: 9, now: 11, span: (0, 5), wide: 5 }
    }

    #[test]
    fn cells_are_read_and_named() {
        for (text, at) in [("A1", (0, 0)), ("Z9", (8, 25)), ("AA10", (9, 26)), ("XFD1048576", (LAST_ROW, LAST_COLUMN))]
        {
            assert_eq!(cell(text), Some(at));
            assert_eq!(name(at), text);
        }
        for text in ["", "A", "1", "A0", "XFE1", "A1048577", "A01", "$A$1", "A1B"] {
            assert_eq!(cell(text), None, "{text}");
        }
    }

    #[test]
    fn what_ends_with_the_table_grows_and_nothing_else() {
        for (text, grown) in [
            ("A4:A10", Some("A4:A12")),
            ("A4:A9 C10 H4:H10", Some("A4:A9 C10:C12 H4:H10")),
            ("A3:F10", Some("A3:F12")),
            // Beyond the last row already: into the new rows, and past them.
            ("B4:B11", Some("B4:B12")),
            ("B4:B200", None),
            ("B4:B12", None),
            ("A1:A3", None),
            ("G4:G10", None),
        ] {
            assert_eq!(growth().grown_list(text).as_deref(), grown, "{text}");
        }
    }
}

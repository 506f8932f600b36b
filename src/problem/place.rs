//! Places in a book: file, sheet and cell, cheap to copy around.

use std::fmt;
use std::sync::Arc;

/// A cell by its zero-based row and column, written `C14`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct CellRef {
    /// Zero-based row.
    pub row: u32,
    /// Zero-based column.
    pub column: u32,
}

impl CellRef {
    /// The cell at a zero-based `row` and `column`.
    pub fn new(row: u32, column: u32) -> Self {
        CellRef { row, column }
    }

    /// The cell that is written `C14`, in capitals and without dollar signs.
    pub fn named(name: &str) -> Option<Self> {
        let digits = name.find(|c: char| !c.is_ascii_uppercase())?;
        let (letters, number) = name.split_at_checked(digits)?;
        let row: u32 = number.parse().ok()?;
        let mut column: u32 = 0;
        for letter in letters.bytes() {
            column = column.checked_mul(26)?.checked_add(u32::from(letter.checked_sub(b'A')?) + 1)?;
        }
        Some(CellRef { row: row.checked_sub(1)?, column: column.checked_sub(1)? })
    }
}

/// The letters of a zero-based column: 0 is `A`, 26 is `AA`.
pub fn column_letters(column: u32) -> String {
    let mut letters = String::new();
    push_column(&mut letters, column);
    letters
}

/// Appends the letters of a zero-based column.
pub fn push_column(out: &mut String, column: u32) {
    // Seven letters at the most: 26⁷ is more than any number of 32 bits.
    if let Some(before) = (column / 26).checked_sub(1) {
        push_column(out, before);
    }
    out.push(char::from(b'A' + u8::try_from(column % 26).unwrap_or(0)));
}

/// Appends the number of a row, which is counted from one.
pub fn push_row(out: &mut String, number: u64) {
    // No more than 20 digits.
    if number >= 10 {
        push_row(out, number / 10);
    }
    out.push(char::from(b'0' + u8::try_from(number % 10).unwrap_or(0)));
}

impl fmt::Display for CellRef {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", column_letters(self.column), u64::from(self.row) + 1)
    }
}

/// A sheet of a file; shared by all places on it.
#[derive(Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
struct SheetInFile {
    file: Arc<str>,
    sheet: String,
}

/// A cell on a sheet of a file; or a sheet or file as a whole.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Place {
    sheet: Arc<SheetInFile>,
    cell: Option<CellRef>,
}

impl Place {
    /// A whole file.
    pub fn file(file: &str) -> Self {
        Place::sheet(file, "")
    }

    /// A whole sheet. A csv file is one sheet without a name.
    pub fn sheet(file: &str, sheet: &str) -> Self {
        Place { sheet: Arc::new(SheetInFile { file: Arc::from(file), sheet: sheet.to_owned() }), cell: None }
    }

    /// A cell on the same sheet.
    pub fn cell(&self, cell: CellRef) -> Self {
        Place { sheet: Arc::clone(&self.sheet), cell: Some(cell) }
    }

    /// The file's name as it was given.
    pub fn file_name(&self) -> &str {
        &self.sheet.file
    }

    /// The sheet's name; empty for a file as a whole and for csv.
    pub fn sheet_name(&self) -> &str {
        &self.sheet.sheet
    }

    /// The cell, if it is one.
    pub fn cell_ref(&self) -> Option<CellRef> {
        self.cell
    }

    /// `Meat!C14`, or `C14` where the sheet has no name.
    pub fn within_file(&self) -> String {
        match (self.sheet.sheet.as_str(), self.cell) {
            ("", None) => String::new(),
            ("", Some(cell)) => cell.to_string(),
            (sheet, None) => sheet.to_owned(),
            (sheet, Some(cell)) => format!("{sheet}!{cell}"),
        }
    }
}

impl fmt::Display for Place {
    /// `prices.xlsx ▸ Meat!C14`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let within = self.within_file();
        if within.is_empty() { f.write_str(&self.sheet.file) } else { write!(f, "{} ▸ {within}", self.sheet.file) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_are_lettered_as_spreadsheets_letter_them() {
        // ECMA-376: A..Z, AA..AZ, ..., XFD is column 16384.
        for (column, letters) in
            [(0, "A"), (25, "Z"), (26, "AA"), (51, "AZ"), (52, "BA"), (701, "ZZ"), (702, "AAA"), (16_383, "XFD")]
        {
            assert_eq!(column_letters(column), letters);
            assert_eq!(CellRef::named(&format!("{letters}14")), Some(CellRef::new(13, column)));
        }
    }

    #[test]
    fn rows_are_their_digits() {
        for row in [0, 1, 9, 10, 99, 100, 1_048_576, u64::MAX] {
            let mut digits = String::new();
            push_row(&mut digits, row);
            assert_eq!(digits, row.to_string());
        }
    }

    #[test]
    fn what_names_no_cell_is_refused() {
        for name in ["", "A", "14", "A0", "a1", "$A$1", "A1:B2", "A-1", "ZZZZZZZZZ1", "A4294967296"] {
            assert_eq!(CellRef::named(name), None, "{name}");
        }
    }

    #[test]
    fn a_place_reads_as_file_sheet_cell() {
        let place = Place::sheet("prices.xlsx", "Meat").cell(CellRef::new(13, 2));
        assert_eq!(place.to_string(), "prices.xlsx ▸ Meat!C14");
        assert_eq!(Place::sheet("a.csv", "").cell(CellRef::new(0, 0)).to_string(), "a.csv ▸ A1");
        assert_eq!(Place::file("a.csv").to_string(), "a.csv");
    }
}

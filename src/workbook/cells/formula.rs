//! Live formulas: references to cells, put together with the result that the engine computed.

use crate::number::Decimal;
use crate::problem::place::column_letters;

/// A formula with its result.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Formula {
    /// The formula, without the equals sign.
    pub text: String,
    /// What the engine computed.
    pub result: Outcome,
}

/// The result of a formula.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Outcome {
    /// A number.
    Number(Decimal),
    /// Text, never empty.
    Text(String),
}

impl Formula {
    /// A formula whose result is a number.
    pub fn number(text: impl Into<String>, result: Decimal) -> Self {
        Formula { text: text.into(), result: Outcome::Number(result) }
    }

    /// A formula whose result is text.
    pub fn text(text: impl Into<String>, result: impl Into<String>) -> Self {
        Formula { text: text.into(), result: Outcome::Text(result.into()) }
    }
}

/// A cell of the workbook.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ref {
    /// Its sheet.
    pub sheet: String,
    /// Zero-based row.
    pub row: u32,
    /// Zero-based column.
    pub column: u16,
}

impl Ref {
    /// The cell at a zero-based `row` and `column` of `sheet`.
    pub fn new(sheet: &str, row: u32, column: u16) -> Self {
        Ref { sheet: sheet.to_owned(), row, column }
    }

    /// `C14`.
    pub fn cell(&self) -> String {
        format!("{}{}", column_letters(u32::from(self.column)), u64::from(self.row).saturating_add(1))
    }

    /// As a formula on `sheet` names it: `C14`, or `'Yield tests'!C14` from elsewhere.
    pub fn from(&self, sheet: &str) -> String {
        if self.sheet == sheet { self.cell() } else { format!("{}!{}", quoted(&self.sheet), self.cell()) }
    }

    /// As a name stands for it: `'Yield tests'!$C$14`.
    pub fn fixed(&self) -> String {
        let row = u64::from(self.row).saturating_add(1);
        format!("{}!${}${row}", quoted(&self.sheet), column_letters(u32::from(self.column)))
    }

    /// As people name it: `Yield tests!C14`.
    pub fn spoken(&self) -> String {
        format!("{}!{}", self.sheet, self.cell())
    }
}

/// A sheet's name in quotes, as formulas want it.
pub fn quoted(sheet: &str) -> String {
    format!("'{}'", sheet.replace('\'', "''"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cell_is_named_from_its_own_sheet_and_from_elsewhere() {
        let cell = Ref::new("Chef's soup", 13, 2);
        assert_eq!(cell.from("Chef's soup"), "C14");
        assert_eq!(cell.from("Summary"), "'Chef''s soup'!C14");
        assert_eq!(cell.spoken(), "Chef's soup!C14");
    }
}

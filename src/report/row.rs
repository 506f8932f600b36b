//! Rows of plain typed cells: what every sheet is made of before anything renders it.

use jiff::civil::Date;

use crate::number::Decimal;
use crate::report::formula::Formula;
use crate::report::picture::Picture;

/// What stands in a cell.
#[derive(Debug, Clone, PartialEq)]
pub enum Content {
    /// Text; never a formula, whatever it begins with.
    Text(String),
    /// A number.
    Number(Decimal),
    /// A date.
    Date(Date),
    /// TRUE or FALSE.
    Bool(bool),
    /// A live formula with the engine's result.
    Formula(Formula),
    /// Text that leads to a cell of this workbook.
    Link {
        /// What is shown.
        text: String,
        /// The sheet it leads to.
        sheet: String,
        /// The cell, `C14`.
        cell: String,
    },
}

/// What kind of cell it is; told apart by more than colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Ink {
    /// What the user typed.
    Input,
    /// What was understood or chosen.
    Reading,
    /// A number computed from those.
    Figure,
    /// The name of a sheet or card.
    Title,
    /// The header of an input column.
    Header,
    /// The header of a column of our own.
    OwnHeader,
    /// A label beside its value.
    Label,
    /// Plain text.
    Plain,
}

/// How a cell shows its content.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Look {
    /// As it is.
    General,
    /// Money in the currency of the sign; to the cent, more decimals where there are some.
    Money(String),
    /// Money per base unit: small, so with six decimals.
    UnitCost(String),
    /// A percentage with so many decimals.
    Percent(u32),
    /// A quantity, to three decimals.
    Quantity,
    /// A date.
    Date,
    /// A vulgar fraction.
    Fraction,
    /// Words that stand clear of a figure to their left.
    Words,
    /// Text that wraps.
    Wrapped,
}

/// A cell of a row.
#[derive(Debug, Clone, PartialEq)]
pub struct Cell {
    /// Zero-based column.
    pub column: u16,
    /// What stands in it.
    pub content: Content,
    /// What kind it is.
    pub ink: Ink,
    /// How it is shown.
    pub look: Look,
}

impl Cell {
    /// Text of a kind.
    pub fn text(column: u16, text: impl Into<String>, ink: Ink) -> Self {
        Cell { column, content: Content::Text(text.into()), ink, look: Look::General }
    }

    /// A number of a kind.
    pub fn number(column: u16, number: Decimal, ink: Ink, look: Look) -> Self {
        Cell { column, content: Content::Number(number), ink, look }
    }

    /// A figure.
    pub fn figure(column: u16, formula: Formula, look: Look) -> Self {
        Cell { column, content: Content::Formula(formula), ink: Ink::Figure, look }
    }
}

/// A row of cells.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Zero-based row.
    pub row: u32,
    /// Its cells, by column.
    pub cells: Vec<Cell>,
}

/// What a sheet is besides its rows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Frame {
    /// Its name.
    pub name: String,
    /// The widths of its first columns, in characters.
    pub widths: Vec<u16>,
    /// Rows that stay in sight.
    pub frozen_rows: u32,
    /// Its charts.
    pub pictures: Vec<Picture>,
}

impl Frame {
    /// A sheet of this name whose first columns are so wide, and nothing more.
    pub fn new(name: impl Into<String>, widths: Vec<u16>) -> Self {
        Frame { name: name.into(), widths, frozen_rows: 0, pictures: Vec::new() }
    }

    /// With its first `rows` rows in sight.
    pub fn frozen(self, rows: u32) -> Self {
        Frame { frozen_rows: rows, ..self }
    }
}

/// Takes the rows of a sheet, one after the other.
pub type Rows<'a> = dyn FnMut(Row) + 'a;

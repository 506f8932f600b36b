//! Tables found in a book and where: named by its reading, told by the reports.

use crate::problem::Place;
use crate::schema::TableKind;

/// What was found on a sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetFound {
    /// The sheet.
    pub place: Place,
    /// Its tables and cards.
    pub tables: Vec<FoundTable>,
    /// Whether it is our own output, and was passed over.
    pub is_output: bool,
    /// Whether it is the instructions of a template, or its names to choose from.
    pub is_guide: bool,
    /// Whether it holds a recipe card on which nothing is filled in, and nothing else.
    pub is_form: bool,
}

/// A table or card that was found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FoundTable {
    /// What kind of table; `CardLines` for a card.
    pub kind: TableKind,
    /// Where it begins.
    pub place: Place,
    /// The recipe's name, for a card.
    pub name: Option<String>,
    /// How many rows it has.
    pub rows: usize,
}

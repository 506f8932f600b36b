//! Names that the kitchen keeps: what else something is called, apart from the supplier's list.

use super::InputRow;

/// A row of the table *Names*.
#[derive(Debug, Clone)]
pub struct NamesRow {
    /// What is meant: something bought, a part or a recipe, by its name in the book.
    pub item: String,
    /// What else it is called.
    pub aliases: Vec<String>,
    /// The row as typed.
    pub input: InputRow,
}

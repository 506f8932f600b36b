//! What a problem wants: the row that would answer it, where a row of a table does. For a fill-in, which has that row
//! ready; the words for people are the problem's help.

/// The row that would answer a problem.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Want {
    /// Another name for something in the book; or, where it may be bought, its price.
    Name {
        /// The name that is not in the book.
        name: String,
        /// The nearest that are.
        near: Vec<String>,
        /// Whether a price row would answer as well.
        may_be_bought: bool,
    },
    /// What a measure of an item weighs or holds.
    Measure {
        /// The item, part or recipe.
        item: String,
        /// The measure: `cup`.
        measure: String,
    },
    /// How much a recipe makes.
    Batch {
        /// The recipe.
        recipe: String,
    },
}

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
    /// What measures of an item weigh or hold.
    Measures {
        /// The item, part or recipe.
        item: String,
        /// The measures: `cup`.
        measures: Vec<String>,
    },
    /// How much a recipe makes.
    Batch {
        /// The recipe.
        recipe: String,
    },
}

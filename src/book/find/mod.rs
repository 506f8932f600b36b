//! Finding tables and cards on a sheet: by their header rows and labels, wherever they stand.
//!
//! Takes a [`Grid`](crate::book::Grid); gives what was found on it in the sheet's order, and a problem or note for everything filled
//! that is not handed on. Cells are borrowed from the grid: nothing is copied.

mod bare_prices;
mod card;
mod copied;
mod header;
mod headings;
mod labels;
mod lines;
mod loose;
mod near;
mod not_read;
mod open;
mod own_sheet;
mod sheet;
mod side_by_side;
mod table;
#[cfg(test)]
mod tests;
mod titled_unit;

pub use card::Card;
pub use copied::pass_over_copies;
pub use headings::Headings;
pub(in crate::book) use lines::{ask, printed_page};
pub use loose::{LooseCard, LooseLine};
pub(in crate::book) use open::passed_over;
pub use own_sheet::mark;
pub use sheet::{SheetState, SheetTables, find, find_with};
pub use table::{Table, TableRow};
pub(in crate::book) use titled_unit::titled_unit;

/// A table or a card.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Found<'g> {
    /// A table.
    Table(Table<'g>),
    /// A recipe card.
    Card(Card<'g>),
    /// A recipe without the word Recipe.
    Loose(LooseCard),
}

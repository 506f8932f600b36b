//! A supplier's new list beside the book: its rows as read, what the caller says of it, and which item of the book each
//! row is about.

pub(crate) mod matching;

use jiff::civil::Date;

use super::price::PriceRow;
use crate::number::Decimal;
use crate::problem::{Place, Problem};
use crate::schema::Column;

/// What the caller says of new lists.
#[derive(Debug, Clone)]
pub struct ListOptions {
    /// Whose lists they are, where their rows do not say.
    pub supplier: Option<String>,
    /// Columns of ours, each with the heading under which the lists have it.
    pub columns: Vec<(Column, String)>,
    /// The day of rows that bear none; the costing date when nothing is said.
    pub dated: Option<Date>,
    /// By which fraction a price per unit may rise or fall and still be taken: `0.5` is 50 %.
    pub bound: Decimal,
    /// The items whose held prices are taken all the same.
    pub accepted: Vec<String>,
}

impl Default for ListOptions {
    fn default() -> Self {
        ListOptions {
            supplier: None,
            columns: Vec::new(),
            dated: None,
            bound: Decimal::new(5, 1),
            accepted: Vec::new(),
        }
    }
}

/// A list as read.
#[derive(Debug, Clone)]
pub struct NewList {
    /// The file as it was given.
    pub file: String,
    /// Whose list it is as a whole; `None` when nothing says so.
    pub supplier: Option<String>,
    /// The days that stand in its titles, each with its cell.
    pub titled: Vec<(Date, Place)>,
    /// The headings over them, in the order in which they stand.
    pub headings: Vec<ListHeading>,
    /// Its price rows.
    pub rows: Vec<ListRow>,
}

/// A heading over a list's prices.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ListHeading {
    /// As it was typed.
    pub text: String,
    /// The column of ours that it was read as; `None` when its column was passed over.
    pub read_as: Option<Column>,
}

/// A price row of a list.
#[derive(Debug, Clone)]
pub struct ListRow {
    /// The row. Its item is empty when the list has only a code; pack and per are both blank when the list has no column
    /// for them.
    pub row: PriceRow,
    /// The problems of its own cells, which concern nobody while the kitchen does not buy it.
    pub problems: Vec<Problem>,
}

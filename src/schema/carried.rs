//! Carried sheets: what was not read of a user's sheet, because no table of ours is on it or one fits two kinds:
//! carried over to the costed workbook as values.

use crate::problem::Place;
use crate::schema::Typed;

/// A sheet, or the part of it that was not read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CarriedSheet {
    /// The sheet it is.
    pub place: Place,
    /// Its name; the file's own for csv.
    pub name: String,
    /// Its filled cells as zero-based row, zero-based column and content, in order.
    pub cells: Vec<(u32, u32, Typed)>,
}

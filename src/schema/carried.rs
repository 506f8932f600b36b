//! A user's sheet that holds no table of ours: carried over to the costed workbook as values.

use crate::schema::Typed;

/// A sheet as it was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CarriedSheet {
    /// The file it stands in.
    pub file: String,
    /// Its name; the file's own for csv.
    pub name: String,
    /// Its filled cells as zero-based row, zero-based column and content, in order.
    pub cells: Vec<(u32, u32, Typed)>,
}

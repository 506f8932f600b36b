//! Reading a book: bytes of a file in, its sheets as grids, and the tables and cards found on them.
//!
//! Takes the files' names and bytes, opens nothing and writes nothing. What is wrong in a book comes out as
//! [`Problem`](crate::problem::Problem)s beside what was found; only a file that cannot be read at all is a
//! [`ReadError`]. The reader is chosen by what a file holds, not by how its name ends.

pub mod bytes;
pub mod csv;
pub mod dates;
pub mod error;
mod extent;
pub mod find;
pub mod format;
pub mod grid;
pub mod limits;
pub mod list;
mod mend;
pub mod number;
pub mod ods;
pub mod repeats;
pub mod rows;
pub mod typed_over;
pub mod xls;
pub mod xlsb;
pub mod xlsx;

pub use error::ReadError;
pub use find::{Card, Found, LooseCard, LooseLine, SheetState, SheetTables, Table, TableRow};
pub use grid::Grid;

use crate::schema::Limits;

/// A file as it was given.
#[derive(Debug, Clone, Copy)]
pub struct Source<'a> {
    /// Its name, as messages show it.
    pub name: &'a str,
    /// What is in it.
    pub bytes: &'a [u8],
}

/// The sheets of a file within `limits`, in its order. Formulas without a stored value are marked where they could matter.
///
/// # Errors
/// [`ReadError`] when the file cannot be read at all.
pub fn grids(source: &Source<'_>, limits: &Limits) -> Result<Vec<Grid>, ReadError> {
    let xlsx = |source: &Source<'_>| {
        let may_lack_values = |grid: &Grid| grid.has_valueless() && find::find(grid).may_lack_values();
        xlsx::grids(source, limits, may_lack_values, typed_over::may_hold_figures)
    };
    match limits::content(source, limits)? {
        limits::FileFormat::Xlsx => xlsx(source),
        limits::FileFormat::XlsxOfSections => {
            xlsx(&Source { name: source.name, bytes: &mend::without_sections(source)? })
        }
        limits::FileFormat::OpenDocument => ods::grids(source, limits),
        limits::FileFormat::Xls => xls::grids(source, limits),
        limits::FileFormat::Xlsb => xlsb::grids(source, limits),
        limits::FileFormat::Text => csv::grid(source, limits).map(|grid| vec![grid]),
    }
}

//! Reading binary workbooks of the kind since 2007 (xlsb) as streams of records.
//!
//! Takes the bytes of a workbook; gives its worksheets as grids, hidden ones included. Number formats are read, so
//! that percentages, money and dates are known as in an xlsx. Records: \[MS-XLSB\], an open specification. Nothing is
//! set aside on the word of the file: memory follows the cells and texts that are really there.

mod globals;
mod parts;
mod records;
mod sheet;

use crate::book::Source;
use crate::book::error::ReadError;
use crate::book::grid::{Grid, Room};
use crate::problem::Place;
use crate::schema::Limits;

use self::globals::XlsbGlobals;
use self::parts::XlsbParts;

/// The worksheets of a workbook, in its order.
///
/// # Errors
/// [`ReadError`] when it is damaged or has too many cells.
pub fn grids(source: &Source<'_>, limits: &Limits) -> Result<Vec<Grid>, ReadError> {
    let mut parts = XlsbParts::open(source)?;
    let globals = XlsbGlobals::read(&mut parts)?;
    let mut room = Room::of(limits);
    let mut grids = Vec::with_capacity(globals.sheets.len());
    for (name, part) in &globals.sheets {
        let (grid, left) = sheet::read(&mut parts, &globals, part, Place::sheet(source.name, name), room)?;
        room = left;
        grids.push(grid);
    }
    Ok(grids)
}

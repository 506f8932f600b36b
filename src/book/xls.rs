//! Reading workbooks of the kind before 2007 (xls, BIFF8 and BIFF5) as streams of records.
//!
//! Takes the bytes of a workbook; gives its worksheets as grids, hidden ones included. Number formats are read, so
//! that percentages, money and dates are known as in an xlsx. Records: \[MS-XLS\], an open specification. Nothing is
//! set aside on the word of the file: memory follows the cells that are really there.

mod globals;
mod records;
mod sheet;
mod texts;

use std::io::{Cursor, Read};

use cfb::CompoundFile;

use self::globals::{SheetAt, XlsGlobals};
use self::sheet::Unfinished;
use crate::book::Source;
use crate::book::error::ReadError;
use crate::book::grid::{Grid, Room};
use crate::problem::Place;
use crate::schema::Limits;

/// The worksheets of a workbook, in its order.
///
/// # Errors
/// [`ReadError`] when it is damaged, encrypted, too old, or has too many cells.
pub fn grids(source: &Source<'_>, limits: &Limits) -> Result<Vec<Grid>, ReadError> {
    let stream = workbook_stream(source)?;
    let globals = XlsGlobals::read(source.name, &stream)?;
    let mut room = Room::of(limits);
    let mut grids = Vec::with_capacity(globals.sheets.len());
    // Sheets stand one after another. A file whose sheets lie within one another would be walked many times over.
    let mut to_walk = stream.len();
    for SheetAt { name, at } in &globals.sheets {
        let records = stream.get(*at..).unwrap_or_default();
        let sheet = sheet::read(&globals, Place::sheet(source.name, name), records, room);
        let sheet = sheet.map_err(|stop| match stop {
            Unfinished::Cut => ReadError::damaged(source.name, format_args!("sheet “{name}” is cut short")),
            Unfinished::Full(full) => ReadError::too_large(source.name, full),
        })?;
        to_walk = to_walk
            .checked_sub(sheet.walked)
            .ok_or_else(|| ReadError::damaged(source.name, "its sheets lie within one another"))?;
        room = sheet.room;
        grids.push(sheet.grid);
    }
    Ok(grids)
}

/// The stream that holds the workbook.
fn workbook_stream(source: &Source<'_>) -> Result<Vec<u8>, ReadError> {
    let damaged = |error: std::io::Error| ReadError::damaged(source.name, error);
    let mut file = CompoundFile::open(Cursor::new(source.bytes)).map_err(damaged)?;
    let name = if file.is_stream("Workbook") { "Workbook" } else { "Book" };
    let mut stream = Vec::new();
    // No stream can hold more than its file does.
    let most = u64::try_from(source.bytes.len()).unwrap_or(u64::MAX);
    file.open_stream(name).map_err(damaged)?.take(most).read_to_end(&mut stream).map_err(damaged)?;
    Ok(stream)
}

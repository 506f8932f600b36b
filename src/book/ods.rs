//! Reading OpenDocument spreadsheets (ods) as streams of cells.
//!
//! Takes the bytes of a workbook; gives its sheets as grids, hidden ones included. An ods says of every number whether
//! it is a percentage, money or a date, so its cells mean what they show. Empty rows and cells that are repeated a
//! million times, as they are at every sheet's end, cost nothing; filled ones count every time, unless a row is filled down
//! over a thousand times. Elements and
//! attributes: OpenDocument 1.3 part 3, chapters 9 and 19.

mod cell;
mod text;

use std::io::{BufRead, BufReader, Cursor, Read};

use quick_xml::events::attributes::Attribute;
use quick_xml::events::{BytesStart, Event};
use quick_xml::{Reader, XmlVersion};
use zip::ZipArchive;

use crate::book::Source;
use crate::book::error::ReadError;
use crate::book::extent;
use crate::book::grid::{Grid, GridBuilder, MOST_REPEATS, Room};
use crate::problem::Place;
use crate::schema::{Limits, Typed};

/// The sheets of a workbook, in its order.
///
/// # Errors
/// [`ReadError`] when it is damaged, encrypted, no spreadsheet, or has too many cells.
pub fn grids(source: &Source<'_>, limits: &Limits) -> Result<Vec<Grid>, ReadError> {
    let damaged = |error: zip::result::ZipError| ReadError::damaged(source.name, error);
    let mut zip = ZipArchive::new(Cursor::new(source.bytes)).map_err(damaged)?;
    if is_encrypted(&mut zip) {
        return Err(ReadError::PasswordProtected { file: source.name.to_owned() });
    }
    let content = zip.by_name("content.xml").map_err(damaged)?;
    let mut xml = Reader::from_reader(BufReader::new(content));
    xml.config_mut().expand_empty_elements = true;
    ContentPart { file: source.name, xml, room: Room::of(limits), in_body: false }.sheets()
}

/// Whether the manifest says that parts are encrypted.
fn is_encrypted(zip: &mut ZipArchive<Cursor<&[u8]>>) -> bool {
    /// A manifest lists a few parts and pictures.
    const MOST: u64 = 4 << 20;
    let Ok(manifest) = zip.by_name("META-INF/manifest.xml") else { return false };
    let mut text = Vec::new();
    let read = manifest.take(MOST).read_to_end(&mut text);
    read.is_ok() && String::from_utf8_lossy(&text).contains("encryption-data")
}

/// The content part while it is read.
struct ContentPart<'f, R> {
    file: &'f str,
    xml: Reader<R>,
    /// How much more may come.
    room: Room,
    /// Whether the spreadsheet itself has begun.
    in_body: bool,
}

/// A cell that may stand in several columns.
struct Repeated {
    first: u32,
    count: u32,
    typed: Typed,
}

impl<R: BufRead> ContentPart<'_, R> {
    fn sheets(mut self) -> Result<Vec<Grid>, ReadError> {
        let mut grids = Vec::new();
        let mut buffer = Vec::new();
        loop {
            buffer.clear();
            let event = self.xml.read_event_into(&mut buffer).map_err(|error| ReadError::damaged(self.file, error))?;
            match event {
                Event::Start(start) => match start.name().0 {
                    "office:spreadsheet" => self.in_body = true,
                    "table:table" if self.in_body => {
                        let name = self.attribute(&start, "table:name")?.unwrap_or_default();
                        grids.extend(self.sheet(&name)?);
                    }
                    "table:tracked-changes" => self.skip(&start)?,
                    _ => {}
                },
                Event::Eof if self.in_body => return Ok(grids),
                Event::Eof => {
                    let what = "an OpenDocument file of another kind";
                    return Err(ReadError::NotASpreadsheet { file: self.file.to_owned(), what });
                }
                _ => {}
            }
        }
    }

    /// The sheet whose element has begun; `None` for the copy of another file's sheet that links leave behind.
    fn sheet(&mut self, name: &str) -> Result<Option<Grid>, ReadError> {
        let mut builder = GridBuilder::new(Place::sheet(self.file, name), self.room);
        let mut is_copy = false;
        let mut row = 0_u32;
        let mut buffer = Vec::new();
        loop {
            buffer.clear();
            match self.event(&mut buffer)? {
                Event::Start(start) => match start.name().0 {
                    "table:table-row" => {
                        let repeated = self.repeats(&start, "table:number-rows-repeated")?;
                        let cells = self.row()?;
                        // Nothing filled: however many rows, there is nothing to put.
                        let mut rows = if cells.is_empty() { 0 } else { repeated };
                        if let Some(first) = cells.first().filter(|_| rows > MOST_REPEATS) {
                            // As many as are put, or are filled down by accident, are put once.
                            let at = extent::cell(self.file, row, first.first)?;
                            builder.repeat(at, usize::try_from(repeated).unwrap_or(usize::MAX));
                            rows = 1;
                        }
                        for row in row..row.saturating_add(rows) {
                            self.put(&mut builder, row, &cells)?;
                        }
                        row = row.saturating_add(repeated);
                    }
                    "table:table-source" => is_copy = true,
                    "table:shapes" | "office:forms" | "table:table" | "table:desc" | "table:title" => {
                        self.skip(&start)?;
                    }
                    _ => {}
                },
                Event::End(end) if end.name().0 == "table:table" => break,
                Event::Eof => return Err(ReadError::damaged(self.file, "it ends within a sheet")),
                _ => {}
            }
        }
        if is_copy {
            return Ok(None);
        }
        self.room = builder.room();
        Ok(Some(builder.finish()))
    }

    /// Puts the filled cells of one row.
    fn put(&self, builder: &mut GridBuilder, row: u32, cells: &[Repeated]) -> Result<(), ReadError> {
        for cell in cells {
            let end = cell.first.saturating_add(cell.count);
            for column in cell.first..end {
                let put = builder.put(extent::cell(self.file, row, column)?, cell.typed.clone());
                put.map_err(|full| ReadError::too_large(self.file, full))?;
            }
        }
        Ok(())
    }

    /// The filled cells of the row whose element has begun.
    fn row(&mut self) -> Result<Vec<Repeated>, ReadError> {
        let mut cells = Vec::new();
        let mut column = 0_u32;
        let mut buffer = Vec::new();
        loop {
            buffer.clear();
            match self.event(&mut buffer)? {
                Event::Start(start) if matches!(start.name().0, "table:table-cell" | "table:covered-table-cell") => {
                    let count = self.repeats(&start, "table:number-columns-repeated")?;
                    let typed = self.cell(&start)?;
                    if !typed.is_blank() {
                        cells.push(Repeated { first: column, count, typed });
                    }
                    column = column.saturating_add(count);
                }
                Event::End(end) if end.name().0 == "table:table-row" => return Ok(cells),
                Event::Eof => return Err(ReadError::damaged(self.file, "it ends within a row")),
                _ => {}
            }
        }
    }

    /// The next event.
    fn event<'b>(&mut self, buffer: &'b mut Vec<u8>) -> Result<Event<'b>, ReadError> {
        self.xml.read_event_into(buffer).map_err(|error| ReadError::damaged(self.file, error))
    }

    /// Passes over what is in the element that has begun.
    fn skip(&mut self, start: &BytesStart<'_>) -> Result<(), ReadError> {
        let skipped = self.xml.read_to_end_into(start.name(), &mut Vec::new());
        skipped.map(drop).map_err(|error| ReadError::damaged(self.file, error))
    }

    /// The attribute of this name.
    fn attribute(&self, start: &BytesStart<'_>, name: &str) -> Result<Option<String>, ReadError> {
        match start.try_get_attribute(name) {
            Ok(Some(attribute)) => self.value(&attribute).map(Some),
            Ok(None) => Ok(None),
            Err(error) => Err(ReadError::damaged(self.file, error)),
        }
    }

    /// An attribute's value as it is meant.
    fn value(&self, attribute: &Attribute<'_>) -> Result<String, ReadError> {
        match attribute.normalized_value(XmlVersion::Implicit1_0) {
            Ok(value) => Ok(value.into_owned()),
            Err(error) => Err(ReadError::damaged(self.file, error)),
        }
    }

    /// How often an element stands there.
    fn repeats(&self, start: &BytesStart<'_>, name: &str) -> Result<u32, ReadError> {
        match self.attribute(start, name)? {
            None => Ok(1),
            Some(count) => match count.parse() {
                Ok(count) => Ok(count),
                Err(_) => Err(ReadError::damaged(self.file, format_args!("{name} is “{count}”"))),
            },
        }
    }
}

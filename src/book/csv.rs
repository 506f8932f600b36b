//! Reading csv: one sheet without a name, its cells text as typed.
//!
//! Takes bytes in UTF-8, UTF-16 with a mark, or Windows-1252, separated by commas, semicolons or tabs; gives a grid whose
//! rows are numbered as a spreadsheet program would number them. The text is never held whole. Numbers stay text: they are read
//! where one is wanted.

mod dialect;
mod shape;
mod text;

use std::io::{self, BufRead, Read};

use crate::book::Source;
use crate::book::error::ReadError;
use crate::book::extent;
use crate::book::grid::{Grid, GridBuilder, Room};
use crate::in_order::InOrder;
use crate::problem::{CellRef, Place};
use crate::schema::{Limits, Typed, header};

pub use dialect::{Dialect, dialect};
use shape::{CsvShape, shapes};
use text::Text;

/// The separators, the likeliest first.
const SEPARATORS: [u8; 3] = [b',', b';', b'\t'];
/// How many records are looked at to find the separator.
const LOOKED_AT: usize = 200;
/// The most cells of a row that is looked into. A sheet has 16,384.
const LONGEST: usize = 1_000_000;

/// The sheet that a csv file is.
///
/// # Errors
/// [`ReadError`] when a quotation mark is never closed, or there are too many cells.
pub fn grid(source: &Source<'_>, limits: &Limits) -> Result<Grid, ReadError> {
    let damaged = |error: io::Error| ReadError::damaged(source.name, error);
    let (text, named) = named_separator(Text::of(source.bytes)).map_err(damaged)?;
    let asked: Vec<u8> = named.map_or(SEPARATORS.to_vec(), |separator| vec![separator]);
    let shapes = shapes(&text, &asked).map_err(damaged)?;
    let shape = likeliest(&text, &shapes).map_err(damaged)?;
    if let Some(line) = shape.open_quote {
        return Err(ReadError::QuoteOpen { file: source.name.to_owned(), line });
    }
    if shape.longest > LONGEST {
        return Err(ReadError::TooLarge {
            file: source.name.to_owned(),
            most: "a million cells in one row".to_owned(),
        });
    }
    let mut builder = GridBuilder::new(Place::sheet(source.name, ""), Room::of(limits));
    let mut records = records(&text, shape.separator).map_err(damaged)?;
    let mut blanks = BlankLines::of(&text).map_err(damaged)?;
    let mut record = csv::StringRecord::new();
    let mut row = 0_u32;
    while records.read_record(&mut record).map_err(|error| ReadError::damaged(source.name, error))? {
        let start = record.position().map_or(0, csv::Position::byte);
        row = row.saturating_add(blanks.before(start).map_err(damaged)?);
        for (column, field) in (0_u32..).zip(&record) {
            let field = field.trim();
            let at = CellRef::new(row, column);
            if field.is_empty() {
                continue;
            }
            if !extent::holds(at) {
                builder.leave_out(at);
                continue;
            }
            builder.put(at, Typed::text(field)).map_err(|full| ReadError::too_large(source.name, full))?;
        }
        row = row.saturating_add(1);
    }
    Ok(builder.finish())
}

/// A first line `sep=;`, which spreadsheet programs take as naming the separator and do not show as a row.
fn named_separator(text: Text<'_>) -> io::Result<(Text<'_>, Option<u8>)> {
    /// As long as such a line may be.
    const MOST: u64 = 16;
    let mut line = Vec::new();
    text.reader()?.take(MOST).read_until(b'\n', &mut line)?;
    Ok(match line.trim_ascii_end().strip_prefix(b"sep=") {
        Some([separator]) => (text.without(u64::try_from(line.len()).unwrap_or(0)), Some(*separator)),
        _ => (text, None),
    })
}

/// The records of a text, ragged as they are.
fn records<'a>(text: &Text<'a>, separator: u8) -> io::Result<csv::Reader<Box<dyn BufRead + 'a>>> {
    let mut builder = csv::ReaderBuilder::new();
    builder.delimiter(separator).has_headers(false).flexible(true);
    Ok(builder.from_reader(text.reader()?))
}

/// The blank lines of a text: the reader of records passes over them, a spreadsheet program does not.
struct BlankLines<'a> {
    reader: Box<dyn BufRead + 'a>,
    /// Where it stands.
    at: u64,
    last: u8,
}

impl<'a> BlankLines<'a> {
    fn of(text: &Text<'a>) -> io::Result<Self> {
        Ok(BlankLines { reader: text.reader()?, at: 0, last: b'\n' })
    }

    /// How many stand before a record that begins at `start` or behind them; starts are asked for in their order.
    fn before(&mut self, start: u64) -> io::Result<u32> {
        while self.at < start {
            let wanted = usize::try_from(start.saturating_sub(self.at)).unwrap_or(usize::MAX);
            let bytes = self.reader.fill_buf()?;
            let passed = bytes.len().min(wanted);
            let Some(last) = bytes.get(..passed).and_then(<[u8]>::last) else { break };
            self.last = *last;
            self.pass(passed);
        }
        // The line feed of the record before may be left over.
        if self.last == b'\r' {
            self.pass_if(b'\n')?;
        }
        let mut lines = 0_u32;
        loop {
            if self.pass_if(b'\r')? {
                self.pass_if(b'\n')?;
            } else if !self.pass_if(b'\n')? {
                return Ok(lines);
            }
            lines = lines.saturating_add(1);
        }
    }

    fn pass(&mut self, bytes: usize) {
        self.reader.consume(bytes);
        self.at = self.at.saturating_add(u64::try_from(bytes).unwrap_or(0));
    }

    /// Passes over a byte, if it is the next.
    fn pass_if(&mut self, byte: u8) -> io::Result<bool> {
        let is_next = self.reader.fill_buf()?.first() == Some(&byte);
        if is_next {
            self.last = byte;
            self.pass(1);
        }
        Ok(is_next)
    }
}

/// The separator under which some row has the most known headers; where that does not decide, the one that splits
/// most rows, and most of all into equally many cells.
fn likeliest(text: &Text<'_>, shapes: &[CsvShape]) -> io::Result<CsvShape> {
    let rank = |shape: &CsvShape| -> io::Result<(usize, usize, usize)> {
        // Rows without end are no reason to choose it.
        if shape.longest > LONGEST {
            return Ok((0, 0, 0));
        }
        let mut headers = 0;
        let mut splits: Vec<usize> = Vec::new();
        for record in records(text, shape.separator)?.into_records().take(LOOKED_AT).map_while(Result::ok) {
            headers = headers.max(record.iter().filter(|field| header::is_known(field)).count());
            splits.push(record.len());
        }
        splits.retain(|cells| *cells > 1);
        splits.put_in_order();
        let alike = splits.chunk_by(|a, b| a == b).map(<[usize]>::len).max().unwrap_or(0);
        // One known header is no header row: `Item` alone says nothing about what splits.
        Ok((if headers < 2 { 0 } else { headers }, alike, splits.len()))
    };
    let mut best: Option<((usize, usize, usize), CsvShape)> = None;
    for shape in shapes {
        let rank = rank(shape)?;
        // Of equals the first is taken, which is the likeliest.
        if best.is_none_or(|(so_far, _)| rank > so_far) {
            best = Some((rank, *shape));
        }
    }
    best.map(|(_, shape)| shape).ok_or_else(|| io::Error::other("no separator is known"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(bytes: &[u8]) -> Vec<String> {
        let grid = grid(&Source { name: "a.csv", bytes }, &Limits::USUAL).unwrap();
        let cell = |row: &crate::book::grid::GridRow, at: u32, typed: &Typed| {
            format!("{}={}", CellRef::new(row.row, at), typed.seen())
        };
        grid.rows().iter().flat_map(|row| row.cells().iter().map(move |(at, typed)| cell(row, *at, typed))).collect()
    }

    #[test]
    fn numbers_stay_text_and_cells_are_trimmed() {
        let grid =
            grid(&Source { name: "a.csv", bytes: b"Item,Price,Per\n Onions , 1.50 ,\n" }, &Limits::USUAL).unwrap();
        assert_eq!(grid.get(1, 1), &Typed::text("1.50"));
        assert_eq!(grid.get(1, 0), &Typed::text("Onions"));
        assert!(grid.get(1, 2).is_blank());
        assert_eq!(grid.place_of(CellRef::new(1, 1)).to_string(), "a.csv ▸ B2");
    }

    #[test]
    fn encodings() {
        let text = "Item;Price;Per\nCrème;1,50 €;kg\n";
        let want = ["A1=Item", "B1=Price", "C1=Per", "A2=Crème", "B2=1,50 €", "C2=kg"];
        assert_eq!(read(text.as_bytes()), want);
        assert_eq!(read(format!("\u{FEFF}{text}").as_bytes()), want);
        let little: Vec<u8> = [0xFF, 0xFE].into_iter().chain(text.encode_utf16().flat_map(u16::to_le_bytes)).collect();
        assert_eq!(read(&little), want);
        let big: Vec<u8> = [0xFE, 0xFF].into_iter().chain(text.encode_utf16().flat_map(u16::to_be_bytes)).collect();
        assert_eq!(read(&big), want);
        // Windows-1252: è is E8, € is 80.
        let bytes: Vec<u8> = text
            .chars()
            .map(|c| match c {
                'è' => 0xE8,
                '€' => 0x80,
                c => u8::try_from(c).unwrap(),
            })
            .collect();
        assert_eq!(read(&bytes), want);
    }

    #[test]
    fn separators_are_told_by_the_headers_then_by_count() {
        assert_eq!(read(b"Item\tPack\tPrice\nOil, olive\t6/1 gal\t40\n")[3], "A2=Oil, olive");
        // More commas than semicolons, but the header row splits at semicolons.
        assert_eq!(read(b"Item;Price;Per\nOil, olive, extra, cold, first;1,50;kg\n")[4], "B2=1,50");
        assert_eq!(read(b"Item,Price,Per,Also called\nOil,2,lb,a;b;c;d;e\n")[7], "D2=a;b;c;d;e");
        assert_eq!(read(b"x;1,5\ny;2,5\nz;3\n"), ["A1=x", "B1=1,5", "A2=y", "B2=2,5", "A3=z", "B3=3"]);
        assert_eq!(read(b"a,b\n\"c\"\"d,e;f;g;h\",i\n"), ["A1=a", "B1=b", "A2=c\"d,e;f;g;h", "B2=i"]);
        assert_eq!(read(b"sep=;\r\na,b;c\r\n"), ["A1=a,b", "B1=c"]);
        assert_eq!(read(b"just text\n"), ["A1=just text"]);
    }

    #[test]
    fn rows_are_numbered_as_a_spreadsheet_numbers_them() {
        for end in ["\n", "\r\n", "\r"] {
            let text = ["", "a,b", "", "", "\"c", "d\",e", "f,g", ",,", "", "h"].join(end);
            // The quoted line break is inside row 5; two blank lines count.
            let quoted = format!("A5=c{end}d");
            let want = ["A2=a", "B2=b", quoted.as_str(), "B5=e", "A6=f", "B6=g", "A9=h"];
            assert_eq!(read(text.as_bytes()), want, "{end:?}");
        }
    }

    #[test]
    fn inches_and_open_quotes() {
        assert_eq!(read(b"2\" pan,3\n"), ["A1=2\" pan", "B1=3"]);
        assert_eq!(read(b"\"2\"\" pan\",3\n"), ["A1=2\" pan", "B1=3"]);
        let open = grid(&Source { name: "a.csv", bytes: b"a,b\nc,\"d\ne,f\n" }, &Limits::USUAL);
        assert_eq!(open, Err(ReadError::QuoteOpen { file: "a.csv".into(), line: 2 }));
    }
}

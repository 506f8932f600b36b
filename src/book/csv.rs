//! Reading csv: one sheet without a name, its cells text as typed.
//!
//! Takes bytes in UTF-8, UTF-16 with a mark, or Windows-1252, separated by commas, semicolons or tabs; gives a grid whose
//! rows are numbered as a spreadsheet program would number them. Numbers stay text: they are read where one is wanted.

use encoding_rs::{Encoding, UTF_8, UTF_16BE, UTF_16LE, WINDOWS_1252};

use crate::book::Source;
use crate::book::error::ReadError;
use crate::book::extent;
use crate::book::grid::{Grid, GridBuilder, Room};
use crate::problem::{CellRef, Place};
use crate::schema::{Typed, header};

/// The separators, the likeliest first.
const SEPARATORS: [u8; 3] = [b',', b';', b'\t'];
/// How many records are looked at to find the separator.
const LOOKED_AT: usize = 200;

/// The sheet that a csv file is.
///
/// # Errors
/// [`ReadError`] when a quotation mark is never closed, or there are too many cells.
pub fn grid(source: &Source<'_>) -> Result<Grid, ReadError> {
    let text = decoded(source.bytes);
    let (text, named) = named_separator(&text);
    let separator = named.unwrap_or_else(|| likeliest_separator(text));
    if let Some(line) = open_quote(text, separator) {
        return Err(ReadError::QuoteOpen { file: source.name.to_owned(), line });
    }
    let mut builder = GridBuilder::new(Place::sheet(source.name, ""), Room::WHOLE);
    let mut row = 0_u32;
    for record in records(text, separator) {
        let record = record.map_err(|error| ReadError::damaged(source.name, error))?;
        row = row.saturating_add(blank_lines_before(text, &record));
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

/// How a csv file is typed.
pub struct Dialect {
    /// Its text, without a mark at its beginning.
    pub text: String,
    /// Where its first row begins: behind a line that names the separator.
    pub begins: usize,
    /// What parts its cells.
    pub separator: char,
    encoding: &'static Encoding,
    /// Bytes of the mark.
    mark: usize,
}

/// How the file is typed.
pub fn dialect(bytes: &[u8]) -> Dialect {
    let text = decoded(bytes);
    let (rest, named) = named_separator(&text);
    let separator = char::from(named.unwrap_or_else(|| likeliest_separator(rest)));
    let begins = text.len().saturating_sub(rest.len());
    let encoding = encoding(bytes);
    let mark = match Encoding::for_bom(bytes) {
        Some((marked, length)) if marked == encoding => length,
        _ => 0,
    };
    Dialect { begins, separator, encoding, mark, text }
}

impl Dialect {
    /// The byte of the file at which the byte `at` of the text stands.
    pub fn byte(&self, at: usize) -> usize {
        let before = self.text.get(..at).unwrap_or(&self.text);
        let length = if self.encoding == UTF_8 {
            before.len()
        } else if self.encoding == WINDOWS_1252 {
            before.chars().count()
        } else {
            before.encode_utf16().count().saturating_mul(2)
        };
        self.mark.saturating_add(length)
    }

    /// A text as the file's bytes; `None` where its encoding lacks a letter.
    pub fn encoded(&self, text: &str) -> Option<Vec<u8>> {
        if self.encoding == UTF_16LE {
            return Some(text.encode_utf16().flat_map(u16::to_le_bytes).collect());
        }
        if self.encoding == UTF_16BE {
            return Some(text.encode_utf16().flat_map(u16::to_be_bytes).collect());
        }
        let (bytes, _, lacks) = self.encoding.encode(text);
        (!lacks).then(|| bytes.into_owned())
    }
}

/// The text in whichever encoding it is: a mark decides, then what is valid UTF-8, else Windows-1252.
fn decoded(bytes: &[u8]) -> String {
    encoding(bytes).decode_with_bom_removal(bytes).0.into_owned()
}

fn encoding(bytes: &[u8]) -> &'static Encoding {
    if bytes.starts_with(b"\xFF\xFE") {
        UTF_16LE
    } else if bytes.starts_with(b"\xFE\xFF") {
        UTF_16BE
    } else if std::str::from_utf8(bytes).is_ok() {
        UTF_8
    } else {
        WINDOWS_1252
    }
}

/// A first line `sep=;`, which spreadsheet programs take as naming the separator and do not show as a row.
fn named_separator(text: &str) -> (&str, Option<u8>) {
    let (line, rest) = text.split_once('\n').unwrap_or((text, ""));
    match line.trim_end().strip_prefix("sep=").map(str::as_bytes) {
        Some([separator]) => (rest, Some(*separator)),
        _ => (text, None),
    }
}

/// The records of a text, ragged as they are.
fn records(text: &str, separator: u8) -> csv::StringRecordsIntoIter<&[u8]> {
    csv::ReaderBuilder::new()
        .delimiter(separator)
        .has_headers(false)
        .flexible(true)
        .from_reader(text.as_bytes())
        .into_records()
}

/// How many blank lines stand before a record: the reader passes over them, a spreadsheet program does not.
fn blank_lines_before(text: &str, record: &csv::StringRecord) -> u32 {
    let Some(start) = record.position().and_then(|position| usize::try_from(position.byte()).ok()) else { return 0 };
    let rest = text.as_bytes().get(start..).unwrap_or_default();
    // The line feed of the record before may be left over.
    let after_return = start.checked_sub(1).and_then(|before| text.as_bytes().get(before)) == Some(&b'\r');
    let mut rest = if after_return { rest.strip_prefix(b"\n").unwrap_or(rest) } else { rest };
    let mut lines = 0;
    while let Some(next) =
        rest.strip_prefix(b"\r\n").or_else(|| rest.strip_prefix(b"\n")).or_else(|| rest.strip_prefix(b"\r"))
    {
        rest = next;
        lines += 1;
    }
    lines
}

/// The separator under which some row has the most known headers; where that does not decide, the one that splits
/// most rows, and most of all into equally many cells.
fn likeliest_separator(text: &str) -> u8 {
    let rank = |separator: u8| {
        let mut headers = 0;
        let mut splits: Vec<usize> = Vec::new();
        for record in records(text, separator).take(LOOKED_AT).map_while(Result::ok) {
            headers = headers.max(record.iter().filter(|field| header::is_known(field)).count());
            splits.push(record.len());
        }
        splits.retain(|cells| *cells > 1);
        splits.sort_unstable();
        let alike = splits.chunk_by(|a, b| a == b).map(<[usize]>::len).max().unwrap_or(0);
        // One known header is no header row: `Item` alone says nothing about what splits.
        (if headers < 2 { 0 } else { headers }, alike, splits.len())
    };
    let ranked = SEPARATORS.map(|separator| (rank(separator), separator));
    // Of equals the last is taken: the likeliest stands there.
    ranked.iter().rev().max_by_key(|(rank, _)| *rank).map_or(b',', |(_, separator)| *separator)
}

/// The line in which a quotation mark opens that is never closed: it would swallow the rest of the file.
fn open_quote(text: &str, separator: u8) -> Option<usize> {
    let (mut line, mut opened, mut at_start) = (1_usize, None, true);
    let mut bytes = text.bytes().peekable();
    while let Some(byte) = bytes.next() {
        if byte == b'\n' || (byte == b'\r' && bytes.peek() != Some(&b'\n')) {
            line += 1;
        }
        match (opened, byte) {
            (Some(_), b'"') if bytes.next_if_eq(&b'"').is_none() => (opened, at_start) = (None, false),
            (Some(_), _) => {}
            (None, b'"') if at_start => opened = Some(line),
            (None, _) => at_start = byte == separator || byte == b'\n' || byte == b'\r',
        }
    }
    opened
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(bytes: &[u8]) -> Vec<String> {
        let grid = grid(&Source { name: "a.csv", bytes }).unwrap();
        let cell = |row: &crate::book::grid::GridRow, at: u32, typed: &Typed| {
            format!("{}={}", CellRef::new(row.row, at), typed.seen())
        };
        grid.rows().iter().flat_map(|row| row.cells().iter().map(move |(at, typed)| cell(row, *at, typed))).collect()
    }

    #[test]
    fn numbers_stay_text_and_cells_are_trimmed() {
        let grid = grid(&Source { name: "a.csv", bytes: b"Item,Price,Per\n Onions , 1.50 ,\n" }).unwrap();
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
        let open = grid(&Source { name: "a.csv", bytes: b"a,b\nc,\"d\ne,f\n" });
        assert_eq!(open, Err(ReadError::QuoteOpen { file: "a.csv".into(), line: 2 }));
    }
}

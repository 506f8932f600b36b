//! Shape of a csv file, seen in one pass before it is read: whether a quotation mark swallows the rest, and how many cells
//! its longest row has, for each separator that it might have.

use std::io::{self, BufRead};

use super::text::Text;

/// What one separator makes of a text.
#[derive(Debug, Clone, Copy)]
pub(super) struct CsvShape {
    /// The separator.
    pub separator: u8,
    /// The line in which a quotation mark opens that is never closed.
    pub open_quote: Option<usize>,
    /// The cells of the longest row.
    pub longest: usize,
    cells: usize,
    at_start: bool,
}

impl CsvShape {
    fn new(separator: u8) -> Self {
        CsvShape { separator, open_quote: None, longest: 0, cells: 1, at_start: true }
    }

    /// Takes a byte of `line`; `closed` says that it is a quotation mark behind another that closed.
    fn take(&mut self, byte: u8, line: usize, next: Option<u8>, doubled: &mut bool) {
        match (self.open_quote, byte) {
            (Some(_), b'"') if next == Some(b'"') && !*doubled => *doubled = true,
            (Some(_), b'"') if *doubled => *doubled = false,
            (Some(_), b'"') => (self.open_quote, self.at_start) = (None, false),
            (Some(_), _) => {}
            (None, b'"') if self.at_start => self.open_quote = Some(line),
            (None, b'\n' | b'\r') => (self.cells, self.at_start) = (1, true),
            (None, _) => {
                self.at_start = byte == self.separator;
                if self.at_start {
                    self.cells = self.cells.saturating_add(1);
                    self.longest = self.longest.max(self.cells);
                }
            }
        }
    }
}

/// What each of `separators` makes of a text.
///
/// # Errors
/// What decoding it says.
pub(super) fn shapes(text: &Text<'_>, separators: &[u8]) -> io::Result<Vec<CsvShape>> {
    let mut shapes: Vec<(CsvShape, bool)> =
        separators.iter().map(|separator| (CsvShape::new(*separator), false)).collect();
    let mut reader = text.reader()?;
    let mut line = 1_usize;
    // A byte is looked at when the one behind it is known.
    let mut held: Option<u8> = None;
    loop {
        let bytes = reader.fill_buf()?;
        let (length, ended) = (bytes.len(), bytes.is_empty());
        let mut look = |byte: u8, next: Option<u8>| {
            if byte == b'\n' || (byte == b'\r' && next != Some(b'\n')) {
                line = line.saturating_add(1);
            }
            for (shape, doubled) in &mut shapes {
                shape.take(byte, line, next, doubled);
            }
        };
        for next in bytes {
            if let Some(byte) = held.replace(*next) {
                look(byte, Some(*next));
            }
        }
        if ended {
            if let Some(byte) = held {
                look(byte, None);
            }
            break;
        }
        reader.consume(length);
    }
    Ok(shapes.into_iter().map(|(shape, _)| shape).collect())
}

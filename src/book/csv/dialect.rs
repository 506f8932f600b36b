//! Dialect of a csv file: its encoding, its separator and where its rows begin, for whoever adds rows as it has them.

use std::io::{self, Read};

use encoding_rs::{Encoding, UTF_8, UTF_16BE, UTF_16LE, WINDOWS_1252};

use super::shape::shapes;
use super::text::Text;
use super::{SEPARATORS, likeliest, named_separator};

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
///
/// # Errors
/// What decoding it says.
pub fn dialect(bytes: &[u8]) -> io::Result<Dialect> {
    let whole = Text::of(bytes);
    let (rows, named) = named_separator(whole)?;
    let separator = match named {
        Some(separator) => separator,
        None => likeliest(&rows, &shapes(&rows, &SEPARATORS)?)?.separator,
    };
    let mut text = String::new();
    whole.reader()?.read_to_string(&mut text)?;
    let encoding = whole.encoding();
    let mark = match Encoding::for_bom(bytes) {
        Some((marked, length)) if marked == encoding => length,
        _ => 0,
    };
    let begins = usize::try_from(rows.skipped()).unwrap_or(usize::MAX).min(text.len());
    Ok(Dialect { begins, separator: char::from(separator), encoding, mark, text })
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

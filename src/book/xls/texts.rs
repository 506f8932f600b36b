//! Texts as a workbook stores them: in a code page (BIFF5), or in Latin-1 or UTF-16 (BIFF8); and the list of texts that
//! cells point into, whose texts may break off in one record and go on in the next.

use encoding_rs::Encoding;

use super::records::XlsRecord;
use crate::book::bytes::{Bytes, utf16};

/// How a workbook writes its texts.
#[derive(Debug, Clone, Copy)]
pub(super) enum TextEncoding {
    /// BIFF8: each text says whether its characters take one byte or two.
    Own,
    /// BIFF5: all in one code page.
    CodePage(&'static Encoding),
}

impl TextEncoding {
    /// A text of at most 255 characters (\[MS-XLS\] 2.5.240).
    pub fn short(self, bytes: &mut Bytes<'_>) -> Option<String> {
        let count = bytes.u8()?;
        self.characters(bytes, usize::from(count))
    }

    /// A text (\[MS-XLS\] 2.5.294).
    pub fn long(self, bytes: &mut Bytes<'_>) -> Option<String> {
        let count = bytes.u16()?;
        self.characters(bytes, usize::from(count))
    }

    fn characters(self, bytes: &mut Bytes<'_>, count: usize) -> Option<String> {
        match self {
            TextEncoding::CodePage(encoding) => {
                Some(encoding.decode_without_bom_handling(bytes.take(count)?).0.into_owned())
            }
            TextEncoding::Own => {
                let wide = is_wide(bytes.u8()?);
                Some(decoded(bytes.take(if wide { count.checked_mul(2)? } else { count })?, wide))
            }
        }
    }

    /// The text of a record that may go on in others: the result of a formula.
    pub fn result(self, record: &XlsRecord<'_>) -> Option<String> {
        match self {
            TextEncoding::CodePage(_) => self.long(&mut record.data()),
            TextEncoding::Own => {
                let mut list = Broken::new(&record.parts);
                let count = list.now.u16()?;
                let flags = list.now.u8()?;
                list.characters(usize::from(count), is_wide(flags))
            }
        }
    }
}

/// The list of texts (\[MS-XLS\] 2.4.265 and 2.5.293); as many as are whole.
pub(super) fn list(record: &XlsRecord<'_>) -> Option<Vec<String>> {
    let mut broken = Broken::new(&record.parts);
    // How many cells point into it, and how many texts there are: neither is believed.
    broken.skip(8)?;
    let mut texts = Vec::new();
    while !broken.is_done() {
        texts.push(broken.rich()?);
    }
    Some(texts)
}

/// Bytes that break off in one record and go on in the next.
struct Broken<'a> {
    now: Bytes<'a>,
    next: std::slice::Iter<'a, &'a [u8]>,
}

impl<'a> Broken<'a> {
    fn new(parts: &'a [&'a [u8]]) -> Self {
        let mut next = parts.iter();
        Broken { now: Bytes(next.next().copied().unwrap_or_default()), next }
    }

    /// Goes to the next record where this one is done; `None` when there is none.
    fn go_on(&mut self) -> Option<()> {
        while self.now.0.is_empty() {
            self.now = Bytes(self.next.next()?);
        }
        Some(())
    }

    fn is_done(&mut self) -> bool {
        self.go_on().is_none()
    }

    /// Passes over bytes, in as many records as they stand.
    fn skip(&mut self, mut count: usize) -> Option<()> {
        while count > 0 {
            self.go_on()?;
            let here = count.min(self.now.0.len());
            self.now.take(here)?;
            count = count.checked_sub(here)?;
        }
        Some(())
    }

    /// A text with what its looks and its phonetic reading take, which are passed over.
    fn rich(&mut self) -> Option<String> {
        self.go_on()?;
        let count = self.now.u16()?;
        let flags = self.now.u8()?;
        let runs = if flags & 0x08 == 0 { 0 } else { usize::from(self.now.u16()?) };
        let phonetic = if flags & 0x04 == 0 { 0 } else { usize::try_from(self.now.u32()?).ok()? };
        let text = self.characters(usize::from(count), is_wide(flags))?;
        self.skip(runs.checked_mul(4)?)?;
        self.skip(phonetic)?;
        Some(text)
    }

    /// Characters, whose width is said anew in every record that they go on in.
    fn characters(&mut self, mut count: usize, mut wide: bool) -> Option<String> {
        let mut text = String::new();
        loop {
            let width = if wide { 2 } else { 1 };
            let here = count.min(self.now.0.len() / width);
            text.push_str(&decoded(self.now.take(here.checked_mul(width)?)?, wide));
            count = count.checked_sub(here)?;
            if count == 0 {
                return Some(text);
            }
            self.now = Bytes(self.next.next()?);
            wide = is_wide(self.now.u8()?);
        }
    }
}

fn is_wide(flags: u8) -> bool {
    flags & 0x01 != 0
}

fn decoded(bytes: &[u8], wide: bool) -> String {
    if wide { utf16(bytes) } else { bytes.iter().copied().map(char::from).collect() }
}

//! The records of a part: a kind and a length in seven bits a byte, and that many bytes (\[MS-XLSB\] 2.1.4).

use std::io::{self, BufRead, BufReader, ErrorKind, Read};

use crate::book::bytes::{Bytes, utf16};

/// Kinds of records (\[MS-XLSB\] 2.3).
pub(super) mod kind {
    pub const ROW: u16 = 0;
    pub const CELL_RK: u16 = 2;
    pub const CELL_ERROR: u16 = 3;
    pub const CELL_BOOL: u16 = 4;
    pub const CELL_REAL: u16 = 5;
    pub const CELL_SHARED: u16 = 7;
    pub const FORMULA_REAL: u16 = 9;
    pub const FORMULA_BOOL: u16 = 10;
    pub const FORMULA_ERROR: u16 = 11;
    pub const SHARED_ITEM: u16 = 19;
    pub const FORMAT: u16 = 44;
    pub const XF: u16 = 47;
    pub const CELL_RICH: u16 = 62;
    pub const SHEET_DATA_BEGINS: u16 = 145;
    pub const SHEET_DATA_ENDS: u16 = 146;
    pub const WORKBOOK_PROPERTIES: u16 = 153;
    pub const SHEET: u16 = 156;
    pub const CELL_XFS_BEGIN: u16 = 617;
    pub const CELL_XFS_END: u16 = 618;
}

/// The records of a part as they come.
pub(super) struct XlsbRecords<R> {
    part: BufReader<R>,
    body: Vec<u8>,
}

impl<R: Read> XlsbRecords<R> {
    pub fn new(part: R) -> Self {
        XlsbRecords { part: BufReader::new(part), body: Vec::new() }
    }

    /// The next record's kind and bytes; `None` at the end of the part.
    ///
    /// # Errors
    /// When the part ends within a record or does not unpack.
    pub fn next(&mut self) -> io::Result<Option<(u16, Bytes<'_>)>> {
        if self.part.fill_buf()?.is_empty() {
            return Ok(None);
        }
        let kind = self.sevens(2)?;
        let length = self.sevens(4)?;
        self.body.clear();
        // Grows with what is there, whatever the length says.
        let read = self.part.by_ref().take(length.into()).read_to_end(&mut self.body)?;
        if u32::try_from(read) != Ok(length) {
            return Err(ErrorKind::UnexpectedEof.into());
        }
        Ok(Some((u16::try_from(kind).unwrap_or(u16::MAX), Bytes(&self.body))))
    }

    /// Unpacks what is left of the part, for its checksum is compared at its end.
    ///
    /// # Errors
    /// When the part does not unpack.
    pub fn end(mut self) -> io::Result<()> {
        io::copy(&mut self.part, &mut io::sink()).map(drop)
    }

    /// A number of at most `most` bytes, seven bits in each, the lowest first; the eighth says that another follows.
    fn sevens(&mut self, most: u32) -> io::Result<u32> {
        let mut number = 0_u32;
        for nth in 0..most {
            let mut byte = [0_u8];
            self.part.read_exact(&mut byte)?;
            let [byte] = byte;
            number |= u32::from(byte & 0x7F) << (7 * nth);
            if byte & 0x80 == 0 {
                break;
            }
        }
        Ok(number)
    }
}

/// A text (\[MS-XLSB\] 2.5.168): a count of UTF-16 code units, and these.
pub(super) fn text(bytes: &mut Bytes<'_>) -> Option<String> {
    let units = usize::try_from(bytes.u32()?).ok()?;
    bytes.take(units.checked_mul(2)?).map(utf16)
}

/// A text that may be none (\[MS-XLSB\] 2.5.166).
pub(super) fn optional_text(bytes: &mut Bytes<'_>) -> Option<String> {
    let mut ahead = *bytes;
    if ahead.u32()? == u32::MAX {
        *bytes = ahead;
        return Some(String::new());
    }
    text(bytes)
}

//! The records of a stream: a kind, a length and that many bytes (\[MS-XLS\] 2.1.4).

use crate::book::bytes::Bytes;

/// Kinds of records (\[MS-XLS\] 2.3).
pub(super) mod kind {
    pub const FORMULA: u16 = 0x0006;
    pub const EOF: u16 = 0x000A;
    pub const DATE_MODE: u16 = 0x0022;
    pub const FILE_PASS: u16 = 0x002F;
    pub const CONTINUE: u16 = 0x003C;
    pub const CODE_PAGE: u16 = 0x0042;
    pub const BOUND_SHEET: u16 = 0x0085;
    pub const MUL_RK: u16 = 0x00BD;
    pub const RSTRING: u16 = 0x00D6;
    pub const XF: u16 = 0x00E0;
    pub const SST: u16 = 0x00FC;
    pub const LABEL_SST: u16 = 0x00FD;
    pub const NUMBER: u16 = 0x0203;
    pub const LABEL: u16 = 0x0204;
    pub const BOOL_ERR: u16 = 0x0205;
    pub const STRING: u16 = 0x0207;
    pub const RK: u16 = 0x027E;
    pub const FORMAT: u16 = 0x041E;
    pub const BOF: u16 = 0x0809;
}

/// A record, with the records that continue it.
#[derive(Debug)]
pub(super) struct XlsRecord<'a> {
    /// What it is.
    pub kind: u16,
    /// What is in it, and in each of its continuations.
    pub parts: Vec<&'a [u8]>,
}

impl<'a> XlsRecord<'a> {
    /// What is in it, without its continuations.
    pub fn data(&self) -> Bytes<'a> {
        Bytes(self.parts.first().copied().unwrap_or_default())
    }
}

/// The records from some place of a stream on.
#[derive(Debug)]
pub(super) struct XlsRecords<'a> {
    rest: Bytes<'a>,
}

impl<'a> XlsRecords<'a> {
    pub fn new(stream: &'a [u8]) -> Self {
        XlsRecords { rest: Bytes(stream) }
    }

    /// How many bytes are left.
    pub fn left(&self) -> usize {
        self.rest.0.len()
    }

    /// The next record; `None` where the stream ends, within a record or before its last.
    pub fn next(&mut self) -> Option<XlsRecord<'a>> {
        let (kind, data) = part(&mut self.rest)?;
        let mut parts = vec![data];
        loop {
            let mut ahead = self.rest;
            match part(&mut ahead) {
                Some((kind::CONTINUE, more)) => parts.push(more),
                _ => return Some(XlsRecord { kind, parts }),
            }
            self.rest = ahead;
        }
    }
}

/// The kind and bytes of what stands first.
fn part<'a>(bytes: &mut Bytes<'a>) -> Option<(u16, &'a [u8])> {
    let kind = bytes.u16()?;
    let length = bytes.u16()?;
    Some((kind, bytes.take(usize::from(length))?))
}

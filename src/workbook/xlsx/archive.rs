//! Archive of a workbook's parts (zip, as APPNOTE.TXT 6.3.3 has it), each packed for itself beforehand and put together from
//! stretches: by several workers at a time, and before it is known what stands at the part's beginning. Libraries pack a part
//! only in one go.

use std::io::{self, Write};

use flate2::write::DeflateEncoder;
use flate2::{Compression, Crc};

use super::workers;

/// How hard the workbook is packed: a tenth larger than at the usual 6, in little more than half the time.
const PACKED: u32 = 2;

/// A stretch of a part that is being packed.
#[derive(Debug)]
pub(super) struct Packing {
    encoder: DeflateEncoder<Growing>,
    crc: Crc,
    length: u64,
}

/// Bytes that become more as long as there is memory for them: what is packed is long, and moved as it grows.
#[derive(Debug, Default)]
struct Growing(Vec<u8>);

impl Growing {
    /// Makes room for so many more bytes, as much beside as there is memory for.
    fn reserve(&mut self, more: usize) -> io::Result<()> {
        let had = self.0.try_reserve(more).or_else(|_| self.0.try_reserve_exact(more));
        had.map_err(|_| workers::too_little())
    }
}

impl Write for Growing {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.reserve(bytes.len())?;
        self.0.write(bytes)
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// A packed stretch of a part.
#[derive(Debug)]
pub(super) struct Packed {
    bytes: Vec<u8>,
    crc: Crc,
    length: u64,
}

impl Packing {
    /// Nothing yet.
    pub(super) fn new() -> Self {
        Packing {
            encoder: DeflateEncoder::new(Growing::default(), Compression::new(PACKED)),
            crc: Crc::new(),
            length: 0,
        }
    }

    /// Packs some more bytes.
    pub(super) fn push(&mut self, bytes: &[u8]) -> io::Result<()> {
        self.crc.update(bytes);
        self.length = self.length.saturating_add(u64::try_from(bytes.len()).unwrap_or(u64::MAX));
        self.encoder.write_all(bytes)
    }

    /// A stretch that others follow: it ends with a whole byte (RFC 1951, 3.2.4). What is pushed from then on begins another.
    pub(super) fn paused(&mut self) -> io::Result<Packed> {
        self.encoder.flush()?;
        let Growing(bytes) = std::mem::take(self.encoder.get_mut());
        // What it ends with does not belong to the stretch.
        self.encoder.reset(Growing::default())?;
        Ok(self.told(bytes))
    }

    /// The last stretch. What is pushed from then on begins another.
    pub(super) fn finished(&mut self) -> io::Result<Packed> {
        let Growing(bytes) = self.encoder.reset(Growing::default())?;
        Ok(self.told(bytes))
    }

    fn told(&mut self, bytes: Vec<u8>) -> Packed {
        Packed { bytes, crc: std::mem::take(&mut self.crc), length: std::mem::take(&mut self.length) }
    }

    /// A whole part, or the last stretch of one.
    pub(super) fn whole(&mut self, bytes: &[u8]) -> io::Result<Packed> {
        self.push(bytes)?;
        self.finished()
    }
}

/// An archive that grows part by part.
#[derive(Debug, Default)]
pub(super) struct Archive {
    bytes: Growing,
    directory: Vec<u8>,
    parts: u16,
}

/// The version that a reader needs, and which methods pack a part: 2.0, deflated.
const VERSION: u16 = 20;
const DEFLATED: u16 = 8;
/// The first of January 1980, with which its calendar begins, at midnight.
const DATE: u16 = 0x0021;
const TIME: u16 = 0;

impl Archive {
    /// Puts a part in, whose stretches follow each other.
    ///
    /// # Errors
    /// Where it is more than such an archive holds (4 GB, or 65,535 parts), or than there is memory for.
    pub(super) fn put(&mut self, name: &str, stretches: &[Packed]) -> io::Result<()> {
        let too_large = |_| io::Error::other("the workbook is too large for its file");
        let (mut crc, mut packed, mut length) = (Crc::new(), 0_u64, 0_u64);
        for stretch in stretches {
            crc.combine(&stretch.crc);
            packed = packed.saturating_add(u64::try_from(stretch.bytes.len()).unwrap_or(u64::MAX));
            length = length.saturating_add(stretch.length);
        }
        let packed = u32::try_from(packed).map_err(too_large)?;
        let length = u32::try_from(length).map_err(too_large)?;
        let begins = u32::try_from(self.bytes.0.len()).map_err(too_large)?;
        let name_length = u16::try_from(name.len()).map_err(too_large)?;

        // What both headers of a part have, in this order (4.3.7 and 4.3.12).
        let mut both = Vec::new();
        for short in [VERSION, 0, DEFLATED, TIME, DATE] {
            both.extend_from_slice(&short.to_le_bytes());
        }
        for long in [crc.sum(), packed, length] {
            both.extend_from_slice(&long.to_le_bytes());
        }
        both.extend_from_slice(&name_length.to_le_bytes());
        let no_extra = [0; 2];

        self.bytes.write_all(b"PK\x03\x04")?;
        self.bytes.write_all(&both)?;
        self.bytes.write_all(&no_extra)?;
        self.bytes.write_all(name.as_bytes())?;
        for stretch in stretches {
            self.bytes.write_all(&stretch.bytes)?;
        }
        self.directory.extend_from_slice(b"PK\x01\x02");
        self.directory.extend_from_slice(&VERSION.to_le_bytes());
        self.directory.extend_from_slice(&both);
        self.directory.extend_from_slice(&no_extra);
        // No comment, the first disk, no attributes.
        self.directory.extend_from_slice(&[0; 10]);
        self.directory.extend_from_slice(&begins.to_le_bytes());
        self.directory.extend_from_slice(name.as_bytes());
        self.parts = self.parts.checked_add(1).ok_or_else(|| io::Error::other("the workbook has too many parts"))?;
        Ok(())
    }

    /// The bytes of the archive.
    ///
    /// # Errors
    /// Where it is larger than 4 GB, or than there is memory for.
    pub(super) fn finished(mut self) -> io::Result<Vec<u8>> {
        let too_large = |_| io::Error::other("the workbook is too large for its file");
        let begins = u32::try_from(self.bytes.0.len()).map_err(too_large)?;
        let length = u32::try_from(self.directory.len()).map_err(too_large)?;
        self.bytes.write_all(&self.directory)?;
        // The end of the directory (4.3.16): on one disk, without a comment.
        self.bytes.write_all(b"PK\x05\x06")?;
        self.bytes.write_all(&[0; 4])?;
        self.bytes.write_all(&self.parts.to_le_bytes())?;
        self.bytes.write_all(&self.parts.to_le_bytes())?;
        self.bytes.write_all(&length.to_le_bytes())?;
        self.bytes.write_all(&begins.to_le_bytes())?;
        self.bytes.write_all(&[0; 2])?;
        Ok(self.bytes.0)
    }
}

#[cfg(test)]
mod tests {
    use std::io::{Cursor, Read};

    use zip::ZipArchive;

    use super::*;

    #[test]
    fn parts_of_several_stretches_are_read_by_another_library() {
        let long: Vec<u8> = (0..300_000_u32).flat_map(u32::to_le_bytes).collect();
        let mut archive = Archive::default();
        let mut packing = Packing::new();
        archive.put("a/one.xml", &[packing.whole(b"one").unwrap()]).unwrap();
        let beginning = |bytes: &[u8]| {
            let mut packing = Packing::new();
            packing.push(bytes).unwrap();
            packing.paused().unwrap()
        };
        let stretches = [beginning(b"head, "), beginning(&long)];
        let [head, rows] = stretches;
        archive.put("b.xml", &[head, rows, packing.whole(b", tail").unwrap()]).unwrap();
        archive.put("empty", &[packing.whole(b"").unwrap()]).unwrap();

        let mut read = ZipArchive::new(Cursor::new(archive.finished().unwrap())).unwrap();
        assert_eq!(read.len(), 3);
        let mut part = |name: &str| {
            let mut bytes = Vec::new();
            // Reading to the end compares the checksum.
            read.by_name(name).unwrap().read_to_end(&mut bytes).unwrap();
            bytes
        };
        assert_eq!(part("a/one.xml"), b"one");
        assert_eq!(part("b.xml"), [b"head, ".as_slice(), &long, b", tail"].concat());
        assert_eq!(part("empty"), b"");
    }
}

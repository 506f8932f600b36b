//! Archive of a workbook's parts (zip, as APPNOTE.TXT 6.3.3 has it), each packed for itself beforehand and put together from
//! stretches: by several workers at a time, and before it is known what stands at the part's beginning. Libraries pack a part
//! only in one go.

use std::io;

use flate2::{Compress, Compression, Crc, FlushCompress, Status};

use super::workers;

/// How hard the workbook is packed: a tenth larger than at the usual 6, in little more than half the time.
const PACKED: u32 = 2;

/// A stretch of a part that is being packed.
#[derive(Debug)]
pub(super) struct Packing {
    deflate: Compress,
    bytes: Growing,
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

    /// Takes some more.
    fn put(&mut self, bytes: &[u8]) -> io::Result<()> {
        self.reserve(bytes.len())?;
        self.0.extend_from_slice(bytes);
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
            deflate: Compress::new(Compression::new(PACKED), false),
            bytes: Growing::default(),
            crc: Crc::new(),
            length: 0,
        }
    }

    /// Packs some more bytes.
    pub(super) fn push(&mut self, bytes: &[u8]) -> io::Result<()> {
        self.crc.update(bytes);
        self.length = self.length.saturating_add(counted(bytes));
        if bytes.is_empty() { Ok(()) } else { self.pack(bytes, FlushCompress::None) }
    }

    /// A stretch that others follow: it ends with a whole byte (RFC 1951, 3.2.4). What is pushed from then on begins another.
    pub(super) fn paused(&mut self) -> io::Result<Packed> {
        self.ended(FlushCompress::Sync)
    }

    /// The last stretch. What is pushed from then on begins another.
    pub(super) fn finished(&mut self) -> io::Result<Packed> {
        self.ended(FlushCompress::Finish)
    }

    fn ended(&mut self, how: FlushCompress) -> io::Result<Packed> {
        self.pack(&[], how)?;
        self.deflate.reset();
        let Growing(bytes) = std::mem::take(&mut self.bytes);
        Ok(Packed { bytes, crc: std::mem::take(&mut self.crc), length: std::mem::take(&mut self.length) })
    }

    fn pack(&mut self, bytes: &[u8], how: FlushCompress) -> io::Result<()> {
        /// Room for what is packed at one go, and for what ends a stretch.
        const ROOM: usize = 1 << 12;
        let mut from = 0;
        loop {
            let rest = bytes.get(from..).unwrap_or_default();
            self.bytes.reserve(ROOM.max(rest.len() / 4))?;
            let before = self.deflate.total_in();
            let status = self.deflate.compress_vec(rest, &mut self.bytes.0, how)?;
            let taken = self.deflate.total_in().saturating_sub(before);
            from = from.saturating_add(usize::try_from(taken).unwrap_or(usize::MAX));
            // All of it has come out where there is room left for more.
            let is_out = match how {
                FlushCompress::None => true,
                FlushCompress::Finish => status == Status::StreamEnd,
                _ => self.bytes.0.len() < self.bytes.0.capacity(),
            };
            if from >= bytes.len() && is_out {
                return Ok(());
            }
        }
    }
}

/// How many bytes these are.
fn counted(bytes: &[u8]) -> u64 {
    u64::try_from(bytes.len()).unwrap_or(u64::MAX)
}

impl Packed {
    /// A short stretch that others follow, as it is (RFC 1951, 3.2.4): of more than 65,535 bytes, packed.
    pub(super) fn as_it_is(bytes: &[u8]) -> io::Result<Packed> {
        let Ok(length) = u16::try_from(bytes.len()) else {
            let mut packing = Packing::new();
            packing.push(bytes)?;
            return packing.paused();
        };
        let mut crc = Crc::new();
        crc.update(bytes);
        let stored = [&[0], &length.to_le_bytes()[..], &(!length).to_le_bytes()[..], bytes].concat();
        Ok(Packed { bytes: stored, crc, length: counted(bytes) })
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
    pub(super) fn put(&mut self, name: &str, stretches: &[&Packed]) -> io::Result<()> {
        let too_large = |_| io::Error::other("the workbook is too large for its file");
        let (mut crc, mut packed, mut length) = (Crc::new(), 0_u64, 0_u64);
        for stretch in stretches {
            crc.combine(&stretch.crc);
            packed = packed.saturating_add(counted(&stretch.bytes));
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

        self.bytes.put(b"PK\x03\x04")?;
        self.bytes.put(&both)?;
        self.bytes.put(&no_extra)?;
        self.bytes.put(name.as_bytes())?;
        for stretch in stretches {
            self.bytes.put(&stretch.bytes)?;
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
        self.bytes.put(&self.directory)?;
        // The end of the directory (4.3.16): on one disk, without a comment.
        self.bytes.put(b"PK\x05\x06")?;
        self.bytes.put(&[0; 4])?;
        self.bytes.put(&self.parts.to_le_bytes())?;
        self.bytes.put(&self.parts.to_le_bytes())?;
        self.bytes.put(&length.to_le_bytes())?;
        self.bytes.put(&begins.to_le_bytes())?;
        self.bytes.put(&[0; 2])?;
        Ok(self.bytes.0)
    }
}

#[cfg(test)]
mod tests {
    use std::io::{Cursor, Read};

    use zip::ZipArchive;

    use super::*;

    fn whole(packing: &mut Packing, bytes: &[u8]) -> Packed {
        packing.push(bytes).unwrap();
        packing.finished().unwrap()
    }

    #[test]
    fn parts_of_several_stretches_are_read_by_another_library() {
        let long: Vec<u8> = (0..300_000_u32).flat_map(u32::to_le_bytes).collect();
        let mut archive = Archive::default();
        let mut packing = Packing::new();
        archive.put("a/one.xml", &[&whole(&mut packing, b"one")]).unwrap();
        let mut beginning = |bytes: &[u8]| {
            packing.push(bytes).unwrap();
            packing.paused().unwrap()
        };
        let [head, rows] = [beginning(b"head, "), beginning(&long)];
        let as_it_is = Packed::as_it_is(b"as it is, ").unwrap();
        let too_long = Packed::as_it_is(&long).unwrap();
        let [tail, empty] = [b", tail".as_slice(), b""].map(|bytes| whole(&mut packing, bytes));
        archive.put("b.xml", &[&head, &as_it_is, &rows, &as_it_is, &too_long, &tail]).unwrap();
        archive.put("empty", &[&empty]).unwrap();

        let mut read = ZipArchive::new(Cursor::new(archive.finished().unwrap())).unwrap();
        assert_eq!(read.len(), 3);
        let mut part = |name: &str| {
            let mut bytes = Vec::new();
            // Reading to the end compares the checksum.
            read.by_name(name).unwrap().read_to_end(&mut bytes).unwrap();
            bytes
        };
        assert_eq!(part("a/one.xml"), b"one");
        assert_eq!(part("b.xml"), [b"head, as it is, ".as_slice(), &long, b"as it is, ", &long, b", tail"].concat());
        assert_eq!(part("empty"), b"");
    }
}

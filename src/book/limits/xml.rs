//! Looking through the XML parts of a workbook before a reader that believes what they say: piece by piece, by a
//! tokenizer, so that no spelling gets round it.
//!
//! A reader takes memory for one piece (a tag, a text, a comment) at a time, for lists by the length that they declare, and
//! for every cell format by its number format. What is not well formed ends the look: the reader stops there too. But every
//! part that is read is unpacked to its end, for only there is its checksum compared: a reader has what it wants before, and
//! would take a figure from a file that was damaged on its way.

use std::cell::Cell;
use std::collections::HashSet;
use std::io::{self, BufRead, BufReader, Read};

use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};

use crate::book::error::ReadError;
use crate::schema::Limits;

/// The most bytes of one tag, text or comment. The longest cell has 32,767 characters.
const LONGEST_PIECE: usize = 1_000_000;
/// The same for parts that no reader of ours looks into, which may hold pictures as text.
const LONGEST_FOREIGN: usize = 16_000_000;
/// How deep elements may lie within one another.
const DEEPEST: usize = 256;
/// What a text takes at the least, in a list that is as long as it says.
const OF_A_TEXT: usize = 64;
/// The most cell formats (ECMA-376 has programs keep 64,000).
const MOST_FORMATS: usize = 100_000;
/// The most letters of a number format (programs take 255), and of all of them together as often as they are used.
const LONGEST_FORMAT: usize = 1_000;

/// Looks through the part `name`, which `part` unpacks; gives whether a reader of ours would not take a value whole: one
/// with a CDATA section, a comment or an instruction within.
///
/// # Errors
/// [`ReadError`] when it holds more than a book can.
pub(super) fn look_through(file: &str, name: &str, part: impl Read, limits: &Limits) -> Result<bool, ReadError> {
    let foreign = ["customxml/", "docprops/", "xl/media/", "xl/drawings/", "xl/embeddings/"];
    let name = name.to_lowercase();
    let is_foreign = foreign.iter().any(|of| name.starts_with(of));
    let longest = if is_foreign { LONGEST_FOREIGN } else { LONGEST_PIECE };
    let since = Cell::new(0);
    let mut part = BufReader::with_capacity(1 << 16, part);
    let begins = part.fill_buf().unwrap_or_default();
    // Readers take the parts for UTF-8, and would find nothing in another (ECMA-376 part 2, 6.1.3, allows both).
    if !is_foreign && (begins.starts_with(b"\xFF\xFE") || begins.starts_with(b"\xFE\xFF")) {
        return Err(ReadError::damaged(file, "its parts are written in UTF-16, as no spreadsheet program does"));
    }
    let (mut sections, mut in_value) = (false, false);
    let pieces = BoundedPieces { part, since: &since, longest };
    let mut xml = Reader::from_reader(pieces);
    xml.config_mut().check_end_names = false;
    xml.config_mut().allow_unmatched_ends = true;
    let mut seen =
        Seen { file, limits, depth: 0, texts: 0, formats: 0, sheets: 0, in_formats: false, parts: HashSet::new() };
    let mut buffer = Vec::new();
    loop {
        buffer.clear();
        since.set(0);
        match xml.read_event_into(&mut buffer) {
            Ok(Event::Start(start)) => {
                in_value = matches!(start.local_name().as_ref(), "v" | "t" | "f");
                seen.depth = seen.depth.saturating_add(1);
                seen.element(&start, is_foreign)?;
            }
            Ok(Event::Empty(start)) => seen.element(&start, is_foreign)?,
            Ok(Event::End(end)) => {
                in_value = false;
                seen.depth = seen.depth.saturating_sub(1);
                if end.local_name().as_ref() == "cellXfs" {
                    seen.in_formats = false;
                }
            }
            Ok(Event::CData(_)) => sections |= !is_foreign,
            Ok(Event::Comment(_) | Event::PI(_)) => sections |= in_value && !is_foreign,
            Ok(Event::Eof) => return Ok(sections),
            Ok(_) => {}
            Err(_) if since.get() > longest => {
                return Err(ReadError::damaged(file, "a piece of it is longer than any cell can be"));
            }
            Err(_) if is_foreign => return Ok(sections),
            Err(quick_xml::Error::Io(error)) => return Err(ReadError::damaged(file, error)),
            Err(_) => {
                let rest = io::copy(&mut xml.into_inner().part, &mut io::sink());
                return rest.map(|_| sections).map_err(|error| ReadError::damaged(file, error));
            }
        }
    }
}

/// Bytes of a part, of which only so many are read for one piece.
struct BoundedPieces<'a, R> {
    part: BufReader<R>,
    /// How many were read since the piece before.
    since: &'a Cell<usize>,
    longest: usize,
}

impl<R: Read> Read for BoundedPieces<'_, R> {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        let read = self.fill_buf()?.read(into)?;
        self.consume(read);
        Ok(read)
    }
}

impl<R: Read> BufRead for BoundedPieces<'_, R> {
    fn fill_buf(&mut self) -> io::Result<&[u8]> {
        if self.since.get() > self.longest {
            return Err(io::Error::other("a piece without end"));
        }
        self.part.fill_buf()
    }

    fn consume(&mut self, bytes: usize) {
        self.since.set(self.since.get().saturating_add(bytes));
        self.part.consume(bytes);
    }
}

/// What was seen so far.
struct Seen<'a> {
    file: &'a str,
    limits: &'a Limits,
    depth: usize,
    texts: u64,
    formats: usize,
    sheets: usize,
    /// Among the formats of cells.
    in_formats: bool,
    /// The parts that sheets are said to be, and the names by which a workbook calls them.
    parts: HashSet<String>,
}

impl Seen<'_> {
    /// The most different texts.
    fn most_texts(&self) -> u64 {
        u64::try_from(self.limits.cells / OF_A_TEXT).unwrap_or(u64::MAX)
    }

    /// Counts an element; in a part of a foreign kind its name means nothing.
    fn element(&mut self, start: &BytesStart<'_>, is_foreign: bool) -> Result<(), ReadError> {
        let file = self.file;
        let damaged = |detail| Err(ReadError::damaged(file, detail));
        if self.depth > DEEPEST {
            return damaged("its elements lie too deep in one another");
        }
        let name = start.local_name();
        match name.as_ref() {
            _ if is_foreign => {}
            "sst" => {
                let most = self.most_texts();
                let declares = |one: &str| number_of(start, one).is_some_and(|length| length > most);
                if declares("uniqueCount") || declares("count") && number_of(start, "uniqueCount").is_none() {
                    return damaged("its list of texts declares an absurd length");
                }
            }
            "si" => {
                self.texts = self.texts.saturating_add(1);
                if self.texts > self.most_texts() {
                    return damaged("its list of texts has no end");
                }
            }
            "cellXfs" => self.in_formats = true,
            "xf" if self.in_formats => {
                self.formats = self.formats.saturating_add(1);
                if self.formats > MOST_FORMATS {
                    return damaged("it has more cell formats than any program keeps");
                }
            }
            "numFmt" if attribute(start, "formatCode").is_some_and(|code| code.len() > LONGEST_FORMAT) => {
                return damaged("a number format is longer than any program takes");
            }
            "sheet" => {
                self.sheets = self.sheets.saturating_add(1);
                if self.sheets > self.limits.sheets {
                    let most = self.limits.sheets_in_words();
                    return Err(ReadError::TooLarge { file: self.file.to_owned(), most });
                }
                if attribute(start, "id").is_some_and(|id| !self.parts.insert(id)) {
                    return damaged("two of its sheets are one");
                }
            }
            "Relationship"
                if attribute(start, "Type").is_some_and(|kind| kind.ends_with("/worksheet"))
                    && attribute(start, "Target").is_some_and(|part| !self.parts.insert(part)) =>
            {
                return damaged("two of its sheets are one");
            }
            _ => {}
        }
        Ok(())
    }
}

/// An attribute by its name, whatever its prefix.
fn attribute(start: &BytesStart<'_>, name: &str) -> Option<String> {
    let mut all = start.attributes();
    let attributes = all.with_checks(false);
    attributes.flatten().find(|one| one.key.local_name().as_ref() == name).map(|one| one.value.into_owned())
}

/// The number that an attribute holds; the largest there is for digits that are too many, or that are spelled otherwise.
fn number_of(start: &BytesStart<'_>, name: &str) -> Option<u64> {
    attribute(start, name).map(|value| value.trim().parse().unwrap_or(u64::MAX))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn says(name: &str, xml: &str) -> String {
        match look_through("a.xlsx", name, xml.as_bytes(), &Limits::USUAL) {
            Ok(_) => String::new(),
            Err(error) => error.to_string(),
        }
    }

    #[test]
    fn a_declared_length_is_seen_however_it_is_spelled() {
        for sst in [
            "<sst uniqueCount=\"99999999\"/>",
            "<?xml version='1.0'?><!-- <sst> --><x:sst count='1' uniqueCount = '99999999'>",
            "<other/><sst a=\"uniqueCount='1'\" uniqueCount='99999999'/>",
            "<sst uniqueCount=\"&#57;9999999\"/>",
            "<sst\n\tuniqueCount=\"99999999999999999999999999\"></sst>",
        ] {
            assert!(says("xl/any.xml", sst).contains("absurd length"), "{sst}");
        }
        for sst in
            ["<sst count=\"99999999\" uniqueCount=\"3\"/>", "<!-- <sst uniqueCount='99999999'> --><sst/>", "<sst", ""]
        {
            assert_eq!(says("xl/any.xml", sst), "", "{sst}");
        }
    }

    #[test]
    fn pieces_and_depths_and_formats_have_an_end() {
        let long = "x".repeat(LONGEST_PIECE + 100_000);
        for piece in
            [format!("<a b=\"{long}\"/>"), format!("<a>{long}</a>"), format!("<!--{long}-->"), format!("<{long}")]
        {
            assert!(says("xl/worksheets/sheet1.xml", &piece).contains("longer than any cell"), "{}", &piece[..20]);
            assert_eq!(says("customxml/item1.xml", &piece), "", "{}", &piece[..20]);
        }
        assert!(says("a.xml", &"<a>".repeat(300)).contains("too deep"));
        assert_eq!(says("a.xml", &"<a></a>".repeat(300)), "");
        let formats = |count| format!("<cellStyleXfs><xf/></cellStyleXfs><cellXfs>{}</cellXfs>", "<xf/>".repeat(count));
        assert!(says("a.xml", &formats(100_001)).contains("more cell formats"));
        assert_eq!(says("a.xml", &formats(100_000)), "");
        let format = |length| format!("<numFmt numFmtId='200' formatCode='{}'/>", "0".repeat(length));
        assert!(says("a.xml", &format(1_001)).contains("a number format is longer"));
        assert_eq!(says("a.xml", &format(1_000)), "");
        assert!(
            says("a.xml", "<sheet r:id='a'/><sheet r:id='b'/><sheet r:id='a'/>").contains("two of its sheets are one")
        );
        let related =
            "<Relationship Id='1' Type='x/worksheet' Target='s'/><Relationship Id='2' Type='x/worksheet' Target='s'/>";
        assert!(says("a.rels", related).contains("two of its sheets are one"));
        assert!(says("a.xml", &"<sheet/>".repeat(1_001)).contains("more than 1,000 sheets"));
    }
}

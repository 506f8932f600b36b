//! Mending a workbook in memory that has values which its reader refuses: error values newer than it are renamed to one it
//! knows, and what is no value of the kind that its cell says becomes the text that it is. So their cells are reported
//! instead of the file being refused.

use std::collections::BTreeSet;
use std::io::{Cursor, Read, Write};
use std::ops::Range;

use quick_xml::Reader;
use quick_xml::escape::escape;
use quick_xml::events::{BytesStart, Event};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

use crate::book::Source;
use crate::book::error::ReadError;
use crate::book::number;

/// The most bytes of a part that is mended: it is in memory twice.
const MOST_BYTES: u64 = 100_000_000;
/// What a strange error value is read as.
const KNOWN: &str = "#VALUE!";

/// The workbook's bytes with the `strange` error values of its worksheets renamed, and with `malformed` values as text. The
/// zip was looked at before, so that it cannot unpack into too much.
pub(super) fn known_values(
    source: &Source<'_>,
    strange: &BTreeSet<String>,
    malformed: bool,
) -> Result<Vec<u8>, ReadError> {
    let in_sheets = |name: &str| name.contains("worksheets");
    rewritten(source, in_sheets, |xml| {
        let mut xml = xml;
        for error in strange {
            xml = xml.replace(&format!(">{error}</"), &format!(">{KNOWN}</"));
        }
        if malformed { as_text(&xml) } else { Ok(xml) }
    })
}

/// The workbook's bytes with the CDATA sections of its parts as the text that they are, which its reader passes over in
/// values, and without comments and instructions, where it takes a value for ended.
pub(super) fn without_sections(source: &Source<'_>) -> Result<Vec<u8>, ReadError> {
    let may_have = |name: &str| name.ends_with(".xml") || name.ends_with(".rels");
    rewritten(source, may_have, |xml| sections_as_text(&xml))
}

/// The workbook's bytes with the parts whose lower-case name is `of` the kind put through `change`.
fn rewritten(
    source: &Source<'_>,
    of: impl Fn(&str) -> bool,
    change: impl Fn(String) -> Result<String, quick_xml::Error>,
) -> Result<Vec<u8>, ReadError> {
    let failed = |error: &dyn std::fmt::Display| ReadError::damaged(source.name, error);
    let mut zip = ZipArchive::new(Cursor::new(source.bytes)).map_err(|error| failed(&error))?;
    let mut mended = ZipWriter::new(Cursor::new(Vec::new()));
    for at in 0..zip.len() {
        let entry = zip.by_index_raw(at).map_err(|error| failed(&error))?;
        let name = entry.name().map_err(|error| failed(&error))?.into_owned();
        if !of(&name.to_lowercase()) {
            mended.raw_copy_file(entry).map_err(|error| failed(&error))?;
            continue;
        }
        if entry.size() > MOST_BYTES {
            return Err(failed(&"a sheet of it has values that no program writes, and is too large to mend"));
        }
        drop(entry);
        let mut xml = Vec::new();
        zip.by_index(at).map_err(|error| failed(&error))?.read_to_end(&mut xml).map_err(|error| failed(&error))?;
        let xml = String::from_utf8(xml).map_err(|error| failed(&error))?;
        let xml = change(xml).map_err(|error| failed(&error))?;
        // Packed, for all of it is in memory.
        let packed = SimpleFileOptions::default().compression_method(CompressionMethod::Deflated);
        mended.start_file(name, packed.compression_level(Some(1))).map_err(|error| failed(&error))?;
        mended.write_all(xml.as_bytes()).map_err(|error| failed(&error))?;
    }
    mended.finish().map(Cursor::into_inner).map_err(|error| failed(&error))
}

/// A part whose CDATA sections are text with its signs written out, and that has no comments and instructions.
fn sections_as_text(xml: &str) -> Result<String, quick_xml::Error> {
    let mut reader = Reader::from_str(xml);
    reader.config_mut().check_end_names = false;
    let mut plain = String::with_capacity(xml.len().saturating_add(64));
    let mut copied = 0;
    loop {
        let from = place(reader.buffer_position());
        let section = match reader.read_event()? {
            Event::CData(section) => escape(&*section).into_owned(),
            Event::Comment(_) | Event::PI(_) => String::new(),
            Event::Eof => break,
            _ => continue,
        };
        plain.push_str(xml.get(copied..from).unwrap_or_default());
        plain.push_str(&section);
        copied = place(reader.buffer_position());
    }
    plain.push_str(xml.get(copied..).unwrap_or_default());
    Ok(plain)
}

/// A worksheet in which a cell whose value is none of its kind says that it holds text (ECMA-376 part 1, 18.18.11).
fn as_text(xml: &str) -> Result<String, quick_xml::Error> {
    let mut reader = Reader::from_str(xml);
    let mut mended = String::with_capacity(xml.len().saturating_add(64));
    // How much of it is copied, and the cell that is open: where its tag stands, and its kind.
    let mut copied = 0;
    let mut open: Option<(Range<usize>, BytesStart<'_>, String)> = None;
    let mut in_value = false;
    loop {
        let from = place(reader.buffer_position());
        match reader.read_event()? {
            Event::Start(start) if start.local_name().as_ref() == "c" => {
                let kind = start.attributes().with_checks(false).flatten().find(|one| one.key.0 == "t");
                let kind = kind.map(|kind| kind.value.into_owned()).unwrap_or_default();
                open = Some((from..place(reader.buffer_position()), start, kind));
            }
            Event::Start(start) => in_value = start.local_name().as_ref() == "v",
            Event::End(_) => in_value = false,
            Event::Text(value) if in_value => {
                let refused = open.take_if(|(.., kind)| is_refused(kind, value.trim()));
                let Some((tag, start, _)) = refused else { continue };
                mended.push_str(xml.get(copied..tag.start).unwrap_or_default());
                mended.push_str(&tag_of_text(&start));
                copied = tag.end;
            }
            Event::Eof => break,
            _ => {}
        }
    }
    mended.push_str(xml.get(copied..).unwrap_or_default());
    Ok(mended)
}

/// Whether the reader refuses `value` in a cell of this kind.
fn is_refused(kind: &str, value: &str) -> bool {
    match kind {
        "b" => !["", "0", "1", "true", "false"].iter().any(|known| value.eq_ignore_ascii_case(known)),
        "n" => !value.is_empty() && !number::is_number(value),
        "" | "s" | "str" | "e" | "d" | "is" | "inlineStr" => false,
        _ => true,
    }
}

/// The tag of a cell, as one of text.
fn tag_of_text(start: &BytesStart<'_>) -> String {
    let mut tag = format!("<{}", start.name().0);
    for one in start.attributes().with_checks(false).flatten().filter(|one| one.key.0 != "t") {
        let quote = if one.value.contains('"') { '\'' } else { '"' };
        tag.push_str(&format!(" {}={quote}{}{quote}", one.key.0, one.value));
    }
    tag.push_str(" t=\"str\">");
    tag
}

fn place(at: u64) -> usize {
    usize::try_from(at).unwrap_or(usize::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sections_are_the_text_that_they_are_and_comments_are_none() {
        let part = "<c><v><![CDATA[Salt & <pepper>]]></v></c><!-- <![CDATA[x]]> --><t>P<![CDATA[ac]]>k<![CDATA[]]></t>";
        assert_eq!(sections_as_text(part).unwrap(), "<c><v>Salt &amp; &lt;pepper&gt;</v></c><t>Pack</t>");
        assert_eq!(
            sections_as_text("<?xml version=\"1.0\"?><v>5<!-- 9 -->0<?a b?>1</v>").unwrap(),
            "<?xml version=\"1.0\"?><v>501</v>"
        );
    }

    #[test]
    fn what_is_no_value_of_its_kind_becomes_text() {
        let sheet = "<row><c r=\"A1\" t=\"b\"><v>1</v></c><c s='2' t='b' r='B1'><v>may<!-- -->be</v></c><c r=\"C1\" t=\"n\">\
                     <f>1+1</f><v>two</v></c><c r=\"D1\" t=\"n\"><v>1e3</v></c><c r=\"E1\"><v>x</v></c><c r=\"F1\" t=\"odd\"><v>3</v></c></row>";
        assert_eq!(
            as_text(sheet).unwrap(),
            "<row><c r=\"A1\" t=\"b\"><v>1</v></c><c s=\"2\" r=\"B1\" t=\"str\"><v>may<!-- -->be</v></c><c r=\"C1\" \
             t=\"str\"><f>1+1</f><v>two</v></c><c r=\"D1\" t=\"n\"><v>1e3</v></c><c r=\"E1\"><v>x</v></c><c r=\"F1\" \
             t=\"str\"><v>3</v></c></row>"
        );
    }
}

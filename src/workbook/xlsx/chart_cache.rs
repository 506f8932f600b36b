//! Puts the values of formulas into the charts of a finished workbook.
//!
//! Takes the workbook's bytes and the noted values by range; gives the bytes with those of the charts filled in. Every
//! other part is carried over as it was packed.

use std::io::{Cursor, Read, Write};

use quick_xml::events::{BytesEnd, BytesStart, BytesText, Event};
use quick_xml::{Reader, Writer};
use zip::write::SimpleFileOptions;
use zip::{ZipArchive, ZipWriter};

use crate::workbook::xlsx::charts::{Stored, key};

/// The workbook with its charts filled in.
///
/// # Errors
/// An error of the archive, or of the text of a chart.
pub(super) fn fill(workbook: Vec<u8>, stored: &Stored) -> std::io::Result<Vec<u8>> {
    if stored.is_empty() {
        return Ok(workbook);
    }
    let mut from = ZipArchive::new(Cursor::new(workbook))?;
    let mut to = ZipWriter::new(Cursor::new(Vec::new()));
    for index in 0..from.len() {
        let mut part = from.by_index_raw(index)?;
        if !part.name()?.starts_with("xl/charts/chart") {
            to.raw_copy_file(part)?;
            continue;
        }
        let options = SimpleFileOptions::default().last_modified_time(part.last_modified().unwrap_or_default());
        let name = part.name()?.into_owned();
        drop(part);
        part = from.by_index(index)?;
        let mut chart = String::new();
        part.read_to_string(&mut chart)?;
        to.start_file(name, options)?;
        to.write_all(&filled(&chart, stored)?)?;
    }
    Ok(to.finish()?.into_inner())
}

/// A chart whose stores of values hold what was noted, instead of the plain cells alone.
fn filled(chart: &str, stored: &Stored) -> std::io::Result<Vec<u8>> {
    let mut reader = Reader::from_str(chart);
    let mut writer = Writer::new(Vec::new());
    let (mut range, mut in_range, mut noted, mut in_point) = (String::new(), false, None, false);
    loop {
        let event = reader.read_event().map_err(std::io::Error::other)?;
        match &event {
            Event::Eof => return Ok(writer.into_inner()),
            Event::Start(start) if start.name().as_ref() == "c:f" => {
                range.clear();
                in_range = true;
            }
            Event::End(end) if end.name().as_ref() == "c:f" => in_range = false,
            Event::Text(text) if in_range => range.push_str(text),
            Event::GeneralRef(name) if in_range => range.push(match name.as_ref() {
                "amp" => '&',
                "lt" => '<',
                "gt" => '>',
                "apos" => '\'',
                _ => '"',
            }),
            Event::Start(start) if start.name().as_ref() == "c:numCache" => noted = stored.get(&key(&range)),
            Event::Start(start) if start.name().as_ref() == "c:pt" && noted.is_some() => in_point = true,
            Event::End(end) if end.name().as_ref() == "c:pt" && in_point => {
                in_point = false;
                continue;
            }
            Event::End(end) if end.name().as_ref() == "c:numCache" => {
                for (at, value) in noted.take().into_iter().flatten().enumerate() {
                    let Some(value) = value else { continue };
                    writer.write_event(Event::Start(
                        BytesStart::new("c:pt").with_attributes([("idx", at.to_string().as_str())]),
                    ))?;
                    writer.write_event(Event::Start(BytesStart::new("c:v")))?;
                    writer.write_event(Event::Text(BytesText::new(value)))?;
                    writer.write_event(Event::End(BytesEnd::new("c:v")))?;
                    writer.write_event(Event::End(BytesEnd::new("c:pt")))?;
                }
            }
            _ => {}
        }
        if !in_point {
            writer.write_event(event)?;
        }
    }
}

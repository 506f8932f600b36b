//! Chart caches: the values of formulas that the library leaves out of a chart, put into its XML; and names shown alone.

use quick_xml::events::{BytesEnd, BytesStart, BytesText, Event};
use quick_xml::{Reader, Writer};

use crate::workbook::xlsx::charts::{Stored, range_key};

/// A chart whose stores of values hold what was noted, instead of the plain cells alone.
///
/// # Errors
/// Where the text is no XML.
pub(super) fn filled(chart: &str, stored: &Stored) -> std::io::Result<Vec<u8>> {
    let mut reader = Reader::from_str(chart);
    let mut writer = Writer::new(Vec::new());
    let (mut range, mut in_range, mut noted, mut in_point) = (String::new(), false, None, false);
    let mut value_shown = false;
    loop {
        let event = reader.read_event().map_err(std::io::Error::other)?;
        if value_shown {
            // The library cannot show a name without its value.
            let named = matches!(&event, Event::Empty(next) if next.name().as_ref() == "c:showSerName");
            let shown = BytesStart::new("c:showVal").with_attributes([("val", if named { "0" } else { "1" })]);
            writer.write_event(Event::Empty(shown))?;
            value_shown = false;
        }
        match &event {
            Event::Empty(empty) if empty.name().as_ref() == "c:showVal" => {
                value_shown = true;
                continue;
            }
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
            Event::Start(start) if start.name().as_ref() == "c:numCache" => noted = stored.get(&range_key(&range)),
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

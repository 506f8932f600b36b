//! Tags of an XML text with the places where they stand, so that what is not touched stays as it is to the byte.

use std::ops::Range;

use quick_xml::Reader;
use quick_xml::events::Event;

use super::NotPatched;
use crate::in_order::InOrder;

/// What a tag does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum TagKind {
    Opens,
    Empty,
    Closes,
}

/// A tag.
#[derive(Debug, Clone)]
pub(super) struct Tag<'x> {
    pub kind: TagKind,
    /// Its name without a prefix.
    pub name: &'x str,
    /// All of it.
    pub range: Range<usize>,
    /// Its text.
    pub raw: &'x str,
}

/// Every tag of a text, in order.
///
/// # Errors
/// [`NotPatched`] where it is no XML.
pub(super) fn tags(xml: &str) -> Result<Vec<Tag<'_>>, NotPatched> {
    // A byte-order mark stands before all tags, and counts.
    let text = xml.trim_start_matches('\u{feff}');
    let before = xml.len().saturating_sub(text.len());
    let mut reader = Reader::from_str(text);
    let mut found = Vec::new();
    let position = |at: u64| usize::try_from(at).unwrap_or(usize::MAX).saturating_add(before);
    loop {
        let start = position(reader.buffer_position());
        let kind = match reader.read_event().map_err(NotPatched::damaged)? {
            Event::Eof => return Ok(found),
            Event::Start(_) => TagKind::Opens,
            Event::Empty(_) => TagKind::Empty,
            Event::End(_) => TagKind::Closes,
            _ => continue,
        };
        let end = position(reader.buffer_position());
        let raw = xml.get(start..end).unwrap_or_default();
        let name = raw.trim_start_matches(['<', '/']);
        let name = name.split(|c: char| c.is_ascii_whitespace() || c == '/' || c == '>').next().unwrap_or_default();
        let name = name.rsplit(':').next().unwrap_or(name);
        found.push(Tag { kind, name, range: start..end, raw });
    }
}

impl<'x> Tag<'x> {
    /// The prefix of its name with the colon; empty where it has none.
    pub fn prefix(&self) -> &'x str {
        let name = self.raw.trim_start_matches(['<', '/']);
        name.find(self.name).and_then(|at| name.get(..at)).unwrap_or_default()
    }

    /// Its attributes: name, value as it stands, and where the value stands in the whole text.
    pub fn attributes(&self) -> Vec<(&'x str, &'x str, Range<usize>)> {
        let mut found = Vec::new();
        let mut at = self.raw.find(|c: char| c.is_ascii_whitespace()).unwrap_or(self.raw.len());
        while let Some((name, value, next)) = attribute(self.raw, at) {
            let start = self.range.start.saturating_add(value.start);
            let end = self.range.start.saturating_add(value.end);
            found.push((name, self.raw.get(value).unwrap_or_default(), start..end));
            at = next;
        }
        found
    }

    /// An attribute's value as it stands, and where.
    pub fn attribute(&self, name: &str) -> Option<(&'x str, Range<usize>)> {
        self.attributes().into_iter().find(|(known, ..)| *known == name).map(|(_, value, range)| (value, range))
    }

    /// An attribute's value with its entities read.
    pub fn value(&self, name: &str) -> Option<String> {
        self.attribute(name).map(|(value, _)| unescaped(value))
    }
}

/// The attribute that follows byte `at` of a tag: its name, where its value stands, and where to go on.
fn attribute(raw: &str, at: usize) -> Option<(&str, Range<usize>, usize)> {
    let rest = raw.get(at..)?;
    let name_at = at.checked_add(rest.find(|c: char| !c.is_ascii_whitespace())?)?;
    let equals = name_at.checked_add(raw.get(name_at..)?.find('=')?)?;
    let name = raw.get(name_at..equals)?.trim_end();
    let behind = equals.checked_add(1)?;
    let open = behind.checked_add(raw.get(behind..)?.find(['"', '\''])?)?;
    let quote = raw.get(open..)?.chars().next()?;
    let start = open.checked_add(1)?;
    let end = start.checked_add(raw.get(start..)?.find(quote)?)?;
    Some((name, start..end, end.checked_add(1)?))
}

/// Text with its entities read.
pub(super) fn unescaped(text: &str) -> String {
    quick_xml::escape::unescape(text).map_or_else(|_| text.to_owned(), std::borrow::Cow::into_owned)
}

/// What is put in the place of a stretch of the text.
pub(super) type Splice = (Range<usize>, String);

/// The text with every cut replaced; where two begin at one byte, in the order they were made.
pub(super) fn spliced(xml: &str, mut cuts: Vec<Splice>) -> String {
    cuts.put_in_order_by_key(|(range, _)| (range.start, range.end));
    let mut out = String::with_capacity(xml.len());
    let mut at = 0;
    for (range, text) in cuts {
        out.push_str(xml.get(at..range.start).unwrap_or_default());
        out.push_str(&text);
        at = range.end.max(at);
    }
    out.push_str(xml.get(at..).unwrap_or_default());
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tags_stand_where_they_stand() {
        let xml = "<?xml version=\"1.0\"?><!-- <c/> --><x:a one='1' x:two = \"a&amp;b\"><b/>t &lt; u</x:a>";
        let tags = tags(xml).unwrap();
        let names: Vec<_> = tags.iter().map(|tag| (tag.kind, tag.name, tag.prefix())).collect();
        assert_eq!(names, [(TagKind::Opens, "a", "x:"), (TagKind::Empty, "b", ""), (TagKind::Closes, "a", "x:")]);
        assert_eq!(tags[0].value("x:two").unwrap(), "a&b");
        let (value, range) = tags[0].attribute("one").unwrap();
        assert_eq!((value, &xml[range]), ("1", "1"));
        let (_, range) = tags[0].attribute("x:two").unwrap();
        assert_eq!(
            spliced(xml, vec![(range, "c".to_owned()), (tags[1].range.clone(), "<d/>".to_owned())]),
            xml.replace("a&amp;b", "c").replace("<b/>", "<d/>")
        );
    }
}

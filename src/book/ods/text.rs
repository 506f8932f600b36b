//! The text that stands in a cell of an ods: its paragraphs, without notes and drawings.
//!
//! OpenDocument 1.3 part 3, 6.1.2: white space counts once, and more of it is written as elements.

use std::io::BufRead;

use quick_xml::escape::resolve_predefined_entity;
use quick_xml::events::{BytesRef, Event};

use super::ContentPart;
use crate::book::error::ReadError;

/// The most characters that a cell's text has in spreadsheet programs: more spaces than these are not believed.
const MOST_SPACES: usize = 32_767;
/// So many bytes of a cell's text are taken: the rest would be cut off in any case.
const MOST_BYTES: usize = 1_000_000;

/// Takes the letters away that begin or end beyond so many bytes.
fn cut(text: &mut String) {
    let mut end = text.len().min(MOST_BYTES);
    while !text.is_char_boundary(end) {
        end = end.saturating_sub(1);
    }
    text.truncate(end);
}

impl<R: BufRead> ContentPart<'_, R> {
    /// The text up to the end of the cell whose element has begun, a line for each paragraph.
    pub(super) fn text(&mut self) -> Result<String, ReadError> {
        let mut text = String::new();
        let mut buffer = Vec::new();
        let mut paragraphs = 0_usize;
        let mut in_paragraph = false;
        loop {
            buffer.clear();
            cut(&mut text);
            match self.event(&mut buffer)? {
                Event::Start(start) => match start.name().0 {
                    "text:p" | "text:h" => {
                        if paragraphs > 0 {
                            text.push('\n');
                        }
                        paragraphs = paragraphs.saturating_add(1);
                        in_paragraph = true;
                    }
                    "text:s" => {
                        let count = self.attribute(&start, "text:c")?.and_then(|count| count.parse().ok());
                        text.extend(std::iter::repeat_n(' ', count.unwrap_or(1).min(MOST_SPACES)));
                    }
                    "text:tab" => text.push('\t'),
                    "text:line-break" => text.push('\n'),
                    "office:annotation" | "table:detective" | "table:table" | "text:ruby-text" => self.skip(&start)?,
                    name if name.starts_with("draw:") || name.starts_with("dr3d:") => self.skip(&start)?,
                    _ => {}
                },
                Event::Text(piece) if in_paragraph => add(&mut text, &piece.xml10_content()),
                Event::CData(piece) if in_paragraph => add(&mut text, &piece.xml10_content()),
                Event::GeneralRef(named) if in_paragraph => text.push_str(&self.meant(&named)?),
                Event::End(end) => match end.name().0 {
                    "text:p" | "text:h" => in_paragraph = false,
                    "table:table-cell" | "table:covered-table-cell" => return Ok(text),
                    _ => {}
                },
                Event::Eof => return Err(ReadError::damaged(self.file, "it ends within a cell")),
                _ => {}
            }
        }
    }

    /// What `&amp;` or `&#233;` stands for.
    fn meant(&self, named: &BytesRef<'_>) -> Result<String, ReadError> {
        match named.resolve_char_ref() {
            Ok(Some(c)) => return Ok(c.to_string()),
            Ok(None) => {}
            Err(error) => return Err(ReadError::damaged(self.file, error)),
        }
        let name = named.xml10_content();
        match resolve_predefined_entity(&name) {
            Some(meant) => Ok(meant.to_owned()),
            None => Err(ReadError::damaged(self.file, format_args!("&{name}; is not known"))),
        }
    }
}

/// Adds a piece of text in which white space counts once.
fn add(text: &mut String, piece: &str) {
    for c in piece.chars() {
        let is_space = matches!(c, ' ' | '\t' | '\r' | '\n');
        if !is_space {
            text.push(c);
        } else if !text.ends_with([' ', '\n']) {
            text.push(' ');
        }
    }
}

//! The parts of a workbook as it is zipped, their records and their relations.

use std::collections::HashMap;
use std::io::{BufReader, Cursor};

use quick_xml::events::Event;
use quick_xml::{Reader, XmlVersion};
use zip::ZipArchive;
use zip::read::ZipFile;

use super::records::XlsbRecords;
use crate::book::Source;
use crate::book::bytes::Bytes;
use crate::book::error::ReadError;

/// A workbook's parts.
pub(super) struct XlsbParts<'a> {
    /// The file as it was given.
    pub file: &'a str,
    zip: ZipArchive<Cursor<&'a [u8]>>,
}

impl<'a> XlsbParts<'a> {
    /// The parts of a file.
    pub fn open(source: &Source<'a>) -> Result<Self, ReadError> {
        let zip = ZipArchive::new(Cursor::new(source.bytes));
        Ok(XlsbParts { file: source.name, zip: zip.map_err(|error| ReadError::damaged(source.name, error))? })
    }

    /// A part by its name, whatever its case.
    pub fn part(&mut self, name: &str) -> Result<Option<ZipFile<'_, Cursor<&'a [u8]>>>, ReadError> {
        let stored = self.zip.file_names_raw().map(|stored| String::from_utf8_lossy(stored).replace('\\', "/"));
        let Some(at) = stored.enumerate().find(|(_, stored)| stored.eq_ignore_ascii_case(name)).map(|(at, _)| at)
        else {
            return Ok(None);
        };
        let file = self.file;
        self.zip.by_index(at).map(Some).map_err(|error| ReadError::damaged(file, error))
    }

    /// Hands every record of a part to `take`, which says `None` when one is cut short. A part that is not there has
    /// none.
    pub fn each(&mut self, name: &str, mut take: impl FnMut(u16, Bytes<'_>) -> Option<()>) -> Result<(), ReadError> {
        let file = self.file;
        let Some(part) = self.part(name)? else { return Ok(()) };
        let mut records = XlsbRecords::new(part);
        while let Some((kind, bytes)) = records.next().map_err(|error| ReadError::damaged(file, error))? {
            take(kind, bytes).ok_or_else(|| ReadError::damaged(file, format_args!("{name} is cut short")))?;
        }
        Ok(())
    }

    /// The parts that a part relates to, by the names it calls them.
    pub fn relations(&mut self, name: &str) -> Result<HashMap<String, String>, ReadError> {
        let file = self.file;
        let damaged = |error: &dyn std::fmt::Display| ReadError::damaged(file, error);
        let Some(part) = self.part(name)? else { return Ok(HashMap::new()) };
        let mut xml = Reader::from_reader(BufReader::new(part));
        xml.config_mut().expand_empty_elements = true;
        let mut relations = HashMap::new();
        let mut buffer = Vec::new();
        loop {
            buffer.clear();
            match xml.read_event_into(&mut buffer).map_err(|error| damaged(&error))? {
                Event::Start(start) if start.local_name().as_ref() == "Relationship" => {
                    let value = |name: &str| match start.try_get_attribute(name) {
                        Ok(Some(found)) => found.normalized_value(XmlVersion::Implicit1_0).ok().map(String::from),
                        _ => None,
                    };
                    if let (Some(id), Some(target)) = (value("Id"), value("Target")) {
                        let target = target.strip_prefix('/').map_or(format!("xl/{target}"), str::to_owned);
                        relations.insert(id, target);
                    }
                }
                Event::Eof => return Ok(relations),
                _ => {}
            }
        }
    }
}

//! Package of a workbook: its parts by name, read when asked for, written anew as they were packed unless replaced.

use std::collections::HashMap;
use std::io::{Cursor, Read, Write};

use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

use super::NotPatched;
use super::tags::tags;
use super::workbook_part::WorkbookPart;

/// A workbook's parts.
pub(super) struct Package<'b> {
    archive: ZipArchive<Cursor<&'b [u8]>>,
    /// Parts that are written otherwise than they were read, by their names in lower case.
    replaced: HashMap<String, String>,
}

/// Where a part leads.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Relation {
    pub id: String,
    /// The last word of its type.
    pub kind: String,
    /// The part that it leads to.
    pub part: String,
}

impl<'b> Package<'b> {
    /// # Errors
    /// [`NotPatched`] where it is no package.
    pub fn open(bytes: &'b [u8]) -> Result<Self, NotPatched> {
        let archive = ZipArchive::new(Cursor::new(bytes)).map_err(NotPatched::damaged)?;
        Ok(Package { archive, replaced: HashMap::new() })
    }

    /// The text of a part, as it is now.
    ///
    /// # Errors
    /// [`NotPatched`] where there is none, or it is not in UTF-8.
    pub fn text(&mut self, part: &str) -> Result<String, NotPatched> {
        self.text_if_there(part)?.ok_or_else(|| NotPatched(format!("it has no part {part}")))
    }

    /// The text of a part; `None` where there is none.
    ///
    /// # Errors
    /// [`NotPatched`] where it is not in UTF-8.
    pub fn text_if_there(&mut self, part: &str) -> Result<Option<String>, NotPatched> {
        if let Some(text) = self.replaced.get(&part.to_lowercase()) {
            return Ok(Some(text.clone()));
        }
        let Some(at) = self.index(part) else { return Ok(None) };
        let mut text = String::new();
        let mut file = self.archive.by_index(at).map_err(NotPatched::damaged)?;
        file.read_to_string(&mut text).map_err(NotPatched::damaged)?;
        Ok(Some(text))
    }

    /// Writes a part otherwise than it was read.
    pub fn replace(&mut self, part: &str, text: String) {
        self.replaced.insert(part.to_lowercase(), text);
    }

    fn index(&self, part: &str) -> Option<usize> {
        let wanted = part.to_lowercase();
        self.archive.file_names_raw().position(|name| plain(name) == wanted)
    }

    /// What a part leads to; of the package itself, `""`.
    ///
    /// # Errors
    /// [`NotPatched`] where the list cannot be read.
    pub fn relations(&mut self, part: &str) -> Result<Vec<Relation>, NotPatched> {
        let (folder, name) = part.rsplit_once('/').map_or(("", part), |(folder, name)| (folder, name));
        let list = if folder.is_empty() { format!("_rels/{name}.rels") } else { format!("{folder}/_rels/{name}.rels") };
        let Some(text) = self.text_if_there(&list)? else { return Ok(Vec::new()) };
        let mut found = Vec::new();
        for tag in tags(&text)?.iter().filter(|tag| tag.name == "Relationship") {
            if tag.value("TargetMode").as_deref() == Some("External") {
                continue;
            }
            let (Some(id), Some(kind), Some(target)) = (tag.value("Id"), tag.value("Type"), tag.value("Target")) else {
                continue;
            };
            let kind = kind.rsplit('/').next().unwrap_or_default().to_owned();
            found.push(Relation { id, kind, part: resolved(folder, &target) });
        }
        Ok(found)
    }

    /// Whether a sheet has a formula.
    ///
    /// # Errors
    /// [`NotPatched`] where a sheet cannot be read.
    pub fn has_formulas(&mut self, book: &WorkbookPart) -> Result<bool, NotPatched> {
        for part in book.parts() {
            if let Some(text) = self.text_if_there(part)?
                && (text.contains("<f>") || text.contains("<f ") || text.contains(":f>") || text.contains(":f "))
            {
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// Whether it may hold macros: its name must then end so.
    pub fn has_macros(&mut self) -> bool {
        let types = self.text_if_there("[Content_Types].xml").ok().flatten().unwrap_or_default();
        types.contains("macroEnabled")
    }

    /// Its bytes, part after part in their order.
    ///
    /// # Errors
    /// [`NotPatched`] where a part cannot be copied.
    pub fn written(mut self) -> Result<Vec<u8>, NotPatched> {
        let mut out = ZipWriter::new(Cursor::new(Vec::new()));
        for at in 0..self.archive.len() {
            let file = self.archive.by_index_raw(at).map_err(NotPatched::damaged)?;
            let Some(text) = self.replaced.get(&plain(file.name_raw())) else {
                out.raw_copy_file(file).map_err(NotPatched::damaged)?;
                continue;
            };
            let name = String::from_utf8_lossy(file.name_raw()).into_owned();
            let options = SimpleFileOptions::default()
                .compression_method(CompressionMethod::Deflated)
                .last_modified_time(file.last_modified().unwrap_or_default());
            drop(file);
            out.start_file(name, options).map_err(NotPatched::damaged)?;
            out.write_all(text.as_bytes()).map_err(NotPatched::damaged)?;
        }
        Ok(out.finish().map_err(NotPatched::damaged)?.into_inner())
    }
}

/// A part's name as they are compared.
fn plain(name: &[u8]) -> String {
    String::from_utf8_lossy(name).replace('\\', "/").trim_start_matches('/').to_lowercase()
}

/// The part that `target` names from within `folder`.
fn resolved(folder: &str, target: &str) -> String {
    if let Some(whole) = target.strip_prefix('/') {
        return whole.to_owned();
    }
    let mut parts: Vec<&str> = folder.split('/').filter(|part| !part.is_empty()).collect();
    for part in target.split('/') {
        match part {
            "" | "." => {}
            ".." => drop(parts.pop()),
            part => parts.push(part),
        }
    }
    parts.join("/")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn targets_lead_from_their_folder() {
        assert_eq!(resolved("xl", "worksheets/sheet1.xml"), "xl/worksheets/sheet1.xml");
        assert_eq!(resolved("xl/worksheets", "../tables/table1.xml"), "xl/tables/table1.xml");
        assert_eq!(resolved("xl/worksheets", "/xl/tables/table1.xml"), "xl/tables/table1.xml");
        assert_eq!(resolved("", "xl/workbook.xml"), "xl/workbook.xml");
    }
}

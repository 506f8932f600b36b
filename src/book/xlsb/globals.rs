//! Globals of a workbook, said around its sheets: their names and parts, its number formats and its list of texts.

use std::collections::{HashMap, HashSet};

use super::parts::XlsbParts;
use super::records::{self, kind};
use crate::book::error::ReadError;
use crate::book::format;
use crate::book::number::Epoch;
use crate::schema::Shown;

/// What holds for all sheets.
pub(super) struct XlsbGlobals {
    pub epoch: Epoch,
    /// What each cell format shows a number as.
    pub formats: Vec<Shown>,
    /// The texts that cells point at.
    pub texts: Vec<String>,
    /// The worksheets in order: name and part.
    pub sheets: Vec<(String, String)>,
}

impl XlsbGlobals {
    /// Reads what stands around the sheets.
    pub fn read(parts: &mut XlsbParts<'_>) -> Result<Self, ReadError> {
        let (formats, texts, sheets) = (Vec::new(), Vec::new(), Vec::new());
        let mut globals = XlsbGlobals { epoch: Epoch::From1900, formats, texts, sheets };
        globals.read_sheets(parts)?;
        let of_their_own: HashSet<&String> = globals.sheets.iter().map(|(_, part)| part).collect();
        if of_their_own.len() < globals.sheets.len() {
            return Err(ReadError::damaged(parts.file, "two of its sheets are one"));
        }
        globals.read_formats(parts)?;
        globals.read_texts(parts)?;
        Ok(globals)
    }

    fn read_sheets(&mut self, parts: &mut XlsbParts<'_>) -> Result<(), ReadError> {
        let related = parts.relations("xl/_rels/workbook.bin.rels")?;
        parts.each("xl/workbook.bin", |kind, mut bytes| {
            match kind {
                kind::WORKBOOK_PROPERTIES if bytes.u32()? & 1 == 1 => self.epoch = Epoch::From1904,
                kind::SHEET => {
                    let (_visibility, _id) = (bytes.u32()?, bytes.u32()?);
                    let relation = records::optional_text(&mut bytes)?;
                    let name = records::text(&mut bytes)?;
                    // Charts and dialogs are sheets too, of another kind.
                    if let Some(part) = related.get(&relation).filter(|part| part.contains("worksheets/")) {
                        self.sheets.push((name, part.clone()));
                    }
                }
                _ => {}
            }
            Some(())
        })
    }

    fn read_formats(&mut self, parts: &mut XlsbParts<'_>) -> Result<(), ReadError> {
        let mut named: HashMap<u16, Shown> = HashMap::new();
        let mut used = Vec::new();
        let mut of_cells = false;
        parts.each("xl/styles.bin", |kind, mut bytes| {
            match kind {
                kind::FORMAT => {
                    let id = bytes.u16()?;
                    named.insert(id, format::shown(&records::text(&mut bytes)?, Some(id.into())));
                }
                kind::CELL_XFS_BEGIN => of_cells = true,
                kind::CELL_XFS_END => of_cells = false,
                kind::XF if of_cells => {
                    bytes.u16()?;
                    used.push(bytes.u16()?);
                }
                _ => {}
            }
            Some(())
        })?;
        let shown = |id: &u16| named.get(id).cloned().unwrap_or_else(|| format::of_builtin(*id));
        self.formats = used.iter().map(shown).collect();
        Ok(())
    }

    fn read_texts(&mut self, parts: &mut XlsbParts<'_>) -> Result<(), ReadError> {
        parts.each("xl/sharedStrings.bin", |kind, mut bytes| {
            if kind == kind::SHARED_ITEM {
                let _flags = bytes.u8()?;
                self.texts.push(records::text(&mut bytes)?);
            }
            Some(())
        })
    }
}

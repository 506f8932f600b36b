//! Globals of a workbook, said before its sheets: how it writes text, numbers and dates, its list of texts, and where
//! its sheets begin.

use std::collections::HashMap;

use encoding_rs::{Encoding, WINDOWS_1252};

use super::records::{XlsRecord, XlsRecords, kind};
use super::texts::{self, TextEncoding};
use crate::book::error::ReadError;
use crate::book::format;
use crate::book::number::Epoch;
use crate::schema::Shown;

/// What holds for all sheets.
#[derive(Debug)]
pub(super) struct XlsGlobals {
    pub letters: TextEncoding,
    pub epoch: Epoch,
    /// What each cell format shows a number as.
    pub formats: Vec<Shown>,
    /// The texts that cells point at.
    pub texts: Vec<String>,
    /// The worksheets in order.
    pub sheets: Vec<SheetAt>,
}

/// A worksheet's name and where its records begin.
#[derive(Debug)]
pub(super) struct SheetAt {
    pub name: String,
    pub at: usize,
}

impl XlsGlobals {
    /// Reads the records before the sheets.
    pub fn read(file: &str, stream: &[u8]) -> Result<XlsGlobals, ReadError> {
        let cut = || ReadError::damaged(file, "what stands before its sheets is cut short");
        let mut records = XlsRecords::new(stream);
        let first = records.next().ok_or_else(cut)?;
        let mut globals = XlsGlobals {
            letters: letters(file, &first)?,
            epoch: Epoch::From1900,
            formats: Vec::new(),
            texts: Vec::new(),
            sheets: Vec::new(),
        };
        let mut named = HashMap::new();
        let mut used = Vec::new();
        loop {
            let record = records.next().ok_or_else(cut)?;
            if record.kind == kind::FILE_PASS {
                return Err(ReadError::PasswordProtected { file: file.to_owned() });
            }
            if record.kind == kind::EOF {
                break;
            }
            globals.take(&record, &mut named, &mut used).ok_or_else(cut)?;
        }
        globals.formats =
            used.iter().map(|id| named.get(id).cloned().unwrap_or_else(|| format::of_builtin(*id))).collect();
        Ok(globals)
    }

    /// Takes what one record says; `None` when it is cut short.
    fn take(&mut self, record: &XlsRecord<'_>, named: &mut HashMap<u16, Shown>, used: &mut Vec<u16>) -> Option<()> {
        let mut data = record.data();
        match record.kind {
            kind::CODE_PAGE => {
                if let TextEncoding::CodePage(letters) = &mut self.letters {
                    *letters = code_page(data.u16()?);
                }
            }
            kind::DATE_MODE if data.u16()? == 1 => self.epoch = Epoch::From1904,
            kind::FORMAT => {
                let id = data.u16()?;
                let code = match self.letters {
                    TextEncoding::Own => self.letters.long(&mut data)?,
                    TextEncoding::CodePage(_) => self.letters.short(&mut data)?,
                };
                named.insert(id, format::shown(&code, Some(id.into())));
            }
            kind::XF => {
                data.u16()?;
                used.push(data.u16()?);
            }
            kind::SST => self.texts = texts::list(record)?,
            kind::BOUND_SHEET => {
                let at = usize::try_from(data.u32()?).ok()?;
                let _visibility = data.u8()?;
                let is_worksheet = data.u8()? == 0;
                let name = self.letters.short(&mut data)?;
                if is_worksheet {
                    self.sheets.push(SheetAt { name: name.replace('\0', ""), at });
                }
            }
            _ => {}
        }
        Some(())
    }
}

/// How texts are written, by the version that the first record names (\[MS-XLS\] 2.4.21).
fn letters(file: &str, first: &XlsRecord<'_>) -> Result<TextEncoding, ReadError> {
    match (first.kind, first.data().u16()) {
        (kind::BOF, Some(0x0600)) => Ok(TextEncoding::Own),
        (kind::BOF, Some(0x0500)) => Ok(TextEncoding::CodePage(WINDOWS_1252)),
        _ => Err(ReadError::OtherFormat { file: file.to_owned(), what: "a workbook of a kind from before 1995" }),
    }
}

/// The letters of a code page; Western ones where it is not known.
fn code_page(number: u16) -> &'static Encoding {
    codepage::to_encoding(number).unwrap_or(WINDOWS_1252)
}

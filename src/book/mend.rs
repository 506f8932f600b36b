//! Mending a workbook in memory whose error values are newer than its reader: they are renamed to one it knows, so
//! that their cells are reported instead of the file being refused.

use std::collections::BTreeSet;
use std::io::{Cursor, Read, Write};

use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

use crate::book::Source;
use crate::book::error::ReadError;

/// What a strange error value is read as.
const KNOWN: &str = "#VALUE!";

/// The workbook's bytes with the `strange` error values of its worksheets renamed. The zip was looked at before, so
/// that it cannot unpack into too much.
pub(super) fn known_errors(source: &Source<'_>, strange: &BTreeSet<String>) -> Result<Vec<u8>, ReadError> {
    let failed = |error: &dyn std::fmt::Display| ReadError::damaged(source.name, error);
    let mut zip = ZipArchive::new(Cursor::new(source.bytes)).map_err(|error| failed(&error))?;
    let mut mended = ZipWriter::new(Cursor::new(Vec::new()));
    for at in 0..zip.len() {
        let entry = zip.by_index_raw(at).map_err(|error| failed(&error))?;
        let name = entry.name().map_err(|error| failed(&error))?.into_owned();
        if !name.to_lowercase().contains("worksheets") {
            mended.raw_copy_file(entry).map_err(|error| failed(&error))?;
            continue;
        }
        drop(entry);
        let mut xml = Vec::new();
        zip.by_index(at).map_err(|error| failed(&error))?.read_to_end(&mut xml).map_err(|error| failed(&error))?;
        let mut xml = String::from_utf8(xml).map_err(|error| failed(&error))?;
        for error in strange {
            xml = xml.replace(&format!(">{error}</"), &format!(">{KNOWN}</"));
        }
        let stored = SimpleFileOptions::default().compression_method(CompressionMethod::Stored);
        mended.start_file(name, stored).map_err(|error| failed(&error))?;
        mended.write_all(xml.as_bytes()).map_err(|error| failed(&error))?;
    }
    mended.finish().map(Cursor::into_inner).map_err(|error| failed(&error))
}

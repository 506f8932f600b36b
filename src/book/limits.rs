//! A look at a file before it is read: what it is, and that it does not unpack into more than a kitchen's book can be.
//!
//! Takes the bytes; gives how they are to be read, or why not. The sizes that a zip declares may be trusted as an
//! upper bound: unpacking fails at the first byte beyond them.

mod part_names;
mod xml;

use std::io::Cursor;
#[cfg(test)]
use std::io::Read;

use zip::ZipArchive;

use crate::book::Source;
use crate::book::error::ReadError;
use crate::schema::Limits;

/// How a file is to be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FileFormat {
    /// As an xlsx or xlsm workbook.
    Xlsx,
    /// As one that has values with CDATA sections, comments or instructions within.
    XlsxOfSections,
    /// As a workbook of the kind before 2007.
    Xls,
    /// As a binary workbook of the kind since 2007.
    Xlsb,
    /// As an OpenDocument spreadsheet.
    OpenDocument,
    /// As comma-separated text.
    Text,
}

/// What a file is, by its content.
///
/// # Errors
/// [`ReadError`] when it is no book, one of a kind that is not read, cut short, or too large.
pub fn content(source: &Source<'_>, limits: &Limits) -> Result<FileFormat, ReadError> {
    let (bytes, file) = (source.bytes, source.name);
    let starts = |mark: &[u8]| bytes.starts_with(mark);
    let not_a_spreadsheet = |what| Err(ReadError::NotASpreadsheet { file: file.to_owned(), what });
    let is_large = |most: u64| u64::try_from(bytes.len()).is_ok_and(|length| length > most);
    if is_large(limits.bytes) {
        return Err(ReadError::TooLarge { file: file.to_owned(), most: limits.bytes_in_words() });
    }
    if bytes.is_empty() {
        return Err(ReadError::Empty { file: file.to_owned() });
    }
    if starts(b"PK\x03\x04") || starts(b"PK\x05\x06") {
        return check_zip(source, limits);
    }
    if starts(b"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1") {
        return compound(source);
    }
    if is_large(limits.bytes_of_text()) {
        return Err(ReadError::TooLarge { file: file.to_owned(), most: limits.text_in_words() });
    }
    if starts(b"%PDF") {
        return not_a_spreadsheet("a PDF");
    }
    if starts(b"\xFF\xD8\xFF") || starts(b"\x89PNG") || starts(b"GIF8") {
        return not_a_spreadsheet("a picture");
    }
    // The mark of UTF-32, and of a UTF-16 that would begin with nothing.
    if starts(b"\xFF\xFE\0\0") {
        return not_a_spreadsheet("not text and not a workbook");
    }
    if starts(b"\xFF\xFE") || starts(b"\xFE\xFF") {
        return Ok(FileFormat::Text);
    }
    let text = bytes.trim_ascii_start();
    let text = text.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(text);
    for (mark, what) in
        [("<?xml", "an XML file"), ("<html", "a web page"), ("<!doctype", "a web page"), ("{\\rtf", "a text document")]
    {
        if text.get(..mark.len()).is_some_and(|start| start.eq_ignore_ascii_case(mark.as_bytes())) {
            return not_a_spreadsheet(what);
        }
    }
    if bytes.contains(&0) {
        return not_a_spreadsheet("not text and not a workbook");
    }
    Ok(FileFormat::Text)
}

/// What a compound file is: an encrypted workbook, or one of the kind before 2007.
fn compound(source: &Source<'_>) -> Result<FileFormat, ReadError> {
    let file = source.name.to_owned();
    // Stream names stand in the file's directory in UTF-16.
    let holds = |name: &str| {
        let name: Vec<u8> = name.encode_utf16().flat_map(u16::to_le_bytes).collect();
        source.bytes.windows(name.len()).any(|window| window == name)
    };
    if holds("EncryptedPackage") {
        Err(ReadError::PasswordProtected { file })
    } else if holds("Workbook") || holds("Book") {
        Ok(FileFormat::Xls)
    } else {
        Err(ReadError::NotASpreadsheet { file, what: "an old office document" })
    }
}

/// Looks into a zip: what it holds, how much it unpacks into, and through its parts.
fn check_zip(source: &Source<'_>, limits: &Limits) -> Result<FileFormat, ReadError> {
    let file = source.name;
    let too_large = |most| ReadError::TooLarge { file: file.to_owned(), most };
    let damaged = |error| ReadError::damaged(file, error);
    let damaged_by = |detail: String| ReadError::damaged(file, detail);
    let mut zip = ZipArchive::new(Cursor::new(source.bytes)).map_err(damaged)?;
    if zip.len() > limits.parts {
        return Err(too_large(limits.parts_in_words()));
    }
    if let Some(name) = part_names::borne_twice(source.bytes, zip.central_directory_start()) {
        return Err(damaged_by(format!("it has two parts called “{name}”")));
    }
    let names: Vec<String> =
        zip.file_names_raw().map(|name| String::from_utf8_lossy(name).replace('\\', "/").to_lowercase()).collect();
    let kind = known_kind(file, &names)?;
    let mut declared = 0_u64;
    for at in 0..zip.len() {
        let entry = zip.by_index_raw(at).map_err(damaged)?;
        declared = declared.saturating_add(entry.size());
    }
    if declared > limits.bytes {
        return Err(too_large(limits.bytes_in_words()));
    }
    // The parts of the other kinds are read by readers of ours, which count for themselves.
    if kind == FileFormat::Xlsx || kind == FileFormat::OpenDocument {
        let mut sections = false;
        for (at, name) in names.iter().enumerate() {
            sections |= xml::look_through(file, name, zip.by_index(at).map_err(damaged)?, limits)?;
        }
        if sections && kind == FileFormat::Xlsx {
            return Ok(FileFormat::XlsxOfSections);
        }
    }
    Ok(kind)
}

/// Tells workbooks that are read from what else comes in a zip.
fn known_kind(file: &str, names: &[String]) -> Result<FileFormat, ReadError> {
    let has = |wanted: &str| names.iter().any(|name| name == wanted);
    let file = file.to_owned();
    if names.iter().any(|name| name.ends_with("workbook.bin")) {
        Ok(FileFormat::Xlsb)
    } else if has("mimetype") && has("content.xml") {
        Ok(FileFormat::OpenDocument)
    } else if !has("[content_types].xml") {
        Err(ReadError::NotASpreadsheet { file, what: "a zip archive" })
    } else if has("word/document.xml") {
        Err(ReadError::NotASpreadsheet { file, what: "a text document" })
    } else if has("ppt/presentation.xml") {
        Err(ReadError::NotASpreadsheet { file, what: "a presentation" })
    } else {
        Ok(FileFormat::Xlsx)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn looked_at(bytes: &[u8]) -> Result<FileFormat, ReadError> {
        content(&Source { name: "book", bytes }, &Limits::USUAL)
    }

    fn utf16(text: &str) -> Vec<u8> {
        text.encode_utf16().flat_map(u16::to_le_bytes).collect()
    }

    #[test]
    fn what_a_file_is_is_told_by_its_content() {
        assert_eq!(looked_at(b"Item,Price\n"), Ok(FileFormat::Text));
        assert_eq!(looked_at(&[0xFF, 0xFE, b'I', 0]), Ok(FileFormat::Text));
        assert!(matches!(looked_at(b""), Err(ReadError::Empty { .. })));
        for (bytes, says) in [
            (b"%PDF-1.7".as_slice(), "a PDF"),
            (b"\x89PNG\r\n", "a picture"),
            (b"\xEF\xBB\xBF<?xml version='1.0'?>", "an XML file"),
            (b" <HTML><table>", "a web page"),
            (b"{\\rtf1", "a text document"),
            (b"\x7FELF\0\0", "not text and not a workbook"),
            (b"\xFF\xFE\0\0I\0\0\0", "not text and not a workbook"),
        ] {
            assert!(matches!(looked_at(bytes), Err(ReadError::NotASpreadsheet { what, .. }) if what == says), "{says}");
        }
    }

    #[test]
    fn compound_files_are_told_apart() {
        let ole = b"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1".to_vec();
        let with = |name: &str| [ole.clone(), utf16(name)].concat();
        assert!(matches!(looked_at(&with("EncryptedPackage")), Err(ReadError::PasswordProtected { .. })));
        assert_eq!(looked_at(&with("Workbook")), Ok(FileFormat::Xls));
        assert!(matches!(looked_at(&with("WordDocument")), Err(ReadError::NotASpreadsheet { .. })));
        assert_eq!(
            looked_at(&with("EncryptedPackage")).unwrap_err().to_string(),
            "book is protected by a password: open it, remove the password, save it, and give that file"
        );
    }

    #[test]
    fn zips_are_told_apart() {
        let kind = |names: &[&str]| known_kind("book", &names.iter().map(|n| (*n).to_owned()).collect::<Vec<_>>());
        assert_eq!(kind(&["xl/workbook.bin"]), Ok(FileFormat::Xlsb));
        assert_eq!(kind(&["mimetype", "content.xml"]), Ok(FileFormat::OpenDocument));
        assert!(matches!(kind(&["[content_types].xml", "word/document.xml"]), Err(ReadError::NotASpreadsheet { .. })));
        assert!(matches!(kind(&["photo.jpg"]), Err(ReadError::NotASpreadsheet { .. })));
        assert_eq!(kind(&["[content_types].xml", "xl/workbook.xml"]), Ok(FileFormat::Xlsx));
    }

    #[test]
    fn a_zip_that_understates_a_size_is_not_unpacked_beyond_it() {
        use std::io::Write;
        let mut zip = zip::ZipWriter::new(Cursor::new(Vec::new()));
        let packed = zip::write::SimpleFileOptions::default().compression_method(zip::CompressionMethod::Deflated);
        zip.start_file("part", packed).unwrap();
        zip.write_all(&[b' '; 1_000_000]).unwrap();
        let mut bytes = zip.finish().unwrap().into_inner();
        // The declared size, 1,000,000, stands in both headers; 100 is put in its place.
        let (size, lie) = (1_000_000_u32.to_le_bytes(), 100_u32.to_le_bytes());
        let places: Vec<usize> = (0..bytes.len() - 4).filter(|at| bytes[*at..at + 4] == size).collect();
        assert_eq!(places.len(), 2);
        for at in places {
            bytes[at..at + 4].copy_from_slice(&lie);
        }
        let mut zip = ZipArchive::new(Cursor::new(bytes.as_slice())).unwrap();
        assert_eq!(zip.by_index_raw(0).unwrap().size(), 100);
        let mut unpacked = Vec::new();
        let end = zip.by_index(0).unwrap().read_to_end(&mut unpacked);
        assert!(end.is_err() && unpacked.len() < 100_000, "{}", unpacked.len());
    }
}

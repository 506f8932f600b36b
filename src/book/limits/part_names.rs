//! Names of a zip's parts: no two may be one, for two programs would read two different books.
//!
//! Takes the zip's directory as it stands in the file; what reads it keeps but one part of each name.

use std::collections::HashSet;

/// A record of the directory: its mark, and the bytes before the name, its length among them.
const MARK: &[u8] = b"PK\x01\x02";
const BEFORE_NAME: usize = 46;

/// The letters of a name that are told.
const TOLD: usize = 100;

/// The first name that two parts bear in the directory that begins at `start`. Case makes no difference (ECMA-376 part
/// 2, 6.2.2.2), nor do the strokes between folders, more than one of them, and folders that are the one they stand in.
pub(super) fn borne_twice(bytes: &[u8], start: u64) -> Option<String> {
    let mut rest = bytes.get(usize::try_from(start).ok()?..)?;
    let mut known: HashSet<String> = HashSet::new();
    while rest.starts_with(MARK) {
        let length = |at: usize| {
            let bytes = rest.get(at..at.checked_add(2)?)?;
            bytes.try_into().ok().map(|bytes| usize::from(u16::from_le_bytes(bytes)))
        };
        let (name, extra, comment) = (length(28)?, length(30)?, length(32)?);
        let end = BEFORE_NAME.checked_add(name)?;
        let name = String::from_utf8_lossy(rest.get(BEFORE_NAME..end)?).replace('\\', "/");
        let folders: Vec<&str> = name.split('/').filter(|folder| !matches!(*folder, "" | ".")).collect();
        if !known.insert(folders.join("/").to_lowercase()) {
            return Some(name.chars().take(TOLD).collect());
        }
        rest = rest.get(end.checked_add(extra)?.checked_add(comment)?..)?;
    }
    None
}

#[cfg(test)]
mod tests {
    use std::io::Cursor;

    use zip::write::SimpleFileOptions;
    use zip::{ZipArchive, ZipWriter};

    use super::borne_twice;

    fn twice(names: [&str; 2]) -> Option<String> {
        let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
        for name in names {
            zip.start_file(name, SimpleFileOptions::default()).unwrap();
        }
        let bytes = zip.finish().unwrap().into_inner();
        let start = ZipArchive::new(Cursor::new(bytes.as_slice())).unwrap().central_directory_start();
        borne_twice(&bytes, start)
    }

    #[test]
    fn one_name_is_one_however_it_is_spelled() {
        for other in ["xl/SHEET1.xml", "xl\\sheet1.xml", "./xl/sheet1.xml", "/xl//./sheet1.xml"] {
            assert_eq!(twice(["xl/sheet1.xml", other]).as_deref(), Some(other.replace('\\', "/").as_str()), "{other}");
        }
        assert_eq!(twice(["xl/sheet1.xml", "xl/sheet11.xml"]), None);
        assert_eq!(twice(["xl/sheet1.xml", "xl/x/sheet1.xml"]), None);
    }
}

//! Files within the page: kitchens to try it with, and empty books to fill in. Books stand unpacked (`build.rs`) and are packed
//! anew when they are asked for.

use std::io::{Cursor, Write};

use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

/// A part's name, where it begins among all of them, and its length.
type Part = (&'static str, usize, usize);

const PARTS: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/books.bin"));
const BOOKS: &[(&str, &[Part])] = include!(concat!(env!("OUT_DIR"), "/books.rs"));
const LISTS: &[(&str, &[u8])] = &[
    ("teaching-kitchen-fernhollow.csv", include_bytes!("../../sample-books/teaching-kitchen-fernhollow.csv")),
    ("metric-kitchen-prices.csv", include_bytes!("../../sample-books/metric-kitchen-prices.csv")),
];

/// A built-in file by its name.
pub fn built(name: &str) -> Option<Vec<u8>> {
    let list = LISTS.iter().find(|(known, _)| *known == name);
    list.map(|(_, bytes)| bytes.to_vec()).or_else(|| packed(BOOKS.iter().find(|(known, _)| *known == name)?.1))
}

/// A book of these parts, as a workbook is packed.
fn packed(parts: &[Part]) -> Option<Vec<u8>> {
    let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .last_modified_time(DateTime::default());
    for (name, start, len) in parts {
        writer.start_file(*name, options).ok()?;
        writer.write_all(PARTS.get(*start..)?.get(..*len)?).ok()?;
    }
    Some(writer.finish().ok()?.into_inner())
}

#[cfg(test)]
mod tests {
    use std::io::Read;

    use zip::ZipArchive;

    use super::*;

    fn parts(book: &[u8]) -> Vec<(String, Vec<u8>)> {
        let mut archive = ZipArchive::new(Cursor::new(book)).unwrap();
        let mut parts = Vec::new();
        for at in 0..archive.len() {
            let mut part = archive.by_index(at).unwrap();
            let mut content = Vec::new();
            part.read_to_end(&mut content).unwrap();
            parts.push((String::from_utf8_lossy(part.name_raw()).into_owned(), content));
        }
        parts
    }

    #[test]
    fn books_are_packed_anew_as_they_are() {
        let files: [(&str, &[u8]); 6] = [
            ("teaching-kitchen.xlsx", include_bytes!("../../sample-books/teaching-kitchen.xlsx")),
            ("metric-kitchen.xlsx", include_bytes!("../../sample-books/metric-kitchen.xlsx")),
            ("us-book.xlsx", include_bytes!("../../templates/us.xlsx")),
            ("metric-book.xlsx", include_bytes!("../../templates/metric.xlsx")),
            ("us-bench-form.xlsx", include_bytes!("../../templates/us-bench.xlsx")),
            ("metric-bench-form.xlsx", include_bytes!("../../templates/metric-bench.xlsx")),
        ];
        assert_eq!(BOOKS.len(), files.len());
        for (name, file) in files {
            assert!(parts(&built(name).unwrap()) == parts(file), "{name}");
        }
        assert!(LISTS.iter().all(|(name, bytes)| built(name).as_deref() == Some(*bytes)));
        assert!(built("nothing.xlsx").is_none());
    }
}

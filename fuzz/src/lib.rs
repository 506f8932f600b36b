//! Books of chance and the laws they are held against.

pub mod book;
pub mod laws;
pub mod ods;
pub mod vocabulary;
pub mod xls;
pub mod xlsx;

/// The bytes of a zip with these parts.
pub(crate) fn zipped(parts: &[(&str, &[u8])]) -> Vec<u8> {
    use std::io::{Cursor, Write};
    use zip::write::{SimpleFileOptions, ZipWriter};
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in parts {
        // Stored: nothing here is about deflate, and fuzzing wants speed.
        let options = SimpleFileOptions::default().compression_method(zip::CompressionMethod::Stored);
        zip.start_file(*name, options).unwrap();
        zip.write_all(bytes).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

/// `text` as it stands in XML, without what XML cannot hold.
pub(crate) fn escaped(text: &str) -> String {
    let allowed =
        |c: &char| matches!(c, '\t' | '\n' | '\r' | ' '..='\u{d7ff}' | '\u{e000}'..='\u{fffd}' | '\u{10000}'..);
    quick_xml::escape::escape(text.chars().filter(allowed).collect::<String>()).into_owned()
}

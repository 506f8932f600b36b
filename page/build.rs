//! Built-in books, unpacked: a page is packed as a whole, and a part that two books have alike is carried once.

use std::collections::HashMap;
use std::env;
use std::error::Error;
use std::fmt::Write;
use std::fs::{self, File};
use std::io::Read;
use std::path::{Path, PathBuf};

use zip::ZipArchive;

const BOOKS: &[(&str, &str)] = &[
    ("teaching-kitchen.xlsx", "sample-books/teaching-kitchen.xlsx"),
    ("metric-kitchen.xlsx", "sample-books/metric-kitchen.xlsx"),
    ("us-book.xlsx", "templates/us.xlsx"),
    ("metric-book.xlsx", "templates/metric.xlsx"),
    ("us-bench-form.xlsx", "templates/us-bench.xlsx"),
    ("metric-bench-form.xlsx", "templates/metric-bench.xlsx"),
];

fn main() -> Result<(), Box<dyn Error>> {
    println!("cargo:rerun-if-changed=build.rs");
    let root = PathBuf::from(env::var("CARGO_MANIFEST_DIR")?).join("..");
    let mut all = Vec::new();
    // Where a part stands whose like was met before.
    let mut places: HashMap<Vec<u8>, usize> = HashMap::new();
    let mut table = "&[\n".to_owned();
    for (name, file) in BOOKS {
        writeln!(table, "({name:?}, &[")?;
        for (part, content) in unpacked(&root.join(file))? {
            let len = content.len();
            let start = *places.entry(content).or_insert_with_key(|content| {
                let start = all.len();
                all.extend(content);
                start
            });
            writeln!(table, "({part:?}, {start}, {len}),")?;
        }
        table.push_str("]),\n");
    }
    table.push_str("]\n");
    let out = PathBuf::from(env::var("OUT_DIR")?);
    fs::write(out.join("books.bin"), all)?;
    fs::write(out.join("books.rs"), table)?;
    Ok(())
}

/// Parts with their names.
type Parts = Vec<(String, Vec<u8>)>;

/// The parts of a book in their order.
fn unpacked(file: &Path) -> Result<Parts, Box<dyn Error>> {
    println!("cargo:rerun-if-changed={}", file.display());
    let mut archive = ZipArchive::new(File::open(file)?)?;
    let mut parts = Vec::new();
    for at in 0..archive.len() {
        let mut part = archive.by_index(at)?;
        let mut content = Vec::new();
        part.read_to_end(&mut content)?;
        parts.push((String::from_utf8_lossy(part.name_raw()).into_owned(), content));
    }
    Ok(parts)
}

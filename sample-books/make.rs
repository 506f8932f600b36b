//! Makes the sample books: `cargo run --example make-sample-books`; with `-- --list` it only says which books they are.
//!
//! Every file is written by a function of its own that takes nothing and gives the file's bytes, the same bytes each
//! time, so that a test can prove that the committed file is what the program makes. `BOOKS` lists them by book.

#![allow(dead_code, reason = "tests include this file for its functions and have no use for main")]

use std::path::Path;

use rust_xlsxwriter::XlsxError;

#[path = "make/messy_kitchen/mod.rs"]
pub mod messy_kitchen;
#[path = "make/metric_kitchen/mod.rs"]
pub mod metric_kitchen;
#[path = "make/pen.rs"]
pub mod pen;
#[path = "make/teaching_kitchen/mod.rs"]
pub mod teaching_kitchen;

/// A function that writes one file.
pub type Maker = fn() -> Result<Vec<u8>, XlsxError>;

/// A sample book: one or more files that are read together.
pub struct Book {
    /// Its name, which its page and its answers bear too.
    pub name: &'static str,
    /// Its files in the order in which they are given, each with the function that makes it.
    pub files: &'static [(&'static str, Maker)],
}

/// Every sample book.
pub const BOOKS: &[Book] = &[
    Book { name: "teaching-kitchen", files: &[("teaching-kitchen.xlsx", teaching_kitchen::book)] },
    Book {
        name: "metric-kitchen",
        files: &[
            ("metric-kitchen-prices.csv", metric_kitchen::prices::list),
            ("metric-kitchen.xlsx", metric_kitchen::book),
        ],
    },
    Book {
        name: "messy-kitchen",
        files: &[
            ("messy-kitchen-supplier.xlsx", messy_kitchen::supplier),
            ("messy-kitchen-recipes.xlsx", messy_kitchen::recipes),
        ],
    },
];

/// What suppliers send beside a sample book: price lists, which are no books.
pub const LISTS: &[(&str, Maker)] = &[
    ("teaching-kitchen-fernhollow.csv", teaching_kitchen::lists::fernhollow),
    ("teaching-kitchen-oxbarrow.xlsx", teaching_kitchen::lists::oxbarrow),
];

/// Every file.
pub fn files() -> impl Iterator<Item = &'static (&'static str, Maker)> {
    BOOKS.iter().flat_map(|book| book.files).chain(LISTS)
}

/// Writes every file, or with `--list` only says which files make which book, a line for each: name, then files.
fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-books");
    if std::env::args().nth(1).is_some_and(|asked| asked == "--list") {
        for book in BOOKS {
            let files: Vec<String> = book.files.iter().map(|(file, _)| format!("sample-books/{file}")).collect();
            println!("{}\t{}", book.name, files.join("\t"));
        }
        return Ok(());
    }
    for (file, make) in files() {
        std::fs::write(folder.join(file), make()?)?;
        println!("sample-books/{file}");
    }
    Ok(())
}

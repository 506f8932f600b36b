//! Makes the sample books: `cargo run --example make-sample-books`.
//!
//! Every book is written by a function of its own that takes nothing and gives the file's bytes, the same bytes each
//! time, so that a test can prove that the committed file is what the program makes. `BOOKS` lists them by file name.

#![allow(dead_code, reason = "tests include this file for its functions and have no use for main")]

use std::path::Path;

use rust_xlsxwriter::XlsxError;

#[path = "make/pen.rs"]
pub mod pen;
#[path = "make/teaching_kitchen/mod.rs"]
pub mod teaching_kitchen;

/// A function that writes one book.
pub type Maker = fn() -> Result<Vec<u8>, XlsxError>;

/// The file name of every sample book beside the function that makes it.
pub const BOOKS: &[(&str, Maker)] = &[("teaching-kitchen.xlsx", teaching_kitchen::book)];

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-books");
    for (name, make) in BOOKS {
        std::fs::write(folder.join(name), make()?)?;
        println!("sample-books/{name}");
    }
    Ok(())
}

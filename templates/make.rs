//! Makes the templates: `cargo run --example make-templates`.
//!
//! Every file is written by a function that takes nothing and gives the file's bytes, the same bytes each time, so that
//! a test can prove that the committed file is what the program makes. `parings new` hands the committed files out.

#![allow(dead_code, reason = "tests include this file for its functions and have no use for main")]

use std::path::Path;

use rust_xlsxwriter::XlsxError;

#[path = "make/bench.rs"]
pub mod bench;
#[path = "make/book.rs"]
pub mod book;
#[path = "make/card.rs"]
pub mod card;
#[path = "make/choices.rs"]
pub mod choices;
#[path = "make/columns.rs"]
pub mod columns;
#[path = "make/example_metric.rs"]
pub mod example_metric;
#[path = "make/example_us.rs"]
pub mod example_us;
#[path = "make/form.rs"]
pub mod form;
#[path = "make/guide.rs"]
pub mod guide;
#[allow(clippy::duplicate_mod, reason = "the tests include both programs, and each has its pen")]
#[path = "../sample-books/make/pen.rs"]
pub mod pen;
#[path = "make/region.rs"]
pub mod region;
#[path = "make/rules.rs"]
pub mod rules;

use region::Region;

/// A function that writes one file.
pub type Maker = fn() -> Result<Vec<u8>, XlsxError>;

/// Every template, by its file's name.
pub const TEMPLATES: &[(&str, Maker)] = &[
    ("us.xlsx", || book::book(Region::Us, true)),
    ("us-plain.xlsx", || book::book(Region::Us, false)),
    ("us-bench.xlsx", || bench::form(Region::Us)),
    ("metric.xlsx", || book::book(Region::Metric, true)),
    ("metric-plain.xlsx", || book::book(Region::Metric, false)),
    ("metric-bench.xlsx", || bench::form(Region::Metric)),
];

/// Writes every file.
fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("templates");
    for (file, make) in TEMPLATES {
        std::fs::write(folder.join(file), make()?)?;
        println!("templates/{file}");
    }
    Ok(())
}

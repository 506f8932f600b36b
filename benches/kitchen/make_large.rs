//! Writes the large invented kitchen of the benches as a book: `make-large-kitchen FILE.xlsx [RECIPES]`.
//!
//! `.ci/libreoffice-check` lets an independent spreadsheet program open and recalculate what it costs to.

#[path = "mod.rs"]
mod kitchen;

use kitchen::{Size, book};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut arguments = std::env::args().skip(1);
    let file = arguments.next().ok_or("name the file to write")?;
    let recipes = arguments.next().map_or(Ok(10_000), |number| number.parse())?;
    let size = Size { prices: recipes * 2, recipes, lines: 20, tests: recipes / 50, borrowing: 0, cards: false };
    std::fs::write(file, book(size)?)?;
    Ok(())
}

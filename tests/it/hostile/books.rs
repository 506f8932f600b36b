//! Books that are hostile by their size or their words, as csv text, and parts packed as a zip.

use std::io::{Cursor, Write};

use zip::ZipWriter;
use zip::write::SimpleFileOptions;

/// Parts as a zip, packed.
pub fn packed(parts: &[(String, Vec<u8>)]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in parts {
        zip.start_file(name, SimpleFileOptions::default()).unwrap();
        zip.write_all(bytes).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

/// Names that a terminal would obey.
pub fn steering() -> String {
    "Item,Pack,Price\nA\u{1b}]0;b\u{7}\u{9b}2J\u{202e},1 lb,x\u{1b}[31m\n".to_owned()
}

fn wanting(rows: impl Iterator<Item = String>, wanted: impl Iterator<Item = String>) -> String {
    let rows: String = rows.map(|name| format!("{name},1 lb,$1\n")).collect();
    let lines: String = wanted.map(|name| format!("{name},1,lb\n")).collect();
    format!("Item,Pack,Price\n{rows}\nRecipe,Soup\nPortions,4\nIngredient,Qty,Unit\n{lines}")
}

/// Recipe lines that name `unknown` items which are not among `known` others, all of so many letters.
pub fn long_names(unknown: usize, known: usize, letters: usize) -> String {
    let name = |letter: &str, n: usize| format!("{}{n}", letter.repeat(letters));
    wanting((0..known).map(|n| name("x", n)), (0..unknown).map(|n| name("y", n)))
}

/// The same with names as kitchens have them.
pub fn unknown_names(unknown: usize, known: usize) -> String {
    let words = ["leek", "carrot", "celery", "shallot", "fennel", "turnip", "parsnip", "chard"];
    let name = |n: usize| format!("{} of field {n}, {}", words[n % 8], words[n / 8 % 8]);
    wanting((0..known).map(name), (0..unknown).map(|n| format!("{} from hill {n}", words[n % 8])))
}

fn recipes(count: usize, within: impl Fn(usize) -> Option<usize>) -> String {
    let facts: String = (0..count).map(|n| format!("R{n},4\n")).collect();
    let lines: String = (0..count)
        .map(|n| match within(n) {
            // All of its four portions: what it costs stays.
            Some(of) => format!("R{n},R{of},4,portion\n"),
            None => format!("R{n},Onions,1,lb\n"),
        })
        .collect();
    format!("Item,Pack,Price\nOnions,1 lb,$1\n\nRecipe,Portions\n{facts}\nRecipe,Ingredient,Qty,Unit\n{lines}")
}

/// Recipes each of which is within the next, and the last within the first.
pub fn circle(count: usize) -> String {
    recipes(count, |n| Some((n + 1) % count))
}

/// Recipes each of which is within the next.
pub fn chain(count: usize) -> String {
    recipes(count, |n| n.checked_sub(1))
}

/// Price rows whose prices are none.
pub fn broken_prices(count: usize) -> String {
    let rows: String = (0..count).map(|n| format!("Item {n},1 lb,x{n}\n")).collect();
    format!("Item,Pack,Price\n{rows}")
}

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

/// Tables of prices side by side, each of so many rows.
pub fn side_by_side(tables: usize, rows: usize) -> String {
    let line = |cell: &dyn Fn(usize) -> String| (0..tables).map(cell).collect::<Vec<_>>().join(",,") + "\n";
    let header = line(&|_| "Item,Pack,Price".to_owned());
    let rows: String = (0..rows).map(|row| line(&|table| format!("Item {row} of {table},1 lb,$1"))).collect();
    format!("{header}{rows}")
}

/// Recipes as people type them, side by side, each of so many lines.
pub fn cards_side_by_side(cards: usize, lines: usize) -> String {
    let line = |cell: &dyn Fn(usize) -> String| (0..cards).map(cell).collect::<Vec<_>>().join(",,,") + "\n";
    let (names, yields) = (line(&|card| format!("Soup {card}")), line(&|_| "Serves 4".to_owned()));
    let lines: String = (1..=lines).map(|row| line(&|card| format!("{row} lb leeks of {card}"))).collect();
    format!("{names}{yields}{lines}")
}

/// A card of these lines, behind a price row for leeks.
fn leeks(lines: impl Iterator<Item = String>) -> String {
    let lines: String = lines.collect();
    format!("Item,Pack,Price\nLeeks,1 lb,$1\n\nRecipe,Soup\nPortions,4\nIngredient,Qty,Unit\n{lines}")
}

/// Weights of one cup, no two alike, and as many lines that measure by it.
pub fn weights_of_one_cup(count: usize) -> String {
    let weights: String = (1..=count).map(|grams| format!("Leeks,cup,{grams} g\n")).collect();
    format!("{}\nItem,Measure,Weighs\n{weights}", leeks((1..=count).map(|cups| format!("Leeks,{cups},cup\n"))))
}

/// Measures of names of its own that one item has, and as many lines that use them.
pub fn measures_of_one_item(count: usize) -> String {
    let weights: String = (1..=count).map(|n| format!("Leeks,box {n},{n} g\n")).collect();
    format!("{}\nItem,Measure,Weighs\n{weights}", leeks((1..=count).map(|n| format!("Leeks,1,box {n}\n"))))
}

/// Preparations that one cup is weighed for, and as many lines that ask for none of them.
pub fn preparations_of_one_cup(count: usize) -> String {
    let weights: String = (1..=count).map(|n| format!("Leeks,\"cup, cut {n}\",{n} g\n")).collect();
    format!("{}\nItem,Measure,Weighs\n{weights}", leeks((1..=count).map(|n| format!("Leeks,{n},cup\n"))))
}

/// A zip in which the part called `other` is called `name` too; both are as long.
pub fn twins(bytes: Vec<u8>, other: &str, name: &str) -> Vec<u8> {
    assert_eq!(other.len(), name.len());
    let mut bytes = bytes;
    let at: Vec<usize> =
        (0..bytes.len() - other.len()).filter(|at| bytes[*at..].starts_with(other.as_bytes())).collect();
    for at in at {
        bytes[at..at + name.len()].copy_from_slice(name.as_bytes());
    }
    bytes
}

/// Yield tests that make one part, and as many lines that use it.
pub fn tests_of_one_part(count: usize) -> String {
    let test = |n| format!("T{n},as purchased,Leeks,10,lb\nT{n},main,Rounds,8,lb\n");
    let tests: String = (0..count).map(test).collect();
    let lines = (1..=count).map(|pounds| format!("Rounds,{pounds},lb\n"));
    format!("{}\nTest,Role,Part,Weight,Unit\n{tests}", leeks(lines))
}

/// Quantities, units, measures and packs of so many letters.
pub fn long_amounts(count: usize, letters: usize) -> String {
    let long = |part: &str| part.repeat(letters / part.len());
    let lines = (0..count).flat_map(|_| {
        [
            format!("Leeks,{},\n", long("1 lb ")),
            format!("Leeks,{}1,lb\n", long("1/")),
            format!("Leeks,1,{}\n", long("lb ")),
        ]
    });
    let measures: String = (0..count).map(|n| format!("Leeks,{}{n},{}\n", long("cup "), long("1 lb "))).collect();
    let packs: String = (0..count).map(|n| format!("Item {n},{}1 lb,${}\n", long("12 x "), long("9"))).collect();
    let card = leeks(lines);
    format!("{card}\nItem,Measure,Weighs\n{measures}\nItem,Pack,Price\n{packs}")
}

/// Price rows whose prices are none.
pub fn broken_prices(count: usize) -> String {
    let rows: String = (0..count).map(|n| format!("Item {n},1 lb,x{n}\n")).collect();
    format!("Item,Pack,Price\n{rows}")
}

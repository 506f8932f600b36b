//! Recipe books as kitchens type them, with their prices where they have any, and what is typed round by round.

use super::cook::Typed;
use super::{Answer, Sheets, asked, assert_asked, read, told};

/// The files of each book, and what is typed in each round besides names, prices and measures. The sums of the bakery
/// are formulas, which a csv file does not have.
const STORIES: &[(&[&str], &[&[Answer]])] = &[
    (&["bakery.xlsx"], &[&[("prices", "B17", "125 g"), ("doughs", "B11", ""), ("doughs", "B22", "")]]),
    (&["bistro.csv"], &[]),
    (
        &["cake-cards.csv"],
        &[
            &[("cake-cards", "F5", "4 each"), ("cake-cards", "F24", "2"), ("cake-cards", "F25", "to taste")],
            &[("cake-cards", "B31", "1 batch"), ("cake-cards", "B33", "1/2 batch")],
        ],
    ),
    (&["catering.xlsx"], &[&[("salads", "A5", "11"), ("salads", "B5", "oz")]]),
    (
        &["church-supper.xls"],
        &[&[
            ("Supper", "B4", "to taste"),
            ("Supper", "B29", "1/2"),
            ("Supper", "B35", "eight sticks"),
            ("Supper", "A35", "Butter"),
            ("Supper", "B40", "1 tsp"),
            ("Supper", "B41", "two cups"),
        ]],
    ),
    (
        &["curry-house.xlsx"],
        &[
            &[
                ("what we pay", "+1", ""),
                ("what we pay", "A1", "Item"),
                ("what we pay", "B1", "Unit"),
                ("what we pay", "C1", "Price"),
                ("curries", "A22", "10 bay leaves"),
            ],
            &[("what we pay", "B17", "1 lb")],
        ],
    ),
    (&["diner.xlsx"], &[&[], &[("Blue Plate", "A5", "1"), ("Blue Plate", "B5", "portion")]]),
    (
        &["fish-counter.csv", "fish-counter-prices.csv"],
        &[&[
            ("fish-counter", "B7", "2 each"),
            ("fish-counter", "B24", "4 each"),
            ("fish-counter", "B37", "1 each"),
            ("fish-counter", "B46", "3 each"),
            ("fish-counter", "B59", "3 each"),
            ("fish-counter", "B23", "2 oz"),
            ("fish-counter", "B70", "2 #"),
        ]],
    ),
    (
        &["juice-bar.ods"],
        &[&[
            ("prices", "A1", "Item"),
            ("prices", "B1", "Unit"),
            ("prices", "C1", "Price"),
            ("recipes", "B30", "12"),
            ("recipes", "B39", "4"),
        ]],
    ),
    (&["smokehouse.xlsx"], &[&[("Sheet1", "B43", "3")]]),
    (
        &["soup-binder.csv"],
        &[&[("soup-binder", "A24", "2 qt vegetable stock"), ("soup-binder", "A44", "3 carrots, diced")]],
    ),
    (
        &["taco-window.csv", "taco-window-prices.csv"],
        &[&[
            ("taco-window", "B10", "ea"),
            ("taco-window-prices", "B15", "50 lb"),
            ("taco-window-prices", "B21", "10 ct 7 oz in all"),
        ]],
    ),
];

/// The rounds of every book.
pub fn count() -> Vec<(String, usize)> {
    let (counted, stuck): (Vec<_>, Vec<_>) = STORIES
        .iter()
        .map(|(files, rounds)| (files[0].to_owned(), rounds_of(files, rounds)))
        .partition(|(_, one)| one.is_ok());
    let stuck: Vec<String> = stuck.into_iter().filter_map(|(_, one)| one.err()).collect();
    assert!(stuck.is_empty(), "{}", stuck.join("\n"));
    counted.into_iter().map(|(name, one)| (name, one.unwrap())).collect()
}

/// How many rounds it takes; what is asked again and again where it does not end.
fn rounds_of(names: &[&str], rounds: &[&[Answer]]) -> Result<usize, String> {
    /// More than this is no way to get a book read.
    const MOST: usize = 4;
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/recipe-files");
    let bytes: Vec<(&str, Vec<u8>)> =
        names.iter().map(|name| (*name, std::fs::read(folder.join(name)).unwrap())).collect();
    let mut sheets = Sheets::of(&bytes);
    let mut files: Vec<(String, Vec<u8>)> = bytes.into_iter().map(|(name, bytes)| (name.to_owned(), bytes)).collect();
    let mut typed = Typed::beside(&sheets);
    for round in 0..MOST {
        let (reading, costing) = read(&files, crate::support::options());
        let asked = asked(&reading, &costing);
        if asked.is_empty() {
            return Ok(round);
        }
        let by_hand = rounds.get(round).copied().unwrap_or_default();
        let is_new = typed.answer(&asked, &reading);
        if !is_new && by_hand.is_empty() {
            return Err(format!("{names:?}: in a circle in round {}\n{}", round + 1, told(&asked)));
        }
        for (sheet, cell, text) in by_hand {
            assert_asked(&asked, &(sheet, cell, text));
            sheets.answer(sheet, cell, text);
        }
        files = sheets.files();
        files.push(typed.file());
    }
    Err(format!("{names:?}: more than {MOST} rounds"))
}

//! Suppliers' files, and what is typed into them round by round.

use jiff::civil::date;
use parings::Options;

use super::{Answer, Sheets, asked, assert_asked, read, told};

/// What is typed in each round. A blank sheet name is the file's only sheet.
const STORIES: &[(&str, &[&[Answer]])] = &[
    (
        "bakery-quote.xls",
        &[
            &[
                ("Quote", "C7", "8 x 32 oz"),
                ("Quote", "C12", "4 ct"),
                ("Quote", "C14", "64 ct"),
                ("Quote", "C37", "0.25 lb"),
                ("Quote", "D39", "22.50"),
                ("Quote", "C40", "1 lb"),
                ("Quote", "C43", "100 ct"),
            ],
            // EACH is the pack of four.
            &[("Quote", "D12", "5.40")],
        ],
    ),
    (
        "broadline-invoice.csv",
        &[&[
            ("", "C12", "12/32 fl oz"),
            ("", "C13", "32 fl oz"),
            ("", "C50", "1 gal"),
            ("", "C58", "1 x 3 gal"),
            ("", "C64", "6/32 fl oz"),
        ]],
    ),
    (
        "cash-carry.ods",
        &[&[
            ("Trade prices", "F15", ""),
            ("Trade prices", "F23", ""),
            ("Trade prices", "D33", "1 kg"),
            ("Trade prices", "E35", "0.99"),
            ("Trade prices", "C35", "1"),
            ("Trade prices", "E36", "5.50"),
            ("Trade prices", "F44", ""),
            ("Trade prices", "D45", "1 each"),
        ]],
    ),
    ("dairy-list.xls", &[]),
    (
        "dry-goods.csv",
        &[&[
            ("", "D28", "6/#10"),
            ("", "D29", "6/#10"),
            ("", "D32", "2/5 kg"),
            ("", "D45", "4/1 gal"),
            ("", "D49", "16/250 ct"),
            ("", "D50", "6/96 fl oz"),
            ("", "D51", "1000 ct"),
            ("", "D52", "1000 ct"),
        ]],
    ),
    ("farm-list.xlsx", &[FARM]),
    (
        "fish-eur.csv",
        &[&[
            ("", "G15", "kg"),
            ("", "F17", "29,50"),
            ("", "E27", "1 each"),
            ("", "E35", "10 x 800 g"),
            ("", "B36", "Vannamei prawns"),
            ("", "E36", "10 x 800 g"),
            ("", "E41", "125 g"),
        ]],
    ),
    ("meat-packer.xlsx", &[MEAT, &[(BEEF, "E43", "4.20")]]),
    ("pdf-lines.csv", &[PRINTED]),
    (
        "produce-weekly.xlsx",
        &[&[
            ("WK48", "E13", "38.00"),
            ("WK48", "E22", "19.50"),
            ("WK48", "C23", "33 lb"),
            ("WK48", "C26", "20 lb"),
            ("WK48", "C27", "48 ct"),
            ("WK48", "C28", "25 lb"),
            ("WK48", "C36", "30 ct"),
            ("WK48", "E37", "39.00"),
            ("WK48", "C48", "20 lb"),
            ("WK48", "E50", "16.00"),
        ]],
    ),
    ("quantity-breaks.csv", &[&[("", "D29", "6/101 fl oz"), ("", "D32", "10/56 oz wt")]]),
    ("specialty-imports.ods", &[&[("Order conf", "C25", "1 gal"), ("Order conf", "C42", "48 ct")]]),
    ("two-prices.xlsx", &[&[("Price List", "D12", "2 x 3 lb"), ("Price List", "G20", ""), ("Price List", "F37", "")]]),
];

const BEEF: &str = "BOXED BEEF & PORK";

/// What *Per* says in every row with a price.
const MEAT: &[Answer] = &[
    (BEEF, "G5", "Per"),
    (BEEF, "G7", "cwt"),
    (BEEF, "G8", "cwt"),
    (BEEF, "G9", "cwt"),
    (BEEF, "G10", "cwt"),
    (BEEF, "G11", "cwt"),
    (BEEF, "G12", "cwt"),
    (BEEF, "G13", "lb"),
    (BEEF, "G14", "lb"),
    (BEEF, "G15", "cwt"),
    (BEEF, "G16", "cwt"),
    (BEEF, "G17", "cwt"),
    (BEEF, "G18", "cwt"),
    (BEEF, "G19", "cwt"),
    (BEEF, "G20", "lb"),
    (BEEF, "G21", "cwt"),
    (BEEF, "G22", "cwt"),
    (BEEF, "G23", "cwt"),
    (BEEF, "G25", "cwt"),
    (BEEF, "G26", "10 lb"),
    (BEEF, "G27", "lb"),
    (BEEF, "G28", "each"),
    (BEEF, "G30", "cwt"),
    (BEEF, "G31", "cwt"),
    (BEEF, "G32", "cwt"),
    (BEEF, "G33", "cwt"),
    (BEEF, "G34", "cwt"),
    (BEEF, "G35", "cwt"),
    (BEEF, "G36", "cwt"),
    (BEEF, "G37", "cwt"),
    (BEEF, "G38", "cwt"),
    (BEEF, "G40", "10 lb"),
    (BEEF, "G41", "lb"),
    (BEEF, "G42", "50 lb"),
    (BEEF, "G43", "lb"),
    (BEEF, "G44", "10 lb"),
];

/// What a kitchen buys from the farm, in a table of its own in place of the lines.
const FARM: &[Answer] = &[(
    "Sheet1",
    "=",
    "Item,Pack,Price\n\
     carrots bunched,,2.50/ea\n\
     carrots loose no tops,,1.40/lb\n\
     radish (easter),,2.00/bunch\n\
     leeks,,3.25/lb\n\
     potatoes yellow,50 lb,48.00\n\
     spinach,,8.00/lb\n\
     salad mix,3 lb,$27\n\
     cabbage green,,1.10/lb\n\
     brussel sprouts on stalk,,4.50/ea\n\
     eggs mixed large,,6.50/doz\n\
     duck eggs,6 ct,5.50\n\
     bay leaf fresh,4 oz,6.00\n\
     lard,1 pt,7.00",
)];

/// What a kitchen buys by the printed page, in a table of its own.
const PRINTED: &[Answer] = &[("", "=", "Item,Pack,Price\nChicken breast,4/10 lb,95.60\nEggs large,30 dz,88.50")];

/// The rounds of every file.
pub fn count() -> Vec<(String, usize)> {
    STORIES.iter().map(|(name, rounds)| ((*name).to_owned(), rounds_of(name, rounds))).collect()
}

fn rounds_of(name: &str, rounds: &[&[Answer]]) -> usize {
    // The files speak of prices from 23 November on.
    let options = || Options::on(date(2026, 11, 25));
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/suppliers").join(name);
    let bytes = std::fs::read(path).unwrap();
    let mut sheets = Sheets::of(&[(name, bytes.clone())]);
    let mut files = vec![(name.to_owned(), bytes)];
    for (at, answers) in rounds.iter().enumerate() {
        let (reading, costing) = read(&files, options());
        let asked = asked(&reading, &costing);
        assert!(!asked.is_empty(), "{name}: nothing is asked in round {}", at + 1);
        for (sheet, cell, text) in *answers {
            assert_asked(&asked, &(sheet, cell, text));
            let sheet = if sheet.is_empty() { name.split('.').next().unwrap() } else { sheet };
            sheets.answer(sheet, cell, text);
        }
        files = sheets.files();
    }
    let (reading, costing) = read(&files, options());
    let left = asked(&reading, &costing);
    assert!(left.is_empty(), "{name}, after {} rounds:\n{}", rounds.len(), told(&left));
    rounds.len()
}

//! Kitchen cards: each recipe on a page for the wall, read off the cards that cost it, with no money on it.

use std::io::{Cursor, Read};

use calamine::{Data, Reader, Xlsx};

use crate::recalc::{Value, with_changes};
use crate::workbook::{costed, teaching_workbook};

const SHEET: &str = "Kitchen cards";

/// The cells of a sheet as text, row by row.
fn rows(workbook: &[u8], sheet: &str) -> Vec<Vec<String>> {
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(workbook)).unwrap();
    let range = book.worksheet_range(sheet).unwrap();
    let text = |cell: &Data| cell.to_string();
    range.rows().map(|row| row.iter().map(text).collect()).collect()
}

/// The first five columns of the rows of one recipe's card, blank ones left out.
fn card(rows: &[Vec<String>], name: &str) -> Vec<String> {
    let from = rows.iter().position(|row| row[0] == name).unwrap_or_else(|| panic!("no {name}"));
    let end = rows.iter().skip(from + 1).position(|row| row[4] == "To its costing");
    let end = end.map_or(rows.len(), |after| from + 1 + after);
    let told = |row: &Vec<String>| {
        let cells: Vec<&str> = row[..4].iter().map(|cell| cell.trim()).filter(|cell| !cell.is_empty()).collect();
        cells.join(" | ")
    };
    rows[from..end].iter().map(told).filter(|row| !row.is_empty()).collect()
}

#[test]
fn a_recipe_stands_as_a_cook_reads_it() {
    let written = teaching_workbook();
    let rows = rows(&written, SHEET);
    assert!(rows[0][0].starts_with("Figured by parings"), "{:?}", rows[0]);
    // As typed on its card in the sample; the method's sentences are parted by semicolons. Shells and heads are by-products
    // that keep for two days by the sample's yield tests.
    let told = card(&rows, "Shrimp shell stock");
    let begins = [
        "Shrimp shell stock",
        "Makes | 8 qt",
        "Note | Crustaceans pass into the stock and into all that is made of it.",
        "Qty | Unit | Ingredient | How",
        "2 | lb | Shrimp shells",
        "4 | lb | Shrimp heads",
    ];
    assert_eq!(told[..begins.len()], begins);
    for row in [
        "12 | oz | Fennel | trimmed; keep the fronds",
        "as needed | Bay leaves",
        "Method",
        "1. | Roast shells and heads in the oil",
        "4. | strain.",
        "Contains | Crustaceans, Celery, Sulfites",
        "May contain | Fish, Molluscs",
        "Shrimp shells | 2 days, the day it is made is the first",
        "Hold it cold, at 41 °F (5 °C) or below.",
    ] {
        assert!(told.iter().any(|known| known == row), "{row} is not among {told:#?}");
    }
    // Of bought things alone, without a method: room to write one, and nothing on trim.
    let told = card(&rows, "Honey mustard dressing");
    assert_eq!(told.last().unwrap(), "May contain | none stated");
    assert!(!told.iter().any(|row| row.contains("Trim")), "{told:#?}");
}

#[test]
fn kitchen_cards_follow_the_cards() {
    let written = teaching_workbook();
    let card = rows(&written, "Shrimp shell stock");
    let line = card.iter().position(|row| row[0] == "Shrimp shells").unwrap() + 1;
    let cell = format!("B{line}");
    let at = rows(&written, SHEET).iter().position(|row| row[2] == "Shrimp shells").unwrap() + 1;
    let changed = with_changes(&written, &[("Shrimp shell stock", &cell, 5.0)]);
    assert_eq!(changed.value(SHEET, &format!("A{at}")), Value::Number(5.0));
    assert_eq!(changed.value(SHEET, &format!("C{at}")), Value::Text("Shrimp shells".to_owned()));
}

#[test]
fn every_card_leads_to_its_kitchen_card_and_back() {
    let written = teaching_workbook();
    let rows = rows(&written, SHEET);
    let mut archive = zip::ZipArchive::new(Cursor::new(written.as_slice())).unwrap();
    let mut led = 0;
    for index in 0..archive.len() {
        let mut part = archive.by_index(index).unwrap();
        let mut text = String::new();
        if part.read_to_string(&mut text).is_err() || !text.contains("<c r=\"A1\"") {
            continue;
        }
        let target = "location=\"'Kitchen cards'!A";
        for link in text.split(target).skip(1) {
            let row: usize = link.split('"').next().unwrap().parse().unwrap();
            // The contents of the Summary lead to the first row.
            if row > 1 {
                led += 1;
                assert_eq!(rows[row - 1][4], "To its costing", "row {row}: {:?}", rows[row - 1]);
            }
        }
    }
    assert_eq!(led, 11);
}

#[test]
fn no_money_stands_on_them_and_their_letters_are_large() {
    let written = teaching_workbook();
    let rows = rows(&written, SHEET);
    for text in rows.iter().skip(1).flat_map(|row| &row[..4]) {
        assert!(!text.contains('$') && !text.contains(" cost"), "{text}");
    }
    // Above 200 recipes there are no cards, and none for the wall.
    let many = costed("many.csv", crate::print::long_names(201).as_bytes()).2;
    let book: Xlsx<_> = Xlsx::new(Cursor::new(many.as_slice())).unwrap();
    assert!(!book.sheet_names().iter().any(|name| name == SHEET));
}

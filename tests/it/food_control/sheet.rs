//! The sheet Food cost: recalculated by another engine, before and after what was typed is changed.

use std::io::Cursor;

use calamine::{Reader, Xlsx};

use super::counts::HAKE;
use super::{EIGHT, eight};
use crate::menu_mix::plates;
use crate::recalc::{Sheets, Value, assert_recalculates, with_changes};
use crate::workbook::costed;

const SHEET: &str = "Food cost";

#[track_caller]
fn row_of(sheets: &Sheets, name: &str, nth: usize) -> u32 {
    let is = |row: &u32| matches!(sheets.value(SHEET, &format!("A{row}")), Value::Text(text) if text == name);
    (1..80).filter(is).nth(nth).unwrap_or_else(|| panic!("no {name} on {SHEET}"))
}

#[track_caller]
pub fn says(sheets: &Sheets, name: &str, nth: usize, column: &str, expected: f64) {
    let found = sheets.number(SHEET, &format!("{column}{}", row_of(sheets, name, nth)));
    assert!((found - expected).abs() < 1e-9, "{column} of {name}: {found}, not {expected}");
}

/// As printed, see `eight_dishes_against_their_inventories`: 19,513.25 less 17,834.75 is 1,678.50, of which 428.50 of waste. With
/// 1,000.00 less in the closing stock a thousand more was used, of 57,680.30.
#[test]
fn the_way_to_the_gap_is_live() {
    let (_, _, written) = costed("book.csv", eight(",Waste", ",428.50").as_bytes());
    assert_recalculates(&written, "control.xlsx");
    let sheets = Sheets::open(&written);
    says(&sheets, "Cost of food sold", 0, "B", 19_513.25);
    says(&sheets, "Standard cost", 0, "B", 17_834.75);
    says(&sheets, "Actual less standard", 1, "B", 1_678.50);
    says(&sheets, "of it unexplained", 0, "B", 1_250.0);
    let closing = ["B2", "C2", "D2", "E2"].into_iter();
    let closing = closing.filter(|cell| sheets.value("Control", cell) == Value::Number(6852.65)).collect::<Vec<_>>();
    let less = with_changes(&written, &[("Control", closing[0], 5852.65)]);
    says(&less, "Cost of food sold", 0, "B", 20_513.25);
    says(&less, "Actual less standard", 1, "B", 2_678.50);
    says(&less, "Actual less standard", 1, "C", 2_678.50 / 57_680.30);
    assert!(less.errors().is_empty(), "{:?}", less.errors());
}

/// What was counted stands as costed, see `trim_in_the_freezer_is_worth_its_charge_on_both_days`; a book without a control table
/// and counts has no such sheet.
#[test]
fn what_was_counted_stands_below() {
    let (_, _, written) = costed("book.csv", HAKE.as_bytes());
    assert_recalculates(&written, "control.xlsx");
    let sheets = Sheets::open(&written);
    for (name, nth, money) in [("Hake", 0, [4.8, -4.0, 0.0, 8.8]), ("Bones", 0, [0.04, -0.4, 0.0, 0.44])] {
        for (column, expected) in ["E", "F", "G", "H"].into_iter().zip(money) {
            says(&sheets, name, nth, column, expected);
        }
    }
    // Blank in the control table, and of the counts: 20 + 4.
    says(&sheets, "Opening", 0, "B", 24.0);
    let (_, _, none) = costed("book.csv", plates(&EIGHT).as_bytes());
    let names = Xlsx::new(Cursor::new(none)).unwrap().sheet_names();
    assert!(!names.contains(&SHEET.to_owned()), "{names:?}");
}

/// A count or a price typed over, and a row put in or cleared: what came of the counts asks to be costed again.
#[test]
fn what_was_counted_stands_as_long_as_the_counts_do() {
    let (_, _, written) = costed("book.csv", HAKE.as_bytes());
    let sheets = Sheets::open(&written);
    let opening = format!("B{}", row_of(&sheets, "Opening", 0));
    let gap = format!("E{}", row_of(&sheets, "Hake", 0));
    let again = Value::Text("cost again".to_owned());
    let number_on = |sheet: &str| {
        let cells = (2..9).flat_map(|row| ["B", "C", "D", "E"].map(|column| format!("{column}{row}")));
        cells.into_iter().find(|cell| matches!(sheets.value(sheet, cell), Value::Number(_))).unwrap()
    };
    let below = (2..9).map(|row| format!("A{row}")).find(|cell| sheets.value("Counts", cell) == Value::Empty).unwrap();
    for (sheet, cell, typed) in [
        ("Counts", number_on("Counts"), "77"),
        ("Counts", number_on("Counts"), ""),
        ("Counts", below, "Skate"),
        ("Prices", number_on("Prices"), "99.5"),
    ] {
        let mut edited = Sheets::open(&written);
        edited.type_text(sheet, &cell, typed);
        for figure in [&opening, &gap] {
            assert_eq!(edited.value(SHEET, figure), again, "{sheet} {cell} {typed}: {figure}");
        }
        assert!(edited.errors().is_empty(), "{:?}", edited.errors());
    }
}

//! The sheet What changed: live, right, and passed over when the workbook is read again.

use jiff::civil::date;
use parings::{ListOptions, Options, Repriced, Source, read, reprice, write, write_repriced};

use crate::recalc::{Sheets, Value, assert_recalculates, with_changes};

const KITCHEN: &str = "\
Setting,Value
Costing date,2026-11-20
Target food cost,30%

Item,Pack,Price,Supplier,Code,Date
Onions,50 lb,$25.00,Hill Farm,H1,2026-11-01
Prawns,10 lb,$60.00,Quay,Q1,2026-11-01
Butter,36/1 lb,$108.00,Dale Dairy,D1,2026-11-01
Butter,36/1 lb,$100.00,Quay,Q2,2026-10-01

Test,Role,Part,Weight,Charged as,Value
Peeling,as purchased,Prawns,10 lb,,
Peeling,main,Tails,5 lb,,
Peeling,by-product,Shells,2 lb,fraction,20%

Recipe,Shell stock
Makes,4 qt
Ingredient,Qty,Unit
Shells,2,lb
Onions,2,lb

Recipe,Prawn soup
Portions,8
Menu price,$4.50
Ingredient,Qty,Unit
Shell stock,4,qt
Tails,2,lb
Butter,1,lb

Dish,Portions
Prawn soup,80
";

const LIST: &str = "\
Code,Item,Pack,Price,Supplier,Date
H1,Onions,40 lb,$25.00,Hill Farm,2026-11-19
Q1,Prawns,10 lb,$66.00,Quay,2026-11-19
";

const STAMP: jiff::civil::DateTime = date(2026, 11, 20).at(9, 0, 0, 0);

fn repriced() -> Repriced {
    let options = Options::on(date(2026, 11, 20));
    let reading = read(&[Source { name: "book.csv", bytes: KITCHEN.as_bytes() }], options).unwrap();
    let lists = [Source { name: "new.csv", bytes: LIST.as_bytes() }];
    reprice(reading, &lists, &ListOptions::default(), false).unwrap()
}

#[test]
fn the_sheet_recalculates_to_what_was_worked_by_hand() {
    let repriced = repriced();
    let written = write_repriced(&repriced, STAMP).unwrap();
    assert_recalculates(&written, "repriced.xlsx");
    let sheets = Sheets::open(&written);
    assert_eq!(sheets.errors(), Vec::<String>::new());
    let text = |cell: &str| match sheets.value("What changed", cell) {
        Value::Text(text) => text,
        other => panic!("{cell} holds {other}"),
    };
    assert!(text("A1").starts_with("Figured by parings"));
    let row_of = |name: &str, from: u32| {
        (from..from + 80)
            .find(|row| matches!(sheets.value("What changed", &format!("A{row}")), Value::Text(text) if text == name))
    };
    let near = |cell: String, expected: f64| {
        let found = sheets.number("What changed", &cell);
        assert!((found - expected).abs() < 1e-9, "{cell}: {found}, not {expected}");
    };
    // Prawns 6.00 to 6.60 a pound. Shells 20 % of it: 1.20 to 1.32; tails (60 − 2.40) ÷ 5 = 11.52 to 12.672.
    // The soup's batch: stock 2 × 1.20 + 2 × 0.50 = 3.40 to 2 × 1.32 + 2 × 0.625 = 3.89; tails 23.04 to 25.344; butter 3.00.
    // 29.44 ÷ 8 = 3.68 to 32.234 ÷ 8 = 4.02925.
    let dish = row_of("Prawn soup", 1).expect("the dish is there");
    near(format!("B{dish}"), 3.68);
    near(format!("C{dish}"), 4.02925);
    near(format!("D{dish}"), 0.34925);
    near(format!("J{dish}"), 0.34925 * 80.0);
    // Ten batches want 20 lb of tails, half of what goes in: 40 lb of prawns; and 20 lb of onions.
    let prawns = row_of("Prawns", 1).expect("the prawns are there");
    near(format!("C{prawns}"), 6.0);
    near(format!("D{prawns}"), 6.6);
    near(format!("F{prawns}"), 40.0);
    near(format!("G{prawns}"), 24.0);
    // Onions by 0.125 on 20 lb is 2.50.
    let onions = row_of("Onions", 1).expect("the onions are there");
    near(format!("G{onions}"), 2.5);
    // The basket: 240 + 10 + 30 before, 26.50 more now.
    let basket = row_of("3 items", 1).expect("the basket is there");
    near(format!("B{basket}"), 280.0);
    near(format!("C{basket}"), 306.5);
    // An index is a number about 100: 306.5 ÷ 280 × 100.
    near(format!("D{basket}"), 30650.0 / 280.0);
}

#[test]
fn a_price_changed_in_the_workbook_is_followed() {
    let repriced = repriced();
    let written = write_repriced(&repriced, STAMP).unwrap();
    let prices = repriced.after.kitchen.entries.prices.len();
    // The taken rows stand last, in the order of the list; Price is the third column of the sheet.
    let cell = format!("C{}", prices + 1);
    let changed = with_changes(&written, &[("Prices", &cell, 72.0)]);
    // Prawns at 7.20: shells 1.44, tails (72 − 2.88) ÷ 5 = 13.824; 2.88 + 1.25 + 27.648 + 3.00 = 34.778, ÷ 8.
    let found = (1..90).find_map(|row| match changed.value("What changed", &format!("A{row}")) {
        Value::Text(text) if text == "Prawn soup" => Some(changed.number("What changed", &format!("C{row}"))),
        _ => None,
    });
    assert!((found.unwrap() - 34.778 / 8.0).abs() < 1e-9, "{found:?}");
}

#[test]
fn the_workbook_is_the_book_with_the_new_prices() {
    let repriced = repriced();
    let written = write_repriced(&repriced, STAMP).unwrap();
    let options = Options::on(date(2026, 11, 20));
    let again = read(&[Source { name: "repriced.xlsx", bytes: &written }], options).unwrap();
    let costing = parings::cost(&again.kitchen, &parings::Scenario::of(&again.kitchen));
    let cost = |costing: &parings::Costing| costing.dishes[0].as_ref().unwrap().portion_cost;
    assert_eq!(cost(&costing), cost(&repriced.now));
    // Costed again it is the costed book at those prices: there is nothing to compare with any more.
    let plain = write(&repriced.after, &repriced.now, STAMP).unwrap();
    assert!(write(&again, &costing, STAMP).unwrap() == plain, "another book");
}

/// A card at an old price must not pass for one at the new prices.
#[test]
fn the_summary_says_what_was_held_back_and_what_changed_says_why() {
    let options = Options::on(date(2026, 11, 20));
    let reading = read(&[Source { name: "book.csv", bytes: KITCHEN.as_bytes() }], options).unwrap();
    // From 0.50 to 1.00 a pound.
    let list = LIST.replace("40 lb,$25.00", "50 lb,$50.00");
    let lists = [Source { name: "new.csv", bytes: list.as_bytes() }];
    let repriced = reprice(reading, &lists, &ListOptions::default(), false).unwrap();
    let sheets = Sheets::open(&write_repriced(&repriced, STAMP).unwrap());
    let said = "1 taken; 1 HELD BACK, which stands at its old price in these figures: see What changed";
    assert_eq!(sheets.value("Summary", "B6"), Value::Text(said.to_owned()));
    let why = (1..140).find_map(|row| match sheets.value("What changed", &format!("B{row}")) {
        Value::Text(text) if text.starts_with("moved more than the bound (+100 % per unit)") => Some(text),
        _ => None,
    });
    assert!(why.is_some_and(|why| why.contains("“Onions” rises by 100 % per unit")));
}

//! Sheets of the order to print and tick.

use std::io::Cursor;

use calamine::{Data, Reader, Xlsx};
use jiff::civil::date;
use parings::analysis::OrderList;
use parings::{Options, Source, read, write_order};

use super::KITCHEN;
use crate::recalc::{Value, assert_recalculates, recalculated, with_changes};
use crate::support::cost_bytes;
use crate::workbook::TEACHING_KITCHEN;

fn written(name: &str, book: &[u8]) -> Vec<u8> {
    let (reading, costing) = cost_bytes(&[(name, book)]);
    let list = OrderList::of(&reading.kitchen, &costing).unwrap();
    write_order(&reading, &costing, list.as_ref(), date(2026, 11, 24).at(9, 0, 0, 0)).unwrap()
}

/// Rows of a sheet, the filled cells parted by bars.
fn told(bytes: &[u8], sheet: &str) -> Vec<String> {
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).unwrap();
    let range = book.worksheet_range(sheet).unwrap();
    let cell = |cell: &Data| if matches!(cell, Data::Empty) { String::new() } else { cell.to_string() };
    let texts =
        range.rows().map(|row| row.iter().map(cell).filter(|text| !text.is_empty()).collect::<Vec<_>>().join(" | "));
    texts.filter(|row| !row.is_empty()).collect()
}

const MINIMUM: &str = "\nSupplier,Minimum order\nHarbor Fish,$150.00\n";

/// Two boxes of 10 lb at 40.00 are 80.00; 20 lb wanted, 3 there, none coming, 0 + 3 + 2 × 10 − 20 = 3 lb left. 150 − 80 = 70
/// are missing to the minimum. Leeks: 10 lb at 1.50.
#[test]
fn a_supplier_has_a_sheet_with_what_to_order_and_what_is_left() {
    let bytes = written("book.csv", format!("{KITCHEN}{MINIMUM}").as_bytes());
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(&bytes[..])).unwrap();
    assert_eq!(book.sheet_names(), ["Harbor Fish", "Greengrocer", "Beside the orders"]);
    assert!(book.worksheet_range("Harbor Fish").is_ok());
    let rows = told(&bytes, "Harbor Fish");
    for row in [
        "Done | Item | Code | Order | Pack | Price | Money | Wanted | On hand | On order | Left | Unit | Remarks",
        "Hake | H-10 | 2 | 10 lb | 40 | 80 | 20 | 3 | 0 | 3 | lb",
        "In all | 80",
        "Minimum order | 150",
        "Missing to it | 70",
    ] {
        assert!(rows.iter().any(|known| known == row), "{row} is not in {rows:#?}");
    }
    let rows = told(&bytes, "Greengrocer");
    assert!(rows.iter().any(|row| row == "Leeks | 10 | lb | 1.5 | 15 | 10 | 0 | 0 | 0 | lb"), "{rows:#?}");
    let rows = told(&bytes, "Beside the orders");
    assert!(
        rows.iter().any(|row| row.contains("There is enough of Salt (1.00 lb on hand; 0.80 lb is left).")),
        "{rows:#?}"
    );
    assert!(rows.iter().any(|row| row.contains("Bones: 4.80 lb on 2026-11-24, to be used by 2026-11-26")), "{rows:#?}");
}

/// Another engine lands on the stored figures, and three boxes typed for two are 120.00, 30 missing, 13 lb left.
#[test]
fn money_and_what_is_left_follow_the_packs() {
    let bytes = written("book.csv", format!("{KITCHEN}{MINIMUM}").as_bytes());
    assert_recalculates(&bytes, "the order");
    let sheets = with_changes(&bytes, &[("Harbor Fish", "D4", 3.0)]);
    for (cell, number) in [("G4", 120.0), ("K4", 13.0), ("G5", 120.0), ("G7", 30.0)] {
        assert_eq!(sheets.value("Harbor Fish", cell), Value::Number(number), "{cell}");
    }
}

/// The sample's orders recalculate, and none of it is a book.
#[test]
fn the_samples_order_recalculates_and_is_no_book() {
    let bytes = written("teaching-kitchen.xlsx", TEACHING_KITCHEN);
    assert_recalculates(&bytes, "the order of the sample");
    assert!(recalculated(&bytes).len() > 20);
    let reading = read(&[Source { name: "order.xlsx", bytes: &bytes }], Options::on(date(2026, 11, 20))).unwrap();
    let kitchen = &reading.kitchen;
    assert!(kitchen.items.is_empty() && kitchen.stock.is_empty() && kitchen.entries.prices.is_empty());
}

/// What a user types is text, whatever it begins with; suppliers of one name for a sheet have one each. Without a plan the
/// sheet says what to do.
#[test]
fn names_are_text_and_sheets_are_distinct() {
    let book =
        KITCHEN.replace("Harbor Fish", "@Fish: [A/B]").replace("Greengrocer", "@Fish_ _A_B_").replace("H-10", "@1+1");
    let bytes = written("book.csv", book.as_bytes());
    let names = Xlsx::<_>::new(Cursor::new(&bytes[..])).unwrap().sheet_names();
    assert_eq!(names.len(), 3, "{names:?}");
    assert!(told(&bytes, &names[0]).iter().any(|row| row.contains("| @1+1 |")));
    assert!(told(&bytes, &names[0]).iter().any(|row| row.starts_with("@Fish: [A/B]")));
    let (before, _) = KITCHEN.split_once("Dish,").unwrap();
    let rows = told(&written("book.csv", before.as_bytes()), "Beside the orders");
    assert!(rows.iter().any(|row| row.starts_with("Nothing is planned")), "{rows:#?}");
}

//! The live word of Prices: it speaks when a price that is typed over makes another row the better one, and is silent when
//! it is not; whenever it speaks, costing the changed book does take another row, and only then.

use crate::follow::{self, Followed};
use crate::recalc::{Sheets, Value, with_changes};
use crate::support::cost_bytes;
use crate::workbook::costed;

const SPEAKS: &str = "another row is cheaper now: cost again";
const SILENT: &str = "cheapest of its day";

/// Where a header of the Prices sheet stands: its column's letter.
#[track_caller]
fn column(sheets: &Sheets, header: &str) -> char {
    let is_it = |letter: &char| sheets.value("Prices", &format!("{letter}1")) == Value::Text(header.to_owned());
    ('A'..='Z').find(is_it).unwrap_or_else(|| panic!("no {header} on Prices"))
}

/// The word in a row; nothing where none is said.
fn word(sheets: &Sheets, row: usize) -> Option<String> {
    match sheets.value("Prices", &format!("{}{row}", column(sheets, "Better row"))) {
        Value::Text(text) => Some(text).filter(|text| !text.is_empty()),
        Value::Empty => None,
        other => panic!("{other}"),
    }
}

/// The rows of Prices that are in use, by their numbers on the sheet.
fn in_use(bytes: &[u8]) -> Vec<usize> {
    let (_, costing) = cost_bytes(&[("changed.xlsx", bytes)]);
    let states = costing.row_states.iter().enumerate();
    states.filter(|(_, state)| **state == parings::costing::RowState::InUse).map(|(index, _)| index + 2).collect()
}

/// The workbook with another number in a cell of Prices.
fn typed(bytes: &[u8], cell: &str, number: f64) -> Vec<u8> {
    follow::typed(bytes, &Followed { sheet: "Prices".to_owned(), cell: cell.to_owned(), number }, number)
}

/// A kitchen that buys leeks by these rows (supplier, pack, price, yield, date, preferred).
fn book(rows: &[&str]) -> Vec<u8> {
    let rows: String = rows.iter().map(|row| format!("Leeks,{row}\n")).collect();
    let text = format!(
        "Item,Supplier,Pack,Price,Yield,Date,Preferred\n{rows}\nRecipe,Leek soup\nPortions,4\nMenu price,$9.00\n\
         Ingredient,Qty,Unit\nLeeks,2,lb\n\nSetting,Value\nTarget food cost,30%\nCosting date,2026-11-20\n"
    );
    costed("book.csv", text.as_bytes()).2
}

/// What is said in the row in use (`in_use`, as first costed) after `number` is typed under `header` in `row`; fails unless
/// it speaks exactly when costing the changed book takes another row.
#[track_caller]
fn said(bytes: &[u8], in_use_first: usize, header: &str, row: usize, number: f64) -> bool {
    assert_eq!(in_use(bytes), [in_use_first], "as first costed");
    let cell = format!("{}{row}", column(&Sheets::open(bytes), header));
    let sheets = with_changes(bytes, &[("Prices", &cell, number)]);
    let word = word(&sheets, in_use_first);
    let speaks = word.as_deref() == Some(SPEAKS);
    assert!(speaks || word.is_none() || word.as_deref() == Some(SILENT), "{word:?}");
    let now = in_use(&typed(bytes, &cell, number));
    assert_eq!(speaks, now != [in_use_first], "{header} of row {row} at {number}: {word:?}, and costed again {now:?}");
    speaks
}

/// Words for the costing date leave open which of dated prices counts: cutting another setting over it does as much. Prices
/// without a day stand.
#[test]
fn words_for_the_costing_date_leave_dated_prices_unknown() {
    for (day, known) in [("2026-11-01", false), ("", true)] {
        let bytes = book(&[&format!("North,10 lb,$20.00,80%,{day},")]);
        let mut sheets = Sheets::open(&bytes);
        let label = Value::Text("Costing date".to_owned());
        let row = (1..20).find(|row| sheets.value("Settings", &format!("A{row}")) == label).unwrap();
        sheets.type_text("Settings", &format!("B{row}"), "USD");
        let word = word(&sheets, 2);
        assert_eq!(word.is_none(), known, "{day}: {word:?}");
        assert_eq!(matches!(sheets.value("Summary", "B8"), Value::Number(_)), known, "{day}");
    }
}

/// Two suppliers of one day. A pound usable is 20.00 ÷ 10 ÷ 80 % = 2.50 of the first, 22.00 ÷ 10 ÷ 80 % = 2.75 of the other.
#[test]
fn it_speaks_when_anothers_price_falls_below_and_is_silent_again() {
    let bytes = book(&["North,10 lb,$20.00,80%,2026-11-01,", "South,10 lb,$22.00,80%,2026-11-01,"]);
    assert_eq!(word(&Sheets::open(&bytes), 2).as_deref(), Some(SILENT));
    assert_eq!(word(&Sheets::open(&bytes), 3), None, "only the row in use says something");
    assert!(said(&bytes, 2, "Price", 3, 19.99));
    assert!(!said(&bytes, 2, "Price", 3, 20.01));
    // Of equals the first in the book stands.
    assert!(!said(&bytes, 2, "Price", 3, 20.00));
    assert!(said(&bytes, 2, "Price", 2, 22.01), "or its own price rises above");
    assert!(!said(&bytes, 2, "Price", 2, 21.99));
}

/// By what can be used, not by what is bought: 18.00 a case at 60 % is 3.00 a usable pound, 20.00 at 80 % is 2.50.
#[test]
fn it_compares_what_can_be_used() {
    let bytes = book(&["North,10 lb,$20.00,80%,2026-11-01,", "South,10 lb,$18.00,60%,2026-11-01,"]);
    // 15.01 ÷ 10 ÷ 60 % = 2.5017, 14.99 ÷ 10 ÷ 60 % = 2.4983.
    assert!(!said(&bytes, 2, "Price", 3, 15.01));
    assert!(said(&bytes, 2, "Price", 3, 14.99));
    // 18.00 ÷ 10 ÷ 73 % = 2.466; 20.00 ÷ 10 ÷ 60 % = 3.33 is above 3.00.
    assert!(said(&bytes, 2, "Yield", 3, 0.73));
    assert!(said(&bytes, 2, "Yield", 2, 0.60));
    assert!(!said(&bytes, 2, "Yield", 3, 0.71));
}

/// 20.00 for 10 lb is 4.409 a kilogram; a case of 6 kg at 27.00 is 4.50 one, at 26.00 it is 4.333.
#[test]
fn it_compares_packs_of_other_sizes_and_units() {
    let bytes = book(&["North,10 lb,$20.00,,2026-11-01,", "South,6/1 kg,$27.00,,2026-11-01,"]);
    assert!(said(&bytes, 2, "Price", 3, 26.0));
    assert!(!said(&bytes, 2, "Price", 3, 26.5));
}

#[test]
fn it_speaks_when_any_of_several_is_better() {
    let rows = ["A,10 lb,$24.00,,2026-11-01,", "B,10 lb,$20.00,,2026-11-01,", "C,10 lb,$25.00,,2026-11-01,"];
    let bytes = book(&rows);
    assert!(said(&bytes, 3, "Price", 2, 19.0));
    assert!(said(&bytes, 3, "Price", 4, 19.0));
    assert!(!said(&bytes, 3, "Price", 4, 21.0));
}

/// Preferred decides before the price does: another supplier's falling price changes nothing, and nothing is said.
#[test]
fn it_is_silent_where_a_supplier_is_preferred() {
    let bytes = book(&["North,10 lb,$20.00,,2026-11-01,", "South,10 lb,$22.00,,2026-11-01,yes"]);
    assert_eq!(word(&Sheets::open(&bytes), 3), None);
    assert!(!said(&bytes, 3, "Price", 2, 5.0));
    assert!(!said(&bytes, 3, "Price", 3, 90.0));
}

/// Of a preferred supplier's two packs of one day the cheaper counts, so that is compared, and only that.
#[test]
fn it_compares_the_packs_of_a_preferred_supplier() {
    let rows =
        ["North,10 lb,$5.00,,2026-11-01,", "South,10 lb,$20.00,,2026-11-01,yes", "South,50 lb,$110.00,,2026-11-01,yes"];
    let bytes = book(&rows);
    assert!(said(&bytes, 3, "Price", 4, 99.0));
    assert!(!said(&bytes, 3, "Price", 4, 101.0));
    assert!(!said(&bytes, 3, "Price", 2, 1.0));
}

/// A newer price counts whatever it is, so an older one that falls says nothing.
#[test]
fn it_is_silent_about_older_and_later_prices() {
    let rows = ["North,10 lb,$20.00,,2026-11-10,", "South,10 lb,$22.00,,2026-11-01,", "West,10 lb,$22.00,,2026-12-24,"];
    let bytes = book(&rows);
    assert!(!said(&bytes, 2, "Price", 3, 1.0));
    assert!(!said(&bytes, 2, "Price", 4, 1.0));
}

/// Where a test of trimming gives every row one yield, rows are compared as purchased, whatever yields they state.
#[test]
fn it_compares_as_purchased_where_a_test_gives_the_yield() {
    let text = "Item,Supplier,Pack,Price,Date\nLeeks,North,10 lb,$20.00,2026-11-01\nLeeks,South,10 lb,$22.00,2026-11-01\n\n\
                Recipe,Leek soup\nPortions,4\nIngredient,Qty,Unit\nLeeks,2,lb\n\n\
                Test,Role,Part,Weight,Unit\nTrimming leeks,as purchased,Leeks,10,lb\nTrimming leeks,main,Leeks trimmed,6,lb\n\
                Trimming leeks,waste,Greens,4,lb\n\nSetting,Value\nCosting date,2026-11-20\n";
    let bytes = costed("book.csv", text.as_bytes()).2;
    assert!(said(&bytes, 2, "Price", 3, 19.9));
    assert!(!said(&bytes, 2, "Price", 3, 20.1));
    assert!(said(&bytes, 2, "Price", 2, 22.1));
}

/// South is at the market's price, so its last price counts: 22.00 of October. When that falls below North's 20.00, it is the
/// better one.
#[test]
fn it_speaks_when_the_last_price_of_a_market_row_falls() {
    let rows =
        ["North,10 lb,$20.00,,2026-11-01,", "South,10 lb,$22.00,,2026-10-01,", "South,10 lb,market,,2026-11-01,"];
    let bytes = book(&rows);
    assert_eq!(word(&Sheets::open(&bytes), 2).as_deref(), Some(SILENT));
    assert!(said(&bytes, 2, "Price", 3, 19.0));
    assert!(!said(&bytes, 2, "Price", 3, 21.0));
    assert!(said(&bytes, 2, "Price", 2, 22.5));
}

/// The market row's own yield counts, not that of the row of its last price: 22.00 ÷ 10 ÷ 50 % = 4.40 against North's 20.00 ÷ 10 ÷
/// 80 % = 2.50; South would have to fall to 12.50, though by its old 90 % 22.00 is 2.44 already.
#[test]
fn a_market_row_is_compared_by_its_own_yield() {
    let rows =
        ["North,10 lb,$20.00,80%,2026-11-01,", "South,10 lb,$22.00,90%,2026-10-01,", "South,10 lb,MKT,50%,2026-11-01,"];
    let bytes = book(&rows);
    assert!(!said(&bytes, 2, "Price", 3, 12.6));
    assert!(said(&bytes, 2, "Price", 3, 12.4));
    assert!(said(&bytes, 2, "Yield", 4, 0.9));
}

/// And where the market's is the one in use, by its last price: 18.00, until it rises above North's 20.00.
#[test]
fn it_speaks_in_the_row_of_the_last_price_too() {
    let rows =
        ["North,10 lb,$20.00,,2026-11-01,", "South,10 lb,$18.00,,2026-10-01,", "South,10 lb,market,,2026-11-01,"];
    let bytes = book(&rows);
    assert!(!said(&bytes, 3, "Price", 3, 19.9));
    assert!(said(&bytes, 3, "Price", 3, 20.1));
    assert!(said(&bytes, 3, "Price", 2, 17.9));
}

/// Per usable pound 20.00 ÷ 10 ÷ 80 % is 2.50, as 25.00 ÷ 10 is: of equals the cheaper as purchased, and of those the first by name.
#[test]
fn ties_go_as_the_choice_has_them() {
    let bytes = book(&["A,10 lb,$24.00,100%,2026-11-01,", "B,10 lb,$20.00,80%,2026-11-01,"]);
    assert!(said(&bytes, 2, "Price", 2, 25.0), "B's 2.00 as purchased comes before A's 2.50");
    let bytes = book(&["B,10 lb,$20.00,,2026-11-01,", "A,10 lb,$22.00,,2026-11-01,"]);
    assert!(said(&bytes, 2, "Price", 3, 20.0), "A stands before B");
    let bytes = book(&["A,10 lb,$20.00,,2026-11-01,", "B,10 lb,$22.00,,2026-11-01,"]);
    assert!(!said(&bytes, 2, "Price", 3, 20.0));
}

/// Many rivals: only what is cheaper is told of, so that a formula holds them all.
#[test]
fn it_speaks_among_many() {
    let rows: Vec<String> = (0..60).map(|at| format!("S{at:02},10 lb,${}.00,,2026-11-01,", 20 + at)).collect();
    let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
    let bytes = book(&rows);
    assert!(said(&bytes, 2, "Price", 50, 19.0));
    assert!(!said(&bytes, 2, "Price", 50, 21.0));
}

/// A rival whose price is cleared is none.
#[test]
fn of_a_cleared_price_nobody_can_tell() {
    let bytes = book(&["North,10 lb,$20.00,,2026-11-01,", "South,10 lb,$22.00,,2026-11-01,"]);
    let cell = format!("{}3", column(&Sheets::open(&bytes), "Price"));
    let followed = Followed { sheet: "Prices".to_owned(), cell, number: 22.0 };
    let sheets = Sheets::open(&follow::cleared(&bytes, &followed));
    // Costing the book says so too: the item has no price until the row has one, or is taken out.
    assert_eq!(word(&sheets, 2).as_deref(), Some("another row has no price now: cost again"));
}

/// Two suppliers of Leeks by these packs and prices, with what a leek weighs as purchased and edible: 4 oz and 3.2 oz.
fn counted(alpha: &str, beta: &str) -> Vec<u8> {
    let text = format!(
        "Item,Supplier,Pack,Price,Yield,Date,Preferred\nLeeks,Alpha,{alpha},,2026-11-01,\nLeeks,Beta,{beta},,2026-11-01,\n\n\
         Item,Measure,Weighs,Basis\nLeeks,each,3.2 oz,EP\nLeeks,each,4 oz,AP\n\n\
         Recipe,Leek soup\nPortions,4\nMenu price,$9.00\nIngredient,Qty,Unit\nLeeks,2,lb\n\n\
         Setting,Value\nTarget food cost,30%\nCosting date,2026-11-20\n"
    );
    costed("book.csv", text.as_bytes()).2
}

/// Of 140 to the 35 lb one is 4 oz, 80 %: 56.00 ÷ 35 ÷ 80 % = 2.00 a pound. Of 120 it is 14/3 oz, 24/35: Beta's price ÷ 24.
#[test]
fn it_compares_by_the_yield_that_each_pack_implies() {
    let bytes = counted("140 ct 35 lb,$56.00", "120 ct 35 lb,$49.00");
    assert!(said(&bytes, 2, "Price", 3, 47.90)); // 1.9958
    assert!(!said(&bytes, 2, "Price", 3, 48.10)); // 2.0042
    assert!(said(&bytes, 2, "Price", 2, 57.20)); // 57.20 ÷ 28 = 2.0429, above 49 ÷ 24 = 2.0417
    assert!(!said(&bytes, 2, "Price", 2, 57.10)); // 2.0393
}

/// A pound edible is 5 pieces, 1.40 at 28.00 for 100, and 42.00 ÷ 35 ÷ 80 % = 1.50 by weight.
#[test]
fn it_compares_a_price_by_the_piece_with_one_by_weight() {
    let bytes = counted("100 ct,$28.00", "35 lb,$42.00");
    assert_eq!(word(&Sheets::open(&bytes), 2).as_deref(), Some(SILENT));
    assert!(said(&bytes, 2, "Price", 2, 30.10)); // 1.505
    assert!(!said(&bytes, 2, "Price", 2, 29.90)); // 1.495
    assert!(said(&bytes, 2, "Price", 3, 39.00)); // 39.00 ÷ 28 = 1.3929
    assert!(!said(&bytes, 2, "Price", 3, 39.40)); // 1.4071
}

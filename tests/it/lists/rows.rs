//! Rows that stand twice, rows of another day, and what a new row says when it stands in the book.

use jiff::civil::date;
use parings::ListOptions;
use parings::analysis::supplier_list::{Change, NotTaken};

use super::{BOOK, compared, dec, of_green_valley, tried, with};
use crate::support::cost_bytes;

#[test]
fn a_row_that_stands_twice_is_taken_once() {
    let list = "Code,Item,Pack,Price\n1001,Onions,50 lb,27.00\n1002,Carrots,25 lb,20.00\n1001,ONION,50 LB,27\n";
    let doubled = compared(list);
    assert_eq!(doubled.list.taken.len(), 2);
    assert_eq!(
        doubled.told(),
        [
            "list.csv ▸ B4 [list-passed-over] this row says what another row of the list says; it was taken once. Nothing to \
          do."
        ]
    );
}

#[test]
fn two_prices_for_one_pack_are_an_error_that_names_both() {
    let list = "Code,Item,Pack,Price\n1001,Onions,50 lb,27.00\n1002,Carrots,25 lb,20.00\n,Onions,50 lb,28.00\n";
    let options = ListOptions { accepted: vec!["Onions".to_owned()], ..of_green_valley() };
    for both in [compared(list), with(BOOK, list, &options)] {
        assert_eq!(both.whys(), [NotTaken::Conflict, NotTaken::Conflict]);
        assert_eq!(both.list.taken.len(), 1);
        assert_eq!(
            both.told(),
            ["list.csv ▸ D4 [list-row-twice] “Onions” has another price for the same pack at list.csv ▸ D2. Ask the \
              supplier which is right, and take the other row out of the list."]
        );
    }
}

#[test]
fn last_years_list_is_history_and_changes_no_price() {
    let list = "Code,Item,Pack,Price,Date\n1001,Onions,50 lb,20.00,2025-11-01\n1002,Carrots,25 lb,15.00,2025-12-01\n";
    let older = compared(list);
    assert!(older.list.taken.is_empty() && older.list.held.is_empty());
    assert_eq!(older.list.older.len(), 2);
    assert_eq!(
        older.told(),
        [
            "list.csv ▸ E2 [list-older] 2 prices of this list, of 2025-11-01 to 2025-12-01, are older than the book's, the \
          newest of which is of 2026-10-01. They are kept as history and change no price in use. Ask the supplier for the \
          current list."
        ]
    );
    let (reading, costing) = older.repriced();
    assert_eq!(reading.kitchen.entries.prices.len(), 7);
    assert_eq!(costing.items[0].as_ref().unwrap().ap.money, dec("26"));
    assert_eq!(older.missing(), ["Butter"]);
}

#[test]
fn a_rise_that_the_book_knows_of_already_makes_no_list_of_today_old() {
    let book = format!("{BOOK}Onions,50 lb,$30.00,,Green Valley,1001,2026-12-01,,,\n");
    let today = with(&book, "Code,Item,Pack,Price\n1001,Onions,50 lb,27.00\n", &of_green_valley());
    assert_eq!(today.moved("Onions").change, Change::Rise);
    assert_eq!(today.moved("Onions").before, Some(1));
}

#[test]
fn rows_without_a_date_count_from_the_costing_date() {
    let options = ListOptions { dated: None, ..of_green_valley() };
    let undated = with(BOOK, "Code,Item,Pack,Price\n1001,Onions,50 lb,27.00\n", &options);
    assert_eq!(undated.taken("Onions").price.date.given(), Some(&date(2026, 11, 20)));
    assert_eq!(
        undated.told(),
        [
            "list.csv [list-assumed] its prices bear no date, so they count from 2026-11-20, the costing date. If they hold \
          since another day, say so with --dated."
        ]
    );
    let dated = with(BOOK, "Code,Item,Pack,Price,Date\n1001,Onions,50 lb,27.00,2026-11-03\n", &options);
    assert_eq!(dated.taken("Onions").price.date.given(), Some(&date(2026, 11, 3)));
}

#[test]
fn a_list_that_is_taken_twice_changes_nothing_the_second_time() {
    let list = "Code,Item,Pack,Price\n1001,Onions,50 lb,27.00\n";
    let first = compared(list);
    let (reading, costing) = first.repriced();
    let source = parings::Source { name: "list.csv", bytes: list.as_bytes() };
    let again = parings::read_list(&reading, &costing, &[source], &of_green_valley()).unwrap();
    assert!(again.taken.is_empty() && again.held.is_empty() && again.problems.is_empty());
    assert_eq!(again.already, [0]);
    // The same day cannot have two prices.
    let other = list.replace("27.00", "28.00");
    let source = parings::Source { name: "list.csv", bytes: other.as_bytes() };
    let other = parings::read_list(&reading, &costing, &[source], &of_green_valley()).unwrap();
    assert_eq!(other.held.len(), 1);
    assert_eq!(
        super::told(&other.problems[0]),
        "list.csv ▸ D2 [list-row-twice] “Onions” has another price for the same pack and 2026-11-01 in the book, at \
         list.csv ▸ D2. Say since when the list holds with --dated, or correct the row in the book."
    );
}

#[test]
fn a_list_without_packs_takes_those_of_the_book() {
    let list = "Code,Net\n1001,27.00\n1003,110.00\n";
    let options =
        ListOptions { columns: vec![(parings::schema::Column::Price, "Net".to_owned())], ..of_green_valley() };
    let packless = with(BOOK, list, &options);
    assert_eq!(packless.moved("Onions").change, Change::Rise);
    assert_eq!(packless.taken("Butter").price.pack.given().unwrap().text, "36/1 lb");
    assert_eq!(
        packless.told(),
        [
            "list.csv [list-assumed] it does not say what its prices are for, so the packs of the book's rows were taken. If \
          a pack has changed, ask the supplier for a list with packs."
        ]
    );
    // What is priced per pound stays so.
    let poultry = ListOptions { supplier: Some("poultry man, the".to_owned()), ..of_green_valley() };
    assert!(with(BOOK, "Item,Price\nChicken,1.95\n", &poultry).list.taken.is_empty(), "not a supplier of the book");
    let poultry = ListOptions { supplier: Some("the poultry man".to_owned()), ..of_green_valley() };
    let chicken = with(BOOK, "Item,Price\nChicken,1.98\n", &poultry);
    assert_eq!((&chicken.moved("Chicken").change, chicken.by("Chicken")), (&Change::Rise, dec("0.1")));
    assert_eq!(chicken.taken("Chicken").price.code, "77");
    assert_eq!(chicken.taken("Chicken").price.supplier, "The Poultry Man");
}

#[test]
fn a_pack_that_neither_list_nor_book_says_is_an_error() {
    let options = ListOptions { supplier: Some("Harbour Foods".to_owned()), ..of_green_valley() };
    let unknown = with(BOOK, "Item,Price\nOnions,27.00\n", &options);
    assert_eq!(unknown.held("Onions").why, NotTaken::Unreadable);
    assert_eq!(
        unknown.told(),
        [
            "list.csv ▸ B2 [pack-missing] the list does not say what the price is for, and neither does a row of the book \
          with this supplier and code. Give the list a column Pack or Per, or say which of its columns that is, such as \
          --column pack=\"Case size\"."
        ]
    );
}

#[test]
fn what_no_list_knows_outlives_the_new_row() {
    let book = "\
Item,Pack,Price,Supplier,Code,Date,Yield,Preferred,Reference food,Allergens
Leeks,10 lb,$14.00,Green Valley,9,2026-10-01,50%,yes,leek,none
Leeks,10 lb,$10.00,Harbour Foods,4,2026-11-10,,,,

Recipe,Leek soup
Portions,4
Ingredient,Qty,Unit
Leeks,2,cup
";
    for (pack, price) in [("10 lb", "15.40"), ("8 lb", "14.00")] {
        let list = format!("Code,Item,Pack,Price\n9,Leeks large,{pack},{price}\n");
        let taken = with(book, &list, &of_green_valley());
        let price = &taken.taken("Leeks").price;
        assert_eq!((price.item.as_str(), price.trim_yield.given()), ("Leeks", None));
        let (reading, costing) = taken.repriced();
        let leeks = costing.items[0].as_ref().unwrap();
        assert_eq!(leeks.from, parings::costing::PriceFrom::Row(2), "still preferred");
        assert_eq!(leeks.row_yield.unwrap().0, dec("0.5"));
        assert!(leeks.reference.given().is_some());
        assert!(costing.recipes[0].is_some(), "{:#?}", reading.problems_with(&costing));
    }
}

#[test]
fn preferred_without_a_supplier_goes_on_with_another_pack() {
    let book = "\
Item,Pack,Price,Code,Date,Preferred
Leeks,10 lb,$14.00,9,2026-10-01,yes
Leeks,5 lb,$8.00,10,2026-10-01,
";
    let options = ListOptions { supplier: None, ..of_green_valley() };
    let taken = with(book, "Code,Item,Pack,Price\n9,Leeks,8 lb,14.00\n", &options);
    assert_eq!(taken.taken("Leeks").price.preferred.given(), Some(&true));
    let (_, costing) = taken.repriced();
    assert_eq!(costing.items[0].as_ref().unwrap().from, parings::costing::PriceFrom::Row(2));
}

#[test]
fn the_new_book_written_and_read_again_costs_the_same() {
    let list = "Code,Item,Pack,Price\n1001,Onions lge,40 lb,27.50\n1003,Butter,36/1 lb,112.00\n";
    let (reading, costing) = compared(list).repriced();
    let written = parings::write(&reading, &costing, crate::workbook::STAMP).unwrap();
    let (again, costed) = cost_bytes(&[("book.xlsx", &written)]);
    assert_eq!(again.kitchen.entries.prices.len(), 7);
    let rates = |costing: &parings::Costing| -> Vec<_> {
        costing.items.iter().map(|item| item.as_ref().map(|item| (item.from, item.ap))).collect()
    };
    assert_eq!(rates(&costing), rates(&costed));
    assert_eq!(parings::write(&again, &costed, crate::workbook::STAMP).unwrap(), written);
}

#[test]
fn an_empty_list_is_refused_with_what_to_do() {
    let refused = |text: &str| tried(BOOK, &[("list.csv", text)], &of_green_valley()).err().unwrap().to_string();
    assert!(refused("").starts_with("list.csv is empty"), "{}", refused(""));
    assert_eq!(
        refused("Code,Item,Pack,Price\n"),
        "list.csv has the headings of a price list but no rows below them: ask the supplier for it again"
    );
    assert_eq!(
        refused(",,\n\n,,\n"),
        "list.csv holds no price list, for nothing is filled in: ask the supplier for it again"
    );
}

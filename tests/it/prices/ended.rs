//! Prices with a last day.

use super::{everywhere, food, soup, told};
use crate::analysis::d;
use crate::lists::{of_green_valley, with};
use crate::recalc::{Sheets, Value};
use crate::reprice::between;
use crate::support::cost_json;
use crate::workbook::costed;

const HEAD: &str = "Item,Pack,Price,Supplier,Date,Until,Preferred,Allergens,Yield\n";

fn of(rows: &str) -> String {
    soup(&format!("{HEAD}{rows}"))
}

/// 10 lb at 30.00 are 3.00 a pound, at 24.00 they are 2.40. Until is the last day on which the row counts.
#[test]
fn the_last_day_counts_and_the_day_after_the_price_before_does() {
    let book =
        |until: &str| of(&format!("Leeks,10 lb,$30.00,,2026-10-01,,,,\nLeeks,10 lb,$24.00,,2026-11-01,{until},,,\n"));
    let still = everywhere(&book("2026-11-20"));
    assert_eq!((food(&still), told(&still)), (Some(d("2.4")), vec![]));
    let over = everywhere(&book("2026-11-19"));
    assert_eq!((food(&over), told(&over)), (Some(d("3")), vec!["F3 price-ended".to_owned()]));
    let said = over["problems"].as_array().unwrap().iter().find(|one| one["code"] == "price-ended").unwrap();
    assert_eq!(said["message"], "this price of “Leeks” ended on 2026-11-19; the one at book.csv ▸ C2 is used");
}

#[test]
fn the_column_bears_the_names_that_suppliers_give_it() {
    for name in ["Until", "Expires", "Valid to", "End date", "Through", "VALID-TO"] {
        let rows = format!(
            "Item,Pack,Price,Date,{name}\nLeeks,10 lb,$30.00,2026-10-01,\nLeeks,10 lb,$24.00,2026-11-01,2026-11-15\n"
        );
        assert_eq!(food(&cost_json(&[("book.csv", &soup(&rows))])), Some(d("3")), "{name}");
    }
}

/// As if the ended row were not there: of North's 3.00 of September and South's 2.80 of October the newer, South's; and
/// where North is preferred, North's.
#[test]
fn another_suppliers_price_counts_when_it_is_the_newest_that_holds() {
    let rows = |yes: &str| {
        of(&format!(
            "Leeks,10 lb,$30.00,North,2026-09-25,,{yes},,\nLeeks,10 lb,$28.00,South,2026-10-01,,,,\n\
             Leeks,10 lb,$24.00,North,2026-11-01,2026-11-15,,,\n"
        ))
    };
    let newest = everywhere(&rows(""));
    assert_eq!((food(&newest), told(&newest)), (Some(d("2.8")), vec!["F4 price-ended".to_owned()]));
    assert_eq!(food(&everywhere(&rows("yes"))), Some(d("3")));
}

/// A yes on a row that has ended is over with it. No word of the end: the row in use would be the same without it.
#[test]
fn preferred_ends_with_its_row() {
    let rows = of("Leeks,10 lb,$30.00,North,2026-10-01,2026-10-31,yes,,\nLeeks,10 lb,$27.00,North,2026-10-02,,,,\n\
                   Leeks,10 lb,$28.00,South,2026-11-01,,,,\n");
    // North's row of 2 October is the newer one of its history; without the mark South's is the newest.
    let json = everywhere(&rows);
    assert_eq!(food(&json), Some(d("2.8")));
}

#[test]
fn where_all_have_ended_nothing_is_costed() {
    let json = everywhere(&of(
        "Leeks,10 lb,$30.00,North,2026-10-01,2026-10-31,,,\nLeeks,10 lb,$28.00,South,2026-11-01,2026-11-19,,,\n",
    ));
    assert_eq!((food(&json), told(&json)), (None, vec!["F3 prices-ended".to_owned()]));
}

/// A last day before the first: which of the two is wrong nobody knows. It stops the item while it might be in use, and not
/// where a newer price is, or where another supplier is preferred.
#[test]
fn a_last_day_before_the_first_is_an_error_at_the_row() {
    let wrong = "Leeks,10 lb,$24.00,North,2026-11-10,2026-11-01,,,\n";
    let stopped = everywhere(&of(&format!("Leeks,10 lb,$30.00,North,2026-10-01,,,,\n{wrong}")));
    assert_eq!((food(&stopped), told(&stopped)), (None, vec!["F3 until-before-date".to_owned()]));
    let newer = everywhere(&of(&format!("{wrong}Leeks,10 lb,$30.00,North,2026-11-12,,,,\n")));
    assert_eq!((food(&newer), told(&newer)), (Some(d("3")), vec!["F2 until-before-date".to_owned()]));
    let preferred = everywhere(&of(&format!("{wrong}Leeks,10 lb,$29.00,South,2026-10-01,,yes,,\n")));
    assert_eq!(food(&preferred), Some(d("2.9")));
}

/// The promotion's allergens are those of a box that is not bought any more; its yield is still what peeling leaves: 30.00 ÷ 10
/// ÷ 50 % = 6.00.
#[test]
fn an_ended_row_lends_its_yield_and_not_its_allergens() {
    let json = everywhere(&of(
        "Leeks,10 lb,$30.00,North,2026-10-01,,,none,\nLeeks,10 lb,$24.00,North,2026-11-01,2026-11-15,,celery,50%\n",
    ));
    assert_eq!(food(&json), Some(d("6")));
    let soup = crate::support::recipe(&json, "Soup");
    assert!(soup["allergens"].as_array().unwrap().is_empty(), "{soup:#}");
    assert!(!soup["allergens_not_stated"].to_string().contains("Leeks"), "{soup:#}");
}

/// At the market's price the last dated one that holds is taken: 30.00, not the promotion's 24.00.
#[test]
fn a_market_price_does_not_fall_back_on_what_has_ended() {
    let json =
        everywhere(&of("Leeks,10 lb,$30.00,North,2026-10-01,,,,\nLeeks,10 lb,$24.00,North,2026-11-01,2026-11-15,,,\n\
                               Leeks,10 lb,MKT,North,2026-11-16,,,,\n"));
    assert_eq!(food(&json), Some(d("3")));
}

#[test]
fn the_sheet_says_so_and_does_not_compare_with_it() {
    let rows = of("Leeks,10 lb,$30.00,North,2026-11-01,,,,\nLeeks,10 lb,$20.00,South,2026-11-01,2026-11-10,,,\n\
                   Leeks,10 lb,$31.00,West,2026-11-01,,,,\n");
    let sheets = Sheets::open(&costed("book.csv", rows.as_bytes()).2);
    let column = |header: &str| {
        let is_it = |letter: &char| sheets.value("Prices", &format!("{letter}1")) == Value::Text(header.to_owned());
        ('A'..='Z').find(is_it).unwrap_or_else(|| panic!("no {header}"))
    };
    let used = column("Row used");
    let words = [2, 3, 4].map(|row| sheets.value("Prices", &format!("{used}{row}")));
    assert_eq!(words, ["in use", "ended", "dearer"].map(|word| Value::Text(word.to_owned())));
    let better = sheets.value("Prices", &format!("{}2", column("Better row")));
    assert_eq!(better, Value::Text("cheapest of its day".to_owned()));
    assert_eq!(sheets.value("Prices", &format!("{}1", column("Until"))), Value::Text("Until".to_owned()));
}

/// South's 2.00 would save a third, and has ended; West's 2.70 still holds: 0.30 on a pound. Nor does South's ended price hide
/// that its own before it, 2.80, holds again.
#[test]
fn no_switch_rests_on_a_price_that_has_ended() {
    let book = |more: &str| {
        of(&format!(
            "Leeks,10 lb,$30.00,North,2026-11-10,,yes,,\nLeeks,10 lb,$28.00,South,2026-10-01,,,,\n\
             Leeks,10 lb,$20.00,South,2026-11-01,2026-11-15,,,\n{more}"
        ))
    };
    let saving = |more: &str| {
        let effects = between(&book(more), &book(more)).effects;
        effects.switches.first().map(|one| (one.to, one.worth.unwrap().normalize()))
    };
    assert_eq!(saving("Leeks,10 lb,$27.00,West,2026-11-05,2026-12-01,,,\n"), Some((3, d("0.3"))));
    assert_eq!(saving(""), Some((1, d("0.2"))));
}

/// The new price is compared with the one that holds, 25.00, and not with the promotion that is over: 27.50 ÷ 25.00 = 1.1.
#[test]
fn a_new_price_is_compared_with_one_that_holds() {
    let book = "Item,Pack,Price,Supplier,Code,Date,Until\nOnions,50 lb,$25.00,Green Valley,1001,2026-09-01,\n\
                Onions,50 lb,$15.00,Green Valley,1001,2026-10-01,2026-10-31\n";
    let list = with(book, "Code,Item,Pack,Price\n1001,Onions,50 lb,27.50\n", &of_green_valley());
    assert_eq!((list.by("Onions"), list.moved("Onions").before), (d("0.1"), Some(0)));
}

/// A list of 1 October, while the book's promotion of 5 October is over: it is no old list.
#[test]
fn an_ended_price_makes_no_list_old() {
    let book = "Item,Pack,Price,Supplier,Code,Date,Until\nOnions,50 lb,$25.00,Green Valley,1001,2026-09-01,\n\
                Onions,50 lb,$15.00,Green Valley,1001,2026-10-05,2026-10-31\n";
    let list = with(book, "Code,Item,Pack,Price,Date\n1001,Onions,50 lb,26.00,2026-10-01\n", &of_green_valley());
    assert_eq!(list.by("Onions"), d("0.04"));
    // 26.00 ÷ 25.00 = 1.04, and it is the price in use.
    let (_, costing) = list.repriced();
    assert_eq!(costing.items[0].as_ref().unwrap().ap.money, d("26"));
}

/// Under the supplier's own heading: what has ended by the costing day is not taken, what ends later is, with its last day.
#[test]
fn a_list_may_say_until_when_its_prices_hold() {
    let rows =
        "Code,Item,Pack,Price,Expires\n1001,Onions,50 lb,24.00,2026-11-19\n1002,Carrots,25 lb,19.00,2026-11-20\n";
    let list = crate::lists::compared(rows);
    assert_eq!(list.held("Onions").why, parings::analysis::supplier_list::NotTaken::Ended);
    assert!(!list.held("Onions").why.may_be_accepted());
    assert_eq!(
        list.told(),
        [
            "list.csv ▸ E2 [list-ended] this price of “Onions” ended on 2026-11-19, before 2026-11-20. Ask for the price \
          that counts now; or correct Until, or cost an earlier day with --as-of."
        ]
    );
    let until = list.taken("Carrots").price.until.given().copied();
    assert_eq!(until, Some(jiff::civil::date(2026, 11, 20)));
}

/// One price with two last days is two statements.
#[test]
fn a_price_that_was_prolonged_is_not_what_the_book_says() {
    let book =
        "Item,Pack,Price,Supplier,Code,Date,Until\nOnions,50 lb,$25.00,Green Valley,1001,2026-11-01,2026-11-25\n";
    let list = with(
        book,
        "Code,Item,Pack,Price,Date,Until\n1001,Onions,50 lb,25.00,2026-11-01,2026-11-30\n",
        &of_green_valley(),
    );
    assert!(
        list.told()[0].contains("“Onions” has another Until for the same pack and 2026-11-01 in the book"),
        "{:?}",
        list.told()
    );
    let same = with(
        book,
        "Code,Item,Pack,Price,Date,Until\n1001,Onions,50 lb,25.00,2026-11-01,2026-11-25\n",
        &of_green_valley(),
    );
    assert_eq!(same.list.already, [0]);
}

//! A list never makes a dish uncostable unasked: what cannot be compared, and what would stop something, is held back.

use parings::analysis::supplier_list::{Change, NotTaken};
use parings::{ListOptions, Repriced, Source, reprice};

use crate::analysis::d;
use crate::lists::{of_green_valley, told};
use crate::support::{cost_bytes, dec, json_of, recipe};

/// A book with a soup of it beside a list of Green Valley's of 1 November.
fn repriced(prices: &str, line: &str, list: &str, accepted: &[&str]) -> Repriced {
    let book = format!(
        "Item,Pack,Price,Supplier,Code,Date\n{prices}\nRecipe,Soup\nPortions,1\nMenu price,$9.00\nIngredient,Qty,Unit\n{line}\n"
    );
    let (reading, _) = cost_bytes(&[("book.csv", book.as_bytes())]);
    let source = Source { name: "list.csv", bytes: list.as_bytes() };
    let accepted = accepted.iter().map(|name| (*name).to_owned()).collect();
    reprice(reading, &[source], &ListOptions { accepted, ..of_green_valley() }, true).unwrap()
}

/// What the soup costs with the prices that are taken; `None` without a cost.
fn food(repriced: &Repriced) -> Option<rust_decimal::Decimal> {
    let json = json_of(&repriced.after, &repriced.now);
    let cost = &recipe(&json, "Soup")["food_cost"];
    if cost.is_null() { None } else { Some(dec(cost)) }
}

fn whys(repriced: &Repriced) -> Vec<NotTaken> {
    repriced.list.held.iter().map(|held| held.why).collect()
}

/// Pounds before, pieces now: 2 lb at 25.00 ÷ 50 stay 1.00.
#[test]
fn pieces_in_place_of_pounds_are_held_back() {
    let list = "Code,Item,Pack,Price\n1001,Onions,100 ct,26.00\n";
    let onions = "Onions,50 lb,$25.00,Green Valley,1001,2026-10-01\n";
    let held = repriced(onions, "Onions,2,lb", list, &[]);
    assert_eq!((whys(&held), food(&held)), (vec![NotTaken::NotComparable], Some(d("1"))));
    assert_eq!(
        held.list.problems.iter().map(told).collect::<Vec<_>>(),
        [
            "list.csv ▸ D2 [list-unit-changed] “Onions” was $25 for 50 lb at book.csv ▸ C2; 26 for 100 ct cannot be compared \
          with that, so it was held back. Say in Measures what one weighs or holds; or take it as it is with --accept \
          \"Onions\"."
        ]
    );
    // Asked to, it is taken, and the soup has no cost.
    let asked = repriced(onions, "Onions,2,lb", list, &["onion"]);
    assert_eq!((whys(&asked), food(&asked)), (vec![], None));
    assert_eq!((&asked.list.taken[0].moved.change, asked.list.accepted_in_vain.len()), (&Change::NotComparable, 0));
}

/// Priced by weight before and now, but the new pack says no count: of 4 pieces of 100 ct 50 lb at 25.00, 1.00, nothing would
/// be known.
#[test]
fn a_pack_that_no_longer_says_how_many_is_held_back() {
    let onions = "Onions,100 ct 50 lb,$25.00,Green Valley,1001,2026-10-01\n";
    let list = "Code,Item,Pack,Price\n1001,Onions,50 lb,26.00\n";
    let held = repriced(onions, "Onions,4,each", list, &[]);
    assert_eq!((whys(&held), food(&held)), (vec![NotTaken::Stops], Some(d("1"))));
    let said = told(held.list.problems.last().unwrap());
    assert!(said.contains("with this price of “Onions”, “Soup” could not be costed any more"), "{said}");
    let asked = repriced(onions, "Onions,4,each", list, &["Onions"]);
    assert_eq!((whys(&asked), food(&asked), asked.list.accepted_in_vain.len()), (vec![], None, 0));
    // By the pound nothing is lost: 2 × 26 ÷ 50 = 1.04.
    let by_weight = repriced(onions, "Onions,2,lb", list, &[]);
    assert_eq!((whys(&by_weight), food(&by_weight)), (vec![], Some(d("1.04"))));
}

/// At the market's price in a pack that never had one: nothing to fall back on. Beside it another row of the list is taken:
/// 2 × 20 ÷ 50 + 20.00 ÷ 20 × 1.
#[test]
fn a_market_price_without_a_last_one_is_held_back_alone() {
    let prices = "Cod,10 lb,$80.00,Green Valley,7,2026-10-01\nOnions,50 lb,$25.00,Green Valley,1001,2026-10-01\n";
    let list = "Code,Item,Pack,Price\n7,Cod,20 lb,MKT\n1001,Onions,50 lb,20.00\n";
    let held = repriced(prices, "Cod,1,lb\nOnions,2,lb", list, &[]);
    // Cod stays 8.00 a pound, onions are 0.40 instead of 0.50: 8.00 + 0.80.
    assert_eq!((whys(&held), food(&held)), (vec![NotTaken::Stops], Some(d("8.8"))));
    assert_eq!(held.list.taken.len(), 1);
    let said = told(held.list.problems.last().unwrap());
    assert!(said.contains("with this price “Cod” would have none that can be used"), "{said}");
}

/// On the day of another supplier's price by the pound, one by the piece leaves open which is cheaper.
#[test]
fn a_tie_that_cannot_be_compared_is_held_back() {
    let prices = "Celery,10 lb,$20.00,North,,2026-11-01\n";
    let held = repriced(prices, "Celery,1,lb", "Code,Item,Pack,Price\n5,Celery,24 ct,24.00\n", &[]);
    assert_eq!((whys(&held), food(&held)), (vec![NotTaken::NotComparable], Some(d("2"))));
}

/// A row that stops nothing is taken, whatever else in the book has no cost already.
#[test]
fn what_had_no_cost_before_holds_nothing_back() {
    let prices = "Onions,50 lb,$25.00,Green Valley,1001,2026-10-01\n";
    let taken = repriced(prices, "Onions,2,each", "Code,Item,Pack,Price\n1001,Onions,50 lb,26.00\n", &[]);
    assert_eq!((whys(&taken), food(&taken), taken.list.taken.len()), (vec![], None, 1));
}

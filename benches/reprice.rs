//! What new prices do, over the large book with every price moved, beside costing it; and over 10,000 recipes each standing on
//! the one before, every one a dish with an item of its own.
//!
//! `cargo bench --bench reprice`. Prints times.

#![allow(
    clippy::print_stdout,
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a bench prints, and stops when it cannot go on"
)]

mod kitchen;
mod timed;

use std::fmt::Write as _;

use jiff::civil::date;
use parings::analysis::Effects;
use parings::kitchen::price::Price;
use parings::kitchen::resolve::resolve;
use parings::kitchen::{Field, Kitchen};
use parings::number::Decimal;
use parings::{Options, Scenario, Source, cost, read};

use crate::kitchen::{Size, book};
use crate::timed::timed;

/// A large book.
const LARGE: Size = Size { prices: 20_000, recipes: 10_000, lines: 20, tests: 200, borrowing: 0, cards: false };

/// When it is costed.
const OPTIONS: Options = Options { today: date(2026, 11, 20), as_of: None };

fn main() {
    let bytes = book(LARGE).expect("the book can be written");
    effects("large book", "kitchen.xlsx", &bytes);
    effects("recipes 10,000 deep", "kitchen.csv", deep(10_000).as_bytes());
}

fn effects(what: &str, name: &str, bytes: &[u8]) {
    let old = read(&[Source { name, bytes }], OPTIONS).expect("the book can be read").kitchen;
    let new = dearer(&old);
    let scenario = Scenario::of(&old);
    let (was, now) = (cost(&old, &scenario), cost(&new, &scenario));
    let found = Effects::of(&old, &was, &new, &now);
    let drivers: usize =
        found.dishes.iter().filter_map(|dish| dish.drivers.as_ref().ok()).map(|one| one.items.len()).sum();
    println!("{what}: {} movers, {} dishes, {drivers} drivers", found.movers.len(), found.dishes.len());
    timed("  cost", 5, || drop(cost(&old, &scenario)));
    timed("  effects", 5, || drop(Effects::of(&old, &was, &new, &now)));
}

/// The kitchen with a newer, dearer row for every price, each by another part of it.
fn dearer(kitchen: &Kitchen) -> Kitchen {
    let mut entries = kitchen.entries.clone();
    for (n, row) in kitchen.entries.prices.iter().enumerate() {
        let mut row = row.clone();
        if let Field::Given(Price::Money(money)) = row.price {
            let factor = Decimal::new(101 + i64::try_from(n % 13).expect("below 13"), 2);
            row.price = Field::Given(Price::Money(money * factor));
        }
        row.date = Field::Given(date(2026, 11, 15));
        entries.prices.push(row);
    }
    resolve(entries, OPTIONS).0
}

/// A book of recipes each of which takes the one before and an item of its own.
fn deep(recipes: u32) -> String {
    let mut prices = "Item,Pack,Price,Date\n".to_owned();
    let mut facts = "\nRecipe,Makes,Portions,Menu price\n".to_owned();
    let mut lines = "\nRecipe,Item,Qty,Unit\n".to_owned();
    for n in 0..recipes {
        writeln!(prices, "Item {n},1 kg,{}.37,2026-11-01", 2 + n % 90).expect("a text takes all");
        writeln!(facts, "Recipe {n},1 kg,3,9.00").expect("a text takes all");
        writeln!(lines, "Recipe {n},Item {n},{},g", 100 + n % 700).expect("a text takes all");
        if let Some(before) = n.checked_sub(1) {
            writeln!(lines, "Recipe {n},Recipe {before},900,g").expect("a text takes all");
        }
    }
    prices + &facts + &lines
}

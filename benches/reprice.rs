//! A whole run of `reprice` over the large book, every price of which is on a new list, beside a whole run of `cost` over it:
//! at most 1.5 times as long is the aim. Then what new prices do alone, beside costing alone; and the same over 10,000 recipes each standing on
//! the one before, every one a dish with an item of its own.
//!
//! `cargo bench --bench reprice`. Prints times, by the clock and of the processors.

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
use parings::internals::resolve;
use parings::kitchen::price::Price;
use parings::kitchen::{Field, Kitchen};
use parings::number::Decimal;
use parings::{ListOptions, Options, Scenario, Source, cost, read, reprice, write, write_repriced};

use crate::kitchen::{LARGE, book};
use crate::timed::timed;

/// When it is costed.
const OPTIONS: Options = Options::on(date(2026, 11, 20));

fn main() {
    let bytes = book(LARGE).expect("the book can be written");
    whole(&bytes);
    effects("large book", "kitchen.xlsx", &bytes);
    effects("recipes 10,000 deep", "kitchen.csv", deep(10_000).as_bytes());
}

/// Whole runs: from the bytes of the files to those of the workbook.
fn whole(bytes: &[u8]) {
    let stamp = date(2026, 11, 20).at(12, 0, 0, 0);
    let sources = [Source { name: "kitchen.xlsx", bytes }];
    let list = list(&read(&sources, OPTIONS).expect("the book can be read").kitchen);
    let lists = [Source { name: "new.csv", bytes: list.as_bytes() }];
    let costed = timed("whole cost", 3, || {
        let reading = read(&sources, OPTIONS).expect("as before");
        let costing = cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
        drop(write(&reading, &costing, stamp).expect("the workbook can be written"));
    });
    let repriced = timed("whole reprice", 3, || {
        let reading = read(&sources, OPTIONS).expect("as before");
        let repriced = reprice(reading, &lists, &ListOptions::default(), true).expect("the list can be read");
        assert!(!repriced.effects.movers.is_empty(), "a list that moves nothing is no measure");
        drop(write_repriced(&repriced, stamp).expect("the workbook can be written"));
    });
    let (clock, processors) = (ratio(repriced.wall, costed.wall), ratio(repriced.cpu, costed.cpu));
    println!("reprice ÷ cost {clock:.2} by the clock, {processors:.2} of the processors");
}

#[expect(clippy::disallowed_types, clippy::float_arithmetic, reason = "a ratio of two times")]
fn ratio(time: std::time::Duration, other: std::time::Duration) -> f64 {
    time.as_secs_f64() / other.as_secs_f64()
}

/// A new list that has every price of the kitchen, each dearer by another part of it.
fn list(kitchen: &Kitchen) -> String {
    let mut list = "Item,Pack,Price,Per,Supplier,Code,Date\n".to_owned();
    for (n, row) in kitchen.entries.prices.iter().enumerate() {
        let (Field::Given(Price::Money(money)), Some(pack)) = (&row.price, row.pack.given()) else { continue };
        let factor = Decimal::new(101 + i64::try_from(n % 13).expect("below 13"), 2);
        let per = row.per.given().map(ToString::to_string).unwrap_or_default();
        let money = money * factor;
        writeln!(list, "\"{}\",\"{}\",{money},{per},\"{}\",{},2026-11-18", row.item, pack.text, row.supplier, row.code)
            .expect("a text takes all");
    }
    list
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

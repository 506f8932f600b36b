//! What a costing means for trim: ways of charging side by side, a credit swept, runs compared, old cost factors.

mod balance;
mod conservation;
mod earned;
mod edges;
mod enough;
mod factor;
mod held;
pub mod house;
mod keeps;
pub mod laws;
pub mod planned;
mod sold;
mod spread;
mod sweep;
mod told;
mod ways;
mod worth;

use parings::costing::{Rate, Trial};
use parings::kitchen::{PartId, TestId};
use parings::{Costing, Reading};
use rust_decimal::{Decimal, RoundingStrategy};

use crate::support::cost_bytes;

/// Reads and costs one book of csv text.
#[track_caller]
pub fn read(book: &str) -> (Reading, Costing) {
    cost_bytes(&[("book.csv", book.as_bytes())])
}

/// The codes of all errors of a book.
pub fn errors(reading: &Reading, costing: &Costing) -> Vec<&'static str> {
    let all = reading.problems_with(costing);
    all.iter().filter(|problem| problem.is_error()).map(|problem| problem.code.name()).collect()
}

/// The only test of a book.
#[track_caller]
pub fn only_test(reading: &Reading) -> TestId {
    let mut ids = reading.kitchen.test_ids();
    let id = ids.next().unwrap();
    assert_eq!(ids.next(), None, "the book has several tests");
    id
}

/// The part of this name.
#[track_caller]
pub fn part(reading: &Reading, name: &str) -> PartId {
    let kitchen = &reading.kitchen;
    let mut all = kitchen.test_ids().flat_map(|test| kitchen.part_ids(test));
    all.find(|id| kitchen.part(*id).unwrap().name == name).unwrap_or_else(|| panic!("no part “{name}”"))
}

/// A trial of what a book is costed at.
pub fn trial<'a>(reading: &'a Reading, costing: &Costing) -> Trial<'a> {
    Trial::of(&reading.kitchen, costing.clone())
}

pub fn d(text: &str) -> Decimal {
    text.parse().unwrap()
}

pub fn rounded(number: Decimal, places: u32) -> Decimal {
    number.round_dp_with_strategy(places, RoundingStrategy::MidpointAwayFromZero)
}

/// Asserts that a number, rounded half up to the places of `printed`, is `printed`.
#[track_caller]
pub fn comes_to(number: Decimal, printed: &str) {
    let printed = d(printed);
    assert_eq!(rounded(number, printed.scale()), printed, "the full number is {number}");
}

/// A rate told per pound of 453.59237 g; rounded at 20 decimals, so that the last digit of a quotient does not tip a half.
#[track_caller]
pub fn per_lb(rate: Option<Rate>) -> Decimal {
    let rate = rate.unwrap();
    rounded(rate.money * d("453.59237") / rate.per, 20)
}

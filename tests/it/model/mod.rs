//! An independent model of costing, in exact fractions.
//!
//! Kitchens of chance are written as books, read and costed by parings, and worked a second time here: from the
//! generator's own structures, by the rules of costing as they are written for people, in fractions of whole numbers, with
//! nothing of the crate's reading, units, packs, conversion or costing. Every figure must agree to 1e-20. What differs is a
//! fault of one of the two, and which one is to be settled by the rule, not by either's code.
//!
//! `kitchen` throws the kitchens, `book` writes them, `costing` works them, `compare` holds the one against the other.
//! Units are those of NIST Handbook 44, Appendix C; no other figure is taken from anywhere. `PROPTEST_CASES=2000` looks
//! longer than the usual run.

mod book;
mod compare;
mod costing;
mod dice;
pub mod fraction;
mod kitchen;
mod order;
mod unit;

use proptest::test_runner::{Config, TestCaseError, TestRunner};

use crate::support::cost_json;
use kitchen::Kitchen;

/// As every property test runs. A kitchen is large: what is left of it after so many simplifications is small enough.
fn chance(cases: u32) -> Config {
    Config { max_shrink_iters: 4_000, ..crate::support::chance(cases) }
}

/// Checks the books of as many kitchens of chance, each as csv text; stops at the first that a check refuses, made as small
/// as can be.
pub fn over_books(cases: u32, check: impl Fn(&str) -> Result<usize, String>) {
    let outcome = TestRunner::new(chance(cases)).run(&kitchen::tapes(), |tapes| {
        let text = book::csv(&book::tables(&tapes.kitchen()));
        check(&text).map(drop).map_err(|differs| TestCaseError::fail(format!("{differs}\n\n{text}")))
    });
    outcome.unwrap_or_else(|failure| panic!("{failure}"));
}

/// How many figures were compared, and which differ.
fn differences(kitchen: &Kitchen) -> (compare::Compared, String) {
    let text = book::csv(&book::tables(kitchen));
    let json = cost_json(&[("book.csv", &text)]);
    (compare::compare(&costing::costs(kitchen), &json), text)
}

/// Every figure of kitchens of chance is what the model says.
#[test]
fn every_figure_is_that_of_the_model() {
    let config = chance(60);
    let cases = config.cases;
    let mut runner = TestRunner::new(config);
    let figures = std::cell::Cell::new(0_usize);
    let outcome = runner.run(&kitchen::tapes(), |tapes| {
        let (compared, text) = differences(&tapes.kitchen());
        figures.set(figures.get() + compared.figures);
        if compared.differences.is_empty() {
            return Ok(());
        }
        Err(TestCaseError::fail(format!("{}\n\n{text}", compared.differences.join("\n"))))
    });
    println!("{cases} kitchens, {} figures", figures.get());
    outcome.unwrap_or_else(|failure| panic!("{failure}"));
}

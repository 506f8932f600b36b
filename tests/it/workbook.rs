//! The costed workbook: alive, and the same book when it is read again.

use jiff::civil::{DateTime, datetime};
use parings::{Costing, Reading, write};

use crate::recalc::assert_recalculates;
use crate::support::cost_bytes;

/// When the tests write.
const STAMP: DateTime = datetime(2026, 11, 20, 12, 0, 0, 0);

/// The invented teaching kitchen.
pub const TEACHING_KITCHEN: &[u8] = include_bytes!("../../sample-books/teaching-kitchen.xlsx");

/// A book costed and written.
#[track_caller]
pub fn costed(name: &str, bytes: &[u8]) -> (Reading, Costing, Vec<u8>) {
    let (reading, costing) = cost_bytes(&[(name, bytes)]);
    let written = write(&reading, &costing, STAMP).unwrap_or_else(|error| panic!("{error}"));
    (reading, costing, written)
}

#[test]
fn every_formula_of_the_teaching_kitchen_recalculates() {
    let (_, _, written) = costed("teaching-kitchen.xlsx", TEACHING_KITCHEN);
    if let Ok(path) = std::env::var("DUMP") {
        std::fs::write(path, &written).unwrap();
    }
    assert_recalculates(&written, "teaching-kitchen.costed.xlsx");
}

#[test]
fn a_costed_book_is_the_same_book() {
    let (_, _, once) = costed("teaching-kitchen.xlsx", TEACHING_KITCHEN);
    let (_, _, twice) = costed("teaching-kitchen.costed.xlsx", &once);
    if let Ok(path) = std::env::var("DUMP") {
        std::fs::write(format!("{path}2.xlsx"), &twice).unwrap();
    }
    assert!(once == twice);
}

//! Units and containers against published tables: `units/units.tsv` (standards, with the source of each row) and
//! `units/containers.tsv` (scoops, ladles, cans, pans, eggs; passages read in the published text). What is knowingly not
//! a unit here is listed with its reason, and a test sees to it that the list is true.

mod cans;
mod containers;
mod table;

use parings::measure::{Base, Unit, Volumes};
use rust_decimal::Decimal;

/// The rows of a table, each a list of its columns; the header row left out.
fn rows(table: &'static str, columns: usize) -> Vec<Vec<&'static str>> {
    let rows: Vec<Vec<&str>> = table.lines().skip(1).map(|line| line.split('\t').collect()).collect();
    assert!(rows.iter().all(|row| row.len() == columns), "a row has another number of columns");
    rows
}

#[track_caller]
fn d(text: &str) -> Decimal {
    text.parse().unwrap_or_else(|_| panic!("“{text}” is no decimal"))
}

/// What `name` measures and its size in g, ml or each.
#[track_caller]
fn size(name: &str, volumes: Volumes) -> (Base, Decimal) {
    let unit = Unit::parse(name).unwrap_or_else(|| panic!("“{name}” is no unit"));
    unit.to_base(volumes).unwrap_or_else(|| panic!("“{name}” has no size"))
}

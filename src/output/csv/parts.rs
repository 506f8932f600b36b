//! The parts of all yield tests as a tidy table.

use super::{CsvCell, table};
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::results::yield_test::TestResult;

const COLUMNS: [&str; 15] = [
    "test",
    "part",
    "role",
    "weight_g",
    "yield_percent",
    "charged_as",
    "cost",
    "cost_per_g",
    "cost_factor",
    "test_weight_g",
    "test_cost",
    "test_loss_g",
    "test_taken_up_g",
    "currency",
    "as_of",
];

/// One row per part of every yield test, in book order; what is the whole test's stands beside each of them.
pub fn parts(kitchen: &Kitchen, costing: &Costing) -> String {
    let rows = TestResult::all(kitchen, costing).flat_map(|figures| {
        let rows: Vec<[CsvCell; 15]> = figures
            .parts
            .iter()
            .map(|of| {
                [
                    CsvCell::text(figures.name),
                    CsvCell::text(of.name),
                    CsvCell::of(Some(of.role)),
                    CsvCell::figure(Some(of.weight_g)),
                    CsvCell::figure(of.yield_percent),
                    CsvCell::of(of.charged_as),
                    CsvCell::figure(of.cost),
                    CsvCell::figure(of.cost_per_g),
                    CsvCell::figure(of.cost_factor),
                    CsvCell::figure(figures.weight_g),
                    CsvCell::figure(figures.cost),
                    CsvCell::figure(figures.loss_g),
                    CsvCell::figure(figures.taken_up_g),
                    CsvCell::text(&kitchen.settings.currency),
                    CsvCell::day(costing.scenario.date),
                ]
            })
            .collect();
        rows
    });
    table(&COLUMNS, rows)
}

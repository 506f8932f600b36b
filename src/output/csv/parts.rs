//! The parts of all yield tests as a tidy table.

use super::{Cell, table};
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
        let rows: Vec<[Cell; 15]> = figures
            .parts
            .iter()
            .map(|of| {
                [
                    Cell::text(figures.name),
                    Cell::text(of.name),
                    Cell::of(Some(of.role)),
                    Cell::figure(Some(of.weight_g)),
                    Cell::figure(of.yield_percent),
                    Cell::of(of.charged_as),
                    Cell::figure(of.cost),
                    Cell::figure(of.cost_per_g),
                    Cell::figure(of.cost_factor),
                    Cell::figure(figures.weight_g),
                    Cell::figure(figures.cost),
                    Cell::figure(figures.loss_g),
                    Cell::figure(figures.taken_up_g),
                    Cell::text(&kitchen.settings.currency),
                    Cell::day(costing.scenario.date),
                ]
            })
            .collect();
        rows
    });
    table(&COLUMNS, rows)
}

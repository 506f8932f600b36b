//! Trim as tidy tables: a row for every part under every way of charging, or for every dish at every step of a sweep.

use super::{CsvCell, table};
use crate::analysis::Trim;
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::problem::suggest::first_few;
use crate::results::trim::{all_sweeps, all_ways};
use crate::results::yield_test::TestResult;

const PART_COLUMNS: [&str; 11] =
    ["test", "part", "role", "weight_g", "yield_percent", "way", "cost", "cost_per_g", "lacking", "currency", "as_of"];

const STEP_COLUMNS: [&str; 10] = [
    "by_product",
    "charged_percent",
    "bears",
    "total",
    "dish",
    "side",
    "portion_cost",
    "food_cost_percent",
    "stopped",
    "currency",
];

/// One row per part and way of charging.
pub fn ways(kitchen: &Kitchen, costing: &Costing, trim: &Trim) -> String {
    let mut rows = Vec::new();
    for (test, ways) in TestResult::all(kitchen, costing).zip(all_ways(kitchen, trim)) {
        for under in &ways {
            // Said of every part: a list of all would grow with the parts twice.
            let lacking = first_few(under.lacking.iter().cloned(), under.lacking.len()).join("; ");
            for (index, part) in test.parts.iter().enumerate() {
                let bears = under.parts.get(index);
                rows.push([
                    CsvCell::text(test.name),
                    CsvCell::text(part.name),
                    CsvCell::of(Some(part.role)),
                    CsvCell::figure(Some(part.weight_g)),
                    CsvCell::figure(part.yield_percent),
                    CsvCell::of(Some(under.way)),
                    CsvCell::figure(bears.map(|part| part.cost)),
                    CsvCell::figure(bears.and_then(|part| part.cost_per_g)),
                    CsvCell::text(&lacking),
                    CsvCell::text(&kitchen.settings.currency),
                    CsvCell::day(costing.scenario.date),
                ]);
            }
        }
    }
    table(&PART_COLUMNS, rows.into_iter())
}

/// One row per step and dish of every by-product whose charge is moved.
pub fn sweeps(kitchen: &Kitchen, trim: &Trim) -> String {
    let mut rows = Vec::new();
    for sweep in all_sweeps(kitchen, trim) {
        for step in &sweep.steps {
            for dish in &step.dishes {
                rows.push([
                    CsvCell::text(sweep.by_product),
                    CsvCell::figure(step.charged_percent),
                    CsvCell::figure(step.bears),
                    CsvCell::figure(step.total),
                    CsvCell::text(dish.name),
                    CsvCell::of(Some(dish.side)),
                    CsvCell::figure(dish.portion_cost),
                    CsvCell::figure(dish.food_cost_percent),
                    CsvCell::of(step.stopped),
                    CsvCell::text(&kitchen.settings.currency),
                ]);
            }
        }
    }
    table(&STEP_COLUMNS, rows.into_iter())
}

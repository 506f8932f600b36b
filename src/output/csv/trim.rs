//! Trim as tidy tables: a row for every part under every way of charging, or for every dish at every step of a sweep.

use super::{Cell, table};
use crate::analysis::Trim;
use crate::costing::Costing;
use crate::kitchen::Kitchen;
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
            for (index, part) in test.parts.iter().enumerate() {
                let bears = under.parts.get(index);
                rows.push([
                    Cell::text(test.name),
                    Cell::text(part.name),
                    Cell::of(Some(part.role)),
                    Cell::figure(Some(part.weight_g)),
                    Cell::figure(part.yield_percent),
                    Cell::of(Some(under.way)),
                    Cell::figure(bears.map(|part| part.cost)),
                    Cell::figure(bears.and_then(|part| part.cost_per_g)),
                    Cell::text(&under.lacking.join("; ")),
                    Cell::text(&kitchen.settings.currency),
                    Cell::day(costing.scenario.date),
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
                    Cell::text(sweep.by_product),
                    Cell::figure(step.charged_percent),
                    Cell::figure(step.bears),
                    Cell::figure(step.total),
                    Cell::text(dish.name),
                    Cell::of(Some(dish.side)),
                    Cell::figure(dish.portion_cost),
                    Cell::figure(dish.food_cost_percent),
                    Cell::of(step.stopped),
                    Cell::text(&kitchen.settings.currency),
                ]);
            }
        }
    }
    table(&STEP_COLUMNS, rows.into_iter())
}

//! Trim as tidy tables: a row for every part under every way of charging, or for every dish at every step of a sweep.

use super::{Cell, table};
use crate::analysis::Trim;
use crate::analysis::sweep::Sweep;
use crate::costing::{Costing, Rate};
use crate::kitchen::Kitchen;
use crate::results::word::Word;

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
    for ways in trim.ways.iter().flatten() {
        let (Some(test), Some(cost)) = (kitchen.test(ways.test), costing.test(ways.test)) else { continue };
        for (way, under) in &ways.ways {
            for (index, (part, figures)) in test.parts.iter().zip(&cost.parts).enumerate() {
                let bears = under.as_ref().ok().and_then(|under| under.parts.get(index));
                let lacking = under
                    .as_ref()
                    .err()
                    .map(|lacks| lacks.iter().map(|lack| lack.words(kitchen)).collect::<Vec<_>>().join("; "));
                rows.push([
                    Cell::text(&test.name),
                    Cell::text(&part.name),
                    Cell::of(Some(Word(part.role))),
                    Cell::number(Some(figures.grams)),
                    Cell::percent(Some(figures.fraction)),
                    Cell::of(Some(Word(*way))),
                    Cell::number(bears.map(|part| part.cost)),
                    unit_cost(bears.and_then(|part| part.rate)),
                    Cell::text(&lacking.unwrap_or_default()),
                    Cell::text(&kitchen.settings.currency),
                    Cell::day(costing.scenario.date),
                ]);
            }
        }
    }
    table(&PART_COLUMNS, rows.into_iter())
}

fn unit_cost(rate: Option<Rate>) -> Cell {
    Cell::number(rate.and_then(Rate::per_unit))
}

/// One row per step and dish of every by-product whose charge is moved.
pub fn sweeps(kitchen: &Kitchen, trim: &Trim) -> String {
    table(&STEP_COLUMNS, trim.sweeps.iter().flat_map(|sweep| steps(kitchen, sweep)).collect::<Vec<_>>().into_iter())
}

fn steps(kitchen: &Kitchen, sweep: &Sweep) -> Vec<[Cell; 10]> {
    let name = kitchen.part(sweep.part).map(|part| Cell::text(&part.name)).unwrap_or_default();
    let mut rows = Vec::new();
    for step in &sweep.steps {
        let swept = step.outcome.as_ref().ok();
        let bears = swept.and_then(|swept| swept.bears(sweep.part));
        for (index, dish) in sweep.dishes.iter().enumerate() {
            let at = swept.and_then(|swept| swept.dishes.get(index).copied().flatten());
            rows.push([
                name.clone(),
                Cell::percent(Some(step.fraction)),
                Cell::number(bears),
                Cell::number(swept.map(|swept| swept.total)),
                kitchen.dishes.get(dish.dish).map(|dish| Cell::text(&dish.name)).unwrap_or_default(),
                Cell::of(Some(Word(dish.side))),
                Cell::number(at.map(|at| at.portion_cost)),
                Cell::percent(at.and_then(|at| at.food_cost)),
                Cell::of(step.outcome.as_ref().err().map(|problem| Word(problem.code))),
                Cell::text(&kitchen.settings.currency),
            ]);
        }
    }
    rows
}

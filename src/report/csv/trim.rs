//! Trim as tidy tables: a row for every part under every way of charging, or for every dish at every step of a sweep.

use super::{percent, table, text};
use crate::analysis::Trim;
use crate::analysis::sweep::{Side, Sweep};
use crate::costing::{Costing, Rate};
use crate::kitchen::Kitchen;
use crate::number::{Decimal, plain};

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
                    text(&test.name),
                    text(&part.name),
                    part.role.word().to_owned(),
                    plain(figures.grams),
                    percent(Some(figures.fraction)),
                    way.word().to_owned(),
                    bears.map(|part| plain(part.cost)).unwrap_or_default(),
                    unit_cost(bears.and_then(|part| part.rate)),
                    text(&lacking.unwrap_or_default()),
                    kitchen.settings.currency.clone(),
                    costing.scenario.date.to_string(),
                ]);
            }
        }
    }
    table(&PART_COLUMNS, rows.into_iter())
}

fn unit_cost(rate: Option<Rate>) -> String {
    rate.and_then(|rate| rate.unit_cost().ok()).map(plain).unwrap_or_default()
}

/// One row per step and dish of every by-product whose charge is moved.
pub fn sweeps(kitchen: &Kitchen, trim: &Trim) -> String {
    table(&STEP_COLUMNS, trim.sweeps.iter().flat_map(|sweep| steps(kitchen, sweep)).collect::<Vec<_>>().into_iter())
}

fn steps(kitchen: &Kitchen, sweep: &Sweep) -> Vec<[String; 10]> {
    let name = kitchen.part(sweep.part).map(|part| text(&part.name)).unwrap_or_default();
    let mut rows = Vec::new();
    for step in &sweep.steps {
        let swept = step.outcome.as_ref().ok();
        let bears = swept.and_then(|swept| swept.parts.get(sweep.part.index())).map(|part| part.cost);
        let number = |number: Option<Decimal>| number.map(plain).unwrap_or_default();
        for (index, dish) in sweep.dishes.iter().enumerate() {
            let at = swept.and_then(|swept| swept.dishes.get(index).copied().flatten());
            rows.push([
                name.clone(),
                percent(Some(step.fraction)),
                number(bears),
                number(swept.map(|swept| swept.total)),
                kitchen.dishes.get(dish.dish).map(|dish| text(&dish.name)).unwrap_or_default(),
                side(dish.side).to_owned(),
                number(at.map(|at| at.portion_cost)),
                percent(at.and_then(|at| at.food_cost)),
                step.outcome.as_ref().err().map(|problem| problem.code.name().to_owned()).unwrap_or_default(),
                kitchen.settings.currency.clone(),
            ]);
        }
    }
    rows
}

/// On which side of a credit a dish stands, in a word or two.
pub(in crate::report) fn side(side: Side) -> &'static str {
    match side {
        Side::Maker => "made beside it",
        Side::User => "made of it",
        Side::Both => "both",
    }
}

//! Built-in foods as JSON.

use serde::Serialize;

use super::{FORMAT, pretty};
use crate::food::Food;
use crate::kitchen::Reference;
use crate::number::{Decimal, plain};

#[derive(Debug, Serialize)]
struct FoodsJson {
    parings: &'static str,
    format: u32,
    foods: Vec<FoodJson>,
}

#[derive(Debug, Serialize)]
struct FoodJson {
    name: &'static str,
    source: String,
    description: &'static str,
    group: &'static str,
    refuse_percent: Option<String>,
    refuse: Option<&'static str>,
    yield_percent: String,
    measures: Vec<MeasureJson>,
    cooked: Vec<CookedJson>,
}

#[derive(Debug, Serialize)]
struct MeasureJson {
    measure: String,
    grams: String,
    basis: &'static str,
}

#[derive(Debug, Serialize)]
struct CookedJson {
    measure: &'static str,
    from: &'static str,
    to: &'static str,
    yield_percent: String,
}

#[derive(Debug, Serialize)]
struct ProposalsJson<'a> {
    parings: &'static str,
    format: u32,
    items: Vec<ProposalJson<'a>>,
}

#[derive(Debug, Serialize)]
struct ProposalJson<'a> {
    item: &'a str,
    reference_foods: Vec<&'static str>,
}

/// The JSON of foods in full.
pub fn foods(foods: &[Reference]) -> String {
    let foods = foods.iter().filter_map(|reference| Some(food_json(*reference, reference.food()?))).collect();
    pretty(&FoodsJson { parings: env!("CARGO_PKG_VERSION"), format: FORMAT, foods })
}

/// The JSON of what a book's items might borrow.
pub fn proposals(proposed: &[(String, Vec<Reference>)]) -> String {
    let items = proposed
        .iter()
        .map(|(item, foods)| ProposalJson { item, reference_foods: foods.iter().map(|food| food.name()).collect() });
    pretty(&ProposalsJson { parings: env!("CARGO_PKG_VERSION"), format: FORMAT, items: items.collect() })
}

fn food_json(reference: Reference, food: Food) -> FoodJson {
    FoodJson {
        name: reference.name(),
        source: format!("SR28 {}", food.number()),
        description: food.description(),
        group: food.group(),
        refuse_percent: food.refuse().map(|refuse| plain(refuse.percent)),
        refuse: food.refuse().map(|refuse| refuse.what),
        yield_percent: food.trim_yield().checked_mul(Decimal::ONE_HUNDRED).map(plain).unwrap_or_default(),
        measures: food
            .measures()
            .map(|measure| MeasureJson {
                measure: measure.text(),
                grams: plain(measure.grams()),
                basis: if measure.is_as_purchased() { "AP" } else { "EP" },
            })
            .collect(),
        cooked: food
            .cooked()
            .map(|one| CookedJson {
                measure: one.measure,
                from: one.from,
                to: one.to,
                yield_percent: plain(one.percent),
            })
            .collect(),
    }
}

//! Built-in foods, and those that items might borrow from.

use schemars::JsonSchema;
use serde::Serialize;

use super::value::{Figure, FormatVersion, VERSION};
use super::word::Word;
use crate::food::Food;
use crate::kitchen::Reference;
use crate::kitchen::bridge::Basis;
use crate::number::Decimal;

/// Built-in foods: `parings food NAME --format json`.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "parings food")]
pub struct FoodsResult {
    /// The version of the program.
    pub parings: &'static str,
    /// The version of this format.
    pub format: FormatVersion,
    /// The food of that name, or those that bear the words.
    pub foods: Vec<FoodResult>,
}

/// A built-in food.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Food")]
pub struct FoodResult {
    /// Its name, as the column Reference food takes it.
    pub name: &'static str,
    /// The reference data set and the number in it.
    pub source: String,
    /// The description there.
    pub description: &'static str,
    /// The group there.
    pub group: &'static str,
    /// How much of it is refuse, in %; null where none is stated.
    pub refuse_percent: Option<Figure>,
    /// What the refuse is.
    pub refuse: Option<&'static str>,
    /// What is left after trimming, in %.
    pub yield_percent: Figure,
    /// What its measures weigh.
    pub measures: Vec<MeasureResult>,
    /// What cooking leaves of it.
    pub cooked: Vec<CookedResult>,
}

/// A measure of a food.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Measure")]
pub struct MeasureResult {
    /// One of it.
    pub measure: String,
    /// What that weighs.
    pub grams: Figure,
    /// Whether with refuse or without.
    pub basis: Word<Basis>,
}

/// What cooking leaves.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Cooked")]
pub struct CookedResult {
    /// The way of cooking.
    pub measure: &'static str,
    /// What goes in.
    pub from: &'static str,
    /// What comes out.
    pub to: &'static str,
    /// Its weight in % of what goes in.
    pub yield_percent: Figure,
}

/// Foods that a book's items might borrow from: `parings food --for BOOK --format json`.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "parings food --for")]
pub struct ProposalsResult<'a> {
    /// The version of the program.
    pub parings: &'static str,
    /// The version of this format.
    pub format: FormatVersion,
    /// The items that name no built-in food.
    pub items: Vec<ProposalResult<'a>>,
}

/// An item with what is proposed for it.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Proposal")]
pub struct ProposalResult<'a> {
    /// Its name.
    pub item: &'a str,
    /// Foods it might borrow from, the likeliest first.
    pub reference_foods: Vec<&'static str>,
}

/// The JSON of foods in full.
pub fn foods(foods: &[Reference]) -> FoodsResult {
    let foods = foods.iter().filter_map(|reference| Some(food_json(*reference, reference.food()?))).collect();
    FoodsResult { parings: VERSION, format: FormatVersion, foods }
}

/// The JSON of what a book's items might borrow.
pub fn proposals(proposed: &[(String, Vec<Reference>)]) -> ProposalsResult<'_> {
    let items = proposed
        .iter()
        .map(|(item, foods)| ProposalResult { item, reference_foods: foods.iter().map(|food| food.name()).collect() });
    ProposalsResult { parings: VERSION, format: FormatVersion, items: items.collect() }
}

fn food_json(reference: Reference, food: Food) -> FoodResult {
    FoodResult {
        name: reference.name(),
        source: format!("SR28 {}", food.number()),
        description: food.description(),
        group: food.group(),
        refuse_percent: food.refuse().map(|refuse| Figure(refuse.percent)),
        refuse: food.refuse().map(|refuse| refuse.what),
        yield_percent: Figure(food.trim_yield().saturating_mul(Decimal::ONE_HUNDRED)),
        measures: food
            .measures()
            .map(|measure| MeasureResult {
                measure: measure.text(),
                grams: Figure(measure.grams()),
                basis: if measure.is_as_purchased() { Word(Basis::Ap) } else { Word(Basis::Ep) },
            })
            .collect(),
        cooked: food
            .cooked()
            .map(|one| CookedResult {
                measure: one.measure,
                from: one.from,
                to: one.to,
                yield_percent: Figure(one.percent),
            })
            .collect(),
    }
}

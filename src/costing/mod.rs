//! What everything costs: bought, fabricated and made items in one pass, each visited once, in cost order.
//!
//! Takes a [`Kitchen`] and a [`Scenario`]; gives a [`Costing`]: figures with their provenance, and the problems met.
//! Sees no file, clock or terminal. What a problem stops is `None`; everything else is costed.

pub mod allergens;
mod borrowed;
pub mod bought;
mod cans;
pub mod choice;
pub mod convert;
pub mod dish;
mod doubts;
pub mod fabricated;
pub mod kind;
pub mod line;
pub mod link;
mod links;
pub mod made;
mod ounces;
pub mod price;
pub mod rate;
pub mod scenario;
mod serving;
pub mod split;
pub mod trace;
pub mod trial;
mod unjoined;
pub mod weighed;

pub use allergens::AllergenSet;
pub use bought::{ItemCost, RowCost};
pub use choice::RowState;
pub use dish::DishCost;
pub use fabricated::{PartCost, TestCost};
pub use line::LineCost;
pub use link::MeasureFrom;
pub use made::RecipeCost;
pub use rate::Rate;
pub use scenario::{Charging, Scenario};
pub use trace::{LineTrace, YieldFrom};
pub use trial::Trial;

use crate::kitchen::{ItemId, Kitchen, Node, PartId, RecipeId, TestId};
use crate::problem::Problem;

/// The costs of a kitchen under one scenario. Lists run beside the kitchen's own.
#[derive(Debug, Clone)]
pub struct Costing {
    /// The scenario.
    pub scenario: Scenario,
    /// What every price row costs per unit, whether it is used or not.
    pub rows: Vec<Option<RowCost>>,
    /// Why every price row is used or not.
    pub row_states: Vec<RowState>,
    /// The items.
    pub items: Vec<Option<ItemCost>>,
    /// The yield tests.
    pub tests: Vec<Option<TestCost>>,
    /// The recipes.
    pub recipes: Vec<Option<RecipeCost>>,
    /// The dishes.
    pub dishes: Vec<Option<DishCost>>,
    /// The allergens of every recipe, costed or not.
    pub allergens: Vec<AllergenSet>,
    /// What was met on the way.
    pub problems: Vec<Problem>,
}

impl Costing {
    /// The cost of an item.
    pub fn item(&self, id: ItemId) -> Option<&ItemCost> {
        self.items.get(id.index())?.as_ref()
    }

    /// The cost of a test.
    pub fn test(&self, id: TestId) -> Option<&TestCost> {
        self.tests.get(id.index())?.as_ref()
    }

    /// The cost of a part.
    pub fn part(&self, id: PartId) -> Option<&PartCost> {
        self.test(id.test)?.parts.get(id.index())
    }

    /// The cost of a recipe.
    pub fn recipe(&self, id: RecipeId) -> Option<&RecipeCost> {
        self.recipes.get(id.index())?.as_ref()
    }
}

/// Costs `kitchen` under `scenario`.
pub fn cost(kitchen: &Kitchen, scenario: &Scenario) -> Costing {
    let priced = choice::all(kitchen, scenario);
    let mut costing = Costing {
        scenario: scenario.clone(),
        rows: priced.rows,
        row_states: priced.states,
        items: priced.items,
        tests: kitchen.tests.iter().map(|_| None).collect(),
        recipes: kitchen.recipes.iter().map(|_| None).collect(),
        dishes: Vec::with_capacity(kitchen.dishes.len()),
        allergens: Vec::new(),
        problems: priced.problems,
    };
    for node in &kitchen.order {
        match node {
            Node::Item(_) => {}
            Node::Test(id) => {
                let cost = fabricated::cost(kitchen, &mut costing, *id);
                if let Some(slot) = costing.tests.get_mut(id.index()) {
                    *slot = cost;
                }
            }
            Node::Recipe(id) => {
                let cost = made::cost(kitchen, &mut costing, *id);
                if let Some(slot) = costing.recipes.get_mut(id.index()) {
                    *slot = cost;
                }
            }
        }
    }
    for dish in &kitchen.dishes {
        let cost = dish::cost(kitchen, &mut costing, dish);
        costing.dishes.push(cost);
    }
    bought::compare_yields(kitchen, &mut costing);
    costing.allergens = allergens::all(kitchen, &costing);
    costing
}

//! The model: what everything costs, in exact fractions, worked from the rules of costing as they are written and from
//! nothing of the crate. What a rule makes an error is a [`Lack`].

mod bought;
mod breakdowns;
mod conversion;
mod made;
mod served;

use super::fraction::Fraction;
use super::kitchen::Kitchen;
use super::unit::Dim;

pub use bought::YieldFrom;
pub use breakdowns::{TestCost, weight};
pub use made::{LineCost, RecipeCost};
pub use served::DishCost;

/// Why something has no cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Lack(pub &'static str);

/// A figure, or why there is none.
pub type Known<T> = Result<T, Lack>;

/// Quantity and unit cost in a base unit.
#[derive(Debug, Clone, PartialEq)]
pub struct Base {
    pub dim: Dim,
    pub qty: Fraction,
    pub unit_cost: Fraction,
}

/// What came of a kitchen.
pub struct Costs<'a> {
    pub kitchen: &'a Kitchen,
    pub tests: Vec<TestCost>,
    pub recipes: Vec<RecipeCost>,
    pub dishes: Vec<DishCost>,
}

/// Costs a kitchen: the first recipe, which a test may break down; the tests, each after those whose parts it breaks
/// down; the other recipes, each after those it uses; the dishes.
pub fn costs(kitchen: &Kitchen) -> Costs<'_> {
    let mut costs = Costs { kitchen, tests: Vec::new(), recipes: Vec::new(), dishes: Vec::new() };
    let first_needs_tests = kitchen.recipes.first().is_some_and(|recipe| costs.asks_tests(recipe));
    if !first_needs_tests {
        costs.cost_recipes(1);
    }
    for at in 0..kitchen.breakdowns.len() {
        let test = costs.test(at);
        costs.tests.push(test);
    }
    costs.cost_recipes(kitchen.recipes.len());
    for dish in served::dishes(kitchen) {
        let cost = costs.dish(&dish);
        costs.dishes.push(cost);
    }
    costs
}

impl Costs<'_> {
    fn cost_recipes(&mut self, upto: usize) {
        for at in self.recipes.len()..upto.min(self.kitchen.recipes.len()) {
            let recipe = self.recipe(&self.kitchen.recipes[at]);
            self.recipes.push(recipe);
        }
    }
}

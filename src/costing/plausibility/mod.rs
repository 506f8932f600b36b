//! Plausibility of finished figures: those that stand but that no kitchen can mean.
//!
//! Takes a costing; gives warnings, each at the cell to check first. Decides nothing: the figures stay. What a line says
//! of its own measures and yield is told where it is costed, for it holds in a recipe that another line stops, too.

mod cheap_dishes;
mod dear_dishes;
mod factors_twice;
mod heavy_batches;
mod large_values;
mod portions_apart;
mod stated_yields;
mod unused_measures;

use std::collections::HashSet;

use portions_apart::PortionsApart;

use super::Costing;
use super::rate::Rate;
use super::yield_test::cost::as_tested;
use super::yield_test::large_credits;
use crate::kitchen::recipe::{Line, LineQuantity};
use crate::kitchen::{Kitchen, RecipeId};
use crate::measure::Measured;
use crate::problem::Problem;

/// Every doubt about a costing.
pub(super) fn doubts(kitchen: &Kitchen, costing: &Costing) -> Vec<Problem> {
    let mut doubts = Vec::new();
    for id in kitchen.test_ids() {
        let (Some(test), Some(cost)) = (as_tested(kitchen, costing, id), costing.test(id)) else { continue };
        doubts.extend(large_credits::of_test(kitchen, &test, cost));
        let input = Rate { money: cost.input_cost, per: cost.grams };
        doubts.extend(large_values::of_test(kitchen, &test, input));
    }
    let apart = PortionsApart::of(kitchen, costing);
    let sold: HashSet<RecipeId> = kitchen.dishes.iter().filter_map(|dish| dish.recipe).collect();
    for ((recipe, cost), id) in kitchen.recipes.iter().zip(&costing.recipes).zip((0..).map(RecipeId::new)) {
        let (Some(entry), Some(cost)) = (kitchen.entries.recipes.get(recipe.entry), cost) else { continue };
        doubts.extend(heavy_batches::of_batch(kitchen, recipe, entry, &cost.lines));
        doubts.extend(apart.lines(&entry.lines, &cost.lines));
        if sold.contains(&id) {
            doubts.extend(factors_twice::of_sold(kitchen, recipe, &entry.lines));
        }
    }
    for (dish, cost) in kitchen.dishes.iter().zip(&costing.dishes) {
        let recipe = dish.recipe.and_then(|id| Some((kitchen.recipe(id)?, costing.recipe(id)?)));
        let (Some((recipe, made)), Some(cost)) = (recipe, cost) else { continue };
        doubts.extend(dear_dishes::of_dish(kitchen, dish, recipe, &made.lines, cost));
        doubts.extend(cheap_dishes::of_dish(kitchen, dish, recipe, cost));
    }
    doubts.extend(apart.dishes());
    doubts.extend(stated_yields::of_items(kitchen, costing));
    doubts.extend(unused_measures::of_items(kitchen, costing));
    doubts
}

/// The quantity of a line where it has one.
fn measured(line: &Line) -> Option<&Measured> {
    match &line.quantity {
        LineQuantity::Measured(measured) => Some(measured),
        LineQuantity::Unmeasured { measured, .. } => measured.as_ref(),
    }
}

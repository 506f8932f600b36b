//! Portions of one name that are apart: a dish that is sold under its recipe's own name in another portion than the card's.
//!
//! The menu decides what is sold, the card what a portion of the recipe is. Neither is wrong; so it is said at the dish, and at
//! each line that counts one or the other.

use std::collections::HashMap;

use crate::costing::rate::Amount;
use crate::costing::trace::{CostedAs, LineTrace};
use crate::costing::{Costing, LineCost, RecipeCost};
use crate::kitchen::menu::Dish;
use crate::kitchen::recipe::{LineEntry, Recipe};
use crate::kitchen::{Kitchen, NameKey, RecipeId};
use crate::number::Decimal;
use crate::number::rounding::half_up;
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// The dishes of a kitchen that are so, by their recipes.
pub(super) struct PortionsApart<'a> {
    kitchen: &'a Kitchen,
    of: HashMap<RecipeId, TwoPortions<'a>>,
}

/// Two portions of one name, in words.
struct TwoPortions<'a> {
    dish: &'a Dish,
    served: String,
    of_card: String,
}

impl<'a> PortionsApart<'a> {
    /// Those of a costing.
    pub(super) fn of(kitchen: &'a Kitchen, costing: &Costing) -> Self {
        let dishes = kitchen.dishes.iter().zip(&costing.dishes);
        let apart = dishes.filter_map(|(dish, cost)| {
            let id = dish.recipe?;
            let (recipe, made) = (kitchen.recipe(id)?, costing.recipe(id)?);
            let is_own_name = NameKey::of(&dish.name) == recipe.key;
            let is_apart = is_own_name && !cost.as_ref()?.plate().is_portion_of_card(made.portions?)?;
            let of_card = portion_of_card(recipe, made)?;
            let served = dish.portion.as_ref()?.to_string();
            is_apart.then_some((id, TwoPortions { dish, served, of_card }))
        });
        PortionsApart { kitchen, of: apart.collect() }
    }

    /// What is to be said of the dishes.
    pub(super) fn dishes(&self) -> Vec<Problem> {
        let recipes = (0..self.kitchen.recipes.len()).map(RecipeId::new);
        let told = recipes.filter_map(|id| self.of.get(&id)).filter_map(|two| {
            let row = self.kitchen.entries.menu.get(two.dish.row?)?;
            let TwoPortions { dish, served, of_card } = two;
            let message = format!("“{}” is sold as {served}, and a portion on its card is {of_card}", dish.name);
            let help = "Nothing to do if that is right: the menu's is what is sold, the card's what its recipe is told \
                        by. Else clear Portion here, or give the dish a name of its own.";
            Some(Fault::new(Code::PortionsApart, message, help).at(row.input.place(Column::Portion)))
        });
        told.collect()
    }

    /// What is to be said of the lines of a recipe.
    pub(super) fn lines(&self, lines: &[LineEntry], costs: &[LineCost]) -> Vec<Problem> {
        let costs = costs.iter().map(|cost| if let LineCost::Costed { trace, .. } = cost { Some(trace) } else { None });
        lines.iter().zip(costs).filter_map(|(line, trace)| self.line(line, trace?)).collect()
    }

    fn line(&self, line: &LineEntry, trace: &LineTrace) -> Option<Problem> {
        let (message, help) = match trace.costed_as {
            CostedAs::Portions(id) => {
                let TwoPortions { dish, served, of_card } = self.of.get(&id)?;
                (
                    format!(
                        "a portion of “{}” is its card's here, {of_card}; the dish of that name is {served}",
                        dish.name
                    ),
                    "Nothing to do if that is right; else give that dish a name of its own on the menu, and type it here.",
                )
            }
            CostedAs::Plates(id, _) => {
                let TwoPortions { dish, served, of_card } = self.of.get(&id)?;
                let named = NameKey::of(&line.item) == NameKey::of(&dish.name);
                named
                    .then(|| format!("“{}” is the dish here, {served}; a portion on its card is {of_card}", dish.name))
                    .zip(Some("Nothing to do if that is right; else type portion under Unit, which is the card's."))?
            }
            _ => return None,
        };
        Some(Fault::new(Code::PortionsApart, message, help).at(line.input.place(Column::Qty)))
    }
}

/// What a portion is by the card: as it says, else one of so many.
fn portion_of_card(recipe: &Recipe, made: &RecipeCost) -> Option<String> {
    match &recipe.portion {
        Some(portion) => Some(portion.to_string()),
        None => {
            let portions: Decimal = made.portions.map(Amount::value)?.ok()?;
            Some(format!("one of the {} of a batch", half_up(portions, 2).normalize()))
        }
    }
}

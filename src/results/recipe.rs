//! Recipes: what a batch costs and gives.

use schemars::JsonSchema;
use serde::Serialize;

use super::line::LineResult;
use super::value::{Figure, TypedQuantity as Typed};
use crate::costing::rate::Amount;
use crate::costing::{AllergenSet, Costing, RecipeCost};
use crate::kitchen::Kitchen;
use crate::kitchen::recipe::{LineQuantity, Recipe};
use crate::number::Decimal;
use crate::results::allergen_words::{listed, silent_name};

/// A recipe with what each of its lines costs.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Recipe")]
pub struct RecipeResult<'a> {
    /// Its name, as first spelled in the book.
    pub name: &'a str,
    /// What the lines of the batch cost; null where it could not be costed.
    pub food_cost: Option<Figure>,
    /// The food cost with the Q and spice of its own card.
    pub batch_cost: Option<Figure>,
    /// What the batch yields, in the first of its measures; null in both where only portions are known.
    pub makes: Typed,
    /// What one portion is by its card, whatever the menu serves of it; null in both where the card does not say.
    pub portion: Typed,
    /// How many of its portions it gives, net of serving loss.
    pub portions: Option<Figure>,
    /// What one of them costs, with the Q and spice of its own card: a dish may be another portion, and bears the settings' too.
    pub portion_cost: Option<Figure>,
    /// The allergens in it: codes of the list (milk, egg, fish, crustacean, mollusc, tree_nut, peanut, wheat,
    /// gluten_other, soy, sesame, celery, mustard, sulphite, lupin), other words as the book has them.
    pub allergens: Vec<String>,
    /// Those that may be in it, in the same words.
    pub may_contain: Vec<String>,
    /// The ingredients whose allergens the book does not state.
    pub allergens_not_stated: Vec<String>,
    /// How many lines could not be costed, such as those to taste.
    pub uncosted_lines: usize,
    /// Its lines, in book order.
    pub lines: Vec<LineResult<'a>>,
}

impl<'a> RecipeResult<'a> {
    /// Every recipe of a kitchen, in book order.
    pub fn all(kitchen: &'a Kitchen, costing: &'a Costing) -> impl Iterator<Item = RecipeResult<'a>> {
        let recipes = kitchen.recipes.iter().zip(&costing.recipes).zip(&costing.allergens);
        recipes.map(|((recipe, cost), set)| RecipeResult::of(kitchen, recipe, cost.as_ref(), set))
    }

    fn of(kitchen: &'a Kitchen, recipe: &'a Recipe, cost: Option<&RecipeCost>, set: &AllergenSet) -> Self {
        let entry = kitchen.entries.recipes.get(recipe.entry);
        let lines = entry.into_iter().flat_map(|entry| &entry.lines).zip(&recipe.lines).enumerate();
        let uncosted = match cost {
            Some(cost) => cost.uncosted_lines(),
            None => recipe.lines.iter().filter(|line| matches!(line.quantity, LineQuantity::Unmeasured { .. })).count(),
        };
        RecipeResult {
            name: &recipe.name,
            food_cost: cost.map(|cost| Figure(cost.food)),
            batch_cost: cost.map(|cost| Figure(cost.batch)),
            makes: recipe.makes.first().map(Typed::of).unwrap_or_default(),
            portion: recipe.portion.as_ref().map(Typed::of).unwrap_or_default(),
            portions: cost.and_then(|cost| BatchFigures::of(cost).portions).map(Figure),
            portion_cost: cost.and_then(|cost| cost.portion_cost).map(Figure),
            allergens: listed(set.contains.keys()),
            may_contain: listed(set.may_contain.keys()),
            allergens_not_stated: set.not_stated.iter().map(|silent| silent_name(kitchen, *silent)).collect(),
            uncosted_lines: uncosted,
            lines: lines.map(|(index, (entry, line))| LineResult::of(entry, line, index, cost)).collect(),
        }
    }
}

/// The figures of a costed batch that stand behind those of its record.
#[derive(Debug, Clone, Copy)]
pub(crate) struct BatchFigures {
    /// Money per base unit of what it makes; `None` where that is not known, or does not fit.
    pub unit_cost: Option<Decimal>,
    /// One portion in base units of what it makes; `None` likewise.
    pub portion: Option<Decimal>,
    /// How many portions it gives, net of serving loss; `None` likewise.
    pub portions: Option<Decimal>,
}

impl BatchFigures {
    /// Those of a recipe's cost.
    pub fn of(cost: &RecipeCost) -> Self {
        let value = |amount: Option<Amount>| amount.and_then(|amount| amount.value().ok());
        BatchFigures {
            unit_cost: cost.unit_rate().and_then(|(_, rate)| rate.unit_cost().ok()),
            portion: value(cost.portion),
            portions: value(cost.portions),
        }
    }
}

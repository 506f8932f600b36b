//! Recipes within a recipe of another size: how much of each is wanted in all, and its own lines at that size.

use super::lines::all as lines_of;
use super::{Cost, LineResized, Made, NotScaled, makes, multiplied, needs};
use crate::costing::Costing;
use crate::costing::rate::Amount;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::{Kitchen, RecipeId};
use crate::number::Decimal;

/// A recipe that goes into the one scaled.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SubRecipe {
    /// The recipe.
    pub recipe: RecipeId,
    /// How many times it is wanted, wherever it goes in.
    pub factor: Amount,
    /// How many portions of it that is, where it is known.
    pub portions: Option<Amount>,
    /// How much of it that is.
    pub makes: Vec<Made>,
    /// What it costs; `None` where it is not costed.
    pub cost: Option<Cost>,
    /// Its lines, beside the recipe's own.
    pub lines: Vec<LineResized>,
}

/// The recipes within `factor` times `recipe`, each before those that use it, as they are made. Of what is used up nothing is
/// rounded up.
pub(super) fn all(
    kitchen: &Kitchen,
    costing: &Costing,
    recipe: RecipeId,
    factor: Amount,
    used_up: &[IngredientSource],
) -> Result<Vec<SubRecipe>, NotScaled> {
    let mut found = Vec::new();
    for (id, batches) in needs::batches_within(kitchen, costing, recipe, Decimal::ONE)? {
        if id == recipe || batches.is_zero() {
            continue;
        }
        let factor = multiplied(factor, Amount::of(batches))?;
        let (lines, cost) = lines_of(kitchen, costing, id, factor, used_up)?;
        let portions = costing.recipe(id).and_then(|cost| cost.portions);
        let portions = portions.map(|portions| multiplied(portions, factor)).transpose()?;
        found.push(SubRecipe { recipe: id, factor, portions, makes: makes(kitchen, id, factor)?, cost, lines });
    }
    found.reverse();
    Ok(found)
}

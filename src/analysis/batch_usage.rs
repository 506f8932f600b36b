//! Draws of recipes: how much of every bought item, part and recipe goes into a batch, in physical quantities.
//!
//! Takes a costing, whose lines know the way from what a cook measures to what is bought; gives draws per batch and what
//! dishes serve of a batch. Money plays no part, so a draw is the same in every scenario.

use crate::costing::rate::Amount;
use crate::costing::trace::CostedAs;
use crate::costing::yield_test::input_cost::priced;
use crate::costing::{Costing, LineCost, LineTrace};
use crate::kitchen::plan::Served;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::Test;
use crate::kitchen::{Kitchen, RecipeId};
use crate::number::{Decimal, Overflow};

/// What one line draws for a batch: bought items in base units as purchased, parts in grams, recipes in batches.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Draw {
    /// Of what.
    pub of: IngredientSource,
    /// How much of it is used up.
    pub amount: Decimal,
}

/// What a batch of `id` draws, line by line; lines without a quantity draw nothing. `None` when the recipe is not costed.
///
/// # Errors
/// [`Overflow`] when an amount does not fit.
pub fn of_batch(kitchen: &Kitchen, costing: &Costing, id: RecipeId) -> Result<Option<Vec<Draw>>, Overflow> {
    let (Some(recipe), Some(cost)) = (kitchen.recipe(id), costing.recipe(id)) else { return Ok(None) };
    let mut draws = Vec::with_capacity(cost.lines.len());
    for (line, cost) in recipe.lines.iter().zip(&cost.lines) {
        if let LineCost::Costed { trace, .. } = cost {
            draws.extend(of_line(costing, trace, line.used)?);
        }
    }
    Ok(Some(draws))
}

/// What a line draws for a batch, of which the share `used` is used up.
///
/// # Errors
/// [`Overflow`] when an amount does not fit.
pub(super) fn of_line(costing: &Costing, trace: &LineTrace, used: Decimal) -> Result<Option<Draw>, Overflow> {
    let amount = trace.as_purchased()?.times(used)?;
    let of = trace.costed_as.source();
    // A recipe is drawn in batches.
    let batch = match (trace.costed_as, of) {
        (_, IngredientSource::Unknown) => None,
        (CostedAs::Portions(id), _) => costing.recipe(id).and_then(|cost| cost.portions),
        (CostedAs::Plates(_, dish), _) => {
            costing.plate(dish).map(|plate| Amount { num: plate.share.den, den: plate.share.num })
        }
        (CostedAs::Batches(_), _) | (_, IngredientSource::Bought(_) | IngredientSource::Part(_)) => Some(Amount::ONE),
        (_, IngredientSource::Made(id)) => {
            costing.recipe(id).and_then(|cost| cost.makes.as_ref()).map(|(_, makes)| Amount::of(*makes))
        }
    };
    let Some(batch) = batch else { return Ok(None) };
    Ok(Some(Draw { of, amount: amount.times(batch.den)?.over(batch.num)?.value()? }))
}

/// What `by` of a test takes, all its runs together: its inputs and what is added. What cannot be weighed against its price
/// is left out.
///
/// # Errors
/// [`Overflow`] when an amount does not fit.
pub fn of_test(kitchen: &Kitchen, costing: &Costing, test: &Test, by: Amount) -> Result<Vec<Draw>, Overflow> {
    let runs = test.runs.iter().map(|run| (test.input, run.grams, run.count));
    let added = test.added.iter().filter_map(|added| Some((added.source?, added.grams, added.count)));
    let mut draws = Vec::new();
    for (of, grams, count) in runs.chain(added) {
        let Ok((amount, _)) = priced(kitchen, costing, of, grams, count) else { continue };
        let mut amount = amount.times(by.num)?.over(by.den)?;
        if let IngredientSource::Made(id) = of {
            let makes = costing.recipe(id).and_then(|cost| cost.makes.as_ref());
            let Some((_, makes)) = makes else { continue };
            amount = amount.over(*makes)?;
        }
        draws.push(Draw { of, amount: amount.value()? });
    }
    Ok(draws)
}

/// How much of a batch of which recipe one portion is. `None` when it is not costed.
pub fn share_of(kitchen: &Kitchen, costing: &Costing, served: Served) -> Option<(RecipeId, Amount)> {
    match served {
        Served::Dish(index) => {
            let recipe = kitchen.dishes.get(index)?.recipe?;
            Some((recipe, costing.dishes.get(index)?.as_ref()?.share))
        }
        Served::Recipe(id) => {
            let portions = costing.recipe(id)?.portions?;
            Some((id, Amount { num: portions.den, den: portions.num }))
        }
    }
}

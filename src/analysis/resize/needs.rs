//! Needs of a batch: how much of one ingredient goes into it, by its own lines and through the recipes within it.

use std::collections::BTreeMap;

use super::super::batch_usage::of_line;
use crate::costing::trace::CostedAs;
use crate::costing::{Costing, LineCost};
use crate::kitchen::recipe::{IngredientSource, Line, LineEntry};
use crate::kitchen::{Kitchen, Node, RecipeId};
use crate::number::{Decimal, Overflow, exact};

/// How many batches of every recipe go into `batches` of one, itself included, each after those that use it.
pub(super) fn batches_within(
    kitchen: &Kitchen,
    costing: &Costing,
    recipe: RecipeId,
    batches: Decimal,
) -> Result<Vec<(RecipeId, Decimal)>, Overflow> {
    let mut wanted = BTreeMap::from([(recipe, batches)]);
    let mut found = Vec::new();
    // In cost order everything stands after what it depends on.
    for node in kitchen.order.iter().rev() {
        let Node::Recipe(id) = node else { continue };
        let Some(batches) = wanted.get(id).copied() else { continue };
        found.push((*id, batches));
        for (_, _, cost) in lines(kitchen, costing, *id) {
            let LineCost::Costed { trace, .. } = cost else { continue };
            if let Some(draw) = of_line(costing, trace, Decimal::ONE)?
                && let IngredientSource::Made(inner) = draw.of
            {
                let sum = wanted.entry(inner).or_default();
                *sum = exact::add(*sum, exact::mul(draw.amount, batches)?)?;
            }
        }
    }
    Ok(found)
}

/// The lines of a recipe with what they cost; none of one that is not costed.
pub(super) fn lines<'a>(
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    id: RecipeId,
) -> impl Iterator<Item = (&'a LineEntry, &'a Line, &'a LineCost)> {
    let recipe = kitchen.recipe(id);
    let entry = recipe.and_then(|recipe| kitchen.entries.recipes.get(recipe.entry));
    let typed = entry.into_iter().flat_map(|entry| &entry.lines);
    let lines = recipe.into_iter().flat_map(|recipe| &recipe.lines);
    let costs = costing.recipe(id).into_iter().flat_map(|cost| &cost.lines);
    typed.zip(lines).zip(costs).map(|((typed, line), cost)| (typed, line, cost))
}

/// How much of `source` goes into a batch of `recipe`: of an item in base units of its price as purchased, of a part in
/// grams, of a recipe in batches. All of what a line asks for counts, used up or not: the pan must hold it.
pub(super) fn of(
    kitchen: &Kitchen,
    costing: &Costing,
    recipe: RecipeId,
    source: IngredientSource,
) -> Result<Decimal, Overflow> {
    let mut need = Decimal::ZERO;
    for (id, batches) in batches_within(kitchen, costing, recipe, Decimal::ONE)? {
        for (_, line, cost) in lines(kitchen, costing, id) {
            let LineCost::Costed { trace, .. } = cost else { continue };
            let Some(draw) = of_line(costing, trace, Decimal::ONE)? else { continue };
            let amount = if draw.of == source {
                draw.amount
            } else if line.source == source && matches!(trace.costed_as, CostedAs::ThroughTest(_)) {
                // What is bought, through the main of its trim test.
                exact::div(draw.amount, trace.trim_yield)?
            } else {
                continue;
            };
            need = exact::add(need, exact::mul(amount, batches)?)?;
        }
    }
    Ok(need)
}

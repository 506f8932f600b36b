//! Parts and recipes on the way from new prices to dishes, in the units by which each is told.

use super::changes::{Changes, bearing};
use super::display_units::{DisplayUnit, MadeUnit};
use crate::analysis::reprice::{CostChange, PartEffect, RecipeEffect};
use crate::kitchen::{PartId, RecipeId};
use crate::number::Decimal;

/// A part of a yield test or a recipe that others use, whose cost moved.
#[derive(Debug, Clone)]
pub struct MovedOnTheWay<'a> {
    /// Its name.
    pub name: &'a str,
    /// What it is, in words.
    pub what: &'static str,
    /// The unit by which it is told.
    pub unit: String,
    /// What one of that cost, in money.
    pub was: Decimal,
    /// What it costs now.
    pub now: Decimal,
    /// By which part of what it was it moved; `None` where it was nothing.
    pub moved: Option<Decimal>,
    /// What the figure now is of.
    pub of: FigureOnTheWay,
}

/// What a figure on the way is of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FigureOnTheWay {
    /// A part by the gram, times so many.
    Part(PartId, Decimal),
    /// A batch, shared out over what it makes.
    Made(RecipeId, MadeUnit),
    /// A batch.
    Batch(RecipeId),
}

impl<'a> MovedOnTheWay<'a> {
    /// All that moved: parts, then recipes, in book order.
    pub fn all(changes: &Changes<'a>) -> Vec<MovedOnTheWay<'a>> {
        let parts = changes.effects.tests.iter().flat_map(|test| &test.parts);
        let parts = parts.filter_map(|effect| MovedOnTheWay::part(changes, effect));
        parts
            .chain(changes.effects.recipes.iter().filter_map(|effect| MovedOnTheWay::recipe(changes, effect)))
            .collect()
    }

    fn part(changes: &Changes<'a>, effect: &PartEffect) -> Option<MovedOnTheWay<'a>> {
        let per_gram = effect.per_gram.filter(|change| change.moved())?;
        let part = changes.new.part(effect.part)?;
        let unit = DisplayUnit::of_test(changes.new, changes.new.test(effect.part.test)?);
        Some(MovedOnTheWay {
            name: &part.name,
            what: bearing(part.role, effect.charge.is_some()),
            was: unit.cost(per_gram.was)?,
            now: unit.cost(per_gram.now)?,
            moved: per_gram.fraction().ok(),
            of: FigureOnTheWay::Part(effect.part, unit.size),
            unit: unit.name,
        })
    }

    fn recipe(changes: &Changes<'a>, effect: &RecipeEffect) -> Option<MovedOnTheWay<'a>> {
        let recipe = changes.new.recipe(effect.recipe)?;
        let CostChange { was, now } = effect.batch;
        let moved = effect.batch.fraction().ok();
        let made = MadeUnit::of(recipe).filter(|_| effect.unit.is_some());
        let (name, what) = (&recipe.name, "recipe");
        Some(match made {
            Some(made) => MovedOnTheWay {
                name,
                what,
                unit: made.name.clone(),
                was: made.share_of(was)?,
                now: made.share_of(now)?,
                moved,
                of: FigureOnTheWay::Made(effect.recipe, made),
            },
            None => MovedOnTheWay {
                name,
                what,
                unit: "batch".to_owned(),
                was,
                now,
                moved,
                of: FigureOnTheWay::Batch(effect.recipe),
            },
        })
    }
}

//! How many grams of every part one portion takes, by its own lines and through recipes within recipes.
//!
//! Parts that go into another yield test are not followed: that test's parts have rates of their own. So what a dish costs
//! under other rates is what it costs, and grams × the difference in rate.

use std::collections::BTreeMap;

use super::draws;
use crate::costing::Costing;
use crate::kitchen::plan::Served;
use crate::kitchen::recipe::Source;
use crate::kitchen::{Kitchen, Node, PartId, RecipeId};
use crate::number::{Decimal, Overflow, exact};

/// Grams of parts.
pub type Grams = BTreeMap<PartId, Decimal>;

/// The grams that batches and portions take. Lists run beside the kitchen's.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Uses {
    /// Of a batch of every recipe; `None` where it is not costed.
    pub recipes: Vec<Option<Grams>>,
    /// Of a portion of every dish as served.
    pub dishes: Vec<Option<Grams>>,
}

impl Uses {
    /// The uses of a costing.
    ///
    /// # Errors
    /// [`Overflow`] when an amount does not fit.
    pub fn of(kitchen: &Kitchen, costing: &Costing) -> Result<Self, Overflow> {
        let mut uses = Uses { recipes: vec![None; kitchen.recipes.len()], dishes: Vec::new() };
        for node in &kitchen.order {
            let Node::Recipe(id) = node else { continue };
            let grams = uses.batch(kitchen, costing, *id)?;
            if let Some(slot) = uses.recipes.get_mut(id.index()) {
                *slot = grams;
            }
        }
        for index in 0..kitchen.dishes.len() {
            let grams = uses.portion(kitchen, costing, Served::Dish(index))?;
            uses.dishes.push(grams);
        }
        Ok(uses)
    }

    /// The grams that one portion takes.
    ///
    /// # Errors
    /// [`Overflow`] when an amount does not fit.
    pub fn portion(&self, kitchen: &Kitchen, costing: &Costing, served: Served) -> Result<Option<Grams>, Overflow> {
        let Some((recipe, share)) = draws::share_of(kitchen, costing, served) else { return Ok(None) };
        let Some(batch) = self.recipes.get(recipe.index()).and_then(Option::as_ref) else { return Ok(None) };
        let portion = |grams: &Decimal| exact::div(exact::mul(*grams, share.num)?, share.den);
        batch.iter().map(|(part, grams)| Ok((*part, portion(grams)?))).collect::<Result<Grams, Overflow>>().map(Some)
    }

    fn batch(&self, kitchen: &Kitchen, costing: &Costing, id: RecipeId) -> Result<Option<Grams>, Overflow> {
        let Some(draws) = draws::of_batch(kitchen, costing, id)? else { return Ok(None) };
        let mut grams = Grams::new();
        let mut add = |part: PartId, amount: Decimal| -> Result<(), Overflow> {
            let sum = grams.entry(part).or_default();
            *sum = exact::add(*sum, amount)?;
            Ok(())
        };
        for draw in draws {
            match draw.of {
                Source::Part(part) => add(part, draw.amount)?,
                Source::Made(inner) => {
                    let within = self.recipes.get(inner.index()).and_then(Option::as_ref);
                    for (part, amount) in within.into_iter().flatten() {
                        add(*part, exact::mul(*amount, draw.amount)?)?;
                    }
                }
                Source::Bought(_) | Source::Unknown => {}
            }
        }
        Ok(Some(grams))
    }
}

//! Uses by one portion: how many grams of every part, and how many batches of every recipe, one portion takes: by its
//! own lines and through recipes within recipes.
//!
//! Parts that go into another yield test are not followed: that test's parts have rates of their own. So what a dish costs
//! under other rates is what it costs, and grams × the difference in rate.

use std::collections::BTreeMap;

use super::batch_usage;
use crate::costing::Costing;
use crate::costing::rate::Amount;
use crate::kitchen::plan::Served;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::{Kitchen, Node, PartId, RecipeId};
use crate::number::{Decimal, Overflow, exact};

/// What something takes.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Usage {
    /// Grams of parts.
    pub parts: BTreeMap<PartId, Decimal>,
    /// Batches of recipes within it, at whatever depth.
    pub recipes: BTreeMap<RecipeId, Decimal>,
}

impl Usage {
    /// What the cards of the recipes within it add for Q and spice, in money; `None` where one is not costed, or it does not
    /// fit.
    pub fn seasoning(&self, costing: &Costing) -> Option<Decimal> {
        let added = self.recipes.iter().map(|(id, batches)| {
            let cost = costing.recipe(*id)?;
            let of_batch = exact::sub(cost.batch, cost.food).ok()?;
            exact::mul(*batches, of_batch).ok()
        });
        exact::sum(added.collect::<Option<Vec<Decimal>>>()?).ok()
    }

    fn scaled(&self, by: Amount) -> Result<Self, Overflow> {
        let of = |amount: &Decimal| by.times(*amount)?.value();
        Ok(Usage {
            parts: self.parts.iter().map(|(id, amount)| Ok((*id, of(amount)?))).collect::<Result<_, Overflow>>()?,
            recipes: self.recipes.iter().map(|(id, amount)| Ok((*id, of(amount)?))).collect::<Result<_, Overflow>>()?,
        })
    }

    fn add(&mut self, other: &Usage) -> Result<(), Overflow> {
        for (id, amount) in &other.parts {
            add(&mut self.parts, *id, *amount)?;
        }
        for (id, amount) in &other.recipes {
            add(&mut self.recipes, *id, *amount)?;
        }
        Ok(())
    }
}

fn add<K: Ord>(to: &mut BTreeMap<K, Decimal>, key: K, amount: Decimal) -> Result<(), Overflow> {
    let sum = to.entry(key).or_default();
    *sum = exact::add(*sum, amount)?;
    Ok(())
}

/// What batches and portions take. Lists run beside the kitchen's.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Uses {
    /// A batch of every recipe; `None` where it is not costed.
    pub recipes: Vec<Option<Usage>>,
    /// A portion of every dish as served.
    pub dishes: Vec<Option<Usage>>,
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
            let takes = uses.batch(kitchen, costing, *id)?;
            if let Some(slot) = uses.recipes.get_mut(id.index()) {
                *slot = takes;
            }
        }
        for index in 0..kitchen.dishes.len() {
            let takes = uses.portion(kitchen, costing, Served::Dish(index))?;
            uses.dishes.push(takes);
        }
        Ok(uses)
    }

    /// What one portion takes.
    ///
    /// # Errors
    /// [`Overflow`] when an amount does not fit.
    pub fn portion(&self, kitchen: &Kitchen, costing: &Costing, served: Served) -> Result<Option<Usage>, Overflow> {
        let Some((recipe, share)) = batch_usage::share_of(kitchen, costing, served) else { return Ok(None) };
        let batch = self.recipes.get(recipe.index()).and_then(Option::as_ref);
        batch.map(|batch| batch.scaled(share)).transpose()
    }

    fn batch(&self, kitchen: &Kitchen, costing: &Costing, id: RecipeId) -> Result<Option<Usage>, Overflow> {
        let Some(draws) = batch_usage::of_batch(kitchen, costing, id)? else { return Ok(None) };
        let mut takes = Usage::default();
        for draw in draws {
            match draw.of {
                IngredientSource::Part(part) => add(&mut takes.parts, part, draw.amount)?,
                IngredientSource::Made(inner) => {
                    add(&mut takes.recipes, inner, draw.amount)?;
                    if let Some(within) = self.recipes.get(inner.index()).and_then(Option::as_ref) {
                        takes.add(&within.scaled(Amount::of(draw.amount))?)?;
                    }
                }
                IngredientSource::Bought(_) | IngredientSource::Unknown => {}
            }
        }
        Ok(Some(takes))
    }
}

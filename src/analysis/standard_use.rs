//! Standard use: how much of everything the dishes sold ought to have used up by their recipes and yield tests.
//!
//! Takes a costing and what was sold; gives items in base units of their price as purchased, and parts in grams: what was
//! wanted of them less what their tests made beside. Whole pieces do not count here: over a period they even out.

use std::collections::BTreeMap;

use super::batch_usage;
use crate::costing::Costing;
use crate::costing::rate::Amount;
use crate::kitchen::plan::Served;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::Role;
use crate::kitchen::{ItemId, Kitchen, Node, PartId, RecipeId, TestId};
use crate::number::{Decimal, Overflow, exact};

/// What ought to have been used.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct StandardUse {
    items: BTreeMap<ItemId, Decimal>,
    parts: BTreeMap<PartId, Decimal>,
    recipes: BTreeMap<RecipeId, Decimal>,
}

impl StandardUse {
    /// The use of so many portions of dishes, which are costed.
    ///
    /// # Errors
    /// [`Overflow`] when an amount does not fit.
    pub(super) fn of(
        kitchen: &Kitchen,
        costing: &Costing,
        sold: impl Iterator<Item = (usize, Decimal)>,
    ) -> Result<Self, Overflow> {
        let mut wanted = StandardUse::default();
        for (dish, portions) in sold {
            if let Some((recipe, share)) = batch_usage::share_of(kitchen, costing, Served::Dish(dish)) {
                wanted.want(IngredientSource::Made(recipe), share.times(portions)?.value()?)?;
            }
        }
        // All that wants a recipe or test stands behind it in the order of costing.
        for node in kitchen.order.iter().rev() {
            match node {
                Node::Recipe(id) => wanted.cook(kitchen, costing, *id)?,
                Node::Test(id) => wanted.break_down(kitchen, costing, *id)?,
                Node::Item(_) => {}
            }
        }
        Ok(wanted)
    }

    /// What ought to have come off the shelf: of an item in base units of its price, of a part in grams; nothing of a recipe,
    /// of which as much is made as is used. Below zero where a test makes more of a part than is wanted.
    pub(super) fn drawn(&self, source: IngredientSource) -> Decimal {
        match source {
            IngredientSource::Bought(id) => self.items.get(&id).copied().unwrap_or_default(),
            IngredientSource::Part(id) => self.parts.get(&id).copied().unwrap_or_default(),
            IngredientSource::Made(_) | IngredientSource::Unknown => Decimal::ZERO,
        }
    }

    fn want(&mut self, source: IngredientSource, amount: Decimal) -> Result<(), Overflow> {
        let sum = match source {
            IngredientSource::Bought(id) => self.items.entry(id).or_default(),
            IngredientSource::Part(id) => self.parts.entry(id).or_default(),
            IngredientSource::Made(id) => self.recipes.entry(id).or_default(),
            IngredientSource::Unknown => return Ok(()),
        };
        *sum = exact::add(*sum, amount)?;
        Ok(())
    }

    fn cook(&mut self, kitchen: &Kitchen, costing: &Costing, id: RecipeId) -> Result<(), Overflow> {
        let Some(batches) = self.recipes.get(&id).copied().filter(|batches| !batches.is_zero()) else { return Ok(()) };
        let draws = batch_usage::of_batch(kitchen, costing, id)?.unwrap_or_default();
        draws.into_iter().try_for_each(|draw| self.want(draw.of, exact::mul(draw.amount, batches)?))
    }

    /// The mains that are wanted say how much goes in; what comes out beside them comes off what is wanted of it.
    fn break_down(&mut self, kitchen: &Kitchen, costing: &Costing, id: TestId) -> Result<(), Overflow> {
        // What comes of a test that is not costed serves nothing that is.
        let (Some(test), Some(_)) = (kitchen.test(id), costing.test(id)) else { return Ok(()) };
        let parts = || test.parts.iter().zip(kitchen.part_ids(id));
        let mut goes_in = Amount::of(Decimal::ZERO);
        for (part, id) in parts().filter(|(part, _)| part.role == Role::Main && !part.grams.is_zero()) {
            let wanted = self.parts.get(&id).copied().unwrap_or_default();
            // Runs of the whole test that make so much; the largest, compared as products.
            if exact::mul(wanted, goes_in.den)? > exact::mul(goes_in.num, part.grams)? {
                goes_in = Amount { num: wanted, den: part.grams };
            }
        }
        if goes_in.num.is_zero() {
            return Ok(());
        }
        for draw in batch_usage::of_test(kitchen, costing, test, goes_in)? {
            self.want(draw.of, draw.amount)?;
        }
        for (part, id) in parts() {
            let made = goes_in.times(part.grams)?.value()?;
            let sum = self.parts.entry(id).or_default();
            *sum = exact::sub(*sum, made)?;
        }
        Ok(())
    }
}

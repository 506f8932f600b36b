//! The basket that new prices are weighed with: what must be purchased for the plan, what stands in for short trim
//! within and what is on hand not, or, where there is no plan, one batch of each recipe.
//!
//! Takes the kitchen before the new prices; gives quantities as purchased in base units of the prices before. Of a yield
//! test goes in what its mains ask for, as in the plan's balance: the by-products come with it.

use std::collections::{HashMap, HashSet};

use crate::analysis::balance::Balance;
use crate::analysis::{Lack, batch_usage};
use crate::costing::Costing;
use crate::costing::price::bought::PriceFrom;
use crate::costing::yield_test::input_cost::priced;
use crate::in_order::InOrder;
use crate::kitchen::plan::Served;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::Role;
use crate::kitchen::{ItemId, Kitchen, Node, PartId, RecipeId, TestId, depends};
use crate::number::{Decimal, Overflow, exact};

use super::before_and_after::Pair;

/// Where the quantities come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BasketKind {
    /// What must be purchased for the plan, as its balance says: beyond what is on hand.
    Plan,
    /// One batch of each recipe.
    Batches,
}

/// Quantities of what is bought.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Basket {
    /// Where they come from.
    pub kind: BasketKind,
    /// How much of each item as purchased, in base units of its price before; in book order, none of nothing.
    pub items: Vec<(ItemId, Decimal)>,
    /// What takes nothing here, for it had no cost before.
    pub not_costed: Vec<Served>,
}

impl Basket {
    /// The basket of the kitchen before the new prices.
    pub(super) fn of(pair: &Pair<'_>) -> Result<Self, Lack> {
        let (kitchen, costing) = (pair.old, pair.was);
        let (kind, items, not_costed): (_, Vec<_>, _) =
            match Balance::of(kitchen, costing).map_err(|_| Lack::Outside)? {
                Some(balance) => {
                    let items = balance.purchases.items.iter().map(|item| (item.item, item.purchase)).collect();
                    let not_costed = balance.servings.iter().filter(|serving| !serving.costed);
                    (BasketKind::Plan, items, not_costed.map(|serving| serving.served).collect())
                }
                None => {
                    let mut batches = Batches::of(kitchen, costing).map_err(|_| Lack::Outside)?;
                    let is_water = |id: &ItemId| costing.item(*id).is_some_and(|cost| cost.from == PriceFrom::Water);
                    batches.items.retain(|id, _| !is_water(id));
                    (BasketKind::Batches, batches.items.into_iter().collect(), batches.not_costed)
                }
            };
        let taken = items.into_iter().filter(|(_, amount)| !amount.is_zero());
        let mut items: Vec<(ItemId, Decimal)> =
            taken.filter_map(|(old, amount)| Some((pair.new_id(old)?, amount))).collect();
        items.put_in_order_by_key(|(item, _)| *item);
        Ok(Basket { kind, items, not_costed })
    }

    /// How much of `item` is in it.
    pub fn quantity(&self, item: ItemId) -> Decimal {
        let found = self.items.binary_search_by_key(&item, |(item, _)| *item);
        found.ok().and_then(|at| self.items.get(at)).map_or(Decimal::ZERO, |(_, amount)| *amount)
    }
}

/// One batch of each recipe: what their lines buy, and what goes into the tests whose mains they take.
struct Batches {
    items: HashMap<ItemId, Decimal>,
    parts: HashMap<PartId, Decimal>,
    not_costed: Vec<Served>,
}

impl Batches {
    fn of(kitchen: &Kitchen, costing: &Costing) -> Result<Self, Overflow> {
        let mut batches = Batches { items: HashMap::new(), parts: HashMap::new(), not_costed: Vec::new() };
        for id in (0..kitchen.recipes.len()).map(RecipeId::new) {
            match batch_usage::of_batch(kitchen, costing, id)? {
                Some(draws) => draws.into_iter().try_for_each(|draw| batches.want(draw.of, draw.amount))?,
                None => batches.not_costed.push(Served::Recipe(id)),
            }
        }
        // A test stands behind those whose parts go into it.
        for node in kitchen.order.iter().rev() {
            if let Node::Test(id) = node {
                batches.break_down(kitchen, costing, *id)?;
            }
        }
        Ok(batches)
    }

    fn want(&mut self, source: IngredientSource, amount: Decimal) -> Result<(), Overflow> {
        let sum = match source {
            IngredientSource::Bought(id) => self.items.entry(id).or_default(),
            IngredientSource::Part(id) => self.parts.entry(id).or_default(),
            // It is made in a batch of its own.
            IngredientSource::Made(_) | IngredientSource::Unknown => return Ok(()),
        };
        *sum = exact::add(*sum, amount)?;
        Ok(())
    }

    fn break_down(&mut self, kitchen: &Kitchen, costing: &Costing, id: TestId) -> Result<(), Overflow> {
        let (Some(test), Some(cost)) = (kitchen.test(id), costing.test(id)) else { return Ok(()) };
        let mut goes_in = Decimal::ZERO;
        for (part, id) in test.parts.iter().zip(kitchen.part_ids(id)) {
            if let (Role::Main, Some(wanted)) = (part.role, self.parts.get(&id))
                && !part.grams.is_zero()
            {
                goes_in = goes_in.max(exact::div(exact::mul(*wanted, cost.grams)?, part.grams)?);
            }
        }
        if goes_in.is_zero() {
            return Ok(());
        }
        let runs = test.runs.iter().map(|run| (test.input, run.grams, run.count));
        let added = test.added.iter().filter_map(|added| Some((added.source?, added.grams, added.count)));
        for (source, grams, count) in runs.chain(added) {
            if let Ok((amount, _)) = priced(kitchen, costing, source, grams, count) {
                self.want(source, amount.times(goes_in)?.over(cost.grams)?.value()?)?;
            }
        }
        Ok(())
    }
}

/// Everything bought that the basket's dishes and recipes name at whatever depth, by its old id, costed or not.
pub(super) fn named(kitchen: &Kitchen) -> HashSet<ItemId> {
    let mut nodes: HashSet<Node> = HashSet::new();
    let recipe = |served: Served| match served {
        Served::Dish(index) => kitchen.dishes.get(index).and_then(|dish| dish.recipe),
        Served::Recipe(id) => Some(id),
    };
    if kitchen.plan.rows.is_empty() {
        nodes.extend((0..kitchen.recipes.len()).map(RecipeId::new).map(Node::Recipe));
    } else {
        nodes.extend(kitchen.plan.rows.iter().filter_map(|row| recipe(row.served)).map(Node::Recipe));
    }
    let mut items = HashSet::new();
    for node in kitchen.order.iter().rev().filter(|node| !matches!(node, Node::Item(_))) {
        if !nodes.contains(node) {
            continue;
        }
        let mut note = |source: IngredientSource| match source {
            IngredientSource::Bought(id) => drop(items.insert(id)),
            IngredientSource::Part(id) => drop(nodes.insert(Node::Test(id.test))),
            IngredientSource::Made(id) => drop(nodes.insert(Node::Recipe(id))),
            IngredientSource::Unknown => {}
        };
        match node {
            Node::Item(_) => {}
            // What by-products stand in for is not bought for the test.
            Node::Test(id) => {
                let Some(test) = kitchen.test(*id) else { continue };
                note(test.input);
                test.added.iter().filter_map(|added| added.source).for_each(note);
            }
            Node::Recipe(id) => {
                let sources = kitchen.recipe(*id).into_iter().flat_map(|one| depends::of_recipe(&kitchen.items, one));
                sources.for_each(note);
            }
        }
    }
    items
}

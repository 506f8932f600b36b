//! Purchases of a plan, what it takes of bought items: what recipes and tests draw and what stands in for short trim,
//! off the shelf first, then from the supplier. The one set of numbers that the buying list, the plan's totals and the
//! basket of new prices use.

use std::collections::{BTreeMap, BTreeSet};

use super::rest;
use crate::analysis::balance::day_by_day::{add, add_to};
use crate::costing::price::bought::PriceFrom;
use crate::costing::rate::Amount;
use crate::costing::yield_test::at_market::buy_in_amount;
use crate::costing::{Costing, ItemCost};
use crate::kitchen::{Field, ItemId, Kitchen, PartId};
use crate::number::{Decimal, Overflow, exact, round_up_steps};

/// A bought item over the plan, in base units of its price as purchased. Purchased + on hand = wanted + left over.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ItemBalance {
    /// The item.
    pub item: ItemId,
    /// Wanted in all.
    pub wanted: Decimal,
    /// Of it what stands in for short trim.
    pub stands_in: Decimal,
    /// On hand before the plan.
    pub on_hand: Decimal,
    /// Taken from what is on hand.
    pub from_stock: Decimal,
    /// To purchase.
    pub purchase: Decimal,
    /// On hand after the plan.
    pub left_over: Decimal,
}

/// Bought items over the plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Purchases {
    /// What is wanted or on hand, in book order; water that nobody prices is none.
    pub items: Vec<ItemBalance>,
    /// Short trim for which nobody says what is bought, or what that costs: it is on no list.
    pub unknown: Vec<PartId>,
}

/// What a list comes to in money, at today's AP unit costs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Sums {
    /// What must be purchased, before whole packs; `None` where something is on no list.
    pub purchases: Option<Decimal>,
    /// What of it is known.
    pub known: Decimal,
    /// On hand before the plan.
    pub on_hand: Decimal,
    /// On hand after it.
    pub left_over: Decimal,
}

/// Whole packs of an item.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WholePacks {
    /// How many.
    pub packs: Decimal,
    /// What one holds, in base units of the price.
    pub holds: Decimal,
    /// What they cost.
    pub money: Decimal,
}

impl Purchases {
    /// What so much of an item costs.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit.
    pub fn money(costing: &Costing, item: ItemId, amount: Decimal) -> Result<Decimal, Overflow> {
        costing.item(item).map_or(Ok(Decimal::ZERO), |cost| cost.ap.cost_of(Amount::of(amount)))
    }

    /// What the list comes to.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit.
    pub fn sums(&self, costing: &Costing) -> Result<Sums, Overflow> {
        let mut sums = Sums::default();
        for item in &self.items {
            let money = |amount| Purchases::money(costing, item.item, amount);
            add_to(&mut sums.known, money(item.purchase)?)?;
            add_to(&mut sums.on_hand, money(item.on_hand)?)?;
            add_to(&mut sums.left_over, money(item.left_over)?)?;
        }
        sums.purchases = Some(sums.known).filter(|_| self.unknown.is_empty());
        Ok(sums)
    }

    /// The packs that hold so much of an item, where its price is for a pack, and what these cost. `None` where it is bought
    /// by weight, volume or the piece: as much as is wanted can be ordered.
    pub fn whole_packs(kitchen: &Kitchen, costing: &Costing, item: ItemId, amount: Decimal) -> Option<WholePacks> {
        let cost = costing.item(item)?;
        let PriceFrom::Row(row) = cost.from else { return None };
        let row = kitchen.entries.prices.get(row)?;
        if !matches!((&row.per, &row.pack), (Field::Blank, Field::Given(_))) {
            return None;
        }
        // As a spreadsheet would: what is whole but for its last digits is whole.
        let packs = round_up_steps(exact::div(amount, cost.ap.per).ok()?);
        let holds = cost.ap.per;
        Some(WholePacks { packs, holds, money: exact::mul(packs, cost.ap.money).ok()? })
    }

    /// What the list comes to in whole packs; what is bought otherwise as much as is wanted. `None` where something is on
    /// no list, or the sum does not fit.
    pub fn in_whole_packs(&self, kitchen: &Kitchen, costing: &Costing) -> Option<Decimal> {
        let money =
            self.items.iter().map(|item| match Purchases::whole_packs(kitchen, costing, item.item, item.purchase) {
                Some(packs) => Ok(packs.money),
                None => Purchases::money(costing, item.item, item.purchase),
            });
        let money: Result<Vec<Decimal>, Overflow> = money.collect();
        exact::sum(money.ok()?).ok().filter(|_| self.unknown.is_empty())
    }

    /// An item's balance.
    pub fn item(&self, id: ItemId) -> Option<&ItemBalance> {
        self.items.binary_search_by_key(&id, |item| item.item).ok().and_then(|at| self.items.get(at))
    }
}

/// What is drawn and what is on hand, before anything stands in.
pub(super) struct Items<'a> {
    pub(super) kitchen: &'a Kitchen,
    pub(super) costing: &'a Costing,
    pub(super) drawn: &'a BTreeMap<ItemId, Decimal>,
    pub(super) on_hand: &'a BTreeMap<ItemId, Decimal>,
}

impl Items<'_> {
    /// All of it, with what stands in for so many grams of parts. With `like` the store room is left as that list leaves it,
    /// so that what is bought can be compared.
    pub(super) fn with(
        &self,
        short: impl Iterator<Item = (PartId, Decimal)>,
        like: Option<&Purchases>,
    ) -> Result<Purchases, Overflow> {
        let mut stands_in: BTreeMap<ItemId, Decimal> = BTreeMap::new();
        let mut unknown = Vec::new();
        for (part, grams) in short {
            match stand_in(self.kitchen, self.costing, part) {
                Some((item, per_gram)) => add(&mut stands_in, item, per_gram.times(grams)?.value()?)?,
                None => unknown.push(part),
            }
        }
        let ids: BTreeSet<ItemId> =
            self.drawn.keys().chain(self.on_hand.keys()).chain(stands_in.keys()).copied().collect();
        let is_water = |cost: &ItemCost| cost.from == PriceFrom::Water;
        let ids = ids.into_iter().filter(|id| self.costing.item(*id).is_some_and(|cost| !is_water(cost)));
        let of = |amounts: &BTreeMap<ItemId, Decimal>, id| amounts.get(&id).copied().unwrap_or_default();
        let items = ids.map(|item| {
            let (on_hand, stands_in) = (of(self.on_hand, item), of(&stands_in, item));
            let wanted = exact::add(of(self.drawn, item), stands_in)?;
            let from_stock = match like {
                Some(like) => like.item(item).map_or(Decimal::ZERO, |item| item.from_stock),
                None => on_hand.min(wanted),
            };
            let (purchase, left_over) = (rest(wanted, from_stock)?, rest(on_hand, from_stock)?);
            Ok(ItemBalance { item, wanted, stands_in, on_hand, from_stock, purchase, left_over })
        });
        Ok(Purchases { items: items.collect::<Result<_, _>>()?, unknown })
    }
}

/// What is bought in the place of a part, and how much for a gram of it; `None` where nobody says, or what that costs.
pub(super) fn stand_in(kitchen: &Kitchen, costing: &Costing, part: PartId) -> Option<(ItemId, Amount)> {
    let part = kitchen.part(part)?;
    let buy_in = part.buy_in.as_ref().filter(|_| !part.reuse.unread)?;
    let amount = buy_in_amount(kitchen, costing, buy_in).ok()?.over(buy_in.grams).ok()?;
    Some((buy_in.item, amount))
}

//! The bought items whose price in use moved: by how much, and what that is worth over the basket.

use std::cmp::Reverse;

use super::NotPriced;
use super::basket::Basket;
use super::before_and_after::Pair;
use super::compare::{LeftOut, at};
use crate::analysis::Lack;
use crate::costing::ItemCost;
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::price::bought::PriceFrom;
use crate::in_order::InOrder;
use crate::kitchen::ItemId;
use crate::number::{Decimal, exact};

/// A price in use.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InUse {
    /// Where it comes from. A price row that stands in both books has the same index in both.
    pub from: PriceFrom,
    /// The kind of base unit.
    pub kind: BaseUnitKind,
    /// Money for one base unit as purchased.
    pub unit_cost: Decimal,
}

impl InUse {
    fn of(cost: &ItemCost) -> Option<Self> {
        Some(InUse { from: cost.from, kind: cost.kind.clone(), unit_cost: cost.ap.unit_cost().ok()? })
    }
}

/// An item whose price moved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mover {
    /// The item, by its id in the kitchen with the new prices.
    pub item: ItemId,
    /// The price before.
    pub was: InUse,
    /// The price with the new rows.
    pub now: InUse,
    /// The new price for one base unit of the kind before.
    pub now_as_was: Result<Decimal, LeftOut>,
    /// By which part of the price before it moved; not known where that was nothing.
    pub fraction: Option<Decimal>,
    /// How much of it is in the basket, in base units of the kind before; `None` when the basket is not known.
    pub quantity: Option<Decimal>,
    /// What the move is worth over the basket.
    pub worth: Result<Decimal, LeftOut>,
}

impl Mover {
    /// How much the move is worth, up or down; nothing where that is not known.
    pub fn size(&self) -> Decimal {
        self.worth.map(|worth| worth.abs()).unwrap_or_default()
    }
}

/// An item of the book before that has a price on one side alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Unpriced {
    /// The item, by its id in the kitchen with the new prices.
    pub item: ItemId,
    /// When it has none.
    pub when: NotPriced,
}

/// The movers by worth, the largest rise first and what is not known last; and what is priced on one side alone.
pub(super) fn movers(pair: &Pair<'_>, basket: &Result<Basket, Lack>) -> (Vec<Mover>, Vec<Unpriced>) {
    let (mut movers, mut unpriced) = (Vec::new(), Vec::new());
    for (old, new) in pair.items() {
        let (was, now) = match (pair.was.item(old), pair.now.item(new)) {
            (Some(was), Some(now)) => (was, now),
            (None, None) => continue,
            (was, now) => {
                let when = NotPriced::of(was.is_some(), now.is_some());
                unpriced.extend(when.map(|when| Unpriced { item: new, when }));
                continue;
            }
        };
        let (Some(was_used), Some(now_used)) = (InUse::of(was), InUse::of(now)) else { continue };
        if was_used.kind == now_used.kind && was_used.unit_cost == now_used.unit_cost {
            continue;
        }
        let same = was_used.kind == now_used.kind;
        let now_as_was = if same { Ok(now_used.unit_cost) } else { at(pair.new, new, now, &was.kind, Decimal::ONE) };
        let moved = now_as_was.and_then(|now| Ok(exact::sub(now, was_used.unit_cost)?));
        let quantity = basket.as_ref().ok().map(|basket| basket.quantity(new));
        let worth = match quantity {
            None => Err(LeftOut::Outside),
            // Multiplied first and divided once.
            Some(quantity) => at(pair.new, new, now, &was.kind, quantity)
                .and_then(|now| Ok(exact::sub(now, at(pair.old, old, was, &was.kind, quantity)?)?)),
        };
        movers.push(Mover {
            item: new,
            fraction: moved.ok().and_then(|moved| exact::div(moved, was_used.unit_cost).ok()),
            was: was_used,
            now: now_used,
            now_as_was,
            quantity,
            worth,
        });
    }
    movers.put_in_order_by_key(|mover| (mover.worth.is_err(), Reverse(mover.worth.ok())));
    (movers, unpriced)
}

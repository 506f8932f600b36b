//! Trim that is sold: what the plan made of it, nobody used and is not too old. It earns its price whether trim is used
//! or not, and of its credit only what is above the price is unearned.

use crate::analysis::balance::{PartBalance, rest};
use crate::costing::Rate;
use crate::costing::rate::Amount;
use crate::costing::scenario::Unused;
use crate::kitchen::yield_test::{Part, Role};
use crate::number::{Decimal, Overflow, exact};

/// What a by-product sells for, by weight; `None` where it goes in the bin.
pub fn sells_at(part: &Part) -> Option<Rate> {
    part.reuse.sells_at().filter(|_| part.role == Role::ByProduct).map(Rate::from)
}

/// Money for so many grams of a by-product; nothing where it goes in the bin.
pub(super) fn fetches(part: &Part, grams: Decimal) -> Result<Decimal, Overflow> {
    sells_at(part).map_or(Ok(Decimal::ZERO), |rate| rate.cost_of(Amount::of(grams)))
}

/// What nobody used of all there was of a by-product, what was on hand before the plan within. `None` where there was none.
pub(super) fn unused_of_all(part: &Part, balance: &PartBalance) -> Result<Option<Unused>, Overflow> {
    let there = exact::add(balance.on_hand, balance.made)?;
    unused(part, there, exact::add(balance.left_over, balance.too_old)?, balance)
}

/// What nobody used of what the plan made of a by-product. `None` where it made none.
pub(super) fn unused_of_made(part: &Part, balance: &PartBalance) -> Result<Option<Unused>, Overflow> {
    unused(part, balance.made, exact::add(balance.left_of_made, balance.too_old_of_made)?, balance)
}

fn unused(part: &Part, made: Decimal, left: Decimal, balance: &PartBalance) -> Result<Option<Unused>, Overflow> {
    if made.is_zero() {
        return Ok(None);
    }
    let at = sells_at(part);
    let sold = if at.is_some() { balance.left_of_made } else { Decimal::ZERO };
    Ok(Some(Unused { made, stays: rest(left, sold)?, sold, at }))
}

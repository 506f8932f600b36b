//! Credit that nobody has paid for: what was given to trim that is left over, and what the mains' dishes would cost if it
//! were never used.

use std::collections::BTreeMap;

use super::own_rate;
use crate::analysis::balance::Balance;
use crate::analysis::uses::Uses;
use crate::costing::Costing;
use crate::costing::rate::Amount;
use crate::kitchen::plan::Served;
use crate::kitchen::yield_test::Role;
use crate::kitchen::{Kitchen, PartId};
use crate::number::{Decimal, Overflow, exact};

/// A dish when only the earned credit counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Earned {
    /// What is served.
    pub served: Served,
    /// Food in a portion as the book credits, in money.
    pub food: Decimal,
    /// The same, if what is left over is thrown away.
    pub alone: Decimal,
}

/// The credit of all that is left over, in money, and the planned dishes that would bear it.
pub(super) fn earned(
    kitchen: &Kitchen,
    credited: &Costing,
    balance: &Balance,
    uses: &Uses,
    food: impl Fn(Served) -> Option<Decimal>,
) -> Result<(Decimal, Vec<Earned>), Overflow> {
    let mut all = Decimal::ZERO;
    // Money more for a gram of every main.
    let mut more: BTreeMap<PartId, Decimal> = BTreeMap::new();
    for (id, test) in kitchen.test_ids().zip(&kitchen.tests) {
        let mut unearned = Decimal::ZERO;
        // What was on hand before is used first, and its credit was borne by mains of another day.
        let mut of_these_mains = Decimal::ZERO;
        for (part_id, _) in kitchen.part_ids(id).zip(&test.parts).filter(|(_, part)| part.role == Role::ByProduct) {
            let (Some(of_part), Some(rate)) = (balance.part(part_id), own_rate(credited, part_id)) else { continue };
            let left = exact::add(of_part.left_over, of_part.too_old)?;
            unearned = exact::add(unearned, rate.cost_of(Amount::of(left))?)?;
            of_these_mains = exact::add(of_these_mains, rate.cost_of(Amount::of(left.min(of_part.made)))?)?;
        }
        all = exact::add(all, unearned)?;
        let mains = || kitchen.part_ids(id).zip(&test.parts).filter(|(_, part)| part.role == Role::Main);
        let cost_of = |part: PartId| credited.part(part).map_or(Decimal::ZERO, |part| part.cost);
        let cost = exact::sum(mains().map(|(part, _)| cost_of(part)))?;
        if of_these_mains.is_zero() || cost.is_zero() {
            continue;
        }
        for (part, _) in mains() {
            let made = balance.part(part).map_or(Decimal::ZERO, |part| part.made);
            if !made.is_zero() {
                let share = exact::div(exact::mul(of_these_mains, cost_of(part))?, cost)?;
                more.insert(part, exact::div(share, made)?);
            }
        }
    }
    let mut dishes = Vec::new();
    for serving in &balance.servings {
        let Served::Dish(index) = serving.served else { continue };
        let Some(takes) = uses.dishes.get(index).and_then(Option::as_ref) else { continue };
        let mut added = Decimal::ZERO;
        for (part, grams) in &takes.parts {
            if let Some(more) = more.get(part) {
                added = exact::add(added, exact::mul(*grams, *more)?)?;
            }
        }
        if let (false, Some(food)) = (added.is_zero(), food(serving.served)) {
            dishes.push(Earned { served: serving.served, food, alone: exact::add(food, added)? });
        }
    }
    Ok((all, dishes))
}

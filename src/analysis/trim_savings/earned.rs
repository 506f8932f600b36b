//! Credit that nobody has paid for: what was given to trim that is left over, and what dishes would cost if only the
//! credit counted that was earned.

use std::collections::BTreeMap;

use super::dishes::food_of;
use super::own_rate;
use super::trim_sold::{unused_of_all, unused_of_made};
use crate::analysis::balance::{Balance, PartBalance};
use crate::costing::rate::Amount;
use crate::costing::scenario::Unused;
use crate::costing::what_if::again;
use crate::costing::{Costing, Rate, Scenario};
use crate::kitchen::depends::Reached;
use crate::kitchen::plan::Served;
use crate::kitchen::yield_test::{Part, Role};
use crate::kitchen::{Kitchen, Node, PartId, TestId};
use crate::number::{Decimal, Overflow, exact};

/// What of a portion is the rounding of its sums.
const ROUNDING: Decimal = Decimal::from_parts(1, 0, 0, false, 18);

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

/// The credit that a by-product was given at `rate` for what nobody used of it, in money.
pub(super) fn unearned(part: &Part, balance: &PartBalance, rate: Rate) -> Result<Decimal, Overflow> {
    let Some(unused) = unused_of_all(part, balance)? else { return Ok(Decimal::ZERO) };
    unused.unearned(rate.cost_of(Amount::of(unused.made))?, unused.made)
}

/// The credit of all that is left over, in money.
pub(super) fn all_unearned(kitchen: &Kitchen, credited: &Costing, balance: &Balance) -> Result<Decimal, Overflow> {
    let mut all = Decimal::ZERO;
    for (id, part) in by_products(kitchen) {
        let (Some(of_part), Some(rate)) = (balance.part(id), own_rate(credited, id)) else { continue };
        all = exact::add(all, unearned(part, of_part, rate)?)?;
    }
    Ok(all)
}

/// The planned dishes that bear it if it is thrown away: the kitchen costed once more, where mains bear the credit that is
/// unearned and all that stands on them follows, through whatever tests and recipes. What was on hand before the plan is
/// used first, and its credit was borne by mains of another day.
pub(super) fn earned(kitchen: &Kitchen, credited: &Costing, balance: &Balance) -> Result<Vec<Earned>, Overflow> {
    let mut unused: BTreeMap<PartId, Unused> = BTreeMap::new();
    for (id, part) in by_products(kitchen) {
        if let Some(found) = balance.part(id).map(|of_part| unused_of_made(part, of_part)).transpose()?.flatten() {
            unused.insert(id, found);
        }
    }
    unused.retain(|_, unused| !(unused.stays.is_zero() && unused.sold.is_zero()));
    let is_left = |test: TestId| unused.keys().any(|id| id.test == test);
    let reached = Reached::by_any(kitchen, |node| matches!(node, Node::Test(id) if is_left(id)));
    let scenario = Scenario { unused, ..credited.scenario.clone() };
    let alone = again(kitchen, credited, scenario, &reached);
    let mut dishes = Vec::new();
    for serving in &balance.servings {
        let served = serving.served;
        let (Some(food), Some(alone)) = (food_of(credited, served), food_of(&alone, served)) else { continue };
        let moved = exact::sub(alone, food)?.abs();
        if moved > exact::mul(food.max(Decimal::ONE), ROUNDING)? {
            dishes.push(Earned { served, food, alone });
        }
    }
    Ok(dishes)
}

fn by_products(kitchen: &Kitchen) -> impl Iterator<Item = (PartId, &Part)> {
    let parts = kitchen.all_parts().filter_map(|id| Some((id, kitchen.part(id)?)));
    parts.filter(|(_, part)| part.role == Role::ByProduct)
}

//! Money of counted items: what their use cost, what it ought to have cost, and the gap in its three parts, which add up
//! exactly: all of it is held to twelve decimals.

use super::CountedItem;
use crate::costing::rate::{Amount, Rate};
use crate::number::{Decimal, exact, half_up};

/// The decimals of the money of counts.
const PLACES: u32 = 12;
/// Money beyond which so many decimals would not add up exactly: ten billions.
const MOST: Decimal = Decimal::from_parts(1_410_065_408, 2, 0, false, 0);

/// Money of counted items. Gap = actual − standard = price + mix + use, exactly.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct CountedMoney {
    /// What the use by the counts cost.
    pub actual: Decimal,
    /// What the standard use would have cost.
    pub standard: Decimal,
    /// The difference.
    pub gap: Decimal,
    /// Of it for other prices than those of the last day.
    pub price: Decimal,
    /// Of it for other proportions among items that stand in for one another.
    pub mix: Decimal,
    /// Of it for more or less than ought to have been used.
    pub use_of_more: Decimal,
    /// Of use and mix what was written down as thrown away.
    pub thrown: Decimal,
}

impl CountedMoney {
    /// The money of an item; in a group, with what all of that used, and ought to have.
    pub(super) fn of(item: &CountedItem, group: Option<(Decimal, Decimal)>) -> Option<Self> {
        let (rate, used, standard) = (item.rate?, item.used?, item.standard?);
        let moved = exact::sub(item.came_in?, item.went_out?).ok()?;
        let [moved, used, standard_cost] = [moved, used, standard].map(|amount| money(rate, amount));
        let (moved, used_cost, standard_cost) = (moved?, used?, standard_cost?);
        let came = exact::sum([item.stock.opening?, item.stock.purchases?, moved]).ok()?;
        let actual = exact::sub(came, item.stock.closing?).ok()?;
        let more = exact::sub(used_cost, standard_cost).ok()?;
        let use_of_more = match group {
            Some((all_used, all_standard)) => {
                let all_more = exact::sub(all_used, all_standard).ok()?;
                held(exact::div(exact::mul(standard_cost, all_more).ok()?, all_standard).ok()?)?
            }
            None => more,
        };
        Some(CountedMoney {
            actual,
            standard: standard_cost,
            gap: exact::sub(actual, standard_cost).ok()?,
            price: exact::sub(actual, used_cost).ok()?,
            mix: exact::sub(more, use_of_more).ok()?,
            use_of_more,
            thrown: money(rate, item.thrown.unwrap_or_default())?,
        })
    }

    /// All of it together; `None` of nothing, or where it does not fit.
    pub(super) fn sum(all: impl Iterator<Item = Self>) -> Option<Self> {
        let mut sum: Option<CountedMoney> = None;
        for one in all {
            let before = sum.unwrap_or_default();
            let add = |of: fn(&CountedMoney) -> Decimal| exact::add(of(&before), of(&one)).ok();
            sum = Some(CountedMoney {
                actual: add(|money| money.actual)?,
                standard: add(|money| money.standard)?,
                gap: add(|money| money.gap)?,
                price: add(|money| money.price)?,
                mix: add(|money| money.mix)?,
                use_of_more: add(|money| money.use_of_more)?,
                thrown: add(|money| money.thrown)?,
            });
        }
        sum
    }
}

/// What an amount costs, to twelve decimals.
pub(super) fn money(rate: Rate, amount: Decimal) -> Option<Decimal> {
    held(rate.cost_of(Amount::of(amount)).ok()?)
}

/// Money to twelve decimals; `None` of so much that these would not add up.
pub(super) fn held(money: Decimal) -> Option<Decimal> {
    Some(half_up(money, PLACES)).filter(|money| money.abs() < MOST)
}

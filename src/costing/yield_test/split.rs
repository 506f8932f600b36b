//! Split of a yield test's cost over what came out: fixed charges first, what remains by joint keys.
//!
//! Takes the cost, and of every part its weight, its name and what it takes; gives the parts' costs, which add up to the
//! whole exactly. The costing and every report that charges otherwise than the book go through here.

use crate::costing::rate::{Amount, Rate};
use crate::in_order::InOrder;
use crate::kitchen::NameKey;
use crate::number::{Decimal, Overflow, exact, share};

/// A part that cost is split over.
#[derive(Debug, Clone, Copy)]
pub struct Taker<'a> {
    /// Its weight in grams.
    pub grams: Decimal,
    /// Its name: the last joint part by name whose share is above zero takes the rest.
    pub key: &'a NameKey,
    /// What it takes.
    pub takes: Takes,
}

/// What a part takes of its test's cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Takes {
    /// So much per gram, off the top.
    Fixed(Rate),
    /// A share of what remains, by its grams times this.
    Share(Rate),
}

impl Takes {
    /// The fixed charge; `None` for a share.
    pub fn fixed(self) -> Option<Rate> {
        match self {
            Takes::Fixed(rate) => Some(rate),
            Takes::Share(_) => None,
        }
    }
}

/// A cost split over the parts of a test.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Split {
    /// What every part bears, in the order given. They add up to the cost exactly.
    pub costs: Vec<Decimal>,
    /// What the fixed charges among them come to.
    pub credits: Decimal,
}

/// Why a cost cannot be split as asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unsplit {
    /// The fixed charges are above the cost.
    CreditsOverCost {
        /// What they come to.
        credits: Decimal,
    },
    /// Nothing that shares what remains has a weight and a value above zero.
    NothingToShareBy,
    /// A figure does not fit a decimal.
    Overflow,
}

impl From<Overflow> for Unsplit {
    fn from(_: Overflow) -> Self {
        Unsplit::Overflow
    }
}

/// Splits `cost` over `takers`. Each cost is rounded to 27 − (integer digits of the whole) decimals, and the last joint
/// part by name whose share is above zero takes the rest. One without a share bears nothing, and none less than nothing.
///
/// # Errors
/// An [`Unsplit`] when the charges leave nothing, or nobody, to share what remains.
pub fn split(cost: Decimal, takers: &[Taker<'_>]) -> Result<Split, Unsplit> {
    let mut costs = Vec::with_capacity(takers.len());
    let mut credits = Decimal::ZERO;
    for taker in takers {
        let credit = match taker.takes {
            Takes::Fixed(rate) => share::rounded(rate.cost_of(Amount::of(taker.grams))?, cost),
            Takes::Share(_) => Decimal::ZERO,
        };
        credits = exact::add(credits, credit)?;
        costs.push(credit);
    }
    if credits > cost {
        // Credits that come to all of the cost may be above it by what rounding each of them adds.
        let rounding = exact::mul(share::last_digit(cost), Decimal::from(takers.len()))?;
        let over = exact::sub(cost, credits)?;
        if over.abs() > rounding {
            return Err(Unsplit::CreditsOverCost { credits });
        }
        share::settle(&mut costs, over, &by_name(takers.iter().map(|taker| taker.key)))?;
        credits = cost;
    }
    let remainder = exact::sub(cost, credits)?;
    let joint = joint_keys(takers)?;
    if joint.is_empty() && remainder.is_zero() {
        return Ok(Split { costs, credits });
    }
    let keys: Vec<Decimal> = joint.iter().map(|(.., key)| *key).collect();
    if keys.iter().all(Decimal::is_zero) {
        return Err(Unsplit::NothingToShareBy);
    }
    let order = by_name(joint.iter().map(|(_, name, _)| *name));
    for ((index, ..), share) in joint.iter().zip(share::share_of(cost, remainder, &keys, &order)?) {
        if let Some(slot) = costs.get_mut(*index) {
            *slot = share;
        }
    }
    Ok(Split { costs, credits })
}

/// The indices of `names` in their order.
fn by_name<'a>(names: impl Iterator<Item = &'a NameKey>) -> Vec<usize> {
    let mut order: Vec<(&NameKey, usize)> = names.zip(0..).collect();
    order.put_in_order();
    order.into_iter().map(|(_, index)| index).collect()
}

/// The joint parts by index, with their names and keys: weight × money ÷ grams, which on one common unit keeps keys exact.
/// Where one alone has a weight, it takes all, whatever it is worth.
pub(crate) fn joint_keys<'a>(takers: &[Taker<'a>]) -> Result<Vec<(usize, &'a NameKey, Decimal)>, Overflow> {
    let mut joint = Vec::new();
    for (index, taker) in takers.iter().enumerate() {
        if let Takes::Share(Rate { money, per }) = taker.takes {
            joint.push((index, taker.key, exact::div(exact::mul(taker.grams, money)?, per)?));
        }
    }
    let weighed = |index: usize| takers.get(index).is_some_and(|taker| !taker.grams.is_zero());
    let mut weighing = joint.iter_mut().filter(|(index, ..)| weighed(*index));
    if let (Some((.., key)), None) = (weighing.next(), weighing.next()) {
        *key = Decimal::ONE;
    }
    Ok(joint)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names() -> [NameKey; 3] {
        ["a", "b", "c"].map(NameKey::of)
    }

    fn rate(money: i64, per: i64) -> Rate {
        Rate { money: Decimal::from(money), per: Decimal::from(per) }
    }

    fn taker(key: &NameKey, grams: i64, takes: Takes) -> Taker<'_> {
        Taker { grams: Decimal::from(grams), key, takes }
    }

    #[test]
    fn fixed_charges_come_off_first() {
        let [a, b, c] = names();
        // 100 less 2 × 10 is 80, by 3 : 1.
        let takers = [
            taker(&a, 2, Takes::Fixed(rate(10, 1))),
            taker(&b, 3, Takes::Share(rate(1, 1))),
            taker(&c, 1, Takes::Share(rate(1, 1))),
        ];
        let split = split(Decimal::ONE_HUNDRED, &takers).unwrap();
        assert_eq!(split.costs, [20, 60, 20].map(Decimal::from));
        assert_eq!(split.credits, Decimal::from(20));
    }

    #[test]
    fn what_cannot_be_split_says_why() {
        let [a, b, c] = names();
        let fixed = taker(&a, 2, Takes::Fixed(rate(60, 1)));
        let over = split(Decimal::ONE_HUNDRED, &[fixed, taker(&b, 1, Takes::Share(rate(1, 1)))]);
        assert_eq!(over, Err(Unsplit::CreditsOverCost { credits: Decimal::from(120) }));
        let worthless = [taker(&b, 1, Takes::Share(rate(0, 1))), taker(&c, 1, Takes::Share(rate(0, 1)))];
        assert_eq!(split(Decimal::ONE, &worthless), Err(Unsplit::NothingToShareBy));
        assert_eq!(split(Decimal::ONE, &[taker(&b, 0, Takes::Share(rate(1, 1)))]), Err(Unsplit::NothingToShareBy));
    }

    #[test]
    fn the_last_by_name_with_a_share_takes_the_rest_and_a_worthless_one_nothing() {
        let [a, b, c] = names();
        // 10 by 2 : 1 is 6.66…67 and 3.33…33 to 25 decimals, which is all; “c” is last by name and worth nothing.
        let takers = [
            taker(&c, 1, Takes::Share(rate(0, 1))),
            taker(&b, 1, Takes::Share(rate(1, 1))),
            taker(&a, 1, Takes::Share(rate(2, 1))),
        ];
        let sixth = Decimal::from_i128_with_scale(66_666_666_666_666_666_666_666_667, 25);
        let third = Decimal::from_i128_with_scale(33_333_333_333_333_333_333_333_333, 25);
        assert_eq!(split(Decimal::TEN, &takers).unwrap().costs, [Decimal::ZERO, third, sixth]);
        // 10 by 1 : 1 : 1 and nothing for a fourth: the third by name takes 10 − 2 × 3.33…33.
        let last = NameKey::of("z");
        let one = Takes::Share(rate(1, 1));
        let takers =
            [taker(&c, 1, one), taker(&last, 1, Takes::Share(rate(0, 1))), taker(&a, 1, one), taker(&b, 1, one)];
        let rest = Decimal::from_i128_with_scale(33_333_333_333_333_333_333_333_334, 25);
        assert_eq!(split(Decimal::TEN, &takers).unwrap().costs, [rest, Decimal::ZERO, third, third]);
    }

    #[test]
    fn credits_of_the_whole_cost_are_not_above_it_for_their_rounding() {
        let [a, b, c] = names();
        let last = NameKey::of("z");
        // Three credits of 20 ÷ 3 come to 20: each is 6.66…67 to 25 decimals, one in the last digit too many in all.
        let third = Takes::Fixed(rate(20, 3));
        let takers =
            [taker(&a, 1, third), taker(&b, 1, third), taker(&c, 1, third), taker(&last, 1, Takes::Share(rate(1, 1)))];
        let split = split(Decimal::from(20), &takers).unwrap();
        assert_eq!(split.credits, Decimal::from(20));
        assert_eq!(exact::sum(split.costs.iter().copied()), Ok(Decimal::from(20)));
        assert_eq!(split.costs.last(), Some(&Decimal::ZERO));
    }

    #[test]
    fn who_alone_shares_takes_all_whatever_it_is_worth() {
        let [a, b, _] = names();
        let alone = [taker(&a, 0, Takes::Share(rate(5, 1))), taker(&b, 2, Takes::Share(rate(0, 1)))];
        assert_eq!(split(Decimal::TEN, &alone).unwrap().costs, [Decimal::ZERO, Decimal::TEN]);
    }
}

//! A sum of money shared out by weights so that the shares add up to it exactly.
//!
//! Takes a total, one key per share and the order in which they may take the remainder; gives the shares in the keys' order.

use super::exact::{add, div_to_last_digit, mul, sub, sum};
use super::rounding::half_up;
use super::{Decimal, Overflow};

/// The digits that a share keeps: one fewer than a decimal surely holds, so that sums of shares stay exact.
const KEPT: u32 = 27;

/// Shares `amount`, which is all of `total` or what other shares left of it, in proportion to `keys`. Each share keeps the
/// digits that sums of shares of `total` can hold; the last in `order` (indices of keys) whose share is above zero takes
/// what is left, so all the shares of `total` add up to it exactly. None is below zero, and one without a key is nothing.
///
/// # Errors
/// [`Overflow`] when the keys add up to zero, or a figure does not fit a decimal.
pub fn share_of(total: Decimal, amount: Decimal, keys: &[Decimal], order: &[usize]) -> Result<Vec<Decimal>, Overflow> {
    let whole = sum(keys.iter().copied())?;
    if whole.is_zero() {
        return Err(Overflow);
    }
    let share = |key: &Decimal| Ok(rounded(proportion(amount, *key, whole)?, total));
    let mut shares = keys.iter().map(share).collect::<Result<Vec<_>, Overflow>>()?;
    let rest = sub(amount, sum(shares.iter().copied())?)?;
    let rest = settle(&mut shares, rest, order)?;
    // An amount that is less than the digits kept leaves no share above zero.
    let last = order.iter().rev().find(|index| keys.get(**index).is_some_and(|key| !key.is_zero()));
    if let Some(place) = last.and_then(|index| shares.get_mut(*index)) {
        *place = add(*place, rest)?;
    }
    Ok(shares)
}

/// `amount` × `key` ÷ `whole`, multiplied first where the product fits.
fn proportion(amount: Decimal, key: Decimal, whole: Decimal) -> Result<Decimal, Overflow> {
    match mul(amount, key) {
        Ok(product) => div_to_last_digit(product, whole),
        Err(Overflow) => Ok(mul(amount, div_to_last_digit(key, whole)?).unwrap_or_default()),
    }
}

/// Gives `rest` to the last in `order` whose share is above zero. Where that is to give up more than it has, those before
/// it give up the rest. Gives what nobody could take.
///
/// # Errors
/// [`Overflow`] when a sum does not fit a decimal.
pub fn settle(shares: &mut [Decimal], rest: Decimal, order: &[usize]) -> Result<Decimal, Overflow> {
    let mut rest = rest;
    for index in order.iter().rev() {
        if rest.is_zero() {
            break;
        }
        let Some(share) = shares.get_mut(*index).filter(|share| **share > Decimal::ZERO) else { continue };
        let settled = add(*share, rest)?;
        *share = settled.max(Decimal::ZERO);
        rest = settled.min(Decimal::ZERO);
    }
    Ok(rest)
}

/// The least amount that a share of `total` is told by: one in its last decimal.
pub fn last_digit(total: Decimal) -> Decimal {
    Decimal::new(1, decimals(total))
}

/// `part` rounded to 27 − (integer digits of `total`) decimals: so many that sums of such parts up to `total` are exact.
pub fn rounded(part: Decimal, total: Decimal) -> Decimal {
    half_up(part, decimals(total))
}

fn decimals(total: Decimal) -> u32 {
    KEPT.saturating_sub(integer_digits(total))
}

/// The digits before the decimal point; a number below one has none.
fn integer_digits(x: Decimal) -> u32 {
    match x.trunc().mantissa().unsigned_abs() {
        0 => 0,
        whole => whole.ilog10() + 1,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::number::exact::div;
    use proptest::prelude::*;

    fn d(text: &str) -> Decimal {
        text.parse().unwrap()
    }

    fn shared(total: Decimal, keys: &[Decimal], order: &[usize]) -> Result<Vec<Decimal>, Overflow> {
        share_of(total, total, keys, order)
    }

    #[test]
    fn a_bill_of_ten_in_three_leaves_nothing_over() {
        // 10 ÷ 3 to 27 − 2 = 25 decimals is 3.33…3; the last takes 10 − 2 × 3.33…3 = 3.33…34.
        let third = Decimal::from_i128_with_scale(33_333_333_333_333_333_333_333_333, 25);
        let rest = Decimal::from_i128_with_scale(33_333_333_333_333_333_333_333_334, 25);
        assert_eq!(shared(Decimal::TEN, &[Decimal::ONE; 3], &[0, 1, 2]), Ok(vec![third, third, rest]));
        assert_eq!(shared(Decimal::TEN, &[Decimal::ONE; 3], &[2, 1, 0]), Ok(vec![rest, third, third]));
    }

    #[test]
    fn exact_shares_are_exact_and_nothing_to_share_by_is_a_fault() {
        // 90 by 1 : 2 : 0 is 30, 60 and nothing.
        let keys = [Decimal::ONE, Decimal::TWO, Decimal::ZERO];
        let shares = [30, 60, 0].map(Decimal::from).to_vec();
        assert_eq!(shared(Decimal::from(90), &keys, &[0, 1, 2]), Ok(shares));
        assert_eq!(shared(Decimal::TEN, &[Decimal::ZERO], &[0]), Err(Overflow));
        assert_eq!(shared(Decimal::TEN, &[], &[]), Err(Overflow));
        assert_eq!(shared(Decimal::ZERO, &[Decimal::ONE], &[0]), Ok(vec![Decimal::ZERO]));
    }

    #[test]
    fn the_last_with_a_share_takes_the_rest_and_one_without_takes_nothing() {
        // 10 by 1 : 1 : 1 : 0, the last of which is worth nothing: the third takes the rest, and the fourth 0.
        let third = Decimal::from_i128_with_scale(33_333_333_333_333_333_333_333_333, 25);
        let rest = Decimal::from_i128_with_scale(33_333_333_333_333_333_333_333_334, 25);
        let keys = [Decimal::ONE, Decimal::ONE, Decimal::ONE, Decimal::ZERO];
        assert_eq!(shared(Decimal::TEN, &keys, &[0, 1, 2, 3]), Ok(vec![third, third, rest, Decimal::ZERO]));
        // 20 by 1 : 1 : 1: 6.66…67 each to 25 decimals is one too many in all, and a key of 10⁻³⁰ has nothing to give it up.
        let up = Decimal::from_i128_with_scale(66_666_666_666_666_666_666_666_667, 25);
        let down = Decimal::from_i128_with_scale(66_666_666_666_666_666_666_666_666, 25);
        let keys = [d("100"), d("100"), d("100"), d("0.0000000000000000000000000001")];
        assert_eq!(shared(Decimal::from(20), &keys, &[0, 1, 2, 3]), Ok(vec![up, up, down, Decimal::ZERO]));
    }

    #[test]
    fn what_the_last_cannot_give_up_those_before_it_do() {
        // 3 is given back by shares of 5, 2 and 1: the last has 1, the one before it 2.
        let mut shares = [5, 2, 1].map(Decimal::from);
        assert_eq!(settle(&mut shares, Decimal::from(-3), &[0, 1, 2]), Ok(Decimal::ZERO));
        assert_eq!(shares, [5, 0, 0].map(Decimal::from));
        assert_eq!(settle(&mut shares, Decimal::from(-7), &[0, 1, 2]), Ok(Decimal::from(-2)));
    }

    #[test]
    fn what_fixed_shares_leave_is_shared_for_the_whole() {
        // 10 with a third of it fixed: 3.33…3 (25 decimals) comes off, 6.66…67 is left, and its half is 3.33…335,
        // which 25 decimals hold as 3.33…34; the last takes 3.33…33.
        let fixed = rounded(div(Decimal::TEN, Decimal::from(3)).unwrap(), Decimal::TEN);
        let rest = sub(Decimal::TEN, fixed).unwrap();
        let shares = share_of(Decimal::TEN, rest, &[Decimal::ONE; 2], &[0, 1]).unwrap();
        let digits = |last: i128| Decimal::from_i128_with_scale(33_333_333_333_333_333_333_333_330 + last, 25);
        assert_eq!((fixed, shares), (digits(3), vec![digits(4), digits(3)]));
    }

    #[test]
    fn a_bill_below_the_digits_kept_goes_to_the_last_with_a_key() {
        // 10⁻²⁸ to 27 decimals is nothing for each of two.
        let least = d("0.0000000000000000000000000001");
        let keys = [Decimal::ONE, Decimal::ONE, Decimal::ZERO];
        assert_eq!(shared(least, &keys, &[0, 1, 2]), Ok(vec![Decimal::ZERO, least, Decimal::ZERO]));
    }

    proptest! {
        #[test]
        fn shares_add_up_to_the_bill_none_below_zero_and_none_without_a_key(
            total in 0i64..=i64::MAX, scale in 0u32..=18,
            keys in prop::collection::vec((prop_oneof![Just(0i64), 1i64..10_000_000], 0u32..=26), 1..12),
        ) {
            let total = Decimal::new(total, scale);
            let keys: Vec<_> = keys.into_iter().map(|(key, scale)| Decimal::new(key, scale)).collect();
            let order: Vec<usize> = (0..keys.len()).collect();
            let shares = shared(total, &keys, &order);
            prop_assert_eq!(shares.is_err(), keys.iter().all(Decimal::is_zero));
            let Ok(shares) = shares else { return Ok(()) };
            prop_assert_eq!(sum(shares.iter().copied()), Ok(total));
            for (share, key) in shares.iter().zip(&keys) {
                prop_assert!(*share >= Decimal::ZERO && (!key.is_zero() || share.is_zero()), "{} by {}", share, key);
            }
        }
    }
}

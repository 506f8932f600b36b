//! A sum of money shared out by weights so that the shares add up to it exactly.
//!
//! Takes a total, one key per share and which share takes the remainder; gives the shares in the keys' order.

use super::exact::{div, mul, sub, sum};
use super::rounding::half_up;
use super::{Decimal, Overflow};

/// The digits that a share keeps: one fewer than a decimal surely holds, so that sums of shares stay exact.
const KEPT: u32 = 27;

/// Shares `total` in proportion to `keys`. Each share is [`rounded`] for `total`; the one at index `last` takes what is
/// left, so the shares add up to `total` exactly.
///
/// # Errors
/// [`Overflow`] when the keys add up to zero, there is none at `last`, or a product does not fit a decimal.
pub fn share(total: Decimal, keys: &[Decimal], last: usize) -> Result<Vec<Decimal>, Overflow> {
    share_of(total, total, keys, last)
}

/// Shares `amount`, which is what other shares left of `total`: as [`share`], but rounded for `total`, so that all the
/// shares of `total` still add up to it.
///
/// # Errors
/// As [`share`].
pub fn share_of(total: Decimal, amount: Decimal, keys: &[Decimal], last: usize) -> Result<Vec<Decimal>, Overflow> {
    let whole = sum(keys.iter().copied())?;
    if whole.is_zero() || last >= keys.len() {
        return Err(Overflow);
    }
    let mut rest = amount;
    let mut shares = Vec::with_capacity(keys.len());
    for (index, key) in keys.iter().enumerate() {
        let is_shared = index != last && !key.is_zero();
        let part = if is_shared { rounded(div(mul(amount, *key)?, whole)?, total) } else { Decimal::ZERO };
        rest = sub(rest, part)?;
        shares.push(part);
    }
    if let Some(place) = shares.get_mut(last) {
        *place = rest;
    }
    Ok(shares)
}

/// `part` rounded to 27 − (integer digits of `total`) decimals: so many that sums of such parts up to `total` are exact.
pub fn rounded(part: Decimal, total: Decimal) -> Decimal {
    half_up(part, KEPT.saturating_sub(integer_digits(total)))
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
    use proptest::prelude::*;

    #[test]
    fn a_bill_of_ten_in_three_leaves_nothing_over() {
        // 10 ÷ 3 to 27 − 2 = 25 decimals is 3.33…3; the last takes 10 − 2 × 3.33…3 = 3.33…34.
        let third = Decimal::from_i128_with_scale(33_333_333_333_333_333_333_333_333, 25);
        let rest = Decimal::from_i128_with_scale(33_333_333_333_333_333_333_333_334, 25);
        assert_eq!(share(Decimal::TEN, &[Decimal::ONE; 3], 2), Ok(vec![third, third, rest]));
        assert_eq!(share(Decimal::TEN, &[Decimal::ONE; 3], 0), Ok(vec![rest, third, third]));
    }

    #[test]
    fn exact_shares_are_exact_and_nothing_to_share_by_is_a_fault() {
        // 90 by 1 : 2 : 0 is 30, 60 and nothing.
        let keys = [Decimal::ONE, Decimal::TWO, Decimal::ZERO];
        assert_eq!(share(Decimal::from(90), &keys, 1), Ok(vec![Decimal::from(30), Decimal::from(60), Decimal::ZERO]));
        assert_eq!(share(Decimal::TEN, &[Decimal::ZERO], 0), Err(Overflow));
        assert_eq!(share(Decimal::TEN, &[], 0), Err(Overflow));
        assert_eq!(share(Decimal::TEN, &[Decimal::ONE], 1), Err(Overflow));
        assert_eq!(share(Decimal::ZERO, &[Decimal::ONE], 0), Ok(vec![Decimal::ZERO]));
    }

    #[test]
    fn what_fixed_shares_leave_is_shared_for_the_whole() {
        // 10 with a third of it fixed: 3.33…3 (25 decimals) comes off, 6.66…67 is left, and its half is 3.33…335,
        // which 25 decimals hold as 3.33…34; the last takes 3.33…33.
        let fixed = rounded(div(Decimal::TEN, Decimal::from(3)).unwrap(), Decimal::TEN);
        let rest = sub(Decimal::TEN, fixed).unwrap();
        let shares = share_of(Decimal::TEN, rest, &[Decimal::ONE; 2], 1).unwrap();
        let digits = |last: i128| Decimal::from_i128_with_scale(33_333_333_333_333_333_333_333_330 + last, 25);
        assert_eq!((fixed, shares), (digits(3), vec![digits(4), digits(3)]));
    }

    proptest! {
        #[test]
        fn shares_add_up_to_the_bill(
            total in 0i64..=i64::MAX, scale in 0u32..=18,
            keys in prop::collection::vec((0i64..10_000_000, 0u32..=4), 1..12), last in 0usize..12,
        ) {
            let total = Decimal::new(total, scale);
            let keys: Vec<_> = keys.into_iter().map(|(key, scale)| Decimal::new(key, scale)).collect();
            if let Ok(shares) = share(total, &keys, last) {
                prop_assert_eq!(sum(shares), Ok(total));
            }
        }
    }
}

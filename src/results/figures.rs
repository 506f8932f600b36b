//! Figures as people read them: money to the cent, percentages to one decimal, weights in the unit they were typed in.

use crate::costing::Rate;
use crate::number::{Decimal, Overflow, exact, half_up};

/// What stands for a figure that is not known.
pub const NONE: &str = "–";
/// The decimals of a percentage.
const PERCENT_PLACES: u32 = 1;
/// The most decimals of a weight.
const WEIGHT_PLACES: u32 = 2;

/// A fraction as a percentage to one decimal, without the sign.
pub fn percent(fraction: Option<Decimal>) -> String {
    shown(fraction.and_then(|fraction| exact::mul(fraction, Decimal::ONE_HUNDRED).ok()), PERCENT_PLACES)
}

/// A weight in units of so many grams, to two decimals.
pub fn weight(grams: Result<Decimal, Overflow>, unit_grams: Decimal) -> String {
    shown(grams.and_then(|grams| exact::div(grams, unit_grams)).ok(), WEIGHT_PLACES)
}

/// Money for one unit of so many grams.
pub fn per_unit(rate: Option<Rate>, unit_grams: Decimal, places: u32) -> String {
    let money = rate.and_then(|rate| exact::div(exact::mul(rate.money, unit_grams).ok()?, rate.per).ok());
    shown(money, places)
}

/// `amount` to so many places, half up; never `-0.00`.
pub fn shown(amount: Option<Decimal>, places: u32) -> String {
    let Some(amount) = amount else { return NONE.to_owned() };
    let rounded = half_up(amount, places);
    let rounded = if rounded.is_zero() { Decimal::ZERO } else { rounded };
    format!("{rounded:.0$}", places as usize)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_rounded_half_up_and_padded() {
        let d = |text: &str| Some(text.parse().unwrap());
        for (amount, places, text) in [
            (d("1.005"), 2, "1.01"),
            (d("2.5"), 2, "2.50"),
            (d("-1.005"), 2, "-1.01"),
            (d("-0.004"), 2, "0.00"),
            (d("1234.5"), 0, "1235"),
            (d("0.0005"), 3, "0.001"),
            (None, 2, "–"),
        ] {
            assert_eq!(shown(amount, places), text);
        }
    }
}

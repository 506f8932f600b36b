//! Figures as people read them: money to the cent, percentages to one decimal, weights in the unit they were typed in.

use rust_decimal::RoundingStrategy;

use crate::costing::Rate;
use crate::costing::rate::Amount;
use crate::number::{Decimal, exact, half_up, plain};
use crate::results::display_units::DisplayUnit;

/// What stands for a figure that is not known.
pub const NONE: &str = "–";
/// The decimals of a percentage.
pub const PERCENT_PLACES: u32 = 1;
/// The decimals of an amount in a unit.
const AMOUNT_PLACES: u32 = 2;

/// A fraction as a percentage to one decimal, without the sign.
pub fn percent(fraction: Option<Decimal>) -> String {
    shown(fraction.and_then(|fraction| exact::mul(fraction, Decimal::ONE_HUNDRED).ok()), PERCENT_PLACES)
}

/// So many base units in a unit, to two decimals.
pub fn amount(amount: Decimal, unit: &DisplayUnit) -> String {
    shown(unit.count(amount), AMOUNT_PLACES)
}

/// Money for one of a unit.
pub fn per_unit(rate: Option<Rate>, unit: &DisplayUnit, places: u32) -> String {
    shown(rate.and_then(|rate| unit.cost_at(rate)), places)
}

/// Money per base unit; `None` where it does not fit, or vanishes.
pub fn unit_cost(rate: Rate) -> Option<Decimal> {
    rate.unit_cost().ok()
}

/// A factor as it stands in a formula; `None` of one, and where it does not fit.
pub fn factor(amount: Amount) -> Option<Decimal> {
    amount.value().ok().filter(|_| amount.num != amount.den)
}

/// The sum of numbers; `None` where it does not fit.
pub fn sum(numbers: &[Decimal]) -> Option<Decimal> {
    numbers.iter().try_fold(Decimal::ZERO, |sum, number| exact::add(sum, *number).ok())
}

/// The sum of numbers, and that of their squares; `None` where they do not fit.
pub fn sum_and_squares(numbers: impl Iterator<Item = Decimal>) -> Option<(Decimal, Decimal)> {
    let mut all = (Decimal::ZERO, Decimal::ZERO);
    for number in numbers {
        let square = exact::mul(number, number).ok()?;
        all = (exact::add(all.0, number).ok()?, exact::add(all.1, square).ok()?);
    }
    Some(all)
}

/// How much each of the numbers' product stands for of `all`, where that is told exactly.
pub fn for_each(all: Decimal, numbers: &[Decimal]) -> Option<Decimal> {
    let product = numbers.iter().try_fold(Decimal::ONE, |product, number| exact::mul(product, *number)).ok()?;
    let each = exact::div(all, product).ok()?;
    (exact::mul(each, product) == Ok(all)).then_some(each)
}

/// Money per base unit, to the last digit that a decimal holds; `None` where it does not fit.
pub fn per_base_unit(rate: Rate) -> Option<Decimal> {
    rate.per_unit()
}

/// A number to so many places at the most, half up.
pub fn at_most(number: Decimal, places: u32) -> String {
    plain(half_up(number, places))
}

/// A number to so many places at the most, half up; to two significant digits where that would be none of it.
pub fn at_most_but_some(number: Decimal, places: u32) -> String {
    let rounded = half_up(number, places);
    if !rounded.is_zero() || number.is_zero() {
        return plain(rounded);
    }
    let some = number.round_sf_with_strategy(2, RoundingStrategy::MidpointAwayFromZero);
    plain(some.unwrap_or(number).normalize())
}

/// A fraction as a percentage in full, with its sign: `8.875 %`; the fraction where it does not fit.
pub fn percent_in_full(fraction: Decimal) -> String {
    match exact::mul(fraction, Decimal::ONE_HUNDRED) {
        Ok(percent) => format!("{} %", plain(percent)),
        Err(_) => plain(fraction),
    }
}

/// A fraction as a percentage to so many places at the most, without the sign; nothing where it does not fit.
pub fn percent_at_most(fraction: Decimal, places: u32) -> String {
    at_most(exact::mul(fraction, Decimal::ONE_HUNDRED).unwrap_or_default(), places)
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

    #[test]
    fn what_is_something_is_never_nought() {
        // 0.000255 to two digits is 0.00026; 0.0005 to three places is 0.001.
        for (number, text) in
            [("0.0001", "0.0001"), ("0.000255", "0.00026"), ("0.0005", "0.001"), ("1.2345", "1.235"), ("0", "0")]
        {
            assert_eq!(at_most_but_some(number.parse().unwrap(), 3), text);
        }
    }
}

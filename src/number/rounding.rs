//! Rounding as a spreadsheet rounds: half away from zero.
//!
//! Takes and gives [`Decimal`]s. Decimal's own `round_dp` rounds half to even and is not used.

use rust_decimal::RoundingStrategy::{AwayFromZero, MidpointAwayFromZero};

use super::Decimal;

/// The decimals at which a spreadsheet's binary noise is taken off before a step is counted.
const NOISE: u32 = 9;

/// A spreadsheet's `ROUND(x, places)`: half away from zero.
pub fn half_up(x: Decimal, places: u32) -> Decimal {
    x.round_dp_with_strategy(places, MidpointAwayFromZero)
}

/// `x` without the noise of divisions at its end, so that what comes to four is not the last digit below it.
pub fn settled(x: Decimal) -> Decimal {
    const NOISE: u32 = 15;
    half_up(x, NOISE)
}

/// `x` as a spreadsheet's number holds it: to 15 significant digits, half away from zero.
pub fn as_held(x: Decimal) -> Decimal {
    /// The significant digits of a binary float that are its writer's.
    const HELD: u32 = 15;
    to_digits(x, HELD)
}

/// `x` to so many significant digits, half away from zero; what has fewer, or would not fit, stays as it is.
pub fn to_digits(x: Decimal, digits: u32) -> Decimal {
    x.round_sf_with_strategy(digits, MidpointAwayFromZero).unwrap_or(x).normalize()
}

/// How many whole price steps `x` takes: `ROUNDUP(ROUND(x, 9), 0)`. A price that already stands on a step stays.
pub fn round_up_steps(x: Decimal) -> Decimal {
    half_up(x, NOISE).round_dp_with_strategy(0, AwayFromZero)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn halves_go_away_from_zero() {
        // A spreadsheet's ROUND: 2.5 → 3, -2.5 → -3, 1.005 → 1.01 at two places.
        let d = Decimal::new;
        assert_eq!(half_up(d(25, 1), 0), d(3, 0));
        assert_eq!(half_up(d(-25, 1), 0), d(-3, 0));
        assert_eq!(half_up(d(1005, 3), 2), d(101, 2));
        assert_eq!(half_up(Decimal::MAX, 2), Decimal::MAX);
    }

    #[test]
    fn a_spreadsheet_holds_fifteen_digits() {
        // 1 ÷ 3 to 15 digits; 16 digits go up at the middle; what has fewer stays.
        let third = Decimal::ONE / Decimal::from(3);
        assert_eq!(as_held(third), Decimal::new(333_333_333_333_333, 15));
        assert_eq!(as_held(Decimal::new(1_234_567_890_123_445, 3)), Decimal::new(123_456_789_012_345, 2));
        assert_eq!(as_held(Decimal::new(38_450, 3)).to_string(), "38.45");
        assert_eq!(as_held(Decimal::MAX).to_string(), "79228162514264300000000000000");
        assert_eq!(as_held(Decimal::ZERO), Decimal::ZERO);
    }

    #[test]
    fn a_price_on_its_step_stays() {
        let d = Decimal::new;
        assert_eq!(round_up_steps(d(47, 0)), d(47, 0));
        // 47.0000000004 is 47 to nine places; 47.000000001 is more.
        assert_eq!(round_up_steps(d(470_000_000_004, 10)), d(47, 0));
        assert_eq!(round_up_steps(d(47_000_000_001, 9)), d(48, 0));
        assert_eq!(round_up_steps(d(-12, 1)), d(-2, 0));
    }
}

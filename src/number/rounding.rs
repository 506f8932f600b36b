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
    fn a_price_on_its_step_stays() {
        let d = Decimal::new;
        assert_eq!(round_up_steps(d(47, 0)), d(47, 0));
        // 47.0000000004 is 47 to nine places; 47.000000001 is more.
        assert_eq!(round_up_steps(d(470_000_000_004, 10)), d(47, 0));
        assert_eq!(round_up_steps(d(47_000_000_001, 9)), d(48, 0));
        assert_eq!(round_up_steps(d(-12, 1)), d(-2, 0));
    }
}

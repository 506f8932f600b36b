//! The decimals that tell two figures apart: what moved is seen to have moved.

use crate::number::{Decimal, half_up};

/// The most decimals that are shown for it; what is nearer than that is shown alike.
const MOST: u32 = 12;

/// The fewest decimals, from `least` on, at which two figures that differ are shown differently.
pub fn places(one: Decimal, other: Decimal, least: u32) -> u32 {
    let told = |places: &u32| half_up(one, *places) != half_up(other, *places);
    if one == other { least } else { (least..=MOST).find(told).unwrap_or(least) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_many_decimals_as_it_takes() {
        let d = |text: &str| -> Decimal { text.parse().unwrap() };
        // 0.301 and 0.304 are 0.30 both; at the third decimal they part. 0.295 is 0.30 as well, half up.
        for (one, other, expected) in [
            ("0.301", "0.304", 3),
            ("0.295", "0.3", 3),
            ("0.29", "0.30", 2),
            ("5", "5", 2),
            ("1.00001", "1.00002", 5),
            ("1", "1.00000000000000001", 2),
        ] {
            assert_eq!(places(d(one), d(other), 2), expected, "{one} {other}");
        }
        assert_eq!(places(d("100"), d("100.4"), 0), 1);
    }
}

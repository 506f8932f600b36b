//! Tukey's fences: the numbers of a handful that lie far from the others.
//!
//! Takes numbers; gives their quartiles and the fences beyond which one counts as far. The rule is J. W. Tukey's (Exploratory
//! Data Analysis, 1977): one and a half times the distance between the quartiles, beyond either of them. The quartiles are
//! those of a spreadsheet's `QUARTILE`: linear between neighbours, the least and the greatest counted in (type 7 of
//! R. J. Hyndman and Y. Fan, 1996), so that they can be worked again beside the numbers.

use super::{Decimal, Overflow, exact};
use crate::in_order::InOrder;

/// How many numbers it takes before one of them can be called far from the others.
pub const FEWEST: usize = 4;

/// The quartiles of some numbers, and the fences beyond them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fences {
    /// A quarter of the way up.
    pub lower_quartile: Decimal,
    /// Three quarters of the way up.
    pub upper_quartile: Decimal,
    /// What is below this is far.
    pub low: Decimal,
    /// What is above this is far.
    pub high: Decimal,
}

impl Fences {
    /// The fences of `numbers`, at least `least` beyond the quartiles; `None` when there are fewer than four.
    ///
    /// # Errors
    /// [`Overflow`] when a figure does not fit.
    pub fn of(numbers: &[Decimal], least: Decimal) -> Result<Option<Self>, Overflow> {
        if numbers.len() < FEWEST {
            return Ok(None);
        }
        let mut sorted = numbers.to_vec();
        sorted.put_in_order();
        let lower_quartile = quartile(&sorted, 1)?;
        let upper_quartile = quartile(&sorted, 3)?;
        let between = exact::sub(upper_quartile, lower_quartile)?;
        let step = exact::mul(between, Decimal::new(15, 1))?.max(least);
        Ok(Some(Fences {
            lower_quartile,
            upper_quartile,
            low: exact::sub(lower_quartile, step)?,
            high: exact::add(upper_quartile, step)?,
        }))
    }

    /// Whether `number` lies beyond a fence.
    pub fn leave_out(&self, number: Decimal) -> bool {
        number < self.low || number > self.high
    }
}

/// The number that lies `quarters` quarters of the way from the first to the last of `sorted`.
fn quartile(sorted: &[Decimal], quarters: usize) -> Result<Decimal, Overflow> {
    let way = sorted.len().saturating_sub(1).checked_mul(quarters).ok_or(Overflow)?;
    let (whole, rest) = (way / 4, way % 4);
    let below = sorted.get(whole).copied().ok_or(Overflow)?;
    let above = sorted.get(whole.saturating_add(1)).copied().unwrap_or(below);
    let part = exact::mul(exact::sub(above, below)?, Decimal::from(rest))?;
    exact::div(exact::add(exact::mul(below, Decimal::from(4))?, part)?, Decimal::from(4))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fences(numbers: &[i64]) -> Option<Fences> {
        let numbers: Vec<Decimal> = numbers.iter().copied().map(Decimal::from).collect();
        Fences::of(&numbers, Decimal::ZERO).unwrap()
    }

    #[test]
    fn quartiles_are_a_spreadsheets() {
        // QUARTILE of 1, 2, 4, 7, 8, 9, 10, 12 is 3.5 and 9.25: places 1.75 and 5.25 counted from nought.
        let found = fences(&[12, 1, 9, 2, 10, 4, 7, 8]).unwrap();
        assert_eq!((found.lower_quartile, found.upper_quartile), (Decimal::new(35, 1), Decimal::new(925, 2)));
        // 9.25 − 3.5 = 5.75; 1.5 of it is 8.625.
        assert_eq!((found.low, found.high), (Decimal::new(-5125, 3), Decimal::new(17_875, 3)));
    }

    #[test]
    fn one_of_four_can_be_far_and_one_of_three_cannot() {
        // 60, 61, 62, 40: quartiles at 0.75 and 2.25 are 55 and 61.25; 6.25 × 1.5 = 9.375; 45.625 to 70.625.
        let found = fences(&[60, 61, 62, 40]).unwrap();
        assert!(found.leave_out(Decimal::from(40)) && !found.leave_out(Decimal::from(60)));
        assert_eq!(fences(&[60, 61, 40]), None);
    }

    #[test]
    fn what_hardly_differs_is_not_far() {
        let numbers = [600, 600, 600, 600, 604].map(|tenth| Decimal::new(tenth, 3));
        let bare = Fences::of(&numbers, Decimal::ZERO).unwrap().unwrap();
        assert!(bare.leave_out(numbers[4]));
        assert!(!Fences::of(&numbers, Decimal::new(5, 3)).unwrap().unwrap().leave_out(numbers[4]));
        assert_eq!(Fences::of(&[Decimal::MAX, Decimal::MIN, Decimal::MAX, Decimal::MIN], Decimal::ZERO), Err(Overflow));
    }
}

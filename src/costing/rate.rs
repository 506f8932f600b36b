//! Money per quantity, kept as a ratio so that a cost is multiplied first and divided once.

use crate::kitchen::reuse::PerWeight;
use crate::number::{Decimal, Overflow, exact};

/// `money` for `per` base units.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rate {
    /// Money.
    pub money: Decimal,
    /// For so many base units; above zero.
    pub per: Decimal,
}

/// A quantity in base units, kept as a ratio for the same reason.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Amount {
    /// The numerator.
    pub num: Decimal,
    /// The denominator; above zero.
    pub den: Decimal,
}

impl From<PerWeight> for Rate {
    fn from(PerWeight { money, grams }: PerWeight) -> Self {
        Rate { money, per: grams }
    }
}

impl Amount {
    /// One.
    pub const ONE: Amount = Amount { num: Decimal::ONE, den: Decimal::ONE };

    /// A whole amount.
    pub fn of(num: Decimal) -> Self {
        Amount { num, den: Decimal::ONE }
    }

    /// Times `factor`.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit.
    pub fn times(self, factor: Decimal) -> Result<Self, Overflow> {
        Ok(Amount { num: exact::mul(self.num, factor)?, den: self.den })
    }

    /// Divided by `divisor`.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit or the divisor is zero.
    pub fn over(self, divisor: Decimal) -> Result<Self, Overflow> {
        if divisor.is_zero() {
            Err(Overflow)
        } else {
            Ok(Amount { num: self.num, den: exact::mul(self.den, divisor)? })
        }
    }

    /// The quotient.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit.
    pub fn value(self) -> Result<Decimal, Overflow> {
        exact::div(self.num, self.den)
    }
}

impl Rate {
    /// Money per one base unit.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit.
    pub fn unit_cost(self) -> Result<Decimal, Overflow> {
        exact::div(self.money, self.per)
    }

    /// Money per one base unit as it is told: to the last digit that a decimal holds, nothing where it is less. `None` when
    /// it does not fit.
    pub fn per_unit(self) -> Option<Decimal> {
        exact::div_to_last_digit(self.money, self.per).ok()
    }

    /// The rate of what remains after a yield: the same money for less.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit or the yield is zero.
    pub fn after_yield(self, fraction: Decimal) -> Result<Self, Overflow> {
        if fraction.is_zero() {
            return Err(Overflow);
        }
        Ok(Rate { money: self.money, per: exact::mul(self.per, fraction)? })
    }

    /// What `amount` costs.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit.
    pub fn cost_of(self, amount: Amount) -> Result<Decimal, Overflow> {
        exact::div(exact::mul(amount.num, self.money)?, exact::mul(amount.den, self.per)?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_third_is_divided_once() {
        // 3 portions of a 10.00 batch that makes 3: 3 × 10 ÷ 3 = 10 to the last digit.
        let rate = Rate { money: Decimal::TEN, per: Decimal::from(3) };
        assert_eq!(rate.cost_of(Amount::of(Decimal::from(3))), Ok(Decimal::TEN));
    }

    #[test]
    fn a_zero_yield_is_an_overflow_not_a_panic() {
        let rate = Rate { money: Decimal::TEN, per: Decimal::ONE };
        assert_eq!(rate.after_yield(Decimal::ZERO), Err(Overflow));
        assert_eq!(Amount::of(Decimal::ONE).over(Decimal::ZERO), Err(Overflow));
    }
}

//! Checked decimal arithmetic: every sum, product and quotient of the engine goes through here.
//!
//! `Decimal`'s operators panic when a result does not fit, and a product may silently vanish below the smallest
//! decimal. Both are [`Overflow`]s here.

use rust_decimal::Decimal;

/// A result that a decimal cannot hold: too large, too small to keep, or a division by zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, thiserror::Error)]
#[error("the number is outside what can be computed exactly")]
pub struct Overflow;

/// `a + b`.
///
/// # Errors
/// [`Overflow`] when the sum does not fit a decimal.
pub fn add(a: Decimal, b: Decimal) -> Result<Decimal, Overflow> {
    a.checked_add(b).ok_or(Overflow)
}

/// `a - b`.
///
/// # Errors
/// [`Overflow`] when the difference does not fit a decimal.
pub fn sub(a: Decimal, b: Decimal) -> Result<Decimal, Overflow> {
    a.checked_sub(b).ok_or(Overflow)
}

/// `a × b`.
///
/// # Errors
/// [`Overflow`] when the product does not fit a decimal, or vanishes though neither factor is zero.
pub fn mul(a: Decimal, b: Decimal) -> Result<Decimal, Overflow> {
    let product = a.checked_mul(b).ok_or(Overflow)?;
    if product.is_zero() && !a.is_zero() && !b.is_zero() { Err(Overflow) } else { Ok(product) }
}

/// `a ÷ b`.
///
/// # Errors
/// [`Overflow`] when `b` is zero, the quotient does not fit a decimal, or it vanishes though `a` is not zero.
pub fn div(a: Decimal, b: Decimal) -> Result<Decimal, Overflow> {
    let quotient = a.checked_div(b).ok_or(Overflow)?;
    if quotient.is_zero() && !a.is_zero() { Err(Overflow) } else { Ok(quotient) }
}

/// `a ÷ b` to the last digit that a decimal holds: nothing where it is less. For what is shown, or rounded anyway.
///
/// # Errors
/// [`Overflow`] when `b` is zero, or the quotient is too large for a decimal.
pub fn div_to_last_digit(a: Decimal, b: Decimal) -> Result<Decimal, Overflow> {
    a.checked_div(b).ok_or(Overflow)
}

/// Whether two sizes differ by no more than a tenth of the lesser. Common practice, no source: two cooks who fill the same
/// cup differ by as much.
pub fn is_near(a: Decimal, b: Decimal) -> bool {
    let tenfold = a.checked_sub(b).and_then(|apart| apart.abs().checked_mul(Decimal::TEN));
    tenfold.is_some_and(|apart| apart <= a.min(b))
}

/// The sum of all `parts`, in the order given.
///
/// # Errors
/// [`Overflow`] when a running sum does not fit a decimal.
pub fn sum(parts: impl IntoIterator<Item = Decimal>) -> Result<Decimal, Overflow> {
    parts.into_iter().try_fold(Decimal::ZERO, add)
}

/// The product of all `factors`, in the order given.
///
/// # Errors
/// As [`mul`].
pub fn product(factors: impl IntoIterator<Item = Decimal>) -> Result<Decimal, Overflow> {
    factors.into_iter().try_fold(Decimal::ONE, mul)
}

//! Percentages, and bare numbers where a percentage is meant.
//!
//! Takes text or a number; gives a fraction (28 % is 0.28), and says where a bare number's meaning is doubtful.

use super::decimal::{NumberFault, parse};
use super::exact::div;
use super::marks::Marks;
use super::text::clean;
use super::{Decimal, Overflow};

/// A text where a percentage is expected.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PercentText {
    /// It says per cent: the fraction, 0.28 of `28 %`.
    Fraction(Decimal),
    /// A number that does not say: the number as typed. See [`BareRule`].
    Bare(Decimal),
}

/// Reads `28%`, `28 %`, `28,5%`, `28 percent` or a bare number.
///
/// # Errors
/// [`NumberFault`] when what stands before the per cent sign is not one number.
pub fn parse_percent(text: &str, marks: Marks) -> Result<PercentText, NumberFault> {
    let text = clean(text).to_lowercase();
    let number = ["%", "percent", "per cent", "pct", "pct."].iter().find_map(|sign| text.strip_suffix(sign));
    match number {
        Some(number) => Ok(PercentText::Fraction(hundredth(parse(number, marks)?)?)),
        None => Ok(PercentText::Bare(parse(&text, marks)?)),
    }
}

/// `percent ÷ 100`, exactly.
///
/// # Errors
/// [`Overflow`] when the last decimals would be lost.
pub fn hundredth(percent: Decimal) -> Result<Decimal, Overflow> {
    if percent.normalize().scale() > 26 { Err(Overflow) } else { div(percent, Decimal::ONE_HUNDRED) }
}

/// How a bare number is read in a field that holds a percentage.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BareRule {
    /// Yield, target, a by-product's fraction: up to 1 a fraction, above 1 a percentage.
    UpToOne,
    /// Spice factor, serving loss, used, tax: below 1 a fraction, from 1 a percentage.
    BelowOne,
    /// Q factor: a bare number may be money, so it must say.
    MustSay,
}

/// A bare number read as a fraction.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BareReading {
    /// The fraction: 0.28 for both `0.28` and `28`.
    pub fraction: Decimal,
    /// Whether it was read as a percentage below 2 and may have been meant as a fraction.
    pub doubtful: bool,
}

impl BareRule {
    /// The fraction that a bare `number` means here; `None` where it must say what it is.
    ///
    /// # Errors
    /// [`Overflow`] when its last decimals would be lost.
    pub fn read(self, number: Decimal) -> Result<Option<BareReading>, Overflow> {
        let is_fraction = match self {
            BareRule::UpToOne => number <= Decimal::ONE,
            BareRule::BelowOne => number < Decimal::ONE,
            BareRule::MustSay => return Ok(None),
        };
        Ok(Some(if is_fraction {
            BareReading { fraction: number, doubtful: false }
        } else {
            BareReading { fraction: hundredth(number)?, doubtful: number < Decimal::TWO }
        }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn number(text: &str) -> Decimal {
        parse(text, Marks::PointDecimal).unwrap()
    }

    #[test]
    fn a_sign_or_word_says_per_cent() {
        for (text, fraction) in [
            ("28%", "0.28"),
            ("28 %", "0.28"),
            ("28,5%", "0.285"),
            ("28 percent", "0.28"),
            ("100%", "1"),
            ("0.5%", "0.005"),
            ("½%", "0.005"),
            ("-5%", "-0.05"),
        ] {
            assert_eq!(parse_percent(text, Marks::Unknown), Ok(PercentText::Fraction(number(fraction))), "{text}");
        }
        assert_eq!(parse_percent("28", Marks::Unknown), Ok(PercentText::Bare(number("28"))));
        assert_eq!(parse_percent("%", Marks::Unknown), Err(NumberFault::NotANumber));
        assert_eq!(parse_percent("25-30%", Marks::Unknown), Err(NumberFault::RangeGiven));
        assert_eq!(parse_percent("0.0000000000000000000000000001%", Marks::Unknown), Err(NumberFault::TooLarge));
    }

    #[test]
    fn bare_numbers_follow_the_table() {
        // The table "field | bare number" of the book's rules, at and around its borders.
        let read = |rule: BareRule, text| rule.read(number(text)).unwrap().map(|read| (read.fraction, read.doubtful));
        for (text, fraction, doubtful) in [
            ("0.72", "0.72", false),
            ("1", "1", false),
            ("1.5", "0.015", true),
            ("2", "0.02", false),
            ("72", "0.72", false),
            ("0", "0", false),
        ] {
            assert_eq!(read(BareRule::UpToOne, text), Some((number(fraction), doubtful)), "{text}");
        }
        for (text, fraction, doubtful) in [
            ("0.05", "0.05", false),
            ("1", "0.01", true),
            ("1.99", "0.0199", true),
            ("2", "0.02", false),
            ("5", "0.05", false),
        ] {
            assert_eq!(read(BareRule::BelowOne, text), Some((number(fraction), doubtful)), "{text}");
        }
        assert_eq!(read(BareRule::MustSay, "5"), None);
    }
}

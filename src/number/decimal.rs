//! Numbers as people type them, read exactly: `1,234.50`, `1.234,50`, `1 234,5`, `1'234.5`, `.5`, `1 1/2`, `1 & 1/2`,
//! `1½`, `3/4`.
//!
//! Takes text and what the rest of its column says about decimal marks; gives a [`Decimal`] or a [`NumberFault`].
//! Nothing is rounded but a fraction that no decimal holds: a third is kept to 28 digits.

use super::exact::{add, div, mul};
use super::marks::{Marks, all_digits, shape};
use super::text::{clean, vulgar};
use super::{Decimal, Overflow};

/// The most significant digits, and decimal places, that are read.
const DIGITS: usize = 28;

/// The largest whole or lower number beside a fraction: past it the sum may not be kept exactly.
const FRACTION_PART: Decimal = Decimal::from_parts(1_000_000_000, 0, 0, false, 0);

/// Why a text is not one number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NumberFault {
    /// It is not a number at all.
    #[error("not a number")]
    NotANumber,
    /// One mark with three digits behind it, and nothing says which mark it is.
    #[error("the mark may be a decimal mark or part thousands")]
    Ambiguous {
        /// The number if the mark parts thousands.
        as_whole: Decimal,
        /// The number if the mark is a decimal mark.
        as_decimal: Decimal,
    },
    /// It has more digits than are kept exactly.
    #[error("more than 28 digits")]
    TooLarge,
    /// It is two numbers with a dash or `to` between them.
    #[error("a range, not one number")]
    RangeGiven,
}

impl From<Overflow> for NumberFault {
    fn from(_: Overflow) -> Self {
        NumberFault::TooLarge
    }
}

/// The number that `text` is, white space at its ends aside.
///
/// A fraction's upper number must be smaller than its lower one (`3/4`; not `6/5`, which may mean six of five).
///
/// # Errors
/// [`NumberFault`], when it is not one number or `marks` do not decide between two.
pub fn parse(text: &str, marks: Marks) -> Result<Decimal, NumberFault> {
    let text = clean(text);
    let (negative, body) = match text.strip_prefix('-') {
        Some(rest) => (true, rest.trim_start()),
        None => (false, text.strip_prefix('+').unwrap_or(&text).trim_start()),
    };
    match unsigned(body, marks) {
        Ok(number) if negative => Ok(-number),
        Err(NumberFault::NotANumber) if is_range(body, marks) => Err(NumberFault::RangeGiven),
        read => read,
    }
}

/// Whether `text` is two numbers joined by a dash or `to`.
fn is_range(text: &str, marks: Marks) -> bool {
    let number = |part: &str| !matches!(unsigned(part.trim(), marks), Err(NumberFault::NotANumber));
    text.match_indices('-')
        .map(|(at, dash)| (at, dash.len()))
        .chain(text.match_indices(" to ").map(|(at, to)| (at, to.len())))
        .any(|(at, len)| match (text.get(..at), text.get(at + len..)) {
            (Some(low), Some(high)) => number(low) && number(high),
            _ => false,
        })
}

fn unsigned(text: &str, marks: Marks) -> Result<Decimal, NumberFault> {
    if let Some((n, d)) = text.chars().next_back().and_then(vulgar) {
        let mut whole = text.chars();
        whole.next_back();
        let whole = whole.as_str().trim_end_matches([' ', '-']);
        return mixed(Some(without_joint(whole)).filter(|whole| !whole.is_empty()), n, d);
    }
    if let Some((left, lower)) = text.rsplit_once('/') {
        let (whole, upper) = match left.trim_end().rsplit_once([' ', '-', '&', '+']) {
            Some((whole, upper)) => (Some(without_joint(whole)), upper),
            None => (None, left.trim_end()),
        };
        return mixed(whole, digits(upper)?, digits(lower.trim_start())?);
    }
    plain(text, marks)
}

/// The whole number of `1 and 1/2` without what joins it to its fraction; a joint alone stays, and is no number.
fn without_joint(whole: &str) -> &str {
    let number = ["&", "+", " and"].iter().find_map(|joint| whole.trim_end().strip_suffix(joint));
    number.map(str::trim_end).filter(|number| !number.is_empty()).unwrap_or(whole)
}

/// `whole n/d`; without a `whole` it is zero.
fn mixed(whole: Option<&str>, n: Decimal, d: Decimal) -> Result<Decimal, NumberFault> {
    if n >= d {
        return Err(NumberFault::NotANumber);
    }
    let whole = whole.map_or(Ok(Decimal::ZERO), digits)?;
    if whole > FRACTION_PART || d > FRACTION_PART {
        return Err(NumberFault::TooLarge);
    }
    Ok(div(add(mul(whole, d)?, n)?, d)?.normalize())
}

/// A whole number of digits alone.
fn digits(text: &str) -> Result<Decimal, NumberFault> {
    if all_digits(text) { build(text, "") } else { Err(NumberFault::NotANumber) }
}

fn plain(text: &str, marks: Marks) -> Result<Decimal, NumberFault> {
    let shape = shape(text).ok_or(NumberFault::NotANumber)?;
    let whole: String = shape.whole.chars().filter(char::is_ascii_digit).collect();
    let Some(mark) = shape.either else {
        return build(&whole, shape.fraction);
    };
    let as_decimal = build(&whole, shape.fraction)?;
    let as_whole = build(&format!("{whole}{}", shape.fraction), "")?;
    match (marks, mark) {
        (Marks::PointDecimal | Marks::Pounds, '.') | (Marks::CommaDecimal, ',') => Ok(as_decimal),
        (Marks::PointDecimal | Marks::CommaDecimal, _) => Ok(as_whole),
        (Marks::Unknown | Marks::Pounds, _) => Err(NumberFault::Ambiguous { as_whole, as_decimal }),
    }
}

/// The decimal of these digits, or [`NumberFault::TooLarge`] where they would not all be kept.
fn build(whole: &str, fraction: &str) -> Result<Decimal, NumberFault> {
    let whole = whole.trim_start_matches('0');
    let fraction = fraction.trim_end_matches('0');
    if fraction.len() > DIGITS || whole.len() + fraction.len() > DIGITS {
        return Err(NumberFault::TooLarge);
    }
    let mantissa: i128 = format!("0{whole}{fraction}").parse().map_err(|_| NumberFault::TooLarge)?;
    let scale = u32::try_from(fraction.len()).map_err(|_| NumberFault::TooLarge)?;
    Decimal::try_from_i128_with_scale(mantissa, scale).map_err(|_| NumberFault::TooLarge)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn read(text: &str) -> String {
        match parse(text, Marks::Unknown) {
            Ok(number) => number.to_string(),
            Err(fault) => format!("{fault:?}"),
        }
    }

    #[test]
    fn numbers_as_people_type_them() {
        for (text, number) in [
            ("12", "12"),
            ("1,234.50", "1234.5"),
            ("1.234,50", "1234.5"),
            ("1 234,5", "1234.5"),
            ("1\u{202F}234\u{202F}567", "1234567"),
            ("1'234.5", "1234.5"),
            ("1’234", "1234"),
            ("1 234,567", "1234.567"),
            ("1,234,567", "1234567"),
            ("1.234.567", "1234567"),
            ("1,234,567.891", "1234567.891"),
            (".5", "0.5"),
            (",5", "0.5"),
            ("0.125", "0.125"),
            ("0,125", "0.125"),
            ("1234.567", "1234.567"),
            ("12,5", "12.5"),
            ("12.", "12"),
            ("007", "7"),
            ("-3.5", "-3.5"),
            ("− 3", "-3"),
            ("+3", "3"),
            ("1 1/2", "1.5"),
            ("1-1/2", "1.5"),
            ("1½", "1.5"),
            ("1 ½", "1.5"),
            ("1 & 1/2", "1.5"),
            ("1+½", "1.5"),
            ("1 and 1/2", "1.5"),
            ("½", "0.5"),
            ("3/4", "0.75"),
            ("3⁄4", "0.75"),
            ("10 3/8", "10.375"),
            ("-1 1/2", "-1.5"),
            // A third of 28 digits: Decimal's longest.
            ("1/3", "0.3333333333333333333333333333"),
            ("1234567890123456789012345678", "1234567890123456789012345678"),
        ] {
            assert_eq!(read(text), number, "{text}");
        }
    }

    #[test]
    fn texts_that_are_no_number() {
        for text in [
            "",
            " ",
            "-",
            ".",
            ",",
            "abc",
            "12a",
            "1,2,3",
            "1.2.3",
            "12,34.5",
            "1,23,456",
            "1 23",
            "12,",
            "1/0",
            "6/5",
            "1 3/2",
            "1 && 1/2",
            "& 1/2",
            "&1/2",
            "--1/2",
            "&½",
            "and 1/2",
            "1 & 2",
            "1/2/3",
            "1.234,5.6",
            "--1",
            "1e5",
            "½½",
            "1,234,56",
        ] {
            assert_eq!(read(text), "NotANumber", "{text}");
        }
    }

    #[test]
    fn one_mark_with_three_digits_behind_it_asks_its_column() {
        let (whole, decimal) = (Decimal::from(1234), Decimal::new(1234, 3));
        for text in ["1,234", "1.234"] {
            assert_eq!(
                parse(text, Marks::Unknown),
                Err(NumberFault::Ambiguous { as_whole: whole, as_decimal: decimal })
            );
        }
        assert_eq!(parse("1,234", Marks::PointDecimal), Ok(whole));
        assert_eq!(parse("1.234", Marks::PointDecimal), Ok(decimal));
        assert_eq!(parse("1,234", Marks::CommaDecimal), Ok(decimal));
        assert_eq!(parse("1.234", Marks::CommaDecimal), Ok(whole));
    }

    #[test]
    fn ranges_and_too_many_digits_are_told_apart() {
        for text in ["3-4", "3 - 4", "3–4", "3 to 4", "1/2-3/4", "1½-2", "1 - 1/2"] {
            assert_eq!(read(text), "RangeGiven", "{text}");
        }
        assert_eq!(read("12345678901234567890123456789"), "TooLarge");
        assert_eq!(read("0.00000000000000000000000000001"), "TooLarge");
        assert_eq!(read("9999999999999999999999999999 1/2"), "TooLarge");
    }

    proptest! {
        #[test]
        fn no_text_panics(text in "\\PC*", digits in "[-+0-9.,'/ ½⅓]{0,40}") {
            for marks in [Marks::Unknown, Marks::PointDecimal, Marks::CommaDecimal] {
                let _ = parse(&text, marks);
                let _ = parse(&digits, marks);
            }
            let _ = crate::number::evidence(&text);
            let _ = crate::number::evidence(&digits);
        }

        #[test]
        fn what_a_decimal_prints_reads_back(mantissa in -10i128.pow(28) + 1..10i128.pow(28), scale in 0u32..=28) {
            let number = Decimal::from_i128_with_scale(mantissa, scale);
            prop_assert_eq!(parse(&number.to_string(), Marks::PointDecimal), Ok(number));
        }
    }
}

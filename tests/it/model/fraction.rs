//! Exact fractions, and numbers as they are typed beside what they are.

use num_bigint::BigInt;
use num_rational::BigRational;

/// An exact number.
pub type Fraction = BigRational;

/// A whole number.
pub fn whole(n: i64) -> Fraction {
    Fraction::from_integer(BigInt::from(n))
}

/// `n` ÷ `d`.
pub fn ratio(n: i64, d: i64) -> Fraction {
    Fraction::new(BigInt::from(n), BigInt::from(d))
}

/// The number that a plain decimal such as `-0.4535` writes.
pub fn decimal(text: &str) -> Fraction {
    let (sign, digits) = text.strip_prefix('-').map_or((1, text), |rest| (-1, rest));
    let (before, after) = digits.split_once('.').unwrap_or((digits, ""));
    let all: BigInt = format!("{before}{after}").parse().unwrap_or_else(|_| panic!("“{text}” is no decimal"));
    let scale = BigInt::from(10).pow(u32::try_from(after.len()).unwrap());
    Fraction::new(all * sign, scale)
}

/// Rounded to `places` decimals, half away from zero.
pub fn rounded(x: &Fraction, places: u32) -> Fraction {
    let scale = Fraction::from_integer(BigInt::from(10).pow(places));
    (x * &scale).round() / scale
}

/// A number as typed: what it says and what it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Num {
    pub text: String,
    pub value: Fraction,
}

impl Num {
    pub fn whole(n: i64) -> Self {
        Num { text: n.to_string(), value: whole(n) }
    }

    pub fn hundredths(n: i64) -> Self {
        Num { text: format!("{}.{:02}", n / 100, n % 100), value: ratio(n, 100) }
    }

    /// Dollars and cents.
    pub fn dollars(cents: i64) -> Self {
        let plain = Num::hundredths(cents);
        Num { text: format!("${}", plain.text), ..plain }
    }

    /// `1 1/2`, `1/2` or `2`.
    pub fn mixed(units: i64, n: i64, d: i64) -> Self {
        let text = match (units, n) {
            (_, 0) => units.to_string(),
            (0, _) => format!("{n}/{d}"),
            _ => format!("{units} {n}/{d}"),
        };
        Num { text, value: whole(units) + ratio(n, d) }
    }

    /// Tenths of a percent, with the sign.
    pub fn percent(tenths: i64) -> Self {
        let text =
            if tenths % 10 == 0 { format!("{}%", tenths / 10) } else { format!("{}.{}%", tenths / 10, tenths % 10) };
        Num { text, value: ratio(tenths, 1000) }
    }
}

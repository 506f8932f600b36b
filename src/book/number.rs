//! A spreadsheet's binary numbers as decimals and dates: the only door by which floats come in.
//!
//! Takes the floats of a file; gives [`Decimal`]s of the 15 significant digits that are the user's, and calendar
//! dates.

#![expect(
    clippy::disallowed_types,
    clippy::float_arithmetic,
    reason = "spreadsheets hold binary floats; this is where they end"
)]

use jiff::Span;
use jiff::civil::{Date, date};

use crate::number::Decimal;
use crate::problem::{Code, Fault};
use crate::schema::{Shown, Typed, Value};

/// How many significant digits of a spreadsheet's number are the user's.
const DIGITS: i32 = 15;

/// Which day is day 0 of a workbook's dates.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Epoch {
    /// 1 January 1900 is day 1, and a 29 February 1900 is counted that never was.
    From1900,
    /// 1 January 1904 is day 0.
    From1904,
}

/// A spreadsheet's number to 15 significant digits, half away from zero.
///
/// # Errors
/// [`Code::NumberOutOfRange`] for what is no number, too large for a decimal, or not zero but too small for one.
pub fn decimal(float: f64) -> Result<Decimal, Fault> {
    exact(float).ok_or_else(|| {
        Fault::new(
            Code::NumberOutOfRange,
            format!("{} is too large or too small to compute exactly", text(float)),
            "Type a number a kitchen can have.",
        )
    })
}

/// A cell of a number. One that no decimal holds is kept as its text: whoever wants a number there says that it is
/// none.
pub fn cell(float: f64, shown: Shown) -> Typed {
    match decimal(float) {
        Ok(number) => Typed { value: Value::Number(number), shown },
        Err(_) => Typed::text(text(float)),
    }
}

/// A cell of a number under a date or time format: a calendar day, or a number shown as a date where it is none (a
/// time of day, say).
pub fn serial(float: f64, epoch: Epoch) -> Typed {
    match day(float, epoch) {
        Some(day) => Typed { value: Value::Date(day), shown: Shown::Date },
        None => cell(float, Shown::Date),
    }
}

/// A cell of a number under any format: [`serial`] where it is shown as a date, else [`cell`].
pub fn shown(float: f64, shown: &Shown, epoch: Epoch) -> Typed {
    if *shown == Shown::Date { serial(float, epoch) } else { cell(float, shown.clone()) }
}

/// A cell of a number that a file holds as text, `0.28`. Text that is no number stays text.
pub fn written(text: &str, shown: Shown) -> Typed {
    match text.trim().parse() {
        Ok(float) => cell(float, shown),
        Err(_) => Typed::text(text.trim()),
    }
}

/// Whether a text is a number as a file writes one.
pub fn is_number(text: &str) -> bool {
    text.trim().parse::<f64>().is_ok()
}

/// The float that eight little-endian bytes are.
pub fn stored(bytes: [u8; 8]) -> f64 {
    f64::from_le_bytes(bytes)
}

/// The float that an RK number is: the upper 30 bits of a float or a whole number, in hundredths or not (\[MS-XLS\]
/// 2.5.217 and \[MS-XLSB\] 2.5.123).
pub fn packed(rk: u32) -> f64 {
    let number = if rk & 2 == 0 { f64::from_bits(u64::from(rk & !3) << 32) } else { f64::from(rk as i32 >> 2) };
    if rk & 1 == 0 { number } else { number / 100.0 }
}

/// The number as text, for a cell that cannot be held as a decimal: `1e300`.
pub fn text(float: f64) -> String {
    format!("{float:e}")
}

/// [`decimal`] without its fault.
fn exact(float: f64) -> Option<Decimal> {
    /// Up to here every whole number is a float of its own and has 15 digits at most.
    const WHOLE: f64 = 1e15;
    if !float.is_finite() {
        return None;
    }
    if float.trunc() == float && float.abs() < WHOLE {
        // The cast is exact: whole, and well within an i64.
        return Some(Decimal::from(float as i64));
    }
    // Most prices and quantities have four decimals at most. Where a division, which rounds as reading a number's text
    // does, gives this very float, they are the number that was typed.
    let scaled_up = (float * 1e4).round();
    if scaled_up.abs() < WHOLE && scaled_up / 1e4 == float {
        return Some(Decimal::new(scaled_up as i64, 4).normalize());
    }
    // The shortest text that reads back as this float. With 15 digits or fewer it is what the user typed.
    let (digits, exponent) = split(&format!("{float:e}"))?;
    if digits.abs() < 10_i128.pow(15) {
        return scaled(digits, exponent);
    }
    // More: noise of computing. 21 digits tell on which side of the middle it lies.
    let (digits, exponent) = split(&format!("{float:.20e}"))?;
    let unit = 10_i128.pow(6);
    let half = if digits < 0 { -unit / 2 } else { unit / 2 };
    scaled(digits.checked_add(half)? / unit, exponent.checked_add(6)?)
}

/// `-1.25e3` as −125 and 1: the digits without the point, and the power of ten they are to be multiplied by.
fn split(text: &str) -> Option<(i128, i32)> {
    let (mantissa, exponent) = text.split_once('e')?;
    let (whole, part) = mantissa.split_once('.').unwrap_or((mantissa, ""));
    let digits = format!("{whole}{part}").parse().ok()?;
    let exponent: i32 = exponent.parse().ok()?;
    Some((digits, exponent.checked_sub(i32::try_from(part.len()).ok()?)?))
}

/// `digits × 10^exponent`, rounded half away from zero to the smallest decimal; `None` when it does not fit or
/// vanishes.
fn scaled(mut digits: i128, mut exponent: i32) -> Option<Decimal> {
    const SMALLEST: i32 = -28;
    while exponent < 0 && digits % 10 == 0 && digits != 0 {
        digits /= 10;
        exponent += 1;
    }
    while exponent < SMALLEST {
        if exponent < SMALLEST - DIGITS {
            return None;
        }
        let half = if exponent + 1 == SMALLEST { 5 * digits.signum() } else { 0 };
        // Only the last digit dropped may round; what was dropped before it is below half a unit of it.
        digits = (digits + half) / 10;
        exponent += 1;
    }
    if digits == 0 {
        return None;
    }
    let decimal = if exponent < 0 {
        Decimal::try_from_i128_with_scale(digits, exponent.unsigned_abs()).ok()?
    } else {
        let power = 10_i128.checked_pow(exponent.unsigned_abs())?;
        Decimal::try_from_i128_with_scale(digits.checked_mul(power)?, 0).ok()?
    };
    Some(decimal)
}

/// The calendar day of a date's serial number, whatever the time of day. `None` for a time without a day, the day
/// that never was, and what lies outside the calendar (up to the year 9999).
pub fn day(serial: f64, epoch: Epoch) -> Option<Date> {
    const NEVER: i64 = 60;
    // The cast truncates and saturates, which the range below refuses.
    let days = if serial.is_finite() && serial >= 0.0 { serial as i64 } else { return None };
    let zero = match epoch {
        Epoch::From1904 => date(1904, 1, 1),
        Epoch::From1900 if days == 0 || days == NEVER => return None,
        Epoch::From1900 if days < NEVER => date(1899, 12, 31),
        Epoch::From1900 => date(1899, 12, 30),
    };
    zero.checked_add(Span::new().try_days(days).ok()?).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(float: f64) -> String {
        decimal(float).unwrap().to_string()
    }

    #[test]
    fn fifteen_digits_are_the_users() {
        // IEEE 754: 0.1 + 0.2 is 0.3000000000000000444, 1.1 × 1.1 is 1.2100000000000001865.
        assert_eq!(read(0.1 + 0.2), "0.3");
        assert_eq!(read(1.1 * 1.1), "1.21");
        assert_eq!(read(38.45), "38.45");
        assert_eq!(read(-38.45), "-38.45");
        assert_eq!(read(1.0 / 3.0), "0.333333333333333");
        assert_eq!(read(2.0 / 3.0), "0.666666666666667");
        assert_eq!(read(0.001), "0.001");
        assert_eq!(read(1.5), "1.5");
        assert_eq!(read(99_999_999_999.999_9), "99999999999.9999");
        assert_eq!(read(0.000_123_4), "0.0001234");
    }

    #[test]
    fn packed_numbers_unpack() {
        // [MS-XLS] 2.5.217: bit 0 hundredths, bit 1 a whole number in the upper 30 bits, else the top of a float.
        // 1.0 is 0x3FF0000000000000; 123 << 2 | 3 is 1.23; −1 << 2 | 2 is −1; 0x3FF00001 is 1.0 in hundredths.
        for (rk, says) in [(0x3FF0_0000, "1"), (0x1EF, "1.23"), (0xFFFF_FFFE, "-1"), (0x3FF0_0001, "0.01")] {
            assert_eq!(read(packed(rk)), says, "{rk:#x}");
        }
    }

    #[test]
    fn whole_numbers_stay_whole() {
        assert_eq!(read(0.0), "0");
        assert_eq!(read(-0.0), "0");
        assert_eq!(read(500.0), "500");
        assert_eq!(read(-12.0), "-12");
        assert_eq!(read(999_999_999_999_999.0), "999999999999999");
        // 2^53 = 9007199254740992, to 15 digits.
        assert_eq!(read(9_007_199_254_740_992.0), "9007199254740990");
        assert_eq!(read(1e20), "100000000000000000000");
    }

    #[test]
    fn a_middle_goes_away_from_zero() {
        // Both are exact in binary: the half is a true half.
        assert_eq!(read(123_456_789_012_344.5), "123456789012345");
        assert_eq!(read(-123_456_789_012_344.5), "-123456789012345");
    }

    #[test]
    fn what_a_decimal_cannot_hold_is_a_fault() {
        for float in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e300, 8e28, -1e29, 1e-30, 5e-324, f64::MAX] {
            assert_eq!(decimal(float).unwrap_err().code, Code::NumberOutOfRange, "{float}");
        }
        // The largest decimal is 2^96 - 1 = 79228162514264337593543950335.
        assert_eq!(read(7.9e28), "79000000000000000000000000000");
        assert_eq!(text(1e300), "1e300");
    }

    #[test]
    fn small_numbers_keep_what_fits() {
        // 28 places: 1.23456789012345e-20 keeps 9 digits, 1.23456789|0 12345.
        assert_eq!(read(1.234_567_890_123_45e-20), "0.0000000000000000000123456789");
        assert_eq!(read(1.5e-28), "0.0000000000000000000000000002");
        assert_eq!(read(1e-28), "0.0000000000000000000000000001");
    }

    #[test]
    fn days_are_counted_as_spreadsheets_count_them() {
        // ECMA-376 part 1, 18.17.4.1: in the 1900 system 1 is 1900-01-01 and 2958465 is 9999-12-31; 60 is the 29
        // February that never was. In the 1904 system 0 is 1904-01-01.
        assert_eq!(day(1.0, Epoch::From1900), Some(date(1900, 1, 1)));
        assert_eq!(day(59.0, Epoch::From1900), Some(date(1900, 2, 28)));
        assert_eq!(day(60.0, Epoch::From1900), None);
        assert_eq!(day(61.0, Epoch::From1900), Some(date(1900, 3, 1)));
        assert_eq!(day(2_958_465.9, Epoch::From1900), Some(date(9999, 12, 31)));
        assert_eq!(day(2_958_466.0, Epoch::From1900), None);
        assert_eq!(day(0.77, Epoch::From1900), None, "a time of day");
        assert_eq!(day(0.0, Epoch::From1904), Some(date(1904, 1, 1)));
        // 1462 days lie between the epochs: 1904-01-01 is day 1462 from 1900.
        assert_eq!(day(1462.0, Epoch::From1900), Some(date(1904, 1, 1)));
        // 20261120 is a day typed without its marks, 7304485 more days than a span of jiff's may have.
        for wild in [-1.0, f64::NAN, f64::INFINITY, 1e300, 7_304_485.0, 20_261_120.0] {
            assert_eq!(day(wild, Epoch::From1900), None);
            assert_eq!(day(wild, Epoch::From1904), None);
        }
    }
}

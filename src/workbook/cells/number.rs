//! The door out: decimals become the floats that spreadsheets hold.
#![expect(clippy::disallowed_types, reason = "one of the two spreadsheet doors")]

use std::io::Write;

use crate::number::Decimal;

/// The float nearest to a decimal.
pub fn to_float(number: Decimal) -> f64 {
    // Digits with an exponent parse as a float, and the parser rounds correctly. Those of 96 bits, a sign and an exponent of
    // two digits have room here.
    let mut digits = [0_u8; 48];
    let mut room = digits.as_mut_slice();
    let written = write!(room, "{}e-{}", number.mantissa(), number.scale());
    debug_assert!(written.is_ok(), "there is room for all digits");
    let left = room.len();
    let used = digits.get(..digits.len().saturating_sub(left)).unwrap_or_default();
    std::str::from_utf8(used).ok().and_then(|digits| digits.parse().ok()).unwrap_or_default()
}

/// A decimal as a workbook stores a formula's result: the shortest digits of the nearest float.
pub fn stored(number: Decimal) -> String {
    let mut digits = Vec::new();
    push_stored(&mut digits, number);
    String::from_utf8(digits).unwrap_or_default()
}

/// Appends a decimal as a workbook stores it.
pub fn push_stored(out: &mut Vec<u8>, number: Decimal) {
    let number = number.normalize();
    // No two decimals of up to fifteen digits have the same nearest float (IEEE 754 binary64), so none is shorter.
    match u64::try_from(number.mantissa().unsigned_abs()) {
        Ok(digits @ ..1_000_000_000_000_000) => {
            if number.is_sign_negative() && digits != 0 {
                out.push(b'-');
            }
            push_digits(out, digits, number.scale());
        }
        _ => {
            let written = write!(out, "{}", to_float(number));
            debug_assert!(written.is_ok(), "memory takes all");
        }
    }
}

/// Appends digits of which the last `decimals`, 28 at the most, stand behind the point.
pub fn push_digits(out: &mut Vec<u8>, digits: u64, decimals: u32) {
    let mut decimals = usize::try_from(decimals).unwrap_or_default();
    // Room for twenty digits before the point or as many as a decimal has behind it.
    let mut room = [0_u8; 48];
    let (mut rest, mut used) = (digits, 0_usize);
    let mut places = room.iter_mut().rev();
    let mut put = |byte: u8| {
        if let Some(place) = places.next() {
            *place = byte;
            used = used.saturating_add(1);
        }
    };
    loop {
        put(b'0'.saturating_add(u8::try_from(rest % 10).unwrap_or_default()));
        rest /= 10;
        decimals = match decimals {
            0 if rest == 0 => break,
            0 => 0,
            1 => {
                put(b'.');
                0
            }
            more => more.saturating_sub(1),
        };
    }
    out.extend_from_slice(room.get(room.len().saturating_sub(used)..).unwrap_or_default());
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_decimal_becomes_its_nearest_float() {
        // IEEE 754: 0.1 is the double nearest to one tenth; 28 digits of a third round to the double of 1/3.
        assert_eq!(stored("0.1".parse().unwrap()), "0.1");
        assert_eq!(stored("0.3333333333333333333333333333".parse().unwrap()), "0.3333333333333333");
        assert_eq!(stored(Decimal::ZERO), "0");
    }

    #[test]
    fn digits_are_those_of_the_nearest_float() {
        // What a float's own digits are, the language's library says.
        let numbers = [
            "-0.00",
            "-12.500",
            "-0.05",
            "10.05",
            "999999999999999",
            "1000000000000000",
            "12345678901234567890.12345678",
        ];
        let small =
            ["0.0000000000000000000000000001", "-0.0000001", "123456789012345", "0.000000000000123456789012345"];
        for digits in numbers.into_iter().chain(small) {
            let number: Decimal = digits.parse().unwrap();
            assert_eq!(stored(number), (digits.parse::<f64>().unwrap() + 0.0).to_string(), "{digits}");
        }
    }
}

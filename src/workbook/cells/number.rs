//! The door out: decimals become the floats that spreadsheets hold.
#![expect(clippy::disallowed_types, reason = "one of the two spreadsheet doors")]

use crate::number::{Decimal, plain};

/// The float nearest to a decimal.
pub fn to_float(number: Decimal) -> f64 {
    // Every decimal is written in digits that parse as a float; the parser rounds correctly.
    plain(number).parse().unwrap_or_default()
}

/// A decimal as a workbook stores a formula's result: the shortest digits of the nearest float.
pub fn stored(number: Decimal) -> String {
    to_float(number).to_string()
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
}

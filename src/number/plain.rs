//! Numbers as text for machines and messages: plain digits.

use super::Decimal;

/// `x` without exponent, thousands marks or trailing zeros; zero is `0`, never `-0`.
pub fn plain(x: Decimal) -> String {
    if x.is_zero() { "0".to_owned() } else { x.normalize().to_string() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plain_digits() {
        assert_eq!(plain(Decimal::new(12_500, 3)), "12.5");
        assert_eq!(plain(Decimal::new(1200, 0)), "1200");
        assert_eq!(plain(-Decimal::ZERO), "0");
        assert_eq!(plain(Decimal::new(0, 5)), "0");
        assert_eq!(plain(Decimal::new(-1, 28)), "-0.0000000000000000000000000001");
    }
}

//! Percentage in a name that says no amount: `65% water`, `bread flour 100%`. Whether it is so much of the flour or part of the
//! name, as in `2% milk`, the recipe and the book decide.

use crate::number::{Decimal, Marks, PercentText, parse_percent};

/// A percentage beside a name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct NamedPercentage {
    /// How many per cent.
    pub percent: Decimal,
    /// The name without them.
    pub name: String,
    /// Whether they stand before it.
    pub leads: bool,
}

/// The percentage that `name` begins or ends with; `None` where it has none, or nothing besides.
pub(crate) fn named_percentage(name: &str, marks: Marks) -> Option<NamedPercentage> {
    let name = name.trim();
    let percent = |text: &str| match parse_percent(text, marks) {
        Ok(PercentText::Fraction(fraction)) => fraction.checked_mul(Decimal::ONE_HUNDRED).map(|all| all.normalize()),
        _ => None,
    };
    let named = |percent: Decimal, name: &str, leads| {
        let name = name.trim_matches([' ', ',', ':', '-', '–']);
        let is_name = percent > Decimal::ZERO && name.starts_with(char::is_alphabetic);
        is_name.then(|| NamedPercentage { percent, name: name.to_owned(), leads })
    };
    let (front, behind) = name.split_at_checked(name.find('%')?.checked_add(1)?)?;
    if let Some(percent) = percent(front) {
        let behind = behind.trim_start();
        return named(percent, behind.strip_prefix("of ").unwrap_or(behind), true);
    }
    let number = name.strip_suffix('%')?.trim_end();
    let start = number.rfind(|c: char| !(c.is_ascii_digit() || c == '.'))?;
    let (before, number) = number.split_at_checked(start)?;
    named(percent(&format!("{}%", number.trim_start_matches([' ', ',', ':', '-', '–'])))?, before, false)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_percentage_stands_before_a_name_or_behind_it() {
        for (text, percent, name, leads) in [
            ("65% water", "65", "water", true),
            ("65 % water", "65", "water", true),
            ("1.5% of salt", "1.5", "salt", true),
            ("bread flour 100%", "100", "bread flour", false),
            ("water, 65 %", "65", "water", false),
            ("yeast: 1.2%", "1.2", "yeast", false),
        ] {
            let found = named_percentage(text, Marks::PointDecimal);
            let wanted = NamedPercentage { percent: percent.parse().unwrap(), name: name.to_owned(), leads };
            assert_eq!(found, Some(wanted), "{text}");
        }
        for text in ["water", "65%", "80/20%", "0% water", "milk (2% fat)", "% yeast", "16/20 shrimp"] {
            assert_eq!(named_percentage(text, Marks::PointDecimal), None, "{text}");
        }
    }
}

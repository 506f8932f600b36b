//! Decimal marks and marks between thousands: how the digits of one number are put together, and what that proves of
//! its column.

use super::text::clean;

/// What is known about a column's decimal mark: decides `1,234` and `1.234`, and nothing else.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Marks {
    /// Nothing is known: `1,234` is ambiguous.
    #[default]
    Unknown,
    /// Nothing is known but that pounds are counted: `6.375` is a decimal, sixteenths of a pound typed so; `1,234` may be either.
    Pounds,
    /// A point before the decimals, commas between thousands.
    PointDecimal,
    /// A comma before the decimals, points between thousands.
    CommaDecimal,
}

/// What the numbers in a single text prove about decimal marks; `None` when they prove nothing or contradict each
/// other. `text` may hold signs and units around its numbers.
pub fn evidence(text: &str) -> Option<Marks> {
    // Points and commas alone prove something, and most texts have neither.
    if text.is_ascii() && !text.contains(['.', ',']) {
        return None;
    }
    let text = clean(text);
    let mut proved = None;
    for run in text.split(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '\'' | ' '))) {
        let run = run.trim_matches([' ', '\'']).trim_end_matches(['.', ',', ' ']);
        let this = match shape(run) {
            Some(NumberShape { decimal: Some('.'), .. } | NumberShape { thousands: Some(','), .. }) => {
                Marks::PointDecimal
            }
            Some(NumberShape { decimal: Some(','), .. } | NumberShape { thousands: Some('.'), .. }) => {
                Marks::CommaDecimal
            }
            _ => continue,
        };
        match proved {
            None => proved = Some(this),
            Some(before) if before == this => {}
            Some(_) => return None,
        }
    }
    proved
}

/// How a number without fractions is put together.
pub(super) struct NumberShape<'a> {
    /// The digits before the mark, with what parts them.
    pub(super) whole: &'a str,
    /// The digits behind the mark.
    pub(super) fraction: &'a str,
    /// The decimal mark, where the text alone shows it.
    pub(super) decimal: Option<char>,
    /// The mark between thousands, where the text alone shows it.
    pub(super) thousands: Option<char>,
    /// The one mark that may be either.
    pub(super) either: Option<char>,
}

/// What [`NumberShape`] a text has, if it is digits and marks put together soundly.
pub(super) fn shape(text: &str) -> Option<NumberShape<'_>> {
    let points = text.matches('.').count();
    let commas = text.matches(',').count();
    match (points, commas) {
        (0, 0) => found(text, "", None, None, None),
        (1, 0) | (0, 1) => {
            let mark = if points == 1 { '.' } else { ',' };
            let (whole, fraction) = text.split_once(mark)?;
            if fraction.is_empty() {
                // `12.` is a habit; `12,` is not.
                return if mark == '.' { found(whole, "", None, None, None) } else { None };
            }
            let may_part =
                fraction.len() == 3 && (1..=3).contains(&whole.len()) && !whole.starts_with('0') && !is_parted(whole);
            if may_part {
                found(whole, fraction, None, None, Some(mark))
            } else {
                found(whole, fraction, Some(mark), None, None)
            }
        }
        (_, 0) => found(text, "", None, Some('.'), None),
        (0, _) => found(text, "", None, Some(','), None),
        _ => {
            let mark = if text.rfind('.') > text.rfind(',') { '.' } else { ',' };
            let (whole, fraction) = text.rsplit_once(mark)?;
            let other = if mark == '.' { ',' } else { '.' };
            if fraction.is_empty() { None } else { found(whole, fraction, Some(mark), Some(other), None) }
        }
    }
}

/// A shape of these parts, if its groups are sound.
fn found<'a>(
    whole: &'a str,
    fraction: &'a str,
    decimal: Option<char>,
    thousands: Option<char>,
    either: Option<char>,
) -> Option<NumberShape<'a>> {
    let grouped = match thousands {
        Some(mark) => in_thousands(whole, mark),
        None if is_parted(whole) => in_thousands(whole, ' ') || in_thousands(whole, '\''),
        None => whole.bytes().all(|b| b.is_ascii_digit()),
    };
    let fine = grouped && fraction.bytes().all(|b| b.is_ascii_digit()) && !(whole.is_empty() && fraction.is_empty());
    fine.then_some(NumberShape { whole, fraction, decimal, thousands, either })
}

/// Whether spaces or apostrophes stand between the digits.
fn is_parted(text: &str) -> bool {
    text.contains([' ', '\''])
}

/// Whether `text` is one to three digits and then groups of exactly three, parted by `mark`.
fn in_thousands(text: &str, mark: char) -> bool {
    let mut groups = text.split(mark);
    groups.next().is_some_and(|first| all_digits(first) && first.len() <= 3)
        && groups.all(|group| all_digits(group) && group.len() == 3)
}

/// Whether it is digits and nothing else.
pub(super) fn all_digits(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_proves_its_own_marks_or_nothing() {
        for (text, proof) in [
            ("1,234.50", Some(Marks::PointDecimal)),
            ("1.234,50", Some(Marks::CommaDecimal)),
            ("$12.50", Some(Marks::PointDecimal)),
            ("12,5 kg", Some(Marks::CommaDecimal)),
            ("1,234,567", Some(Marks::PointDecimal)),
            ("1.234.567", Some(Marks::CommaDecimal)),
            ("0.125", Some(Marks::PointDecimal)),
            ("1,234", None),
            ("12", None),
            ("6 lb., 12 oz.", None),
            ("1.5 and 2,5", None),
        ] {
            assert_eq!(evidence(text), proof, "{text}");
        }
    }
}

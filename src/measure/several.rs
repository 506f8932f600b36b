//! One thing in two measures: `3 qt, 2.9 kg`, `12 each, 15 lb`.
//!
//! Takes text and the column's decimal marks; gives one quantity or two of different kinds.

use super::base::Dimension;
use super::quantity::{QuantityText, parse_quantity};
use crate::number::Marks;
use crate::number::text::clean;
use crate::problem::{Code, Fault};

/// Reads one or two quantities of one thing in different measures: `3 qt, 2.9 kg`, `12 each, 15 lb`, `1 gal (8 lb)`.
///
/// # Errors
/// As [`parse_quantity`]; [`Code::NotANumber`] for more than two, or two of one kind.
pub fn parse_several(text: &str, marks: Marks) -> Result<Vec<QuantityText>, Fault> {
    let whole = parse_quantity(text, marks);
    if whole.is_ok() {
        return whole.map(|one| vec![one]);
    }
    let plain_text = clean(text);
    let parts = split(&plain_text);
    if parts.len() < 2 {
        return whole.map(|one| vec![one]);
    }
    let read = parts.iter().map(|part| parse_quantity(part, marks)).collect::<Result<Vec<_>, _>>()?;
    match read.as_slice() {
        [first, second] => match (kind(first), kind(second)) {
            (Some(one), Some(other)) if one != other => Ok(read),
            _ => Err(two_kinds(text)),
        },
        _ => Err(two_kinds(text)),
    }
}

/// Weight, volume or count; a bare number counts. `None` without an amount.
fn kind(quantity: &QuantityText) -> Option<Dimension> {
    match quantity {
        QuantityText::Number(_) => Some(Dimension::Count),
        QuantityText::Measured(one) => Some(one.unit.dimension()),
        QuantityText::Compound(parts) => parts.first().map(|part| part.unit.dimension()),
        QuantityText::Unmeasured(_) => None,
    }
}

fn two_kinds(text: &str) -> Fault {
    Fault::new(
        Code::NotANumber,
        format!("“{}” is not one quantity, nor one in two measures", text.trim()),
        "Write one quantity, or two measures of it such as 3 qt, 2.9 kg.",
    )
}

/// The parts between commas that are no decimal marks, semicolons, equals signs and brackets.
fn split(text: &str) -> Vec<&str> {
    let mut parts = Vec::new();
    let mut start = 0;
    let mut before = ' ';
    let mut chars = text.char_indices().peekable();
    while let Some((at, c)) = chars.next() {
        let next = chars.peek().map_or(' ', |(_, next)| *next);
        let parts_here = match c {
            ';' | '=' | '(' | ')' => true,
            ',' => !before.is_ascii_digit() || !next.is_ascii_digit(),
            _ => false,
        };
        if parts_here {
            parts.push(text.get(start..at).unwrap_or(""));
            start = at + c.len_utf8();
        }
        before = c;
    }
    parts.push(text.get(start..).unwrap_or(""));
    parts.into_iter().map(str::trim).filter(|part| !part.is_empty()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::quantity::tests::said;

    #[test]
    fn two_measures_of_one_thing() {
        let several = |text| match parse_several(text, Marks::Unknown) {
            Ok(all) => all.iter().map(said).collect::<Vec<_>>().join(" | "),
            Err(fault) => fault.code.to_string(),
        };
        for (text, quantities) in [
            ("3 qt, 2.9 kg", "3 qt | 2.9 kg"),
            ("3 qt; 2,9 kg", "3 qt | 2.9 kg"),
            ("12 each, 15 lb", "12 each | 15 lb"),
            ("12, 15 lb", "12 | 15 lb"),
            ("12 each, 15 lb 4 oz", "12 each | 15 lb + 4 oz"),
            ("1 gal (8 lb)", "1 gal | 8 lb"),
            ("38 lb, 12 oz", "38 lb + 12 oz"),
            ("3 qt", "3 qt"),
            ("1 lb, 2 kg", "not-a-number"),
            ("1 lb, 2 qt, 3 each", "not-a-number"),
            ("3-4 qt", "range-given"),
        ] {
            assert_eq!(several(text), quantities, "{text}");
        }
    }
}

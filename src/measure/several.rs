//! Measures of one thing in two units: `3 qt, 2.9 kg`, `12 each, 15 lb`.
//!
//! Takes text and the column's decimal marks; gives one quantity or two of different kinds.

use super::base::Dimension;
use super::quantity::{QuantityText, parse_quantity};
use crate::number::text::clean;
use crate::number::{Decimal, Marks};
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

/// Reads what a batch makes, in one or two measures, and how many portions it gives, each where the text says so:
/// `2 gal, 32 servings`, `3 qt (2.9 kg), serves 12`, `12 portions`. A bare number is a quantity.
///
/// # Errors
/// As [`parse_several`].
pub fn parse_batch(text: &str, marks: Marks) -> Result<(Vec<QuantityText>, Option<Decimal>), Fault> {
    let plain_text = clean(text);
    let mut portions = None;
    let mut measures = Vec::new();
    for part in split(&plain_text) {
        match portions_in(part, marks) {
            Some(many) if portions.is_none() => portions = Some(many),
            _ => measures.push(part),
        }
    }
    match portions {
        None => Ok((parse_several(text, marks)?, None)),
        Some(_) if measures.is_empty() => Ok((Vec::new(), portions)),
        Some(_) => Ok((parse_several(&measures.join(", "), marks)?, portions)),
    }
}

/// How many portions `32 servings` or `serves 32` are; `None` for anything else.
fn portions_in(text: &str, marks: Marks) -> Option<Decimal> {
    let lower = text.to_lowercase();
    if let Some(many) = lower.strip_prefix("serves ") {
        return match parse_quantity(many, marks) {
            Ok(QuantityText::Number(many)) => Some(many),
            _ => None,
        };
    }
    match parse_quantity(text, marks) {
        Ok(QuantityText::Measured(one)) if one.unit.is_portion() => Some(one.amount),
        _ => None,
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

    #[test]
    fn what_a_batch_makes_and_how_many_it_serves() {
        let batch = |text| match parse_batch(text, Marks::Unknown) {
            Ok((all, portions)) => {
                let portions = portions.map(|many| format!("{many} portions"));
                all.iter().map(said).chain(portions).collect::<Vec<_>>().join(" | ")
            }
            Err(fault) => fault.code.to_string(),
        };
        for (text, said) in [
            ("2 gal, 32 servings", "2 gal | 32 portions"),
            ("32 portions; 2 gal", "2 gal | 32 portions"),
            ("3 qt (2.9 kg), serves 12", "3 qt | 2.9 kg | 12 portions"),
            ("24 each, 12 covers", "24 each | 12 portions"),
            ("1 gal (serves 16)", "1 gal | 16 portions"),
            ("12 servings", "12 portions"),
            ("Serves 12", "12 portions"),
            ("12", "12"),
            ("3 qt, 2.9 kg", "3 qt | 2.9 kg"),
            ("12 servings, 14 portions", "14 portion | 12 portions"),
            ("serves 4-6", "not-a-number"),
            ("2 gal, 30-32 servings", "range-given"),
        ] {
            assert_eq!(batch(text), said, "{text}");
        }
    }
}

//! `2 oz Shellfish base per lb`: what a by-product saves buying; and `sold 0.80 / lb`, what it fetches otherwise.

use crate::kitchen::yield_test::InsteadOf;
use crate::measure::{Measured, QuantityText, Unit, parse_quantity};
use crate::number::{Decimal, Marks};
use crate::problem::{Code, Fault};

/// Reads what stands in *Instead of*.
pub(super) fn parse(text: &str, marks: Marks) -> Result<InsteadOf, Fault> {
    let fault = || {
        Fault::new(
            Code::TestNotUnderstood,
            format!("“{text}” does not say how much of what it saves buying, and per how much"),
            "Write it like 2 oz Shellfish base per lb.",
        )
    };
    let lower = text.to_lowercase();
    let at = lower.rfind(" per ").ok_or_else(fault)?;
    let (left, per) = (text.get(..at).ok_or_else(fault)?, text.get(at.saturating_add(5)..).ok_or_else(fault)?);
    let per = one_of(per, marks).ok_or_else(fault)?;
    let (amount, item) = amount_and_item(left.trim(), marks).ok_or_else(fault)?;
    let whole = amount.amount > Decimal::ZERO && per.amount > Decimal::ZERO && !item.is_empty();
    if whole { Ok(InsteadOf { amount, item, per }) } else { Err(fault()) }
}

/// `lb` is one pound, `100 g` a hundred grams.
fn one_of(text: &str, marks: Marks) -> Option<Measured> {
    if let Some(unit) = Unit::parse(text.trim()) {
        return Some(Measured::new(Decimal::ONE, unit));
    }
    match parse_quantity(text, marks) {
        Ok(QuantityText::Measured(measured)) => Some(measured),
        _ => None,
    }
}

/// The longest beginning that is a number with a unit of the catalogue; the rest is the item.
fn amount_and_item(text: &str, marks: Marks) -> Option<(Measured, String)> {
    let words: Vec<&str> = text.split_whitespace().collect();
    (1..words.len()).rev().find_map(|cut| {
        let (amount, item) = words.split_at_checked(cut)?;
        match parse_quantity(&amount.join(" "), marks) {
            Ok(QuantityText::Measured(measured)) if Unit::parse(unit_words(amount)?.as_str())? == measured.unit => {
                Some((measured, item.join(" ").trim_matches('"').to_owned()))
            }
            _ => None,
        }
    })
}

/// What stands behind the number.
fn unit_words(words: &[&str]) -> Option<String> {
    let joined = words.join(" ");
    let at = joined.find(|c: char| c.is_alphabetic() || c == '#')?;
    joined.get(at..).map(str::to_owned)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amount_item_and_per_are_told_apart() {
        let instead = parse("2 oz Shellfish base per lb", Marks::Unknown).unwrap();
        assert_eq!(instead.amount, Measured::new(Decimal::TWO, Unit::parse("oz").unwrap()));
        assert_eq!(instead.item, "Shellfish base");
        assert_eq!(instead.per, Measured::new(Decimal::ONE, Unit::parse("lb").unwrap()));
        let instead = parse("1 1/2 fl oz Duck fat per 100 g", Marks::Unknown).unwrap();
        assert_eq!(instead.amount.amount, Decimal::new(15, 1));
        assert_eq!((instead.item.as_str(), instead.per.amount), ("Duck fat", Decimal::ONE_HUNDRED));
    }

    #[test]
    fn what_is_missing_is_a_fault() {
        for text in
            ["Shellfish base", "2 oz per lb", "2 Shellfish base per lb", "2 oz Shellfish base per", "0 oz Base per lb"]
        {
            assert!(parse(text, Marks::Unknown).is_err(), "{text}");
        }
    }
}

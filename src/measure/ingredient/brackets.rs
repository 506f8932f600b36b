//! Brackets of an ingredient line: another measure of it, the size of one, a choice, or what is done.

use super::AmountText;
use super::Conventions;
use super::alternatives::rule;
use super::amount::{about, is_container, plain_measure};
use super::found::FoundAmount;
use super::number::{Number, number};
use crate::measure::{Measured, Unit};
use crate::number::Decimal;
use crate::problem::short_names;

/// `text` without its brackets, and what stood in them.
pub(super) fn taken_out(text: &str) -> (String, Vec<String>) {
    let (mut outside, mut inside) = (String::new(), Vec::new());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('(') {
        outside.push_str(before.trim_end());
        let (within, behind) = after.split_once(')').unwrap_or((after, ""));
        inside.push(within.trim().to_owned());
        outside.push(' ');
        rest = behind.trim_start();
    }
    outside.push_str(rest);
    (outside.replace(" ,", ",").trim().to_owned(), inside)
}

/// Takes what stands in brackets.
pub(super) fn take(found: &mut FoundAmount, inside: &str, how: Conventions) {
    if inside.is_empty() || size_of_each(found, inside, how) {
        return;
    }
    if let Some(measure) = plain_measure(inside, how) {
        return other_measure(found, measure, about(inside) != inside);
    }
    if inside.to_lowercase().starts_with("or ") {
        found.notes.push(format!("“{inside}” was not read"));
    } else if ends_in_number(inside, how) {
        found.ask(format!("with “{inside}” beside it, how much is it?"));
    } else if !inside.contains(' ') && short_names::full(inside).is_some() {
        found.name.insert(0, inside.to_owned());
    } else {
        found.prep.push(inside.to_owned());
    }
}

/// Whether a unit holds something and does not say how much.
pub(super) fn is_unsized(unit: &Unit) -> bool {
    is_container(unit) && !unit.is_numbered_can()
}

/// `6 oz each`: what one weighs. Whether `text` is that.
pub(super) fn size_of_each(found: &mut FoundAmount, text: &str, how: Conventions) -> bool {
    let lower = text.trim_end_matches('.').to_lowercase();
    let one = [" each", " ea", " apiece"].iter().find_map(|each| lower.strip_suffix(each));
    let Some(size) = one.and_then(|one| plain_measure(text.get(..one.len())?, how)) else { return false };
    match &found.amount {
        AmountText::Measured(Measured { amount, unit }) if matches!(unit, Unit::Own(_)) => {
            found.amount = AmountText::Packages { count: *amount, of: Some(unit.clone()), size };
        }
        _ => found.name.push(size.to_string()),
    }
    true
}

/// A second measure of the same thing.
fn other_measure(found: &mut FoundAmount, other: Measured, is_about: bool) {
    if other.unit == Unit::each() {
        return found.name.push(other.to_string().replace(" each", " count"));
    }
    if other.unit.is_count_like() {
        return found.notes.push(format!("“{other}” was not read"));
    }
    match found.amount.clone() {
        AmountText::Measured(first) if is_container(&first.unit) => {
            found.amount = AmountText::Packages { count: first.amount, of: Some(first.unit), size: other };
        }
        // What is about so much stands behind what is exact, unless it is a weight where there is none.
        AmountText::Measured(first) if is_about && first.unit.dimension() == other.unit.dimension() => {
            found.notes.push(format!("“about {other}” was not read"));
            found.amount = AmountText::Measured(first);
        }
        AmountText::Measured(first) => rule(found, first, other),
        AmountText::Bare(many) if many > Decimal::ONE && !is_about => {
            found.ask(format!("is {other} one of them, or all?"));
        }
        AmountText::Bare(many) => rule(found, Measured::new(many, Unit::each()), other),
        AmountText::Unsaid | AmountText::Unmeasured(_) => {
            if is_about {
                found.notes.push(format!("about {other} was taken as {other}"));
            }
            found.amount = AmountText::Measured(other);
        }
        AmountText::Packages { .. } | AmountText::Asked => {
            found.notes.push(format!("“{other}” was not read"));
        }
    }
}

/// Whether the last word is a number without a unit: `I use 3/4`.
fn ends_in_number(text: &str, how: Conventions) -> bool {
    let last = text.rsplit(' ').next().unwrap_or("");
    let is_reference = text.to_lowercase().starts_with("see ");
    !is_reference && matches!(number(last, how.marks), Some((Number::Exact(_), "")))
}

//! Alternatives: one thing in two measures. The weight stands; of two of a kind the metric one, else the first.

use super::AmountText;
use super::found::FoundAmount;
use crate::measure::{Base, Measured, Volumes};

/// Takes one of two measures of the same thing, with a note.
pub(super) fn rule(found: &mut FoundAmount, first: Measured, second: Measured) {
    let (kept, other) = if rank(&second) > rank(&first) { (second, first) } else { (first, second) };
    let why = if is_weight(&kept) && !is_weight(&other) { "the weight" } else { "the first or metric one" };
    found.notes.push(format!("of {other} and {kept} {why} was taken"));
    found.amount = AmountText::Measured(kept);
}

/// How surely a measure says how much: a weight before a volume before a count, metric before others.
fn rank(measured: &Measured) -> (u8, bool) {
    let kind = match measured.unit.to_base(Volumes::Us) {
        Some((Base::Gram, _)) => 2,
        Some((Base::Millilitre, _)) => 1,
        _ => 0,
    };
    (kind, measured.unit.is_metric())
}

fn is_weight(measured: &Measured) -> bool {
    measured.unit.grams().is_some()
}

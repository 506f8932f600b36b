//! Joined measures: `1 lb + 2 oz`, `2 c less 1 tbsp`, `1 lb / 450 g`, `1 lb 8 oz`.

use super::alternatives::rule;
use super::found::FoundAmount;
use super::number::{Number, number};
use super::unit_at::unit_at;
use super::vocabulary::CUTS;
use super::{AmountText, Conventions};
use crate::measure::compound::descends;
use crate::measure::{Measured, Volumes, compound_in_base, compound_in_first};
use crate::number::exact::{div, sub};
use crate::number::{Decimal, plain};

/// How a second measure is joined to the first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Joint {
    /// It is added.
    Plus,
    /// It is taken away.
    Less,
    /// It says the same in another unit.
    Or,
    /// It merely stands behind: `1 lb 8 oz`.
    Behind,
}

/// What joins two measures.
const JOINTS: &[(&str, Joint)] = &[
    ("+ ", Joint::Plus),
    ("+", Joint::Plus),
    ("& ", Joint::Plus),
    ("plus ", Joint::Plus),
    ("and ", Joint::Plus),
    ("less ", Joint::Less),
    ("minus ", Joint::Less),
    ("/ ", Joint::Or),
    ("/", Joint::Or),
    ("", Joint::Behind),
];

/// What is added to or taken from `first`, or said of it in another measure; gives what follows.
pub(super) fn joined<'t>(found: &mut FoundAmount, first: Measured, rest: &'t str, how: Conventions) -> &'t str {
    let text = rest.trim_start();
    for (joint, kind) in JOINTS {
        let Some(after) = text.strip_prefix(*joint) else { continue };
        // Only digits begin what is merely put behind: `2 c 3 oz`.
        if *kind == Joint::Behind
            && !after.starts_with(|c: char| c.is_ascii_digit() || crate::number::text::vulgar(c).is_some())
        {
            continue;
        }
        let Some((Number::Exact(amount), behind)) = number(after, how.marks) else { continue };
        if behind.starts_with(['/', '"', '%']) {
            continue;
        }
        let Some((unit, behind)) = unit_at(behind) else {
            if *kind == Joint::Behind && behind.trim().is_empty() {
                found.ask(format!("the {} has no unit: {first} and {} what?", plain(amount), plain(amount)));
                return "";
            }
            continue;
        };
        let second = Measured::new(amount, unit);
        match kind {
            Joint::Or => rule(found, first.clone(), second.clone()),
            Joint::Less => {
                found.amount = less(&first, &second, how.volumes).map_or(AmountText::Asked, AmountText::Measured)
            }
            Joint::Plus | Joint::Behind => {
                let parts = [first.clone(), second.clone()];
                // `2 lb 3 oz pieces`: are the ounces how they are cut?
                let is_cut = behind.trim_start().split(' ').next().is_some_and(|word| CUTS.contains(&word));
                let fits = *kind != Joint::Behind || (descends(&parts) && !is_cut);
                match sum(&parts, how.volumes).filter(|_| fits) {
                    Some(sum) => found.amount = AmountText::Measured(sum),
                    None => found.ask(format!("are {first} and {second} to be added up, or one for the other?")),
                }
            }
        }
        if found.amount == AmountText::Asked {
            found.question.get_or_insert(format!("how much is {first} less {second}?"));
        }
        return behind;
    }
    found.amount = AmountText::Measured(first);
    rest
}

/// The sum of two measures of one kind, in the first unit where that is exact.
pub(super) fn sum(parts: &[Measured], volumes: Volumes) -> Option<Measured> {
    let unit = parts.first()?.unit.clone();
    if parts.iter().all(|part| part.unit == unit) {
        let total = parts.iter().try_fold(Decimal::ZERO, |sum, part| sum.checked_add(part.amount))?;
        return Some(Measured::new(total, unit));
    }
    if let Some(amount) = compound_in_first(parts, volumes).ok()? {
        return Some(Measured::new(amount, unit));
    }
    let (base, amount) = compound_in_base(parts, volumes).ok()??;
    Some(Measured::new(amount, base.unit()))
}

/// `first` without `second`, in the first unit.
fn less(first: &Measured, second: &Measured, volumes: Volumes) -> Option<Measured> {
    let (base, size) = first.unit.to_base(volumes)?;
    let (other, taken) = second.in_base(volumes).ok()??;
    let (_, whole) = first.in_base(volumes).ok()??;
    let left = sub(whole, taken).ok()?;
    (base == other && left > Decimal::ZERO)
        .then(|| div(left, size).ok())
        .flatten()
        .map(|left| Measured::new(left.normalize(), first.unit.clone()))
}

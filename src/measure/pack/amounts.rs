//! Amounts of a pack, what one says alone and two together: count and weight, or the same again.
//!
//! Takes [`NumberGroup`]s; gives a [`Draft`], or refuses where a weight may be one piece's or all's.

use super::draft::{Draft, WhoseWeight, counted_and_weighed, is_several, labelled, same};
use super::group::NumberGroup;
use super::{refuse, sizes};
use crate::measure::catalogue::WordKind;
use crate::measure::unit::Unit;
use crate::number::exact::mul;
use crate::number::{Decimal, plain};
use crate::problem::Fault;

/// A group that is the whole pack.
pub(super) fn alone(text: &str, group: &NumberGroup, nominal: bool) -> Result<Draft, Fault> {
    let Some(unit) = &group.unit else {
        return match group.factors.as_slice() {
            _ if nominal => Ok(Draft::default()),
            [one] => Err(refuse::unit_missing(text, *one)),
            [] => Err(refuse::not_understood(text)),
            factors => Err(ratio(text, factors)),
        };
    };
    if group.is_bushel() {
        return Err(refuse::bushel(text));
    }
    // `6/5 case`, `12/32 jug`: five, or 32, of what?
    if group.factors.len() > 1 && !unit.is_numbered_can() && container(group).is_some() {
        return Err(refuse::ratio_of(text, &unit.name()));
    }
    let whole = group.measured(text)?;
    if unit.is_count_like() {
        let containers = group.inner(text)?.filter(|_| !unit.is_numbered_can());
        return Ok(Draft { containers, pieces: Some(whole), said: group.said(text)?, ..Draft::default() });
    }
    // `8/10 lb avg` may be eight of ten pounds, or eight to ten pounds: nominal either way.
    if group.is_unclear {
        return Ok(Draft::default());
    }
    if let ([low, high], true, true) = (group.factors.as_slice(), nominal, group.slashed && !group.is_range)
        && low < high
        && mul(*low, Decimal::TWO).is_ok_and(|twice| *high <= twice)
    {
        return Ok(Draft::default());
    }
    Ok(Draft { containers: group.inner(text)?, content: Some(whole), said: group.said(text)?, ..Draft::default() })
}

/// Two groups: count and weight in either order, a bushel and its weight, or the same amount twice.
pub(super) fn both(
    text: &str,
    first: &NumberGroup,
    second: &NumberGroup,
    whose: WhoseWeight,
    nominal: bool,
) -> Result<Draft, Fault> {
    refuse_numberless(text, second)?;
    if first.is_bushel() && second.is_measured() {
        return alone(text, second, nominal);
    }
    if first.is_unclear || second.is_unclear {
        return Err(refuse::not_understood(text));
    }
    let (count, weight) = match (first.is_measured(), second.is_measured()) {
        (false, true) => (first, second),
        (true, false) => (second, first),
        (true, true) => {
            return same(text, alone(text, first, nominal)?, &first.measured(text)?, &second.measured(text)?);
        }
        (false, false) => return Err(refuse::not_understood(text)),
    };
    // A count word alone behind a weight: `40 lb dozen`.
    if first.is_measured() && count.factors.is_empty() {
        return Err(refuse::not_understood(text));
    }
    let (pieces, content) = (count.measured(text)?, weight.measured(text)?);
    if let Some((unit, kind)) = container(count) {
        let (n, one) = (pieces.amount, alone(text, weight, nominal)?);
        // `40 lb 6 bags`, `case 6 bags 5 lb`; but `24 cans 15 oz` says what a can holds.
        if n != Decimal::ONE && (first.is_measured() || kind == WordKind::Outer) {
            return Err(refuse::one_or_all(text, &content.to_string()));
        }
        return labelled(text, n, unit, &one);
    }
    if is_several(count.inner(text)?) || is_several(weight.inner(text)?) {
        return Err(refuse::one_or_all(text, &second.measured(text)?.to_string()));
    }
    if count.each && whose == WhoseWeight::Unsaid && pieces.amount != Decimal::ONE {
        return Err(refuse::whose_weight(text, &plain(pieces.amount), &content.to_string()));
    }
    counted_and_weighed(text, &pieces, &content, whose)
}

/// The case, bag or bottle that a group counts.
pub(super) fn container(group: &NumberGroup) -> Option<(Unit, WordKind)> {
    let unit = group.unit.as_ref()?;
    match unit.word_kind()? {
        kind @ (WordKind::Outer | WordKind::Vessel) => Some((unit.clone(), kind)),
        _ => None,
    }
}

/// A weight's unit without a number beside something else: `kg case`, `50 tub #`. A bushel's number says nothing.
pub(super) fn refuse_numberless(text: &str, group: &NumberGroup) -> Result<(), Fault> {
    if group.is_measured() && group.factors.is_empty() && !group.is_bushel() {
        return Err(refuse::because(text, "has a unit without a number"));
    }
    Ok(())
}

/// Numbers without a unit.
pub(super) fn ratio(text: &str, factors: &[Decimal]) -> Fault {
    refuse::ratio(text, factors, matches!(factors, [a, b] if sizes::is_grade(*a, *b)))
}

//! Amounts in spoons, cups and jugs: the largest measure that comes near enough, else a larger and a smaller one.

use super::{InKitchenUnits, KitchenPart, LadderWay, Rounding};
use crate::measure::ladder::Rung;
use crate::measure::{Measured, Unit};
use crate::number::{Decimal, Overflow, exact, plain, settled};

/// How near a measure, or two, must come: a thirty-third, three hundredths. Two cooks who fill the same cup differ by more;
/// common practice, no source.
pub(super) const NEAR: Decimal = Decimal::from_parts(33, 0, 0, false, 0);
/// How near one measure must come where two come no nearer: a twentieth.
const LESS_NEAR: Decimal = Decimal::from_parts(20, 0, 0, false, 0);

/// A filling of one measure.
#[derive(Clone)]
struct Filled {
    part: KitchenPart,
    base: Decimal,
}

/// `base` millilitres in the measures of a ladder; `None` where they are less than half of the smallest.
pub(super) fn poured(way: &LadderWay<'_>, base: Decimal) -> Result<Option<InKitchenUnits>, Overflow> {
    let mut alone = Vec::new();
    for rung in &way.ladder.rungs {
        let count = exact::div(base, way.size(&rung.unit))?;
        if rung.below.is_none_or(|below| count < below) {
            alone.extend(nearest(way, rung, count, false)?);
        }
    }
    let single = |near: Decimal| alone.iter().find(|filled| is_near(filled.base, base, near));
    if let Some(found) = single(NEAR) {
        return Ok(Some(InKitchenUnits::one(found.part.clone())));
    }
    let two = in_two(way, base)?;
    if let Some((two, _)) = two.as_ref().filter(|(_, both)| is_near(*both, base, NEAR)) {
        return Ok(Some(two.clone()));
    }
    if let Some(found) = single(LESS_NEAR) {
        return Ok(Some(InKitchenUnits::one(found.part.clone())));
    }
    if let Some((two, _)) = two {
        return Ok(Some(two));
    }
    // Between two marks of a measure there is nothing finer.
    let apart = |filled: &Filled| exact::sub(filled.base, base).map_or(Decimal::MAX, |apart| apart.abs());
    let nearest = alone.into_iter().min_by_key(apart);
    let half = |filled: &Filled| exact::mul(base, Decimal::TWO).is_ok_and(|twice| twice >= filled.base);
    Ok(nearest.filter(half).map(|filled| InKitchenUnits::one(filled.part)))
}

pub(super) fn is_near(filled: Decimal, wanted: Decimal, near: Decimal) -> bool {
    let apart = exact::sub(filled, wanted).and_then(|apart| exact::mul(apart.abs(), near));
    apart.is_ok_and(|apart| apart <= wanted)
}

/// The nearest filling of a rung to `count` of it, no less than it leads with; of whole ones alone where that is asked.
fn nearest(way: &LadderWay<'_>, rung: &Rung, count: Decimal, whole: bool) -> Result<Option<Filled>, Overflow> {
    let count = settled(count);
    let step = exact::div(count, rung.every)?.trunc();
    let floor = exact::mul(step, rung.every)?;
    let texts = if floor.is_zero() && !rung.small.is_empty() { &rung.small } else { &rung.parts };
    let mut fillings = vec![(floor, written(floor, None)), {
        let next = exact::add(floor, rung.every)?;
        (next, written(next, None))
    }];
    if !whole {
        for part in texts {
            fillings.push((exact::add(floor, part.value)?, written(floor, Some(&part.text))));
        }
    }
    let usable = |amount: Decimal| amount >= rung.from && (way.rounding == Rounding::Nearest || amount <= count);
    let apart = |amount: Decimal| exact::sub(amount, count).map(|apart| apart.abs());
    let mut best: Option<(Decimal, Decimal, String)> = None;
    for (amount, text) in fillings.into_iter().filter(|(amount, _)| usable(*amount)) {
        let apart = apart(amount)?;
        // Of two that are as near the larger, as a half goes up.
        let is_better = best.as_ref().is_none_or(|(least, of, _)| apart < *least || (apart == *least && amount > *of));
        if is_better {
            best = Some((apart, amount, text));
        }
    }
    let Some((_, amount, text)) = best else { return Ok(None) };
    let unit = way.unit(&rung.unit);
    let base = exact::mul(amount, unit.to_base(way.volumes))?;
    let measured = Measured::new(amount.normalize(), Unit::Standard(unit));
    let written = if rung.decimal { plain(amount) } else { text };
    Ok(Some(Filled { part: KitchenPart { measured, written }, base }))
}

fn written(whole: Decimal, part: Option<&str>) -> String {
    match part {
        None => plain(whole),
        Some(part) if whole.is_zero() => part.to_owned(),
        Some(part) => format!("{} {part}", plain(whole)),
    }
}

/// A larger measure and what is left in a smaller one: in whole ones of it where they come near enough. Of litres and
/// millilitres nothing is left in spoons.
fn in_two(way: &LadderWay<'_>, base: Decimal) -> Result<Option<(InKitchenUnits, Decimal)>, Overflow> {
    let mut rungs = way.ladder.rungs.iter();
    let mut lead = None;
    for rung in rungs.by_ref() {
        let count = exact::div(base, way.size(&rung.unit))?;
        let down = LadderWay { rounding: Rounding::Down, ..*way };
        if count >= rung.from {
            lead = nearest(&down, rung, count, !rung.leads)?.map(|lead| (lead, rung.decimal));
            break;
        }
    }
    let Some((lead, decimal)) = lead else { return Ok(None) };
    let left = exact::sub(base, lead.base)?;
    for rung in rungs.filter(|rung| rung.decimal == decimal) {
        let count = exact::div(left, way.size(&rung.unit))?;
        if count < rung.from {
            continue;
        }
        let all: Vec<Filled> =
            [nearest(way, rung, count, true)?, nearest(way, rung, count, false)?].into_iter().flatten().collect();
        let near = |filled: &&Filled| exact::add(lead.base, filled.base).is_ok_and(|both| is_near(both, base, NEAR));
        let Some(found) = all.iter().find(near).or(all.last()) else { return Ok(None) };
        let parts = vec![lead.part, found.part.clone()];
        return Ok(Some((InKitchenUnits { parts, is_too_little: false }, exact::add(lead.base, found.base)?)));
    }
    Ok(None)
}

//! Amounts weighed out, and what a metric jug measures: to the step that a scale of that size shows, in the largest unit that
//! says it, or in two.

use super::{InKitchenUnits, KitchenPart, LadderWay, steps};
use crate::measure::Unit;
use crate::measure::ladder::Rung;
use crate::number::{Decimal, Overflow, exact};

/// How near a round number of the larger unit must come to be told instead: a four-hundredth, so that nobody weighs out an
/// ounce less a quarter. Common practice, no source.
const ROUND: Decimal = Decimal::from_parts(400, 0, 0, false, 0);

/// `base` grams or millilitres on the grid of a ladder; `None` where they are less than its first step.
pub(super) fn weighed(way: &LadderWay<'_>, base: Decimal) -> Result<Option<InKitchenUnits>, Overflow> {
    let Some(last) = way.ladder.rungs.last() else { return Ok(None) };
    let count = exact::div(base, way.size(&last.unit))?;
    let step = way.ladder.grid.iter().find(|(below, _)| count < *below).map(|(_, step)| *step);
    let Some(step) = step.or(way.ladder.finest) else { return Ok(None) };
    let weighed = exact::mul(steps(count, step, way.rounding)?, step)?;
    let many = match rounded(way, count, step)? {
        Some(round) => round,
        None => weighed,
    };
    if many < last.from {
        return Ok(None);
    }
    for rung in &way.ladder.rungs {
        let per = exact::div(way.size(&rung.unit), way.size(&last.unit))?;
        let whole = exact::div(many, per)?;
        if whole < rung.from {
            continue;
        }
        let unit = Unit::Standard(way.unit(&rung.unit));
        if rung.decimal {
            return Ok(Some(InKitchenUnits::one(KitchenPart::decimal(whole, unit))));
        }
        let (lead, left) = (whole.trunc(), exact::sub(many, exact::mul(whole.trunc(), per)?)?);
        if rung.unit == last.unit {
            return Ok(Some(InKitchenUnits::one(in_eighths(many, unit)?)));
        }
        let part = rung.parts.iter().find(|part| exact::mul(part.value, per) == Ok(left));
        let mut parts = vec![KitchenPart::decimal(lead, unit.clone())];
        match part {
            Some(part) => {
                let amount = exact::add(lead, part.value)?;
                let written = format!("{} {}", crate::number::plain(lead), part.text);
                parts = vec![KitchenPart { measured: crate::measure::Measured::new(amount, unit), written }];
            }
            None if left.is_zero() => {}
            None => parts.push(in_eighths(left, smaller(way, last))?),
        }
        return Ok(Some(InKitchenUnits { parts, is_too_little: false }));
    }
    Ok(None)
}

/// `count` of the last rung as a round number of a larger one told in fractions, where that comes near.
fn rounded(way: &LadderWay<'_>, count: Decimal, step: Decimal) -> Result<Option<Decimal>, Overflow> {
    let Some((rung, last)) = way.ladder.rungs.first().zip(way.ladder.rungs.last()) else { return Ok(None) };
    let per = exact::div(way.size(&rung.unit), way.size(&last.unit))?;
    if rung.decimal || count < per {
        return Ok(None);
    }
    let quarter = exact::div(per, Decimal::from(4))?.max(step);
    let round = exact::mul(steps(count, quarter, way.rounding)?, quarter)?;
    let apart = exact::mul(exact::sub(round, count)?.abs(), ROUND)?;
    Ok((apart <= count).then_some(round))
}

fn smaller(way: &LadderWay<'_>, last: &Rung) -> Unit {
    Unit::Standard(way.unit(&last.unit))
}

/// A number of eighths as a cook writes it.
fn in_eighths(amount: Decimal, unit: Unit) -> Result<KitchenPart, Overflow> {
    const EIGHTHS: [&str; 8] = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"];
    let whole = amount.trunc();
    let eighths = exact::mul(exact::sub(amount, whole)?, Decimal::from(8))?;
    let index = eighths.is_integer().then(|| usize::try_from(eighths).ok()).flatten();
    let plain = crate::number::plain;
    let written = match index.and_then(|index| EIGHTHS.get(index)) {
        Some(&"") => plain(whole),
        Some(part) if whole.is_zero() => (*part).to_owned(),
        Some(part) => format!("{} {part}", plain(whole)),
        None => plain(amount),
    };
    Ok(KitchenPart { measured: crate::measure::Measured::new(amount.normalize(), unit), written })
}

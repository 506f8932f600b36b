//! Notes on what a line borrowed, at the item's price: which measure, taken for what, and which yield.

use super::bearing;
use crate::costing::conversion::equivalence::MeasureFrom;
use crate::costing::line::Coster;
use crate::costing::price::bought::PriceFrom;
use crate::costing::trace::{LineTrace, YieldFrom};
use crate::food::{Food, FoodMeasure, MeasureText};
use crate::kitchen::{ItemId, NameKey, Reference};
use crate::measure::Dimension;
use crate::number::{Decimal, plain};
use crate::problem::{Code, Fault};
use crate::schema::Column;

/// Says what a line of the item borrowed, and what it might.
pub(in crate::costing) fn tell(coster: &mut Coster<'_>, id: ItemId, trace: &LineTrace) {
    let (kitchen, entry) = (coster.kitchen, coster.entry);
    let Some((item, cost)) = kitchen.item(id).zip(coster.costing.item(id)) else { return };
    let row = match cost.from {
        PriceFrom::Row(row) => kitchen.entries.prices.get(row),
        PriceFrom::TestRow(_) | PriceFrom::Water => None,
    };
    let at = |column| row.map_or_else(|| entry.input.place(Column::Item), |row| row.input.place(column));
    let mut found = Vec::new();
    for step in &trace.measures {
        let MeasureFrom::Reference(measure) = step else { continue };
        let number = measure.food().map_or("", Food::number);
        let weight = plain(measure.grams());
        let one = measure.text();
        let fault = Fault::new(
            Code::MeasureBorrowed,
            format!(
                "what “{}” weighs by measure was borrowed: {one} = {weight} g (SR28 {number}){}",
                item.name,
                taken_for(*measure, entry.input.text(Column::Prep).trim())
            ),
            format!("Weigh yours and add a Measures row for “{}”, or leave it so.", item.name),
        );
        found.push(fault.at(at(Column::Item)));
    }
    let published =
        |food: Reference| food.food().filter(|food| food.refuse().is_some()).map(|food| (food, food.trim_yield()));
    let needs_yield = trace.is_yielded();
    match trace.yield_from {
        YieldFrom::Reference(food) if needs_yield => {
            let fault = yield_of(food).map(|remark| {
                Fault::new(
                    Code::YieldBorrowed,
                    format!("the yield of “{}” was borrowed: {remark}", item.name),
                    "Test your own and type it in Yield, or leave it so.",
                )
            });
            found.extend(fault.map(|fault| fault.at(at(Column::ReferenceFood))));
        }
        YieldFrom::None if needs_yield => {
            let food = bearing(item, cost).map(Reference::Kitchen);
            if let Some((food, (listed, fraction))) = food.and_then(|food| Some((food, published(food)?)))
                && !listed.is_nut()
            {
                let fault = Fault::new(
                    Code::YieldPublished,
                    format!(
                        "no yield is stated for “{}”, so 100 % is used; {} has a published one of {} %",
                        item.name,
                        food.spoken(),
                        percent(fraction)
                    ),
                    format!("Type your own in Yield, or write {} in Reference food to borrow that one.", food.name()),
                );
                found.push(fault.at(at(Column::Item)));
            }
        }
        _ => {}
    }
    coster.costing.problems.extend(found);
}

/// Which yield a food lends, and of what; `None` of what is never trimmed.
fn yield_of(food: Reference) -> Option<String> {
    let listed = food.food()?;
    let percent = percent(listed.trim_yield());
    let what = match listed.refuse() {
        None if listed.is_trimmed() => {
            return Some(format!("100 % of {}, for which no refuse is published", food.spoken()));
        }
        None => return None,
        Some(_) if listed.is_nut() => return Some("its refuse is the shell, so 100 % is used".to_owned()),
        Some(refuse) => refuse.what,
    };
    Some(if listed.counts_fat_as_refuse() {
        format!("{percent} % of {}; its refuse counts the fat cut off ({what})", food.spoken())
    } else {
        format!("{percent} % of {}, a published average (off: {what})", food.spoken())
    })
}

fn percent(fraction: Decimal) -> String {
    fraction.checked_mul(Decimal::ONE_HUNDRED).map(plain).unwrap_or_default()
}

/// What the line asks for instead of the preparation that a measure holds for; empty where they are the same, or where it
/// is one piece, which is not cut.
fn taken_for(measure: FoodMeasure, asked: &str) -> String {
    let reading = measure.read();
    let is_cut =
        !reading.preps.is_empty() || reading.unit.dimension() == Dimension::Volume || MeasureText::is_size(asked);
    if asked.is_empty() {
        return if reading.preps.is_empty() { String::new() } else { ", as the line's Prep is blank".to_owned() };
    }
    let is = |word: &str| NameKey::of(word) == NameKey::of(asked);
    let is_same = reading.preps.iter().any(|prep| is(prep)) || reading.size().is_some_and(is);
    if is_same || !is_cut { String::new() } else { format!(", taken for “{asked}”") }
}

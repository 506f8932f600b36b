//! What a line borrows from the built-in foods: measures where the kitchen has none, and a yield where a price row names
//! the food. What is borrowed is always said, at the item's price.

use super::bought::{ItemCost, PriceFrom};
use super::convert::Stop;
use super::kind::Kind;
use super::line::Coster;
use super::link::{Links, MeasureFrom};
use super::links;
use super::trace::{LineTrace, YieldFrom};
use crate::food::{Food, KitchenFood};
use crate::kitchen::bridge::Basis;
use crate::kitchen::price::Item;
use crate::kitchen::{Field, ItemId, Reference};
use crate::measure::Measured;
use crate::number::{Decimal, plain};
use crate::problem::{Code, Fault};
use crate::schema::Column;

/// Everything that joins kinds of an item, with the measures of a built-in food where its own and its pack do not join
/// what is asked for to its price: of the food that its price row names, else of the plain food that bears its name.
///
/// # Errors
/// A [`Stop`] when nothing joins the two, with the foods that might.
pub(super) fn links(coster: &Coster<'_>, item: &Item, cost: &ItemCost, quantity: &Measured) -> Result<Links, Stop> {
    let own = links::of_item(coster.kitchen, item, cost);
    let mut fault = match coster.convert(quantity, &cost.kind, &own) {
        Err(Stop::Fault(fault)) if fault.code == Code::MeasureMissing => fault,
        _ => return Ok(own),
    };
    let named = match &cost.reference {
        Field::Broken => return Err(Stop::Known),
        Field::Given((food, _)) => Some(*food),
        Field::Blank => None,
    };
    let bearing = bearing(item, cost).filter(|food| food.is_plain()).map(Reference::Kitchen);
    for food in [named, bearing].into_iter().flatten() {
        let mut links = own.clone();
        links.reference(food);
        match coster.convert(quantity, &cost.kind, &links) {
            Ok(_) => return Ok(links),
            Err(Stop::Fault(other)) if other.code == Code::MeasureMissing => {}
            Err(other) => return Err(other),
        }
    }
    if named.is_none()
        && let Some(near) = Reference::near(&item.name, |_| true)
    {
        fault.help =
            format!("{} A built-in food may lend its measures: name it in Reference food, such as {near}.", fault.help);
    }
    Err(Stop::Fault(fault))
}

/// The built-in food that bears the item's name. What is bought in cans is not the fresh food of that name.
fn bearing(item: &Item, cost: &ItemCost) -> Option<KitchenFood> {
    let is_canned = matches!(&cost.kind, Kind::Own(name) if name.ends_with("can"));
    Reference::kitchen(&item.key).filter(|_| !is_canned)
}

/// Says what a line of the item borrowed, and what it might.
pub(super) fn tell(coster: &mut Coster<'_>, id: ItemId, trace: &LineTrace) {
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
            format!("what “{}” weighs by measure was borrowed: {one} = {weight} g (SR28 {number})", item.name),
            format!("Weigh yours and add a Measures row for “{}”, or leave it so.", item.name),
        );
        found.push(fault.at(at(Column::Item)));
    }
    let published =
        |food: Reference| food.food().filter(|food| food.refuse().is_some()).map(|food| (food, food.trim_yield()));
    let percent = |fraction: Decimal| fraction.checked_mul(Decimal::ONE_HUNDRED).map(plain).unwrap_or_default();
    let needs_yield = trace.shrinks || trace.basis == Basis::Ep;
    match trace.yield_from {
        YieldFrom::Reference(food) if needs_yield => {
            let Some((listed, fraction)) = published(food) else { return coster.costing.problems.extend(found) };
            let what = listed.refuse().map_or("", |refuse| refuse.what);
            let remark = if listed.is_nut() {
                "its refuse is the shell, so 100 % is used".to_owned()
            } else if listed.counts_fat_as_refuse() {
                format!("{} % of {}; its refuse counts the fat cut off ({what})", percent(fraction), food.spoken())
            } else {
                format!("{} % of {}, a published average (off: {what})", percent(fraction), food.spoken())
            };
            let fault = Fault::new(
                Code::YieldBorrowed,
                format!("the yield of “{}” was borrowed: {remark}", item.name),
                "Test your own and type it in Yield, or leave it so.",
            );
            found.push(fault.at(at(Column::ReferenceFood)));
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

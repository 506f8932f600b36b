//! Borrowing from the built-in foods: measures where the kitchen has none, and a yield where a price row names the
//! food. What is borrowed is always said, at the item's price; where nothing helped, the line says what was looked at.

mod help;
mod tell;

pub(in crate::costing) use tell::tell;

use super::convert::NoConversion;
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::equivalence::Links;
use crate::costing::conversion::equivalences_of_item;
use crate::costing::line::Coster;
use crate::costing::price::bought::ItemCost;
use crate::food::KitchenFood;
use crate::kitchen::price::Item;
use crate::kitchen::{Field, Reference};
use crate::measure::Measured;
use crate::problem::Code;

/// Everything that joins kinds of an item, with the measures of a built-in food where its own and its pack do not join
/// what is asked for to its price: of the food that its price row names, else of the plain food that bears its name.
///
/// # Errors
/// A [`NoConversion`] when nothing joins the two, with the foods that might.
pub(in crate::costing) fn links(
    coster: &Coster<'_>,
    item: &Item,
    cost: &ItemCost,
    quantity: &Measured,
) -> Result<Links, NoConversion> {
    let asked = (&quantity.unit, coster.line.prep.as_ref());
    let own = equivalences_of_item::of_item(coster.kitchen, item, cost, asked);
    let mut fault = match coster.convert(quantity, &cost.kind, &own) {
        Err(NoConversion::Fault(fault)) if fault.code == Code::MeasureMissing => fault,
        _ => return Ok(own),
    };
    let (named, bearing) = match &cost.reference {
        // The cook has another food in mind than the one that bears the name.
        Field::Broken => (None, None),
        Field::Given((food, _)) => (Some(*food), bearing(item, cost)),
        Field::Blank => (None, bearing(item, cost)),
    };
    let bearing = bearing.filter(|food| food.is_plain()).map(Reference::Kitchen);
    let asked = help::AskedMeasure { coster, item, cost, quantity, own: &own };
    let mut looked_at = Vec::new();
    for food in [named, bearing.filter(|food| named != Some(*food))].into_iter().flatten() {
        let links = asked.with(food);
        match coster.convert(quantity, &cost.kind, &links) {
            Ok(_) => return Ok(links),
            Err(NoConversion::Fault(other)) if other.code == Code::MeasureMissing => looked_at.push(food),
            Err(other) => return Err(other),
        }
    }
    fault.help = asked.help(&fault.help, named, &looked_at).into();
    Err(NoConversion::Fault(fault))
}

/// The built-in food that bears the item's name. What is bought in cans is not the fresh food of that name.
fn bearing(item: &Item, cost: &ItemCost) -> Option<KitchenFood> {
    let is_canned = matches!(&cost.kind, BaseUnitKind::Own(name) if name.ends_with("can"));
    Reference::kitchen(&item.key).filter(|_| !is_canned)
}

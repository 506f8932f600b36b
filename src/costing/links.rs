//! What joins kinds of measure for one food: a bought item's measures and pack, a recipe's measures and batch.

use super::bought::{ItemCost, PriceFrom};
use super::convert::{Converted, Stop, Wanted, convert};
use super::link::Links;
use crate::kitchen::bridge::Basis;
use crate::kitchen::price::Item;
use crate::kitchen::recipe::Recipe;
use crate::kitchen::{Field, ItemId, Kitchen};
use crate::measure::Measured;
use crate::problem::{Code, Fault};

/// Everything that joins kinds of a bought item: its measures, then its pack.
pub(super) fn of_item(kitchen: &Kitchen, item: &Item, cost: &ItemCost) -> Links {
    let volumes = kitchen.settings.volumes;
    let mut links = Links::default();
    links.measures(&item.bridge, volumes).cans();
    if let PriceFrom::Row(row) = cost.from
        && let Some(Field::Given(pack)) = kitchen.entries.prices.get(row).map(|row| &row.pack)
    {
        links.pack(pack, row, volumes);
    }
    links
}

/// Everything that joins kinds of a recipe: its measures, then what it makes.
pub(super) fn of_recipe(kitchen: &Kitchen, recipe: &Recipe) -> Links {
    let volumes = kitchen.settings.volumes;
    let mut links = Links::default();
    links.measures(&recipe.bridge, volumes).makes(&recipe.makes, volumes);
    links
}

/// The stop of a recipe whose batch is not known in the measure asked for.
pub(super) fn no_makes(name: &str) -> Stop {
    Stop::Fault(Fault::new(
        Code::YieldUnknown,
        format!("“{name}” does not say how much it makes"),
        "Add Makes to its card (such as 3 qt), or ask for it by the portion or batch.",
    ))
}

/// Converts `quantity` of an item as purchased into the base unit of its price.
pub(crate) fn as_purchased(
    kitchen: &Kitchen,
    id: ItemId,
    cost: &ItemCost,
    quantity: &Measured,
) -> Result<Converted, Stop> {
    let Some(item) = kitchen.item(id) else { return Err(Stop::Known) };
    let wanted = Wanted { quantity, prep: None, basis: Basis::Ap, name: &item.name };
    convert(wanted, &cost.kind, &of_item(kitchen, item, cost), kitchen.settings.volumes)
}

//! Equivalences of one food: a bought item's measures and pack, a recipe's measures and batch.

use super::convert::{AskedBy, Converted, NoConversion, Wanted, convert};
use super::package;
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::equivalence::{AskedOf, Links};
use crate::costing::price::bought::ItemCost;
use crate::kitchen::price::Item;
use crate::kitchen::recipe::Recipe;
use crate::kitchen::{ItemId, Kitchen, NameKey};
use crate::measure::{Measured, Unit};
use crate::problem::{Code, Fault, Want};

/// Everything that joins kinds of a bought item on the way from `unit` of it, in a preparation, to its price: its measures,
/// its pack, what `unit` means of that, and what its pieces weighed in a test.
pub(crate) fn of_item(
    kitchen: &Kitchen,
    item: &Item,
    cost: &ItemCost,
    (unit, prep): (&Unit, Option<&NameKey>),
) -> Links {
    let volumes = kitchen.settings.volumes;
    let mut links = Links::default();
    let asked = AskedOf { units: [unit, &cost.kind.unit()], prep, volumes };
    links.measures(&item.bridge, asked).counted(item.counted).cans();
    if let Some((row, pack)) = package::weighing(kitchen, cost) {
        links.pack(pack, row, volumes);
    }
    if let Some((row, pack)) = package::in_use(kitchen, cost) {
        links.packages(pack, unit, row, volumes);
    }
    links
}

/// Everything that joins kinds of a recipe on the way from a unit of it to another kind, in a preparation: its measures,
/// then what it makes.
pub(crate) fn of_recipe(
    kitchen: &Kitchen,
    recipe: &Recipe,
    (unit, kind): (&Unit, &BaseUnitKind),
    prep: Option<&NameKey>,
) -> Links {
    let volumes = kitchen.settings.volumes;
    let mut links = Links::default();
    let asked = AskedOf { units: [unit, &kind.unit()], prep, volumes };
    links.measures(&recipe.bridge, asked).makes(&recipe.makes, volumes);
    links
}

/// The stop of a recipe whose batch is not known in the measure asked for.
pub(crate) fn no_makes(name: &str) -> NoConversion {
    NoConversion::Fault(
        Fault::new(
            Code::YieldUnknown,
            format!("“{name}” does not say how much it makes"),
            "Add Makes to its card (such as 3 qt), or ask for it by the portion or batch.",
        )
        .wanting(Want::Batch { recipe: name.to_owned() }),
    )
}

/// The stop of a recipe that is asked for by the portion and does not say how many it gives.
pub(crate) fn no_portions(name: &str) -> NoConversion {
    NoConversion::Fault(
        Fault::new(
            Code::YieldUnknown,
            format!("“{name}” does not say how many portions it makes"),
            "Add Portions, or Makes and Portion, to its card; or ask for it by the batch.",
        )
        .wanting(Want::Batch { recipe: name.to_owned() }),
    )
}

/// Converts `quantity` of an item as purchased into the base unit of its price.
pub(crate) fn as_purchased(
    kitchen: &Kitchen,
    id: ItemId,
    cost: &ItemCost,
    quantity: &Measured,
) -> Result<Converted, NoConversion> {
    asked_by(kitchen, id, cost, (quantity, AskedBy::Recipe))
}

/// The same for whoever asks.
pub(crate) fn asked_by(
    kitchen: &Kitchen,
    id: ItemId,
    cost: &ItemCost,
    (quantity, by): (&Measured, AskedBy),
) -> Result<Converted, NoConversion> {
    let Some(item) = kitchen.item(id) else { return Err(NoConversion::Known) };
    let wanted = Wanted { by, ..Wanted::as_purchased(quantity, &item.name) };
    convert(wanted, &cost.kind, &of_item(kitchen, item, cost, (&quantity.unit, None)), kitchen.settings.volumes)
}

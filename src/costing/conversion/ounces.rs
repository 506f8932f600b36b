//! A bare `oz` of what is measured by volume: an ounce in the jug rather than on the scale, unless it was typed as a
//! weight or something leads from weight to volume. Every such reading is a warning.

use super::convert::{NoConversion, Wanted, convert};
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::equivalences_of_item::of_recipe;
use crate::kitchen::Kitchen;
use crate::kitchen::menu::Dish;
use crate::kitchen::recipe::Recipe;
use crate::measure::{Measured, Unit};
use crate::problem::{Code, Fault};
use crate::schema::Column;

/// Whether `typed` says that its ounces are a weight: `oz wt`.
pub(crate) fn says_weight(typed: &str) -> bool {
    let typed = typed.to_lowercase();
    typed.contains("wt") || typed.contains("weight")
}

/// The warning that an oz of what is `measured` (“Cream” is priced by volume) was read as a fluid ounce.
pub(crate) fn warning(measured: &str) -> Fault {
    Fault::new(
        Code::OunceOfLiquid,
        format!("{measured}, so oz was read as fluid ounces"),
        "Write fl oz, or oz wt if it is weighed.",
    )
}

/// What a portion of `recipe`, typed as `typed`, was meant to be where `kind` is wanted: the same in fluid ounces where
/// only those lead there, with the warning; `None` where it stands as it is.
fn meant(
    kitchen: &Kitchen,
    recipe: &Recipe,
    portion: &Measured,
    typed: &str,
    kind: &BaseUnitKind,
) -> Option<(Measured, Fault)> {
    if !portion.unit.is_bare_ounce() || says_weight(typed) {
        return None;
    }
    let leads = |quantity: &Measured| {
        let links = of_recipe(kitchen, recipe, (&quantity.unit, kind), None);
        let wanted = Wanted::as_purchased(quantity, &recipe.name);
        convert(wanted, kind, &links, kitchen.settings.volumes)
    };
    let poured = Measured::new(portion.amount, Unit::fluid_ounce());
    let is_poured = matches!(leads(portion), Err(NoConversion::Fault(_))) && leads(&poured).is_ok();
    is_poured.then(|| (poured, warning(&format!("“{}” is measured by volume", recipe.name))))
}

/// The portion on a recipe's card as it was meant, with the warning it may need.
pub(crate) fn of_card(kitchen: &Kitchen, recipe: &Recipe) -> Option<(Measured, Option<Fault>)> {
    let portion = recipe.portion.as_ref()?;
    let typed = kitchen.entries.recipes.get(recipe.entry).map(|entry| entry.input.text(Column::Portion));
    let kind = recipe.makes.first().map(|makes| BaseUnitKind::of(&makes.unit, kitchen.settings.volumes).0);
    let meant = kind.and_then(|kind| meant(kitchen, recipe, portion, &typed.unwrap_or_default(), &kind));
    Some(match meant {
        Some((poured, warning)) => (poured, Some(warning)),
        None => (portion.clone(), None),
    })
}

/// A dish's own portion as it was meant, with the warning it may need. It is compared with `card`, the portion on the
/// card as meant, else with what the recipe makes.
pub(crate) fn of_dish(
    kitchen: &Kitchen,
    dish: &Dish,
    recipe: &Recipe,
    card: Option<&Measured>,
) -> Option<(Measured, Option<Fault>)> {
    let own = dish.portion.as_ref()?;
    let row = dish.row.and_then(|row| kitchen.entries.menu.get(row));
    let typed = row.map(|row| row.input.text(Column::Portion)).unwrap_or_default();
    let kind = card.or(recipe.makes.first()).map(|other| BaseUnitKind::of(&other.unit, kitchen.settings.volumes).0);
    let meant = kind.and_then(|kind| meant(kitchen, recipe, own, &typed, &kind));
    Some(match meant {
        Some((poured, warning)) => (poured, Some(warning)),
        None => (own.clone(), None),
    })
}

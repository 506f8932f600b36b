//! Steps of a dish: its share of the batch, Q and spice, and how that stands against its price.

use super::recipe_steps::put_on;
use super::sources;
use super::step::{OfWhat, StepWord, Tongue, Walk};
use crate::costing::dish::{Plate, ServedAs};
use crate::costing::q_and_spice::{QAndSpice, portions_bearing_q};
use crate::costing::rate::Amount;
use crate::costing::{Costing, DishCost, RecipeCost};
use crate::kitchen::menu::Dish;
use crate::kitchen::recipe::{QFactor, Recipe};
use crate::kitchen::settings::{PriceRounding, Setting};
use crate::kitchen::{DishId, InputRow, Kitchen};
use crate::number::rounding::half_up;
use crate::number::{Decimal, exact, plain};
use crate::problem::Place;
use crate::results::dish;
use crate::results::figures::at_most;
use crate::schema::Column;

/// The steps of a dish.
pub(super) fn walk(walk: &mut Walk<'_>, kitchen: &Kitchen, costing: &Costing, index: usize) -> Option<()> {
    let dish = kitchen.dishes.get(index)?;
    let id = dish.recipe?;
    let recipe = kitchen.recipe(id)?;
    let entry = kitchen.entries.recipes.get(recipe.entry)?;
    let cost = costing.dishes.get(index)?.as_ref()?;
    let batch = costing.recipe(id)?;
    walk.begin(&dish.name, OfWhat::Dish);
    walk.money(StepWord::BatchFood, batch.food, format!("the recipe {}", recipe.name), Some(&recipe.place));
    let share = dish::share(cost.plate())?;
    let served = served(dish, (recipe, batch), cost.served);
    let row = dish.row.and_then(|row| kitchen.entries.menu.get(row)).map(|row| &row.input);
    let at = |column: Column| place(row, &entry.input, column);
    walk.percent(StepWord::Share, share, served, at(Column::Portion).as_ref());
    walk.money(StepWord::Food, cost.food, "that share of the food", None);
    let factors = QAndSpice::of_dish(kitchen, recipe);
    if factors.is_any() {
        put_on(walk, entry, &factors, (cost.q, cost.spice));
    }
    let words = if factors.is_any() { "food, Q and spice" } else { "the food" };
    walk.money(StepWord::PortionCost, cost.portion_cost, words, None);
    against_price(walk, kitchen, dish, cost, at);
    Some(())
}

/// The steps from the pot to a plate of a dish that a line names, as a set menu's does.
pub(super) fn plate(walk: &mut Walk<'_>, kitchen: &Kitchen, costing: &Costing, id: DishId) -> Option<()> {
    let dish = kitchen.dish(id)?;
    let recipe = kitchen.recipe(dish.recipe?)?;
    let batch = costing.recipe(dish.recipe?)?;
    let plate = costing.plate(id)?;
    let row = dish.row.and_then(|row| kitchen.entries.menu.get(row)).map(|row| &row.input);
    let card = kitchen.entries.recipes.get(recipe.entry).map(|entry| &entry.input)?;
    walk.begin(&dish.name, OfWhat::Dish);
    walk.money(StepWord::OfBatch, batch.batch, format!("the recipe {}", recipe.name), Some(&recipe.place));
    let said = served(dish, (recipe, batch), plate.served);
    walk.percent(StepWord::Share, dish::share(plate)?, said, place(row, card, Column::Portion).as_ref());
    let of = |money: Decimal| plate.share.times(money).and_then(Amount::value).ok();
    let said =
        with_its_q(walk.tongue, QAndSpice::of_batch(kitchen, &costing.scenario, recipe), plate, batch, of(batch.q)?);
    walk.money(StepWord::Plate, of(batch.batch)?, said, None);
    Some(())
}

/// What of its card's Q a plate has as a course: `q`, its share of the batch's. By itself it has a whole one.
fn with_its_q(tongue: Tongue<'_>, factors: QAndSpice, plate: Plate, batch: &RecipeCost, q: Decimal) -> String {
    let Some((QFactor::Money(each), _)) = factors.q else {
        let own = if factors.is_any() { ", with the Q and spice of its card" } else { "" };
        return format!("that share of it{own}");
    };
    let bearing = portions_bearing_q(plate.served, batch.portions).ok().flatten();
    let alone = bearing.and_then(|portions| portions.times(each).and_then(Amount::value).ok());
    // A share such as a third is not kept whole.
    let kept = |money: Decimal| half_up(money, 9);
    match alone.filter(|alone| kept(*alone) != kept(q)) {
        Some(alone) => format!(
            "that share of it, with {} of its card's Q; a plate sold by itself has {}",
            tongue.money(q),
            tongue.money(alone)
        ),
        None => format!("that share of it, with {} of its card's Q", tongue.money(q)),
    }
}

/// What is served as a dish, and of how much.
fn served(dish: &Dish, (recipe, batch): (&Recipe, &RecipeCost), served: ServedAs) -> String {
    let portions = batch.portions.and_then(|portions| portions.value().ok());
    let own = || dish.portion.as_ref().map(ToString::to_string);
    match served {
        ServedAs::Portions(_) => {
            let many = own().unwrap_or_else(|| "1 portion".to_owned());
            format!("{many} of the {} that a batch gives", at_most(portions.unwrap_or_default(), 2))
        }
        ServedAs::Batches(many) => format!("{} of it", plural(many, "batch", "batches")),
        ServedAs::OfPortion(_) | ServedAs::OfMakes => {
            let of_card = recipe.portion.as_ref().zip(portions).filter(|_| served != ServedAs::OfMakes);
            let of_card =
                of_card.map(|(portion, many)| format!("; a batch gives {} portions of {portion}", at_most(many, 2)));
            own().map(|own| format!("{own} of it are served{}", of_card.unwrap_or_default())).unwrap_or_default()
        }
    }
}

fn plural(many: Decimal, one: &str, several: &str) -> String {
    format!("{} {}", at_most(many, 4), if many == Decimal::ONE { one } else { several })
}

/// Where a fact of a dish stands: on the menu, else on the card.
fn place(row: Option<&InputRow>, card: &InputRow, column: Column) -> Option<Place> {
    let stands = |row: &&InputRow| !row.typed(column).is_blank();
    row.filter(stands).or_else(|| Some(card).filter(stands)).map(|row| row.place(column))
}

fn against_price(
    walk: &mut Walk<'_>,
    kitchen: &Kitchen,
    dish: &Dish,
    cost: &DishCost,
    at: impl Fn(Column) -> Option<Place>,
) {
    if let (Some(price), Some(ex_tax)) = (dish.menu_price, cost.ex_tax) {
        walk.money(StepWord::MenuPrice, price, "", at(Column::MenuPrice).as_ref());
        if !dish.tax.is_zero() {
            let place = at(Column::Tax).or_else(|| sources::setting(kitchen, Setting::TaxIncluded));
            walk.percent(StepWord::Tax, dish.tax, "", place.as_ref());
        }
        walk.money(StepWord::ExTax, ex_tax, "", None);
    }
    if let Some(fraction) = cost.food_cost {
        walk.percent(StepWord::Percent, fraction, "portion cost by the price without tax", None);
    }
    if let Some(margin) = cost.margin {
        walk.money(StepWord::Margin, margin, "the price without tax less the portion cost", None);
    }
    if let Some(target) = dish.target {
        let own = at(Column::Target);
        let words = if own.is_some() { "" } else { "by the settings" };
        let place = own.or_else(|| sources::setting(kitchen, Setting::TargetFoodCost));
        walk.percent(StepWord::Target, target, words, place.as_ref());
    }
    if let (Some(over), Some(ex_tax)) = (cost.over.filter(|over| !over.is_zero()), cost.ex_tax) {
        let money = exact::mul(over, ex_tax).map(|money| walk.tongue.money(money)).unwrap_or_default();
        walk.percent(StepWord::Over, over, format!("in points; {money} a portion"), None);
    }
    if let Some(price) = cost.price_at_target {
        let words = match kitchen.settings.rounding {
            PriceRounding::None => "portion cost by the target, tax put back".to_owned(),
            PriceRounding::Step(step) => {
                format!("portion cost by the target, tax put back, up to the next {}", walk.tongue.money(step))
            }
            PriceRounding::Ending(ending) => {
                let ending = plain(ending);
                let ending = ending.strip_prefix('0').filter(|ending| !ending.is_empty()).unwrap_or(&ending);
                format!("portion cost by the target, tax put back, up to the next price that ends in {ending}")
            }
        };
        let place = match kitchen.settings.rounding {
            PriceRounding::None => None,
            PriceRounding::Step(_) => sources::setting(kitchen, Setting::PriceStep),
            PriceRounding::Ending(_) => sources::setting(kitchen, Setting::PriceEnding),
        };
        walk.money(StepWord::AtTarget, price, words, place.as_ref());
    }
}

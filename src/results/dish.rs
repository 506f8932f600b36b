//! Dishes: what a portion costs, and how that stands against its menu price.

use schemars::JsonSchema;
use serde::Serialize;

use super::target_status::TargetStatus;
use super::value::{Figure, TypedQuantity, percent};
use super::word::Word;
use crate::costing::dish::ServedAs;
use crate::costing::q_and_spice::portions_bearing_q;
use crate::costing::{Costing, DishCost, Plate, RecipeCost};
use crate::kitchen::Kitchen;
use crate::kitchen::menu::Dish;
use crate::kitchen::recipe::Recipe;
use crate::number::{Decimal, exact};

/// A dish that is sold.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Dish")]
pub struct DishResult<'a> {
    /// Its name, as first spelled in the book.
    pub name: &'a str,
    /// The recipe it is a portion of; null where the book has none of that name.
    pub recipe: Option<&'a str>,
    /// How much of the recipe is served.
    pub portion: TypedQuantity,
    /// Its share of the batch, 1 for all of it; null where it could not be costed.
    pub share: Option<Figure>,
    /// The ingredients of the dish: its share of what the batch's cost.
    pub food_cost: Option<Figure>,
    /// Accompaniments and incidentals, by the card's or the settings' Q factor.
    pub q: Option<Figure>,
    /// Seasoning, by the card's or the settings' spice factor.
    pub spice: Option<Figure>,
    /// What one portion costs, Q and spice included; null where it could not be costed.
    pub portion_cost: Option<Figure>,
    /// The menu price as typed, with tax where menu prices include it; null where none is stated.
    pub menu_price: Option<Figure>,
    /// The menu price without tax.
    pub ex_tax_price: Option<Figure>,
    /// The portion cost in % of the menu price without tax.
    pub food_cost_percent: Option<Figure>,
    /// The target food-cost %; null where there is none.
    pub target_percent: Option<Figure>,
    /// What it would have to sell for, with tax and stepped as the settings say; null without a target.
    pub price_at_target: Option<Figure>,
    /// The menu price without tax, less the portion cost.
    pub margin: Option<Figure>,
    /// How it stands against its target.
    pub standing: Word<TargetStatus>,
}

impl<'a> DishResult<'a> {
    /// Every dish of a kitchen, in book order.
    pub fn all(kitchen: &'a Kitchen, costing: &'a Costing) -> impl Iterator<Item = DishResult<'a>> {
        let dishes = kitchen.dishes.iter().zip(&costing.dishes);
        dishes.map(|(dish, cost)| DishResult::of(kitchen, dish, cost.as_ref()))
    }

    /// A dish; `cost` is `None` where a problem stops it.
    fn of(kitchen: &'a Kitchen, dish: &'a Dish, cost: Option<&DishCost>) -> Self {
        let recipe = dish.recipe.and_then(|id| kitchen.recipe(id));
        let portion = dish.portion.as_ref().or_else(|| recipe.and_then(|recipe| recipe.portion.as_ref()));
        let one = || TypedQuantity { qty: Some(Figure(Decimal::ONE)), unit: Some("portion".to_owned()) };
        DishResult {
            name: &dish.name,
            recipe: recipe.map(|recipe| recipe.name.as_str()),
            portion: portion.map_or_else(one, TypedQuantity::of),
            share: cost.and_then(|cost| share(cost.plate())).map(Figure),
            food_cost: cost.map(|cost| Figure(cost.food)),
            q: cost.map(|cost| Figure(cost.q)),
            spice: cost.map(|cost| Figure(cost.spice)),
            portion_cost: cost.map(|cost| Figure(cost.portion_cost)),
            menu_price: dish.menu_price.map(Figure),
            ex_tax_price: cost.and_then(|cost| cost.ex_tax).map(Figure),
            food_cost_percent: cost.and_then(|cost| cost.food_cost).and_then(percent),
            target_percent: dish.target.and_then(percent),
            price_at_target: cost.and_then(|cost| cost.price_at_target).map(Figure),
            margin: cost.and_then(|cost| cost.margin).map(Figure),
            standing: Word(TargetStatus::of(dish, cost)),
        }
    }
}

/// What is served as a share of the batch, 1 for all of it; `None` where it does not fit.
pub(crate) fn share(plate: Plate) -> Option<Decimal> {
    plate.share.value().ok()
}

/// How many of what its share is taken by is served: of the card's portions; of batches; of base units of what the batch
/// makes, where the card has no portion. `None` where it does not fit.
pub(crate) fn served(plate: Plate, recipe: &Recipe, batch: Option<&RecipeCost>) -> Option<Decimal> {
    match plate.served {
        ServedAs::Portions(many) | ServedAs::Batches(many) => Some(many),
        ServedAs::OfPortion(ratio) => ratio.value().ok(),
        ServedAs::OfMakes => {
            let (_, makes) = batch?.makes.as_ref()?;
            let kept = exact::sub(Decimal::ONE, recipe.serving_loss).ok()?;
            plate.share.times(*makes).and_then(|amount| amount.times(kept)).and_then(|amount| amount.value()).ok()
        }
    }
}

/// How many times a Q in money falls on a dish; `None` for batches, which ask for their portions, and where it does not fit.
pub(crate) fn qs(cost: &DishCost) -> Option<Decimal> {
    portions_bearing_q(cost.served, None).ok()??.value().ok()
}

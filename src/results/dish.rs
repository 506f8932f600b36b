//! Dishes: what a portion costs, and how that stands against its menu price.

use schemars::JsonSchema;
use serde::Serialize;

use super::value::{Amount, Figure, percent};
use crate::costing::DishCost;
use crate::kitchen::Kitchen;
use crate::kitchen::menu::Dish;
use crate::number::Decimal;

/// A dish that is sold.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Dish")]
pub(crate) struct DishResult<'a> {
    /// Its name, as first spelled in the book.
    pub name: &'a str,
    /// The recipe it is a portion of; null where the book has none of that name.
    pub recipe: Option<&'a str>,
    /// How much of the recipe is served.
    pub portion: Amount,
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
}

impl<'a> DishResult<'a> {
    /// A dish; `cost` is `None` where a problem stops it.
    pub fn of(kitchen: &'a Kitchen, dish: &'a Dish, cost: Option<&DishCost>) -> Self {
        let recipe = dish.recipe.and_then(|id| kitchen.recipe(id));
        let portion = dish.portion.as_ref().or_else(|| recipe.and_then(|recipe| recipe.portion.as_ref()));
        let one = || Amount { qty: Some(Figure(Decimal::ONE)), unit: Some("portion".to_owned()) };
        DishResult {
            name: &dish.name,
            recipe: recipe.map(|recipe| recipe.name.as_str()),
            portion: portion.map_or_else(one, Amount::of),
            share: cost.and_then(|cost| cost.share.value().ok()).map(Figure),
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
        }
    }
}

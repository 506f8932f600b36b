//! The dishes as a tidy table.

use super::{Cell, table};
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::results::dish::DishResult;

const COLUMNS: [&str; 18] = [
    "dish",
    "recipe",
    "portion_qty",
    "portion_unit",
    "portion_cost",
    "menu_price",
    "food_cost_percent",
    "target_percent",
    "price_at_target",
    "margin",
    "standing",
    "share",
    "food_cost",
    "q",
    "spice",
    "ex_tax_price",
    "currency",
    "as_of",
];

/// One row per dish, in book order.
pub fn dishes(kitchen: &Kitchen, costing: &Costing) -> String {
    let rows = DishResult::all(kitchen, costing).map(|figures| {
        [
            Cell::text(figures.name),
            Cell::text(figures.recipe.unwrap_or_default()),
            Cell::figure(figures.portion.qty),
            Cell::text(&figures.portion.unit.unwrap_or_default()),
            Cell::figure(figures.portion_cost),
            Cell::figure(figures.menu_price),
            Cell::figure(figures.food_cost_percent),
            Cell::figure(figures.target_percent),
            Cell::figure(figures.price_at_target),
            Cell::figure(figures.margin),
            Cell::of(Some(figures.standing)),
            Cell::figure(figures.share),
            Cell::figure(figures.food_cost),
            Cell::figure(figures.q),
            Cell::figure(figures.spice),
            Cell::figure(figures.ex_tax_price),
            Cell::text(&kitchen.settings.currency),
            Cell::day(costing.scenario.date),
        ]
    });
    table(&COLUMNS, rows)
}

//! The dishes as a tidy table.

use super::{CsvCell, table};
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
            CsvCell::text(figures.name),
            CsvCell::text(figures.recipe.unwrap_or_default()),
            CsvCell::figure(figures.portion.qty),
            CsvCell::text(&figures.portion.unit.unwrap_or_default()),
            CsvCell::figure(figures.portion_cost),
            CsvCell::figure(figures.menu_price),
            CsvCell::figure(figures.food_cost_percent),
            CsvCell::figure(figures.target_percent),
            CsvCell::figure(figures.price_at_target),
            CsvCell::figure(figures.margin),
            CsvCell::of(Some(figures.standing)),
            CsvCell::figure(figures.share),
            CsvCell::figure(figures.food_cost),
            CsvCell::figure(figures.q),
            CsvCell::figure(figures.spice),
            CsvCell::figure(figures.ex_tax_price),
            CsvCell::text(&kitchen.settings.currency),
            CsvCell::day(costing.scenario.date),
        ]
    });
    table(&COLUMNS, rows)
}

//! The recipes as a tidy table.

use super::{CsvCell, table};
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::results::recipe::RecipeResult;

const COLUMNS: [&str; 12] = [
    "recipe",
    "food_cost",
    "batch_cost",
    "makes_qty",
    "makes_unit",
    "portions",
    "portion_cost",
    "uncosted_lines",
    "portion_qty",
    "portion_unit",
    "currency",
    "as_of",
];

/// One row per recipe, in book order.
pub fn recipes(kitchen: &Kitchen, costing: &Costing) -> String {
    let rows = RecipeResult::all(kitchen, costing).map(|figures| {
        [
            CsvCell::text(figures.name),
            CsvCell::figure(figures.food_cost),
            CsvCell::figure(figures.batch_cost),
            CsvCell::figure(figures.makes.qty),
            CsvCell::text(figures.makes.unit.as_deref().unwrap_or_default()),
            CsvCell::figure(figures.portions),
            CsvCell::figure(figures.portion_cost),
            CsvCell::count(figures.uncosted_lines),
            CsvCell::figure(figures.portion.qty),
            CsvCell::text(figures.portion.unit.as_deref().unwrap_or_default()),
            CsvCell::text(&kitchen.settings.currency),
            CsvCell::day(costing.scenario.date),
        ]
    });
    table(&COLUMNS, rows)
}

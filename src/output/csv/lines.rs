//! The lines of all recipes as a tidy table.

use super::{Cell, table};
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::kitchen::recipe::LineEntry;
use crate::results::line::LineResult;
use crate::results::recipe::RecipeResult;
use crate::schema::Column;

const COLUMNS: [&str; 19] = [
    "recipe",
    "line",
    "ingredient",
    "source",
    "qty",
    "unit",
    "prep",
    "basis",
    "base_qty",
    "base_unit",
    "yield_percent",
    "yield_from",
    "measure_from",
    "unit_cost",
    "line_cost",
    "share_percent",
    "note",
    "currency",
    "as_of",
];

/// One row per line of every recipe, in book order.
pub fn lines(kitchen: &Kitchen, costing: &Costing) -> String {
    let recipes = kitchen.recipes.iter().zip(RecipeResult::all(kitchen, costing));
    let rows = recipes.flat_map(|(recipe, figures)| {
        let entries = kitchen.entries.recipes.get(recipe.entry).into_iter().flat_map(|entry| &entry.lines);
        let lines = entries.zip(figures.lines).zip(1..);
        let rows: Vec<_> =
            lines.map(|((entry, line), number)| row(kitchen, costing, (figures.name, number), entry, line)).collect();
        rows
    });
    table(&COLUMNS, rows)
}

/// A line of the recipe named `at`, where it is the line of that number, from 1.
fn row(kitchen: &Kitchen, costing: &Costing, at: (&str, usize), entry: &LineEntry, line: LineResult<'_>) -> [Cell; 19] {
    [
        Cell::text(at.0),
        Cell::count(at.1),
        Cell::text(line.item),
        Cell::of(line.source),
        Cell::figure(line.qty),
        Cell::text(&line.unit.unwrap_or_default()),
        Cell::text(&entry.prep),
        Cell::of(Some(line.basis)),
        Cell::figure(line.base_qty),
        Cell::of(line.base_unit),
        Cell::figure(line.yield_percent),
        Cell::of(line.yield_from),
        Cell::of(line.measure_from),
        Cell::figure(line.unit_cost),
        Cell::figure(line.cost),
        Cell::figure(line.share_percent),
        Cell::text(&entry.input.text(Column::Note)),
        Cell::text(&kitchen.settings.currency),
        Cell::day(costing.scenario.date),
    ]
}

//! The lines of all recipes as a tidy table.

use super::{CsvCell, table};
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
fn row(
    kitchen: &Kitchen,
    costing: &Costing,
    at: (&str, usize),
    entry: &LineEntry,
    line: LineResult<'_>,
) -> [CsvCell; 19] {
    [
        CsvCell::text(at.0),
        CsvCell::count(at.1),
        CsvCell::text(line.item),
        CsvCell::of(line.source),
        CsvCell::figure(line.qty),
        CsvCell::text(&line.unit.unwrap_or_default()),
        CsvCell::text(&entry.prep),
        CsvCell::of(Some(line.basis)),
        CsvCell::figure(line.base_qty),
        CsvCell::of(line.base_unit),
        CsvCell::figure(line.yield_percent),
        CsvCell::of(line.yield_from),
        CsvCell::of(line.measure_from),
        CsvCell::figure(line.unit_cost),
        CsvCell::figure(line.cost),
        CsvCell::figure(line.share_percent),
        CsvCell::text(&entry.input.text(Column::Note)),
        CsvCell::text(&kitchen.settings.currency),
        CsvCell::day(costing.scenario.date),
    ]
}

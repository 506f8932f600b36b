//! A scaled recipe as a tidy table: a row for every line of it, and of the recipes within it where they were asked for.

use super::{CsvCell, table};
use crate::analysis::Resized;
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::results::scale;

const COLUMNS: [&str; 18] = [
    "recipe",
    "factor",
    "item",
    "prep",
    "qty",
    "unit",
    "measured",
    "too_little",
    "far_off",
    "times",
    "more",
    "more_unit",
    "more_g",
    "cost",
    "cost_as_measured",
    "cost_difference",
    "currency",
    "as_of",
];

/// One row per line.
pub fn scale(kitchen: &Kitchen, costing: &Costing, resized: &Resized) -> String {
    let results = scale::scale(kitchen, costing, resized, &[]);
    let mut rows = Vec::new();
    for recipe in std::iter::once(&results.recipe).chain(&results.sub_recipes) {
        for line in &recipe.lines {
            rows.push([
                CsvCell::text(recipe.name),
                CsvCell::figure(recipe.factor),
                CsvCell::text(&line.item),
                CsvCell::text(line.prep),
                CsvCell::figure(line.exact.qty),
                CsvCell::text(line.exact.unit.as_deref().unwrap_or_default()),
                CsvCell::text(&line.in_words),
                CsvCell::word(if line.too_little { "yes" } else { "no" }),
                CsvCell::word(if line.far_off { "yes" } else { "no" }),
                CsvCell::figure(line.times),
                CsvCell::figure(line.more),
                CsvCell::of(line.more_unit),
                CsvCell::figure(line.more_g),
                CsvCell::figure(line.cost),
                CsvCell::figure(line.cost_as_measured),
                CsvCell::figure(line.cost_difference),
                CsvCell::text(&kitchen.settings.currency),
                CsvCell::day(costing.scenario.date),
            ]);
        }
    }
    table(&COLUMNS, rows.into_iter())
}

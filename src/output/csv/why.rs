//! Steps to a figure as a tidy table: one row per step, in the order in which they are taken.

use super::CsvCell;
use super::table;
use crate::results::why::WhyResults;

const COLUMNS: [&str; 14] = [
    "asked", "of", "of_what", "line", "name", "step", "amount", "unit", "from", "file", "sheet", "cell", "currency",
    "as_of",
];

/// The table.
pub fn why(results: &WhyResults<'_>) -> String {
    let rows = results.steps.iter().map(|step| {
        [
            CsvCell::text(results.name),
            CsvCell::text(&step.of),
            CsvCell::of(Some(step.of_what)),
            CsvCell::count(step.line),
            CsvCell::text(&step.name),
            CsvCell::of(Some(step.step)),
            CsvCell::figure(step.amount),
            CsvCell::text(&step.unit),
            CsvCell::text(&step.from),
            CsvCell::text(&step.file),
            CsvCell::text(&step.sheet),
            CsvCell::text(&step.cell),
            CsvCell::text(results.currency),
            CsvCell::day(results.as_of.0),
        ]
    });
    table(&COLUMNS, rows)
}

//! Steps to a figure as a tidy table: one row per step, in the order in which they are taken; then what one more percent on
//! each price would add, and how many points of the food-cost % that is.

use super::CsvCell;
use super::table;
use crate::results::why::WhyResults;

const COLUMNS: [&str; 14] = [
    "asked", "of", "of_what", "line", "name", "step", "amount", "unit", "from", "file", "sheet", "cell", "currency",
    "as_of",
];

/// What one more percent on a price would add to the figure asked for, in money.
const ADDS: &str = "one percent more";
/// The same in points of the food-cost %.
const POINTS: &str = "points of one percent more";

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
    let one_percent = results.one_percent.iter().flat_map(|one| {
        let row = |step, amount| {
            [
                CsvCell::text(results.name),
                CsvCell::text(results.name),
                CsvCell::of(Some(results.what)),
                CsvCell::count(0),
                CsvCell::text(one.item),
                CsvCell::word(step),
                CsvCell::figure(Some(amount)),
                CsvCell::default(),
                CsvCell::default(),
                CsvCell::default(),
                CsvCell::default(),
                CsvCell::default(),
                CsvCell::text(results.currency),
                CsvCell::day(results.as_of.0),
            ]
        };
        [Some(row(ADDS, one.adds)), one.points.map(|points| row(POINTS, points))].into_iter().flatten()
    });
    table(&COLUMNS, rows.chain(one_percent))
}

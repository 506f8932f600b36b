//! Tidy tables as comma-separated text: the dishes, lines and parts of a costing, the problems of a book, what codes
//! mean.
//!
//! Figures are those of the JSON, in full precision; what is not known is blank. Text that a spreadsheet program would
//! run as a formula gets an apostrophe before it: see `cell`. UTF-8; rows end with a line feed; cells that hold a comma,
//! a quotation mark or a line break stand in quotation marks (RFC 4180 but for the carriage return).

mod cell;
mod dishes;
mod food_control;
mod lines;
mod menu_mix;
mod order_list;
mod parts;
mod plan;
mod recipes;
mod reprice;
mod scale;
mod trim;
mod why;

use ::csv::Writer;

use cell::CsvCell;
pub use dishes::dishes;
pub use food_control::{counted_items, food_control};
pub use lines::lines;
pub use menu_mix::menu_mix;
pub use order_list::order_list;
pub use parts::parts;
pub use plan::{balance, portions, purchases};
pub use recipes::recipes;
pub use reprice::reprice;
pub use scale::scale;
pub use trim::{sweeps, ways};
pub use why::why;

use crate::kitchen::Reference;
use crate::problem::{Explanation, Problem};
use crate::results::word::Word;

/// The columns of the problems.
const PROBLEM_COLUMNS: [&str; 7] = ["code", "severity", "file", "sheet", "cell", "message", "help"];

/// The columns of the explanations.
const EXPLANATION_COLUMNS: [&str; 14] = [
    "code",
    "severity",
    "group",
    "title",
    "means",
    "matters",
    "example",
    "cell",
    "message",
    "help",
    "instead",
    "not_sure",
    "list",
    "list_instead",
];

/// One row per problem, in the order given.
pub fn problems(problems: &[Problem]) -> String {
    let row = |problem: &Problem| {
        let cell = problem.place.cell_ref().map(|cell| cell.to_string()).unwrap_or_default();
        [
            CsvCell::of(Some(Word(problem.code))),
            CsvCell::of(Some(Word(problem.severity()))),
            CsvCell::text(problem.place.file_name()),
            CsvCell::text(problem.place.sheet_name()),
            CsvCell::text(&cell),
            CsvCell::text(&problem.message()),
            CsvCell::text(&problem.help),
        ]
    };
    table(&PROBLEM_COLUMNS, problems.iter().map(row))
}

/// One row per code, in the order given. Examples are csv text within their cells.
pub fn explanations(explanations: &[&Explanation]) -> String {
    let row = |one: &&Explanation| {
        [
            CsvCell::of(Some(Word(one.code))),
            CsvCell::of(Some(Word(one.code.severity()))),
            CsvCell::word(one.group),
            CsvCell::word(one.code.title()),
            CsvCell::text(&one.means),
            CsvCell::text(&one.matters),
            CsvCell::text(&one.example),
            CsvCell::text(&one.problem.place.within_file()),
            CsvCell::text(&one.problem.message()),
            CsvCell::text(&one.problem.help),
            CsvCell::text(&one.instead),
            CsvCell::text(one.not_sure.as_deref().unwrap_or_default()),
            CsvCell::text(one.list.as_deref().unwrap_or_default()),
            CsvCell::text(one.list_instead.as_deref().unwrap_or_default()),
        ]
    };
    table(&EXPLANATION_COLUMNS, explanations.iter().map(row))
}

/// One row per food.
pub fn foods(foods: &[Reference]) -> String {
    let row = |reference: &Reference| {
        let food = reference.food()?;
        let refuse = food.refuse();
        Some([
            CsvCell::text(reference.name()),
            CsvCell::text(food.number()),
            CsvCell::text(food.description()),
            CsvCell::number(refuse.map(|refuse| refuse.percent)),
            CsvCell::text(refuse.map_or("", |refuse| refuse.what)),
        ])
    };
    table(&["name", "sr28", "description", "refuse_percent", "refuse"], foods.iter().filter_map(row))
}

/// One row per item, as it may be pasted: the item and the likeliest food.
pub fn proposals(proposed: &[(String, Vec<Reference>)]) -> String {
    let row = |(item, foods): &(String, Vec<Reference>)| {
        [CsvCell::text(item), foods.first().map(|food| CsvCell::text(food.name())).unwrap_or_default()]
    };
    table(&["Item", "Reference food"], proposed.iter().map(row))
}

fn table<const N: usize>(header: &[&str; N], rows: impl Iterator<Item = [CsvCell; N]>) -> String {
    let mut writer = Writer::from_writer(Vec::new());
    // Writing to memory fails only for rows of unequal length, which the types rule out.
    let _ = writer.write_record(header);
    for row in rows {
        let _ = writer.write_record(&row);
    }
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

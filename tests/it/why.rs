//! Why a figure is what it is: every step adds up again, one more percent is what costing anew with that price gives, and
//! books worked by hand say what they should.

mod adds_up;
mod courses;
mod names;
mod one_percent;
mod passed_over;
mod worked;

use std::fs;
use std::path::Path;

use parings::analysis::Why;
use parings::analysis::why::Subject;
use parings::output::json;
use parings::results::why;
use parings::{Costing, Problem, Reading};
use serde_json::Value;

use crate::support::cost_bytes;

/// The files of every sample book and template.
pub fn books() -> Vec<Vec<(String, Vec<u8>)>> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut books = vec![
        vec!["sample-books/teaching-kitchen.xlsx"],
        vec!["sample-books/metric-kitchen-prices.csv", "sample-books/metric-kitchen.xlsx"],
        vec!["sample-books/messy-kitchen-supplier.xlsx", "sample-books/messy-kitchen-recipes.xlsx"],
    ];
    books.extend(["templates/us.xlsx", "templates/metric.xlsx", "templates/us-plain.xlsx"].map(|file| vec![file]));
    let read = |file: &str| (file.to_owned(), fs::read(root.join(file)).unwrap());
    books.into_iter().map(|files| files.into_iter().map(read).collect()).collect()
}

/// A book, read and costed.
pub fn costed(files: &[(String, Vec<u8>)]) -> (Reading, Costing) {
    let files: Vec<(&str, &[u8])> = files.iter().map(|(name, bytes)| (name.as_str(), bytes.as_slice())).collect();
    cost_bytes(&files)
}

/// The JSON of why `subject` costs what it does.
pub fn explained(reading: &Reading, costing: &Costing, subject: Subject, problems: &[Problem]) -> Value {
    let behind = Why::of(&reading.kitchen, costing, subject, None);
    serde_json::from_str(&json::why(&why::why(&reading.kitchen, costing, &behind, problems))).unwrap()
}

/// The JSON of why what is named costs what it does, in a book of csv text.
#[track_caller]
pub fn asked(book: &str, name: &str, line: Option<&str>) -> Value {
    let (reading, costing) = cost_bytes(&[("book.csv", book.as_bytes())]);
    let behind = Why::named(&reading.kitchen, &costing, name, line).unwrap_or_else(|error| panic!("{error}"));
    let problems = reading.problems_with(&costing);
    let json = json::why(&why::why(&reading.kitchen, &costing, &behind, &problems));
    let json = serde_json::from_str(&json).unwrap();
    crate::wire::schemas::meets("why", &json);
    json
}

/// The amount of a step: of what, its line, which step.
#[track_caller]
pub fn step<'a>(json: &'a Value, of: &str, line: u64, word: &str) -> &'a Value {
    let steps = json["steps"].as_array().unwrap();
    let found = steps.iter().find(|step| step["of"] == of && step["line"] == line && step["step"] == word);
    found.unwrap_or_else(|| panic!("no “{word}” of line {line} of “{of}” in {json:#}"))
}

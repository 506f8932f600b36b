//! Laws of a whole run: no panic, an answer or a reason, JSON that is JSON, no error cell, nothing lost of what went into
//! a yield test, and a costed book that costs the same.

use std::io::{Cursor, Read};

use jiff::civil::{DateTime, date, datetime};
use parings::costing::Costing;
use parings::{Options, Reading, Scenario, Source, cost, read, write};
use serde_json::Value;

const STAMP: DateTime = datetime(2026, 11, 20, 12, 0, 0, 0);

fn opened(files: &[(String, Vec<u8>)]) -> Option<(Reading, Costing)> {
    let sources: Vec<Source<'_>> = files.iter().map(|(name, bytes)| Source { name, bytes }).collect();
    let reading = match read(&sources, Options::on(date(2026, 11, 20))) {
        Ok(reading) => reading,
        Err(error) => {
            assert!(!error.to_string().is_empty(), "a refusal says why");
            return None;
        }
    };
    let costing = cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
    Some((reading, costing))
}

fn json(reading: &Reading, costing: &Costing) -> Value {
    let problems = reading.problems_with(costing);
    for problem in &problems {
        assert!(!problem.message().is_empty(), "a problem says what is wrong");
    }
    let text = parings::output::json::costing(&reading.kitchen, costing, &problems);
    serde_json::from_str(&text).expect("JSON is JSON")
}

/// Runs a book of these files through everything and holds it against the laws.
///
/// # Panics
/// When a law is broken.
pub fn hold(files: &[(String, Vec<u8>)]) {
    let Some((reading, costing)) = opened(files) else { return };
    let first = json(&reading, &costing);
    whole(&first);
    let Ok(written) = write(&reading, &costing, STAMP) else { return };
    no_error_cell(&written);
    let again = [("again.xlsx".to_owned(), written)];
    let (reading, costing) = opened(&again).expect("a workbook of ours is read");
    same(&first, &json(&reading, &costing));
}

/// What the parts of a test bear is what went in: the costs of main parts and by-products add up to that of the test.
fn whole(json: &Value) {
    for test in json["tests"].as_array().into_iter().flatten() {
        let Some(cost) = number(&test["cost"]) else { continue };
        let parts: Option<Vec<f64>> =
            test["parts"].as_array().into_iter().flatten().map(|part| number(&part["cost"])).collect();
        let Some(parts) = parts.filter(|parts| !parts.is_empty()) else { continue };
        let sum: f64 = parts.iter().sum();
        let size = parts.iter().fold(cost.abs(), |size, part| size.max(part.abs()));
        assert!((sum - cost).abs() <= 1e-9 * size.max(1.0), "parts of {} bear {sum} of {cost}", test["name"]);
    }
}

fn number(value: &Value) -> Option<f64> {
    value.as_str()?.parse().ok()
}

/// Every figure of a costed book, read again, is what it was.
fn same(first: &Value, second: &Value) {
    for list in ["dishes", "recipes", "tests"] {
        let (first, second) = (&first[list], &second[list]);
        assert!(alike(first, second), "{list} differ:\n{first:#}\n{second:#}");
    }
}

/// Whether two values are one, but for the last digits of numbers.
fn alike(first: &Value, second: &Value) -> bool {
    match (first, second) {
        (Value::Array(first), Value::Array(second)) => {
            first.len() == second.len() && first.iter().zip(second).all(|(first, second)| alike(first, second))
        }
        (Value::Object(first), Value::Object(second)) => {
            first.len() == second.len()
                && first.iter().all(|(key, value)| second.get(key).is_some_and(|other| alike(value, other)))
        }
        _ if first == second => true,
        _ => match (number(first), number(second)) {
            (Some(first), Some(second)) => (first - second).abs() <= 1e-12 * first.abs().max(second.abs()),
            _ => false,
        },
    }
}

/// No cell of ours holds an error.
fn no_error_cell(workbook: &[u8]) {
    let mut zip = zip::ZipArchive::new(Cursor::new(workbook)).expect("a workbook is a zip");
    for at in 0..zip.len() {
        let mut part = zip.by_index(at).expect("a part can be read");
        let name = part.name().map(|name| name.into_owned()).unwrap_or_default();
        if !name.starts_with("xl/worksheets/sheet") {
            continue;
        }
        let mut text = String::new();
        part.read_to_string(&mut text).expect("a sheet is text");
        assert!(!text.contains(" t=\"e\""), "an error cell in {name}");
    }
}

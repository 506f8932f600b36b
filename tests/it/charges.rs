//! How the parts of a yield test are charged: shares that add up, runs that agree, values and what they count for, and what was
//! added to what went in.

mod added;
mod names;
mod runs;
mod shares;
mod values;

use parings::schema::Column;
use serde_json::Value;

use crate::support::{cost_bytes, cost_json};

/// A book in dollars, costed.
fn costed(tables: &str) -> Value {
    cost_json(&[("book.csv", &book(tables))])
}

fn book(tables: &str) -> String {
    format!("Setting,Value\nCurrency,USD\nCosting date,2026-11-20\n\n{tables}")
}

/// Problems as `cell severity code`; the first table stands in row 5.
fn problems(json: &Value) -> Vec<String> {
    let text = |problem: &Value, key: &str| problem[key].as_str().unwrap().to_owned();
    let problems = json["problems"].as_array().unwrap().iter();
    problems.map(|one| format!("{} {} {}", text(one, "cell"), text(one, "severity"), text(one, "code"))).collect()
}

/// The cell of a costed workbook that holds what a part's row says under a column.
fn cell_of(bytes: &[u8], part: &str, column: Column) -> String {
    let (reading, _) = cost_bytes(&[("book.xlsx", bytes)]);
    let row = reading.kitchen.entries.tests.iter().find(|row| row.part == part).unwrap();
    row.input.place(column).cell_ref().unwrap().to_string()
}

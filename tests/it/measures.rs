//! What a pack counts, what a piece weighs and what it yields, and which of the kitchen's measures a line takes: each rule
//! with a book of its own, worked by hand. The kitchens are invented.

mod counted;
mod driven;
mod live;
mod many;
mod named;
mod order;
mod pieces;
mod rows;
mod suppliers;

use serde_json::Value;

use crate::support::{cost_json, rounded};

pub const HEAD: &str = "Setting,Value\nCurrency,USD\nCosting date,2026-11-20\nTarget food cost,30%\n\n";

/// A recipe of one portion that asks for `lines`: Ingredient, Qty, Unit, Prep, Basis, Yield.
pub fn asking(lines: &[&str]) -> String {
    format!("\nRecipe,Plate\nPortions,1\nIngredient,Qty,Unit,Prep,Basis,Yield\n{}\n", lines.join("\n"))
}

#[track_caller]
pub fn json(tables: &str, lines: &[&str]) -> Value {
    cost_json(&[("book.csv", &format!("{HEAD}{tables}{}", asking(lines)))])
}

/// The costs of the lines of the plate, to 10 places; `-` where it is not costed.
pub fn costs(json: &Value) -> Vec<String> {
    let lines = json["recipes"][0]["lines"].as_array().unwrap();
    let said = |line: &Value| match &line["cost"] {
        Value::Null => "-".to_owned(),
        cost => rounded(cost, 10).normalize().to_string(),
    };
    lines.iter().map(said).collect()
}

/// What the plate's lines cost, and that nothing is wrong.
#[track_caller]
pub fn sound(tables: &str, lines: &[&str]) -> Vec<String> {
    let json = json(tables, lines);
    crate::support::no_errors(&json);
    costs(&json)
}

/// The cost of a plate with one line.
#[track_caller]
pub fn one(tables: &str, line: &str) -> String {
    costs(&json(tables, &[line])).remove(0)
}

/// The problems of a code: their cells and messages.
pub fn told<'a>(json: &'a Value, code: &str) -> Vec<(&'a str, &'a str)> {
    let all = json["problems"].as_array().unwrap().iter().filter(|problem| problem["code"] == code);
    all.map(|problem| (problem["cell"].as_str().unwrap(), problem["message"].as_str().unwrap())).collect()
}

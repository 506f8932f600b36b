//! A recipe of a book written as csv, scaled, and its JSON, which is as its schema says.

use parings::analysis::Resized;
use parings::analysis::resize::{NotScaled, Request, Size};
use parings::output::json;
use rust_decimal::Decimal;
use serde_json::Value;

use crate::support::cost_bytes;

/// A request without anything beside its size.
pub fn request(name: &str, size: Size) -> Request {
    Request { name: name.to_owned(), size, portion: None, whole: None, with_sub_recipes: false }
}

pub fn to(name: &str, amount: &str) -> Request {
    request(name, Size::To(amount.to_owned()))
}

pub fn by(name: &str, factor: &str) -> Request {
    request(name, Size::By(factor.to_owned()))
}

pub fn from(name: &str, on_hand: &[&str]) -> Request {
    request(name, Size::From(on_hand.iter().map(|text| (*text).to_owned()).collect()))
}

/// What comes of a request.
pub fn scaled(book: &str, request: &Request) -> Result<Value, NotScaled> {
    let (reading, costing) = cost_bytes(&[("book.csv", book.as_bytes())]);
    let resized = Resized::of(&reading.kitchen, &costing, request)?;
    let problems = reading.problems_with(&costing);
    let json = serde_json::from_str(&json::scale(&reading.kitchen, &costing, &resized, &problems)).unwrap();
    crate::wire::schemas::meets("scale", &json);
    Ok(json)
}

#[track_caller]
pub fn done(book: &str, request: &Request) -> Value {
    scaled(book, request).unwrap_or_else(|refusal| panic!("{refusal}"))
}

/// The line of an ingredient.
#[track_caller]
pub fn line<'a>(recipe: &'a Value, item: &str) -> &'a Value {
    let lines = recipe["lines"].as_array().unwrap();
    lines.iter().find(|line| line["item"] == item).unwrap_or_else(|| panic!("no {item} in {recipe:#}"))
}

#[track_caller]
pub fn words<'a>(recipe: &'a Value, item: &str) -> &'a str {
    line(recipe, item)["in_words"].as_str().unwrap()
}

/// A figure of the JSON.
#[track_caller]
pub fn figure(value: &Value) -> Decimal {
    value.as_str().unwrap_or_else(|| panic!("{value} is no figure")).parse().unwrap()
}

//! Which price counts and whose yield: prices that end, rows that are lent a yield, rows in any order, and the marks of
//! decimals. Every book is worked by hand, and its workbook is recalculated by another engine and costed again.

mod ended;
mod marks;
mod order;
mod stopped;
mod titles;
mod yields;

use serde_json::Value;

use crate::faults::chance::same_again;
use crate::recalc::assert_recalculates;
use crate::support::{cost_json, dec, is_its_turn, recipe};
use crate::workbook::costed;

/// A book that is costed on 20 November 2026: these price rows, and a soup of a pound of leeks for one.
pub fn soup(prices: &str) -> String {
    format!(
        "{prices}\nRecipe,Soup\nPortions,1\nMenu price,$9.00\nIngredient,Qty,Unit\nLeeks,1,lb\n\n\
         Setting,Value\nTarget food cost,30%\nCosting date,2026-11-20\n"
    )
}

/// The JSON of a book whose workbook is recalculated, and the same book when costed again: of every fourth, by turns.
#[track_caller]
pub fn everywhere(book: &str) -> Value {
    if is_its_turn(4, book.as_bytes()) {
        same_again("book.csv", book.as_bytes()).unwrap();
        assert_recalculates(&costed("book.csv", book.as_bytes()).2, "book.csv");
    }
    cost_json(&[("book.csv", book)])
}

/// The food cost of the soup; `None` where it has none.
pub fn food(json: &Value) -> Option<rust_decimal::Decimal> {
    let cost = &recipe(json, "Soup")["food_cost"];
    if cost.is_null() { None } else { Some(dec(cost)) }
}

/// The problems but those on published yields and old prices, as cell, code.
pub fn told(json: &Value) -> Vec<String> {
    let all = json["problems"].as_array().unwrap();
    let others = all.iter().filter(|one| one["code"] != "yield-published" && one["code"] != "price-old");
    others.map(|one| format!("{} {}", one["cell"].as_str().unwrap(), one["code"].as_str().unwrap())).collect()
}

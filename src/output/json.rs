//! JSON: numbers as plain decimal strings in full precision, lists in book order. The records that are written here are
//! also what the published schemas are made from.

use jiff::civil::Date;
use serde::Serialize;

use super::steering;
use crate::analysis::{FoodControl, MenuMix, OrderList, Resized, Trim};
use crate::costing::Costing;
use crate::kitchen::{Kitchen, Reference};
use crate::problem::{Explanation, Problem};
use crate::results::changes::Changes;
use crate::results::why::WhyResults;
use crate::results::{costs, explained, food_control, foods, found, menu_mix, order_list, reprice, scale, trim};
use crate::schema::SheetFound;

/// The JSON of a costing.
pub fn costing(kitchen: &Kitchen, costing: &Costing, problems: &[Problem]) -> String {
    pretty(&costs::costs(kitchen, costing, problems))
}

/// The JSON of a check.
pub fn found(as_of: Date, sheets: &[SheetFound], problems: &[Problem]) -> String {
    pretty(&found::found(as_of, sheets, problems))
}

/// The JSON of what trim is worth.
pub fn trim(kitchen: &Kitchen, costing: &Costing, trim: &Trim, problems: &[Problem]) -> String {
    pretty(&trim::trim(kitchen, costing, trim, problems))
}

/// The JSON of the menu by popularity and margin.
pub fn menu_mix(kitchen: &Kitchen, costing: &Costing, mix: &MenuMix, problems: &[Problem]) -> String {
    pretty(&menu_mix::menu_mix(kitchen, costing, mix, problems))
}

/// The JSON of what to order for the plan; `list` is `None` without one.
pub fn order_list(kitchen: &Kitchen, costing: &Costing, list: Option<&OrderList>, problems: &[Problem]) -> String {
    pretty(&order_list::order_list(kitchen, costing, list, problems))
}

/// The JSON of actual against standard food cost.
pub fn food_control(kitchen: &Kitchen, costing: &Costing, control: &FoodControl, problems: &[Problem]) -> String {
    pretty(&food_control::food_control(kitchen, costing, control, problems))
}

/// The JSON of new prices.
pub fn reprice(changes: &Changes<'_>, problems: &[Problem]) -> String {
    pretty(&reprice::reprice(changes, problems))
}

/// The JSON of why a figure is what it is.
pub fn why(results: &WhyResults<'_>) -> String {
    pretty(results)
}

/// The JSON of a recipe in another size.
pub fn scale(kitchen: &Kitchen, costing: &Costing, resized: &Resized, problems: &[Problem]) -> String {
    pretty(&scale::scale(kitchen, costing, resized, problems))
}

/// The JSON of what problem codes mean.
pub fn explained(explanations: &[&Explanation]) -> String {
    pretty(&explained::explained(explanations))
}

/// The JSON of built-in foods.
pub fn foods(foods: &[Reference]) -> String {
    pretty(&foods::foods(foods))
}

/// The JSON of the foods that items might borrow from.
pub fn proposals(proposed: &[(String, Vec<Reference>)]) -> String {
    pretty(&foods::proposals(proposed))
}

/// Pretty-printed, with a final line break. A value made of strings, numbers and lists always has a JSON form.
pub(super) fn pretty(results: &impl Serialize) -> String {
    let mut text = steering::escaped_in_json(serde_json::to_string_pretty(results).unwrap_or_default());
    text.push('\n');
    text
}

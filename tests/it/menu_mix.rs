//! The menu mix against tables of published courses and textbooks, worked by hand where trim and sales lists come in. The
//! dishes' names and money are the sources'; the kitchens around them are invented.

mod published;
mod sales;
mod sheet;

use parings::analysis::MenuMix;
use serde_json::Value;

use crate::support::cost_bytes;

/// The JSON of `mix --format json` for files of csv text, which is as its schema says.
#[track_caller]
pub fn mix(files: &[(&str, &str)]) -> Value {
    let files: Vec<(&str, &[u8])> = files.iter().map(|(name, text)| (*name, text.as_bytes())).collect();
    mix_of(&files)
}

#[track_caller]
pub fn mix_of(files: &[(&str, &[u8])]) -> Value {
    let (reading, costing) = cost_bytes(files);
    let mix = MenuMix::of(&reading.kitchen, &costing);
    let text = parings::output::json::menu_mix(&reading.kitchen, &costing, &mix, &reading.problems_with(&costing));
    let json = serde_json::from_str(&text).unwrap();
    crate::wire::schemas::meets("mix", &json);
    json
}

/// A dish of the first group.
#[track_caller]
pub fn dish<'a>(json: &'a Value, name: &str) -> &'a Value {
    let dishes = json["groups"][0]["dishes"].as_array().unwrap();
    dishes.iter().find(|dish| dish["name"] == name).unwrap_or_else(|| panic!("no “{name}” in {json:#}"))
}

/// A book whose dishes cost so much each: one plate of each is bought ready.
pub fn plates(dishes: &[(&str, u32, &str, &str)]) -> String {
    let prices = dishes.iter().map(|(name, _, cost, _)| format!("Plate of {name},1 each,{cost}\n"));
    let cards = dishes
        .iter()
        .map(|(name, ..)| format!("\nRecipe,{name}\nPortions,1\nIngredient,Qty,Unit\nPlate of {name},1,each\n"));
    let menu = dishes.iter().map(|(name, sold, _, price)| format!("{name},{price},{sold}\n"));
    let (prices, cards, menu): (String, String, String) = (prices.collect(), cards.collect(), menu.collect());
    format!("Item,Pack,Price\n{prices}{cards}\nDish,Menu price,Sold\n{menu}")
}

//! Example kitchen of the pages, costed to what they work out by hand.

use rust_decimal::Decimal;
use serde_json::Value;

use super::commands::folder;
use super::pages::{PAGES, below, csv, rows, tables};
use crate::support::{cost_json, dish, no_errors, part, rounded};

/// What a cell says in money or as a number.
fn number(cell: &str) -> Decimal {
    cell.trim_start_matches('$').parse().unwrap_or_else(|_| panic!("{cell} is no number"))
}

/// Asserts that a figure, rounded as `cell` is, is what it says.
#[track_caller]
fn comes_to(figure: &Value, cell: &str) {
    let said = number(cell);
    assert_eq!(rounded(figure, said.scale()), said, "the full figure is {figure}");
}

/// Runs a command on the files of the pages that prints JSON.
fn json(arguments: &[&str]) -> Value {
    serde_json::from_str(&folder().run(arguments).ends(0).out).unwrap()
}

/// The page has it in one piece, and every page its own tables.
#[test]
fn the_whole_book_is_the_tables_of_the_pages() {
    let block = below("book kitchen.csv")[0].strip_prefix("```csv\n").unwrap().split("```").next().unwrap();
    assert_eq!(block, csv(&tables("kitchen.csv")));
    assert_eq!(tables("prices.csv").len() + tables("recipes.csv").len(), tables("kitchen.csv").len());
}

/// The arithmetic stands in `docs/cooks/example.md`, under “What it comes to”.
#[test]
fn the_example_comes_to_what_is_worked_out() {
    let costed = cost_json(&[("kitchen.csv", &csv(&tables("kitchen.csv")))]);
    no_errors(&costed);
    let answers = rows("answers");
    assert_eq!(costed["dishes"].as_array().unwrap().len(), answers.len());
    for answer in &answers {
        let dish = dish(&costed, &answer[0]);
        for (figure, cell) in
            ["portion_cost", "food_cost_percent", "price_at_target", "margin"].iter().zip(&answer[1..])
        {
            comes_to(&dish[figure], cell);
        }
    }
    // Before 9 November leeks cost 14.00: 2.80 a usable pound instead of 3.00. The soup's two pounds save 0.40, the
    // pound in the stock 0.20 × 4 ÷ 6: (20.00 − 0.533333) ÷ 16 × 1.04 = 1.265333.
    let before = json(&["cost", "kitchen.csv", "--as-of", "2026-11-01", "--format", "json"]);
    comes_to(&dish(&before, "Leek soup, bowl")["portion_cost"], "1.265333");
    let says = |page: &super::pages::Page| {
        let words = page.text.split_whitespace().collect::<Vec<_>>().join(" ");
        words.contains("as of 1 November the bowl of soup costs $1.27 instead of $1.30")
    };
    assert!(PAGES.iter().any(says));
}

/// 72.00 for what went in; the breast bears 108 ÷ 132 of what the carcass leaves, or its share by the joint key.
#[test]
fn every_way_of_charging_bears_what_is_said() {
    let ways = rows("ways");
    assert_eq!(ways.len(), 7);
    for way in &ways {
        let mut tables = tables("kitchen.csv");
        let carcass = tables.iter_mut().flatten().find(|row| row.get(2).is_some_and(|cell| cell == "Chicken carcass"));
        carcass.unwrap()[4..7].clone_from_slice(&way[..3]);
        let json = cost_json(&[("kitchen.csv", &csv(&tables))]);
        no_errors(&json);
        comes_to(&part(&json, "Cutting up chicken", "Chicken carcass")["cost"], &way[3]);
        let breast: Decimal =
            part(&json, "Cutting up chicken", "Chicken breast")["cost"].as_str().unwrap().parse().unwrap();
        comes_to(&Value::String((breast / Decimal::from(12)).to_string()), &way[4]);
    }
}

/// The arithmetic stands in `docs/cooks/new-prices.md`.
#[test]
fn the_new_list_does_what_is_said() {
    let json = json(&["reprice", "kitchen.csv", "--prices", "greengrocer.csv", "--format", "json"]);
    let named = |list: &str, name: &str| {
        let all = json[list].as_array().unwrap();
        all.iter().find(|one| one["name"] == name).unwrap_or_else(|| panic!("no {name} in {list}")).clone()
    };
    assert_eq!(rounded(&named("items", "Leeks")["change_percent"], 1), number("11.1"));
    assert_eq!(rounded(&named("items", "Potatoes")["change_percent"], 1), number("20"));
    let bowl = named("dishes", "Leek soup, bowl");
    assert_eq!(rounded(&bowl["before"]["portion_cost"], 3), number("1.3"));
    assert_eq!(rounded(&bowl["now"]["portion_cost"], 3), number("1.397"));
}

/// The arithmetic stands in `docs/cooks/menu.md`: 20.00 × 8 ÷ (200 × 0.96) + 2.50 = 3.333333, and 4 %: 3.466667, ÷ 14.00.
#[test]
fn the_menu_at_one_price_comes_to_what_is_said() {
    let files = ["kitchen.csv", "lunch.csv"].map(|name| (name, csv(&tables(name))));
    let costed = cost_json(&[(files[0].0, &files[0].1), (files[1].0, &files[1].1)]);
    no_errors(&costed);
    let lunch = dish(&costed, "Market lunch");
    for (key, cell) in [("food_cost", "3.3333"), ("portion_cost", "3.47"), ("food_cost_percent", "24.8")] {
        comes_to(&lunch[key], cell);
    }
}

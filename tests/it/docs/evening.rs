//! A usual evening, from the invoice to the order: the commands of the page in its order, and every figure that it works out.

use rust_decimal::Decimal;
use serde_json::Value;

use super::commands::folder;
use crate::cli::Folder;
use crate::support::{dec, dish, rounded};

fn json(folder: &Folder, arguments: &[&str]) -> Value {
    serde_json::from_str(&folder.run(&[arguments, &["--format", "json"]].concat()).ends(0).out).unwrap()
}

/// The arithmetic stands in `docs/cooks/evening.md`.
#[test]
fn an_evening_comes_to_what_is_worked_out() {
    let folder = folder();
    let soup = |books: &[&str]| {
        let costed = json(&folder, &[&["cost"][..], books].concat());
        dish(&costed, "Leek soup").clone()
    };
    let before = soup(&["house.csv"]);
    assert_eq!((&before["portion_cost"], &before["menu_price"]), (&"0.75625".into(), &"3.25".into()));
    // 0.75625 ÷ 3.25.
    assert_eq!(rounded(&before["food_cost_percent"], 1).to_string(), "23.3");

    folder.run(&["reprice", "house.csv", "--prices", "invoice.csv", "--write-book", "house-today.csv"]).ends(0);
    let today = soup(&["house-today.csv"]);
    assert_eq!((&today["portion_cost"], &today["price_at_target"]), (&"0.89375".into(), &"3.75".into()));
    assert_eq!(today["food_cost_percent"], "27.5");

    let tomorrow = soup(&["house-today.csv", "tomorrow.csv"]);
    assert_eq!(tomorrow["menu_price"], "3.75");
    assert_eq!(rounded(&tomorrow["food_cost_percent"], 1).to_string(), "23.8");

    let orders = json(&folder, &["buy", "house-today.csv", "tomorrow.csv"]);
    let order = &orders["orders"][0];
    assert_eq!(orders["orders"].as_array().unwrap().len(), 1);
    assert_eq!(
        (&order["money"], &order["minimum"], &order["below_minimum"]),
        (&"72".into(), &"100".into(), &"28".into())
    );
    // A pound is 453.59237 g.
    let pounds = |value: &Value| dec(value) / Decimal::new(45_359_237, 5);
    let lines = order["items"].as_array().unwrap();
    assert_eq!(lines.len(), 2);
    for (line, (item, packs, money, left)) in lines.iter().zip([("Leeks", "2", "36", 9), ("Potatoes", "1", "36", 42)]) {
        assert_eq!((&line["item"], &line["packs"], &line["money"]), (&item.into(), &packs.into(), &money.into()));
        assert_eq!(pounds(&line["left"]), Decimal::from(left), "{item}");
    }
    let covered: Vec<&Value> = orders["covered"].as_array().unwrap().iter().map(|line| &line["item"]).collect();
    assert_eq!(covered, ["Butter", "Heavy cream"]);

    folder.run(&["buy", "house-today.csv", "tomorrow.csv", "-o", "order.xlsx"]).ends(0);
    assert!(folder.path("order.xlsx").is_file());
}

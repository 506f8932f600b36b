//! A portion in a bare `oz` of what is made by the quart is poured, not weighed, and says so.

use crate::recalc::assert_recalculates;
use crate::support::{cost_json, dec, dish, json_of, recipe};
use crate::workbook::costed;
use serde_json::Value;

/// A gallon of soup for 16.00: 128 fl oz at 0.125.
fn soup(labels: &str, rest: &str) -> String {
    format!(
        "Setting,Value\nCurrency,USD\nCosting date,2026-11-20\nTarget food cost,30%\n\n\
         Item,Pack,Price\nPeas,10 lb,16.00\n\n\
         Recipe,Soup\n{labels}\nIngredient,Qty,Unit\nPeas,10,lb\n{rest}"
    )
}

fn costed_as(labels: &str, rest: &str) -> Value {
    cost_json(&[("book.csv", &soup(labels, rest))])
}

fn met(json: &Value) -> Vec<String> {
    let text = |problem: &Value, key: &str| problem[key].as_str().unwrap().to_owned();
    let problems = json["problems"].as_array().unwrap().iter().filter(|problem| problem["severity"] != "note");
    problems.map(|problem| format!("{} {}", text(problem, "cell"), text(problem, "code"))).collect()
}

#[test]
fn a_portion_on_the_card_is_poured() {
    // 128 ÷ 8 = 16 portions of 1.00.
    let json = costed_as("Makes,1 gal\nPortion,8 oz", "");
    assert_eq!(met(&json), ["B11 ounce-of-liquid"]);
    assert_eq!(dec(&recipe(&json, "Soup")["portions"]), dec(&"16".into()));
    let said = json["problems"].as_array().unwrap().iter().find(|p| p["code"] == "ounce-of-liquid").unwrap();
    assert_eq!(said["message"], "“Soup” is measured by volume, so oz was read as fluid ounces");
    // In a list of recipes as well, and where the portions are stated: 15 of them, 16 computed.
    let list = "Setting,Value\nCurrency,USD\nTarget food cost,30%\n\nItem,Pack,Price\nPeas,10 lb,16.00\n\n\
                Recipe,Makes,Portion,Portions\nSoup,1 gal,8 oz,15\n\nRecipe,Ingredient,Qty,Unit\nSoup,Peas,10,lb\n";
    assert_eq!(met(&cost_json(&[("book.csv", list)])), ["C9 ounce-of-liquid"]);
}

#[test]
fn a_portion_on_the_menu_is_poured() {
    let menu = "\nDish,Recipe,Portion,Menu price\nBowl,Soup,12 oz,9.00\n";
    // 12 × 0.125; beside the card's portion in either ounce, in cups, or none.
    for (labels, met_here) in [
        ("Makes,1 gal\nPortion,8 oz", &["B11 ounce-of-liquid", "C16 ounce-of-liquid"][..]),
        ("Makes,1 gal\nPortion,8 fl oz", &["C16 ounce-of-liquid"]),
        ("Makes,1 gal\nPortion,1 cup", &["C16 ounce-of-liquid"]),
        ("Makes,1 gal", &["C15 ounce-of-liquid"]),
    ] {
        let json = costed_as(labels, menu);
        assert_eq!(met(&json), met_here, "{labels}");
        assert_eq!(dec(&dish(&json, "Bowl")["portion_cost"]), dec(&"1.5".into()), "{labels}");
    }
    // In fluid ounces beside the card's bare ones.
    let json = costed_as("Makes,1 gal\nPortion,8 oz", &menu.replace("12 oz", "12 fl oz"));
    assert_eq!(met(&json), ["B11 ounce-of-liquid"]);
    assert_eq!(dec(&dish(&json, "Bowl")["portion_cost"]), dec(&"1.5".into()));
}

#[test]
fn an_ounce_of_weight_stays_one() {
    // Typed as a weight: nothing leads from it to the gallon.
    assert_eq!(met(&costed_as("Makes,1 gal\nPortion,8 oz wt", "")), ["B11 measure-missing"]);
    // A cup, 8 fl oz, weighs 10 oz: 8 oz are 6.4 fl oz, a twentieth of the gallon.
    let weighed = "\nItem,Measure,Weighs\nSoup,cup,10 oz\n";
    let json = costed_as("Makes,1 gal\nPortion,8 oz", weighed);
    assert_eq!(met(&json), [""; 0]);
    assert_eq!(dec(&recipe(&json, "Soup")["portions"]), dec(&"20".into()));
    // Makes in two measures: 160 oz are the gallon. By weight alone an ounce is an ounce.
    for labels in ["Makes,\"1 gal, 10 lb\"\nPortion,8 oz", "Makes,10 lb\nPortion,8 oz"] {
        let json = costed_as(labels, "");
        assert_eq!(met(&json), [""; 0], "{labels}");
        assert_eq!(dec(&recipe(&json, "Soup")["portions"]), dec(&"20".into()), "{labels}");
    }
    // Pieces are neither: nothing leads from either ounce to them.
    assert_eq!(met(&costed_as("Makes,12 each\nPortion,8 oz", "")), ["B11 measure-missing"]);
}

#[test]
fn the_costed_workbook_pours_the_same() {
    let menu = "\nDish,Recipe,Portion,Menu price\nBowl,Soup,12 oz,9.00\n";
    let (.., once) = costed("book.csv", soup("Makes,1 gal\nPortion,8 oz", menu).as_bytes());
    assert_recalculates(&once, "portions in ounces");
    let (reading, costing, twice) = costed("book.costed.xlsx", &once);
    let json = json_of(&reading, &costing);
    assert_eq!(dec(&dish(&json, "Bowl")["portion_cost"]), dec(&"1.5".into()));
    assert_eq!(met(&json).len(), 2);
    assert!(once == twice);
}

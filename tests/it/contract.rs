//! The JSON of `cost` and of `trim`: exactly the keys that were promised, plain decimals, `null` where unknown.

use parings::analysis::Trim;
use rust_decimal::Decimal;
use serde_json::Value;

use crate::support::{cost_bytes, cost_json};

/// The keys as the design of the output lists them, in its order; lists by their first element.
pub const PROMISED: &[(&str, &[&str])] = &[
    ("", &["parings", "format", "as_of", "currency", "dishes", "recipes", "tests", "price_history", "problems"]),
    (
        "/dishes/0",
        &[
            "name",
            "recipe",
            "portion",
            "share",
            "food_cost",
            "q",
            "spice",
            "portion_cost",
            "menu_price",
            "ex_tax_price",
            "food_cost_percent",
            "target_percent",
            "price_at_target",
            "margin",
            "standing",
        ],
    ),
    ("/dishes/0/portion", &["qty", "unit"]),
    (
        "/recipes/0",
        &[
            "name",
            "food_cost",
            "batch_cost",
            "makes",
            "portion",
            "portions",
            "portion_cost",
            "allergens",
            "may_contain",
            "allergens_not_stated",
            "uncosted_lines",
            "lines",
        ],
    ),
    ("/recipes/0/makes", &["qty", "unit"]),
    ("/recipes/0/portion", &["qty", "unit"]),
    (
        "/recipes/0/lines/0",
        &[
            "item",
            "source",
            "qty",
            "unit",
            "basis",
            "base_qty",
            "base_unit",
            "yield_percent",
            "yield_from",
            "measure_from",
            "unit_cost",
            "cost",
            "share_percent",
        ],
    ),
    ("/tests/0", &["name", "item", "runs", "weight_g", "cost", "loss_g", "taken_up_g", "parts"]),
    (
        "/tests/0/parts/0",
        &["name", "role", "weight_g", "yield_percent", "charged_as", "cost", "cost_per_g", "cost_factor"],
    ),
    ("/problems/0", &["code", "severity", "file", "sheet", "cell", "message", "help"]),
];

/// A book with everything that the JSON has a key for.
pub const BOOK: &str = r#"Item,Pack,Price,Allergens,May contain
Prawns,10 lb,$60.00,crustaceans,
Cream,1 qt,$4.00,milk,tree nuts
Celery,24 each,$24.00,,
Salt,3 lb,$1.00,none,

Test,Role,Part,Weight,Charged as,Value
Peeling,as purchased,Prawns,10 lb,,
Peeling,main,Tails,6 lb,,
Peeling,by-product,Shells,2 lb,fraction,10%
Peeling,waste,Heads,2 lb,,

Recipe,Prawn soup
Makes,2 qt
Portion,8 fl oz
Menu price,$6.00
Ingredient,Qty,Unit,Basis
Shells,1,lb,
Cream,8,fl oz,
Celery,2,each,
Salt,to taste,,
Water,1,gal,
Tails,4,oz,

Recipe,Broken soup
Ingredient,Qty,Unit
Prawns,1,cup
"#;

fn json() -> Value {
    cost_json(&[("soup.csv", BOOK)])
}

#[test]
fn the_keys_are_exactly_those_promised() {
    let json = json();
    holds_exactly(&json, PROMISED);
    assert_eq!((&json["format"], &json["as_of"], &json["currency"]), (&1.into(), &"2026-11-20".into(), &"USD".into()));
}

#[track_caller]
fn holds_exactly(json: &Value, promised: &[(&str, &[&str])]) {
    for (at, keys) in promised {
        let found: Vec<&String> =
            json.pointer(at).unwrap_or_else(|| panic!("nothing at {at}")).as_object().unwrap().keys().collect();
        let mut found: Vec<&str> = found.iter().map(|key| key.as_str()).collect();
        let mut promised = keys.to_vec();
        found.sort_unstable();
        promised.sort_unstable();
        assert_eq!(found, promised, "at {at}");
    }
}

#[test]
fn every_number_is_a_plain_decimal_and_unknown_is_null() {
    fn walk(value: &Value, key: &str) {
        match value {
            Value::Object(map) => map.iter().for_each(|(key, value)| walk(value, key)),
            Value::Array(list) => list.iter().for_each(|value| walk(value, key)),
            Value::Number(_) => assert!(["format", "runs", "uncosted_lines"].contains(&key), "{key} is a JSON number"),
            Value::String(text) if key.ends_with("cost") || key.ends_with("_percent") || key.ends_with("_g") => {
                let plain = !text.contains(['e', 'E', '+']) && (!text.contains('.') || !text.ends_with('0'));
                assert!(plain && text.parse::<rust_decimal::Decimal>().is_ok(), "{key} is {text}");
            }
            _ => {}
        }
    }
    walk(&json(), "");
}

#[test]
fn lines_say_what_they_are() {
    let json = json();
    let lines = json["recipes"][0]["lines"].as_array().unwrap();
    let of = |item: &str| lines.iter().find(|line| line["item"] == item).unwrap();
    // Shells: 10 % of 6.00 a pound.
    assert_eq!((&of("Shells")["source"], &of("Shells")["cost"]), (&"fabricated".into(), &"0.6".into()));
    // An AP line has no yield; what is not costed has no quantity, unit cost and cost; water costs nothing.
    assert_eq!((&of("Celery")["basis"], &of("Celery")["yield_percent"]), (&"AP".into(), &Value::Null));
    for key in ["qty", "unit_cost", "cost"] {
        assert!(of("Salt")[key].is_null(), "{key}");
    }
    assert_eq!((&of("Water")["source"], &of("Water")["cost"]), (&"bought".into(), &"0".into()));
    assert_eq!(json["recipes"][0]["allergens"], serde_json::json!(["milk", "crustacean"]));
    assert_eq!(json["recipes"][0]["may_contain"], serde_json::json!(["tree_nut"]));
    assert_eq!(json["recipes"][0]["allergens_not_stated"], serde_json::json!(["Celery"]));
    // A recipe that could not be costed is listed, its costs unknown.
    assert_eq!(json["recipes"][1]["name"], "Broken soup");
    assert!(json["recipes"][1]["food_cost"].is_null() && json["recipes"][1]["portion_cost"].is_null());
    // Waste costs nothing; what is missing is the loss: 10 − 6 − 2 − 2 = 0.
    assert_eq!((&json["tests"][0]["parts"][2]["cost"], &json["tests"][0]["loss_g"]), (&"0".into(), &"0".into()));
}

/// The same for the JSON of `trim`.
pub const PROMISED_OF_TRIM: &[(&str, &[&str])] = &[
    (
        "",
        &[
            "parings",
            "format",
            "as_of",
            "currency",
            "tests",
            "balance",
            "dishes",
            "savings",
            "plan",
            "enough_for",
            "to_buy",
            "if_thrown_away",
            "sweeps",
            "problems",
        ],
    ),
    ("/tests/0", &["name", "cost", "shares", "ways", "runs", "dishes", "factors"]),
    (
        "/tests/0/shares",
        &[
            "mains_percent",
            "trim_used_percent",
            "trim_left_over_percent",
            "waste_percent",
            "loss_percent",
            "mains_bear_percent",
            "by_products_bear_percent",
        ],
    ),
    ("/tests/0/ways/0", &["way", "parts", "total", "lacking"]),
    ("/tests/0/ways/0/parts/0", &["name", "charged_as", "cost", "cost_per_g"]),
    ("/tests/0/runs/0", &["run", "date", "weight_g", "parts"]),
    ("/tests/0/runs/0/parts/0", &["name", "weight_g", "yield_percent", "far_off"]),
    ("/tests/0/dishes/0", &["dish", "main", "portion_cost", "from_best_run", "from_worst_run"]),
    ("/tests/0/factors/0", &["name", "factor_then", "factor_now", "cost_per_g_by_old_factor", "cost_per_g"]),
    ("/balance/0", &["test", "goes_in_g", "pieces", "parts"]),
    (
        "/balance/0/parts/0",
        &["name", "role", "on_hand_g", "made_g", "wanted_g", "used_g", "left_over_g", "too_old_g", "short_g", "days"],
    ),
    (
        "/dishes/0",
        &[
            "name",
            "portions",
            "food_binned",
            "food_free",
            "food_credited",
            "planned_portion_cost",
            "of_trim",
            "trim_charged",
            "trim_share_percent",
            "made_possible_by_trim",
            "margin",
        ],
    ),
    (
        "/savings/0",
        &[
            "by_product",
            "used_g",
            "buy_in_per_g",
            "not_bought",
            "not_sold",
            "further_cost",
            "haulage_spared",
            "saved",
            "breaks_even_per_g",
            "unearned_credit",
        ],
    ),
    (
        "/plan",
        &[
            "kitchens",
            "purchases",
            "known_purchases",
            "purchases_in_whole_packs",
            "saved",
            "known_saved",
            "labor_minutes",
            "unearned_credit",
        ],
    ),
    (
        "/plan/kitchens/0",
        &[
            "kitchen",
            "in_dishes",
            "left_over",
            "on_hand",
            "sold",
            "brought_in",
            "purchases",
            "further_cost",
            "haulage_spared",
            "comes_to",
        ],
    ),
    (
        "/to_buy/0",
        &[
            "item",
            "base_unit",
            "on_hand",
            "wanted",
            "stands_in",
            "from_stock",
            "to_buy",
            "left_over",
            "money",
            "packs",
            "money_in_whole_packs",
            "to_buy_binned",
            "money_binned",
        ],
    ),
    ("/if_thrown_away/0", &["name", "food_credited", "food_if_left_over_is_thrown_away"]),
    ("/sweeps/0", &["by_product", "steps"]),
    ("/sweeps/0/steps/0", &["charged_percent", "bears", "rest_bears", "total", "stopped", "dishes"]),
    ("/sweeps/0/steps/0/dishes/0", &["name", "side", "portion_cost", "food_cost_percent"]),
];

const TRIM: &str = "Item,Pack,Price
Prawns,10 lb,$60.00
Base,1 lb,$16.00

Test,Run,Role,Part,Weight,Charged as,Value,Price,Instead of
Peeling,1,as purchased,Prawns,10 lb,,,5.00,
Peeling,1,main,Tails,5 lb,,,,
Peeling,1,by-product,Shells,2 lb,fraction,10%,,2 oz Base per lb
Peeling,2,as purchased,Prawns,10 lb,,,5.00,
Peeling,2,main,Tails,6 lb,,,,
Peeling,2,by-product,Shells,2 lb,fraction,10%,,2 oz Base per lb

Recipe,Plate
Portions,11
Menu price,$20.00
Ingredient,Qty,Unit
Tails,5.5,lb

Recipe,Butter
Portions,4
Menu price,$5.00
Ingredient,Qty,Unit
Shells,1,lb

Dish,Portions
Plate,11
Butter,4

Item,On hand
Prawns,2 lb
";

fn trim_json() -> Value {
    let (reading, costing) = cost_bytes(&[("trim.csv", TRIM.as_bytes())]);
    let shells = reading.kitchen.all_parts().nth(1).unwrap();
    let trim = Trim::of(&reading.kitchen, &costing, &[shells], Decimal::new(5, 1));
    let text = parings::output::json::trim(&reading.kitchen, &costing, &trim, &reading.problems_with(&costing));
    serde_json::from_str(&text).unwrap()
}

#[test]
fn the_keys_of_trim_are_exactly_those_promised() {
    holds_exactly(&trim_json(), PROMISED_OF_TRIM);
}

#[test]
fn the_figures_of_trim_are_plain_decimals() {
    let json = trim_json();
    // 5.5 lb of tails of 11 lb in two runs of 10: 10 lb go in, 2 lb of shells come out, 1 is used: 453.59237 g.
    let shells = &json["balance"][0]["parts"][1];
    assert_eq!(json["balance"][0]["goes_in_g"], "4535.9237");
    assert!(json["balance"][0]["pieces"].is_null());
    for (key, grams) in
        [("made_g", "907.18474"), ("wanted_g", "453.59237"), ("left_over_g", "453.59237"), ("short_g", "0")]
    {
        assert_eq!(shells[key], grams, "{key}");
    }
    // A pound at 2.00; 8 lb to buy of 10, 48.00, which is what the plan brings in, credited or not; 2.00 more with the shells
    // binned.
    assert_eq!((&json["savings"][0]["saved"], &json["plan"]["saved"]), (&"2".into(), &"2".into()));
    assert_eq!((&json["to_buy"][0]["to_buy"], &json["to_buy"][0]["money"]), (&"3628.73896".into(), &"48".into()));
    let brought_in = [0, 1, 2].map(|at| json["plan"]["kitchens"][at]["brought_in"].clone());
    assert_eq!(brought_in, ["50", "48", "48"].map(Value::from));
    // A quarter pound at 0.60 and at 2.00.
    let butter = &json["dishes"][1];
    assert_eq!(
        (&butter["food_binned"], &butter["food_free"], &butter["food_credited"]),
        (&"0.5".into(), &"0".into(), &"0.15".into())
    );
    assert_eq!((&butter["of_trim"], &json["dishes"][0]["of_trim"]), (&true.into(), &false.into()));
    let charged = butter["trim_charged"].as_str().unwrap().parse::<Decimal>().unwrap();
    assert!((charged - Decimal::new(15, 2)).abs() < Decimal::new(1, 12), "{charged}");
    assert_eq!(json["dishes"][0]["trim_charged"], "0");
}

/// Of 20 lb in two runs 11 are tails and 4 shells, 5 are missing; half of the shells are used. Each of their 4 lb bears a tenth
/// of 6.00: 2.40 of 120.00.
#[test]
fn what_becomes_of_a_test_is_told_in_shares() {
    let json = trim_json();
    for (key, percent) in [
        ("mains_percent", "55"),
        ("trim_used_percent", "10"),
        ("trim_left_over_percent", "10"),
        ("waste_percent", "0"),
        ("loss_percent", "25"),
        ("mains_bear_percent", "98"),
        ("by_products_bear_percent", "2"),
    ] {
        assert_eq!(json["tests"][0]["shares"][key], percent, "{key}");
    }
}

//! The JSON of `cost`: exactly the keys that were promised, plain decimals, `null` where unknown.

use serde_json::Value;

use crate::support::cost_json;

/// The keys as the design of the output lists them, in its order; lists by their first element.
const PROMISED: &[(&str, &[&str])] = &[
    ("", &["parings", "format", "as_of", "currency", "dishes", "recipes", "tests", "problems"]),
    (
        "/dishes/0",
        &[
            "name",
            "recipe",
            "portion",
            "portion_cost",
            "menu_price",
            "food_cost_percent",
            "target_percent",
            "price_at_target",
            "margin",
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
        ],
    ),
    ("/tests/0", &["name", "item", "runs", "weight_g", "cost", "loss_g", "parts"]),
    ("/tests/0/parts/0", &["name", "role", "weight_g", "yield_percent", "cost", "cost_per_g", "cost_factor"]),
    ("/problems/0", &["code", "severity", "file", "sheet", "cell", "message", "help"]),
];

const BOOK: &str = r#"Item,Pack,Price,Allergens,May contain
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
    for (at, keys) in PROMISED {
        let found: Vec<&String> =
            json.pointer(at).unwrap_or_else(|| panic!("nothing at {at}")).as_object().unwrap().keys().collect();
        let mut found: Vec<&str> = found.iter().map(|key| key.as_str()).collect();
        let mut promised = keys.to_vec();
        found.sort_unstable();
        promised.sort_unstable();
        assert_eq!(found, promised, "at {at}");
    }
    assert_eq!((&json["format"], &json["as_of"], &json["currency"]), (&1.into(), &"2026-11-20".into(), &"USD".into()));
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

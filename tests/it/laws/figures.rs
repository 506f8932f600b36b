//! The figures of a costing by name, and how two of them compare.

use std::collections::BTreeMap;

use rust_decimal::Decimal;
use serde_json::Value;

/// Every leaf of the dishes, recipes and tests under a path of names, `recipes/Soup/lines/Leek#1/cost`.
pub type Figures = BTreeMap<String, Value>;

/// The figures of a costing's JSON. Lists are told apart by name, not by place, so that their order does not matter;
/// several of one name (lines of one item) are numbered in order of their quantity.
pub fn figures(json: &Value) -> Figures {
    let mut figures = Figures::new();
    for list in ["dishes", "recipes", "tests"] {
        walk(list, &json[list], &mut figures);
    }
    figures
}

fn walk(path: &str, value: &Value, figures: &mut Figures) {
    match value {
        Value::Object(fields) => {
            fields.iter().for_each(|(name, value)| walk(&format!("{path}/{name}"), value, figures))
        }
        Value::Array(entries) => {
            let mut named: Vec<_> = entries.iter().map(|entry| (name_of(entry), entry)).collect();
            named.sort_by_key(|(name, entry)| (name.clone(), quantity_of(entry), entry.to_string()));
            let mut seen = BTreeMap::<&str, usize>::new();
            for (name, entry) in &named {
                let nth = seen.entry(name).or_default();
                *nth += 1;
                let place = if *nth == 1 { format!("{path}/{name}") } else { format!("{path}/{name}#{nth}") };
                walk(&place, entry, figures);
            }
        }
        leaf => {
            figures.insert(path.to_owned(), leaf.clone());
        }
    }
}

fn name_of(entry: &Value) -> String {
    [&entry["name"], &entry["item"], entry].into_iter().find_map(Value::as_str).unwrap_or_default().to_owned()
}

fn quantity_of(entry: &Value) -> Option<Decimal> {
    number(&entry["qty"])
}

fn number(value: &Value) -> Option<Decimal> {
    value.as_str().and_then(|text| text.parse().ok())
}

/// Whether a path ends in an amount of money.
pub fn is_money(path: &str) -> bool {
    let money = ["portion_cost", "menu_price", "price_at_target", "margin", "food_cost", "batch_cost", "unit_cost"];
    let more = ["cost", "cost_per_g", "q", "spice", "ex_tax_price"];
    path.rsplit('/').next().is_some_and(|last| money.contains(&last) || more.contains(&last))
}

/// Whether two figures are one: the same text, or numbers within 1e-20 of their size. Below a size of 0.01 the last
/// of 28 decimals, carried through a few products, counts for more than that, so 1e-22 is allowed in any case.
pub fn same(left: &Value, right: &Value) -> bool {
    match (number(left), number(right)) {
        (Some(left), Some(right)) => {
            let size = left.abs().max(right.abs());
            (left - right).abs() <= (size * Decimal::new(1, 20)).max(Decimal::new(1, 22))
        }
        _ => left == right,
    }
}

/// A figure times `k`; what is no number stays.
pub fn times(value: &Value, k: Decimal) -> Value {
    number(value).map_or_else(|| value.clone(), |number| Value::String((number * k).to_string()))
}

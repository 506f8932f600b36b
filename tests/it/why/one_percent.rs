//! One more percent on a price is what costing anew with that price gives, for everything in the samples and templates, as
//! long as the choices among rows stand. The other way is the costing itself, which knows nothing of shares.

use parings::analysis::why::Subject;
use parings::kitchen::Field;
use parings::kitchen::price::Price;
use parings::{Costing, Scenario, cost};
use rust_decimal::Decimal;
use serde_json::Value;

use super::{books, costed, explained};
use crate::support::at_length;

/// What a costing says that something costs: a portion, a batch, a gram of a part.
fn costs(costing: &Costing, subject: Subject) -> Option<Decimal> {
    match subject {
        Subject::Dish(index) => costing.dishes.get(index)?.as_ref().map(|cost| cost.portion_cost),
        Subject::Recipe(id) => costing.recipe(id).map(|cost| cost.batch),
        Subject::Part(id) => costing.part(id)?.rate?.unit_cost().ok(),
        Subject::Item(id) => costing.item(id)?.ap.unit_cost().ok(),
    }
}

fn money(value: &Value) -> Option<Decimal> {
    value.as_str().map(|text| text.parse().unwrap())
}

#[test]
fn one_more_percent_is_what_costing_anew_gives() {
    let mut compared = 0;
    for files in books() {
        let (reading, costing) = costed(&files);
        let kitchen = &reading.kitchen;
        let all: Vec<(Subject, Value)> = Subject::all(kitchen)
            .into_iter()
            .map(|subject| (subject, explained(&reading, &costing, subject, &[])))
            .filter(|(_, json)| !json["cost"].is_null() && json["cost"] != "0")
            .collect();
        // Every third item of each book; all of them with the long checks.
        for item in kitchen.items.iter().step_by(if at_length() { 1 } else { 3 }) {
            let mut dearer = kitchen.clone();
            for row in &item.rows {
                if let Field::Given(Price::Money(price)) = &mut dearer.entries.prices[*row].price {
                    *price *= Decimal::new(101, 2);
                }
            }
            let anew = cost(&dearer, &Scenario::of(&dearer));
            if anew.row_states != costing.row_states {
                continue;
            }
            for (subject, json) in &all {
                let (Some(was), Some(now)) = (costs(&costing, *subject), costs(&anew, *subject)) else { continue };
                let adds = json["one_percent"].as_array().unwrap().iter().find(|one| one["item"] == item.name.as_str());
                let adds = adds.and_then(|one| money(&one["adds"])).unwrap_or_default();
                // By which part of itself it rose, whatever unit it is asked for in.
                let share = adds / money(&json["cost"]).unwrap();
                let differs = ((now - was) / was - share).abs();
                let name = &json["name"];
                assert!(
                    differs <= Decimal::new(1, 15),
                    "{name} with 1 % on {}: {was} became {now}, not {share}",
                    item.name
                );
                compared += usize::from(!adds.is_zero());
            }
        }
    }
    assert!(compared > 200, "only {compared} were compared");
}

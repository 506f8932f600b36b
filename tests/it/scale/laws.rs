//! Laws of scaling over random recipes: there and back again is the same, costs scale exactly and add up, what is measured
//! costs what its quantities do.

use proptest::prelude::*;
use rust_decimal::Decimal;

use super::support::{by, done, figure, to};
use crate::support::{chance, cost_json, recipe};

/// Ingredients: name, unit of a line, price per unit of its own.
const ITEMS: [(&str, &str, &str); 6] = [
    ("Leeks", "lb", "1.90,lb"),
    ("Butter", "oz", "4.15,lb"),
    ("Cream", "cup", "3.70,qt"),
    ("Rice", "g", "2.35,kg"),
    ("Eggs", "each", "0.29,each"),
    ("Vinegar", "tbsp", "6.10,l"),
];

/// A book of a soup of these quantities for so many portions, and a plate that is so many portions of it.
fn book(quantities: &[Decimal], portions: u32, plates: u32) -> String {
    let mut book = "Item,Price,Per,Yield\n".to_owned();
    for (name, _, price) in ITEMS {
        let trim = if name == "Leeks" { "83%" } else { "" };
        book.push_str(&format!("{name},{price},{trim}\n"));
    }
    book.push_str(&format!("\nRecipe,Soup\nPortions,{portions}\nIngredient,Qty,Unit\n"));
    for ((name, unit, _), quantity) in ITEMS.iter().zip(quantities) {
        book.push_str(&format!("{name},{quantity},{unit}\n"));
    }
    book.push_str(&format!("\nRecipe,Plates\nPortions,{plates}\nIngredient,Qty,Unit\nSoup,{plates},portion\n"));
    book
}

/// Equal to 1e-20 of their size: where 28 digits are divided and multiplied again the last may part.
fn same(one: Decimal, other: Decimal) -> bool {
    (one - other).abs() <= Decimal::new(1, 20) * one.abs().max(Decimal::ONE)
}

fn quantities() -> impl Strategy<Value = Vec<Decimal>> {
    prop::collection::vec((1i64..4_000, 0u32..3), ITEMS.len())
        .prop_map(|all| all.into_iter().map(|(mantissa, scale)| Decimal::new(mantissa, scale).normalize()).collect())
}

proptest! {
    #![proptest_config(chance(24))]

    #[test]
    fn scaled_and_costed_is_costed_and_multiplied(
        quantities in quantities(), portions in 1u32..90, plates in 1u32..400,
    ) {
        let text = book(&quantities, portions, plates);
        let scaled = &done(&text, &to("Soup", &plates.to_string()))["recipe"];
        let costed = cost_json(&[("book.csv", &text)]);
        // A plate recipe that takes as many portions costs as much.
        prop_assert!(same(figure(&scaled["food_cost"]), figure(&recipe(&costed, "Plates")["food_cost"])));
        prop_assert!(same(figure(&scaled["batch_cost"]), figure(&recipe(&costed, "Plates")["food_cost"])));
        let lines = scaled["lines"].as_array().unwrap();
        let sum = |key: &str| lines.iter().map(|line| figure(&line[key])).sum::<Decimal>();
        prop_assert!(same(sum("cost"), figure(&scaled["food_cost"])));
        prop_assert!(same(sum("cost_as_measured"), figure(&scaled["food_cost_as_measured"])));
        prop_assert!(same(sum("cost_difference"), figure(&scaled["food_cost_difference"])));
        // Every line at the quantity measured, through the unit costs of the recipe as it stands.
        for (line, own) in lines.iter().zip(recipe(&costed, "Soup")["lines"].as_array().unwrap()) {
            let times = figure(&line["times"]);
            prop_assert!(same(figure(&line["cost_as_measured"]), figure(&own["cost"]) * times));
            let measured = figure(&own["base_qty"]) * times * figure(&own["unit_cost"]);
            let near = (figure(&line["cost_as_measured"]) - measured).abs() <= Decimal::new(1, 15);
            prop_assert!(near, "{line:#}");
        }
    }

    #[test]
    fn there_and_back_again_is_the_same(quantities in quantities(), portions in 1u32..90, other in 1u32..400) {
        let there = &done(&book(&quantities, portions, 1), &to("Soup", &other.to_string()))["recipe"];
        // A cell holds 28 digits.
        let digits = |quantity: Decimal| quantity.round_sf(27).unwrap().normalize();
        let exact: Vec<Decimal> =
            there["lines"].as_array().unwrap().iter().map(|line| digits(figure(&line["exact"]["qty"]))).collect();
        let back = &done(&book(&exact, other, 1), &to("Soup", &portions.to_string()))["recipe"];
        for (line, quantity) in back["lines"].as_array().unwrap().iter().zip(&quantities) {
            prop_assert!(same(figure(&line["exact"]["qty"]), *quantity), "{line:#}");
        }
    }

    /// Once is as typed, and a size twice as large is twice as much of everything.
    #[test]
    fn factors_multiply(quantities in quantities(), factor in 1u32..500) {
        let text = book(&quantities, 4, 1);
        let [once, twice] = [factor, factor * 2].map(|factor| {
            let factor = Decimal::new(factor.into(), 1);
            done(&text, &by("Soup", &factor.to_string()))["recipe"].clone()
        });
        let lines = once["lines"].as_array().unwrap().iter().zip(twice["lines"].as_array().unwrap());
        for ((one, two), typed) in lines.zip(&quantities) {
            let [one, two] = [one, two].map(|line| figure(&line["exact"]["qty"]));
            prop_assert_eq!(one * Decimal::TWO, two);
            prop_assert_eq!(one, *typed * Decimal::new(factor.into(), 1));
        }
        prop_assert!(same(figure(&once["food_cost"]) * Decimal::TWO, figure(&twice["food_cost"])));
    }
}

//! Laws of scaling over random recipes: there and back again is the same, costs scale exactly and add up, what is measured
//! costs what its quantities do.

use proptest::prelude::*;
use rust_decimal::Decimal;

use super::support::{by, done, figure, from, scaled, to};
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
    book.push_str(&format!("\nRecipe,Soup\nPortions,{portions}\nIngredient,Qty,Unit,Used\n"));
    for ((name, unit, _), quantity) in ITEMS.iter().zip(quantities) {
        let used = if *name == "Butter" { "40%" } else { "" };
        book.push_str(&format!("{name},{quantity},{unit},{used}\n"));
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
            let used = if line["item"] == "Butter" { Decimal::new(4, 1) } else { Decimal::ONE };
            let measured = figure(&own["base_qty"]) * times * figure(&own["unit_cost"]) * used;
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

/// A stew of a stock and a garnish that takes the stock too, each said in its own way.
const STEW: &str = "\
Item,Price,Per
Bones,0.90,lb
Onions,0.55,lb
Peas,2.10,lb

Recipe,Stock
Makes,6 qt
Portions,20
Ingredient,Qty,Unit
Bones,7,lb
Onions,12,oz

Recipe,Garnish
Makes,3 cup
Ingredient,Qty,Unit
Peas,1.5,lb
Stock,GARNISH,cup

Recipe,Stew
Portions,12
Ingredient,Qty,Unit
Stock,STEW,portion
Garnish,0.7,batch
Onions,2,lb
";

proptest! {
    #![proptest_config(chance(16))]

    /// What the recipes within cost is what the lines that ask for them cost: nothing is made twice, or too little.
    #[test]
    fn what_is_made_is_what_is_taken(garnish in 1u32..30, stew in 1u32..60, portions in 1u32..300) {
        let book = STEW.replace("GARNISH", &garnish.to_string()).replace("STEW", &stew.to_string());
        let mut request = to("Stew", &portions.to_string());
        request.with_sub_recipes = true;
        let json = done(&book, &request);
        let all: Vec<_> = std::iter::once(&json["recipe"]).chain(json["sub_recipes"].as_array().unwrap()).collect();
        prop_assert_eq!(all.len(), 3);
        for sub in &all[1..] {
            let lines = all.iter().flat_map(|recipe| recipe["lines"].as_array().unwrap());
            let taken: Decimal =
                lines.filter(|line| line["item"] == sub["name"]).map(|line| figure(&line["cost"])).sum();
            prop_assert!(same(taken, figure(&sub["food_cost"])), "{taken} of {}", sub["name"]);
        }
        // What is bought for all of it is what the stew costs.
        let bought = |recipe: &&serde_json::Value| -> Decimal {
            let made = ["Stock", "Garnish"];
            let lines = recipe["lines"].as_array().unwrap().iter();
            lines.filter(|line| !made.contains(&line["item"].as_str().unwrap())).map(|line| figure(&line["cost"])).sum()
        };
        prop_assert!(same(all.iter().map(bought).sum(), figure(&json["recipe"]["food_cost"])));
    }

    /// As much as is on hand allows, and what is left of all of it: taken and left are what there was.
    #[test]
    fn on_hand_is_taken_or_left(bones in 1i64..900, onions in 1i64..900, peas in 1i64..900) {
        let book = STEW.replace("GARNISH", "5").replace("STEW", "9");
        let held = [("Bones", bones), ("Onions", onions), ("Peas", peas)]
            .map(|(item, tenths)| (item, Decimal::new(tenths, 1)));
        let texts = held.map(|(item, amount)| format!("{amount} lb {item}"));
        let json = done(&book, &from("Stew", &texts.each_ref().map(String::as_str)));
        let factor = figure(&json["recipe"]["factor"]);
        let limits = json["on_hand"].as_array().unwrap();
        prop_assert!(limits.iter().any(|limit| limit["binds"] == true));
        for (limit, (item, amount)) in limits.iter().zip(held) {
            let alone = done(&book, &from("Stew", &[&format!("{amount} lb {item}")]));
            prop_assert!(same(figure(&alone["recipe"]["factor"]), figure(&limit["enough_for"])));
            prop_assert!(figure(&limit["enough_for"]) >= factor);
            let taken = amount * factor / figure(&limit["enough_for"]);
            prop_assert!((taken + figure(&limit["left"]["qty"]) - amount).abs() <= Decimal::new(1, 15), "{limit:#}");
            prop_assert!(limit["binds"] == false || figure(&limit["left"]["qty"]).is_zero());
        }
    }

    /// Whatever is typed, it is scaled or refused.
    #[test]
    fn no_text_panics(
        text in "\\PC{0,24}", close in "[-0-9.,/½ x%()a-zA-Z]{0,20}",
        unit in prop::sample::select(vec!["lb Bones", "Onions", "gal", "qt 3 cups", "portions", "batch", "lb", "%"]),
    ) {
        let book = STEW.replace("GARNISH", "5").replace("STEW", "9");
        for text in [text, close.clone(), format!("{close} {unit}")] {
            for name in ["Stew", "Stock", text.as_str()] {
                let mut request = to(name, &text);
                let _ = scaled(&book, &request);
                request.portion = Some(text.clone());
                request.whole = Some(text.clone());
                let _ = scaled(&book, &request);
            }
            let _ = scaled(&book, &by("Stew", &text));
            let _ = scaled(&book, &from("Stew", &[&text, &text]));
        }
    }
}

//! Published measures and yields, run through the tool as books.
//!
//! `foods/measures.tsv` holds household measures of SR28 (USDA National Nutrient Database for Standard Reference, Release
//! 28, 2015) with what so much of the food costs at 3.00 a pound: grams × 3 ÷ 453.59237 ÷ yield, worked in exact fractions
//! from the source's own rows. `foods/yields.tsv` holds published yields (USDA Table of Cooking Yields for Meat and
//! Poultry, Release 2, 2014; USDA Agriculture Handbook 102 as quoted; USDA Food Buying Guide; SR28; Open Washington,
//! *Bakery and Business Math*) with what two pounds of the usable food cost when it is bought at 6.00 a pound:
//! 2 × 6 ÷ yield.

use rust_decimal::Decimal;
use serde_json::Value;

use crate::cli::{BOOK, Folder};
use crate::support::{cost_json, dec, line, no_errors, tsv};

/// The fraction that a table states.
fn fraction(text: &str) -> Decimal {
    let (upper, lower) = text.split_once('/').unwrap();
    upper.parse::<Decimal>().unwrap() / lower.parse::<Decimal>().unwrap()
}

#[track_caller]
fn assert_near(found: &Value, expected: Decimal, what: &str) {
    let off = (dec(found) - expected).abs();
    assert!(off < Decimal::new(1, 20), "{what}: {found} instead of {expected}");
}

#[test]
fn measures_are_borrowed_as_they_are_published() {
    let mut run = 0;
    for row in tsv(include_str!("foods/measures.tsv")) {
        let [item, reference, quantity, unit, prep, source, percent, cost] = row[..] else { panic!("{row:?}") };
        let json = cost_json(&[(
            "book.csv",
            &format!(
                "Item,Pack,Price,Reference food\n\"{item}\",1 lb,$3.00,{reference}\n\n\
                 Recipe,Plate\nPortions,1\nIngredient,Qty,Unit,Prep\n\"{item}\",{quantity},{unit},{prep}\n"
            ),
        )]);
        no_errors(&json);
        let line = line(&json, "Plate", item);
        assert_eq!(line["measure_from"], "reference", "{item}");
        // A line in pieces is as purchased, and has no yield of its own to tell.
        if !reference.is_empty() && line["basis"] == "EP" {
            assert_eq!(line["yield_from"], "reference", "{item}");
        }
        assert_near(&line["cost"], fraction(cost), &format!("{quantity} {unit} {item}, {source}, {percent} %"));
        run += 1;
    }
    assert!(run >= 40, "only {run}");
}

#[test]
fn published_yields_cost_what_they_leave() {
    let mut run = 0;
    for row in tsv(include_str!("foods/yields.tsv")) {
        let [item, percent, source, place, cost] = row[..] else { panic!("{row:?}") };
        // What cooks up takes on water: its yield belongs on the line, in cooked weight.
        let (on_row, on_line) = if percent.parse::<Decimal>().unwrap() > Decimal::ONE_HUNDRED {
            (String::new(), format!("{percent}%"))
        } else {
            (format!("{percent}%"), String::new())
        };
        let json = cost_json(&[(
            "book.csv",
            &format!(
                "Item,Pack,Price,Yield\nFood,1 lb,$6.00,{on_row}\n\n\
                 Recipe,Plate\nPortions,1\nIngredient,Qty,Unit,Yield\nFood,2,lb,{on_line}\n"
            ),
        )]);
        no_errors(&json);
        assert_near(&line(&json, "Plate", "Food")["cost"], fraction(cost), &format!("{item}: {source}, {place}"));
        run += 1;
    }
    assert!(run >= 40, "only {run}");
}

#[test]
fn the_kitchens_own_measure_and_yield_come_first() {
    let json = cost_json(&[(
        "book.csv",
        "Item,Pack,Price,Yield,Reference food\nLeeks,10 lb,$10.00,50%,leek\n\nItem,Measure,Weighs\nLeeks,cup,4 oz\n\n\
         Recipe,Plate\nPortions,1\nIngredient,Qty,Unit\nLeeks,2,cup\n",
    )]);
    let line = line(&json, "Plate", "Leeks");
    // Two cups of 4 oz are half a pound; at 1.00 a pound and 50 % that is 1.00.
    assert_eq!((&line["measure_from"], &line["yield_from"]), (&"measures".into(), &"price row".into()));
    assert_eq!(line["cost"], "1");
}

#[test]
fn shellfish_meat_and_nuts_lend_nothing_unasked() {
    for item in ["Almonds", "Walnuts", "\"Shrimp, peeled\"", "Bacon"] {
        let json = cost_json(&[(
            "book.csv",
            &format!(
                "Item,Pack,Price\n{item},1 lb,$9.00\n\nRecipe,Plate\nPortions,1\nIngredient,Qty,Unit\n{item},1,cup\n"
            ),
        )]);
        let codes: Vec<&str> =
            json["problems"].as_array().unwrap().iter().map(|problem| problem["code"].as_str().unwrap()).collect();
        assert!(codes.contains(&"measure-missing"), "{item}: {codes:?}");
    }
    // Named, almonds lend their cup of 143 g (SR28 12061), and not the yield of nuts in their shells.
    let json = cost_json(&[(
        "book.csv",
        "Item,Pack,Price,Reference food\nAlmonds,143 g,$9.00,almonds\n\n\
         Recipe,Plate\nPortions,1\nIngredient,Qty,Unit,Prep\nAlmonds,1,cup,whole\n",
    )]);
    assert_eq!(line(&json, "Plate", "Almonds")["cost"], "9");
}

#[test]
fn food_shows_what_is_known_and_proposes_without_changing() {
    let folder = Folder::with("book.csv", BOOK);
    let leek = folder.run(&["food", "leek"]).ends(0);
    for words in ["SR28 11246", "56 % of it as purchased is refuse", "the yield is 44 %", "1 cup    89 g"] {
        assert!(leek.out.contains(words), "{}", leek.out);
    }
    let found = folder.run(&["food", "roasted", "chicken"]).ends(0);
    assert!(found.out.lines().count() > 5 && found.out.contains("parings food NUMBER"), "{}", found.out);
    let json: Value = serde_json::from_str(&folder.run(&["food", "11246", "--format", "json"]).ends(0).out).unwrap();
    assert_eq!((&json["foods"][0]["refuse_percent"], &json["foods"][0]["yield_percent"]), (&"56".into(), &"44".into()));
    let none = folder.run(&["food", "unicorn"]).ends(2);
    assert!(none.err.contains("no built-in food is called “unicorn”"), "{}", none.err);
    let before = std::fs::read(folder.path("book.csv")).unwrap();
    let rows = folder.run(&["food", "--for", "book.csv", "--format", "csv"]).ends(0).out;
    assert!(rows.starts_with("Item,Reference food\nFlour,"), "{rows}");
    assert_eq!(std::fs::read(folder.path("book.csv")).unwrap(), before);
}

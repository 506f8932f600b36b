//! Faults of our own that books of chance and faulty books brought to light, each with the smallest book that showed it.

use serde_json::Value;

use super::cell::Cell::{self, Number, Text};
use super::chance::same_again;
use super::expect::SETTINGS;
use crate::support::{cost_bytes, cost_json, dec, json_of, recipe};

/// A csv book of these tables and [`SETTINGS`], which is the same book when its costed workbook is costed.
#[track_caller]
fn costed(tables: &str) -> Value {
    let book = format!("{tables}\n{SETTINGS}");
    same_again("book.csv", book.as_bytes()).unwrap();
    cost_json(&[("book.csv", &book)])
}

/// The problems of a kind, by cell.
fn cells(json: &Value, code: &str) -> Vec<String> {
    let problems = json["problems"].as_array().into_iter().flatten().filter(|problem| problem["code"] == code);
    problems.map(|problem| problem["cell"].as_str().unwrap().to_owned()).collect()
}

#[track_caller]
fn is_stopped(json: &Value, name: &str) {
    assert!(recipe(json, name)["food_cost"].is_null(), "{name} was costed");
}

#[track_caller]
fn food(json: &Value, name: &str) -> rust_decimal::Decimal {
    dec(&recipe(json, name)["food_cost"])
}

#[test]
fn a_price_row_without_an_item_does_not_move_to_the_next_card() {
    let json = costed(
        "Item,Pack,Price\n,50 lb,30.00\nLeeks,10 lb,20.00\n\nRecipe,Soup\nPortions,1\nIngredient,Qty,Unit\nLeeks,1,lb\n",
    );
    assert_eq!(cells(&json, "row-not-understood"), ["B2"]);
    // 1 lb × 20.00 ÷ 10 lb: nothing on the card is unread.
    assert_eq!(food(&json, "Soup"), 2.into());
}

#[test]
fn a_row_whose_name_is_an_error_is_not_lost() {
    let json = costed("Item,Pack,Price\n#REF!,50 lb,30.00\n#REF!\nLeeks,10 lb,20.00\n");
    assert_eq!(cells(&json, "cell-error"), ["A2", "A3"]);
}

#[test]
fn a_test_with_a_row_that_was_not_read_gives_no_cost() {
    let json = costed(
        "Test,Role,Part,Weight,Charged as,Value\nCod test,as purchased,Cod,10 lb,,\nCod test,main,Fillet,5 lb,,\n\
         Cod test,by-product,,2 lb,price,$4.00\n\nItem,Pack,Price\nCod,10 lb,50.00\n\n\
         Recipe,Ingredient,Qty,Unit\nFish,Fillet,1,lb\n\nRecipe,Portions\nFish,1\n",
    );
    // The nameless by-product carries 8.00 of the 50.00, so the fillet's cost is not known.
    assert_eq!(cells(&json, "row-not-understood"), ["A4"]);
    is_stopped(&json, "Fish");
}

#[test]
fn an_item_whose_test_cannot_be_read_is_not_costed_without_it() {
    for row in ["as purchased,Cod,heavy", "as purchased,Cod,", "bought,Cod,10 lb"] {
        let json = costed(&format!(
            "Test,Role,Part,Weight\nCod test,{row}\nCod test,main,Fillet,5 lb\n\nItem,Pack,Price\nCod,10 lb,50.00\n\n\
             Recipe,Ingredient,Qty,Unit\nFish,Cod,1,lb\n\nRecipe,Portions\nFish,1\n"
        ));
        is_stopped(&json, "Fish");
    }
}

#[test]
fn every_price_in_another_currency_is_named_and_stopped() {
    let json = costed(
        "Item,Pack,Price\nLeeks,10 lb,£20.00\nOnions,10 lb,£10.00\nCarrots,10 lb,5.00\n\n\
         Recipe,Ingredient,Qty,Unit\nOne,Leeks,1,lb\nTwo,Onions,1,lb\nThree,Carrots,1,lb\n\n\
         Recipe,Portions\nOne,1\nTwo,1\nThree,1\n",
    );
    assert_eq!(cells(&json, "currency-mixed"), ["C2", "C3"]);
    is_stopped(&json, "One");
    is_stopped(&json, "Two");
    assert_eq!(food(&json, "Three"), "0.5".parse().unwrap());
}

#[test]
fn without_a_setting_the_currency_is_the_one_of_most_cells() {
    let json =
        cost_json(&[("book.csv", "Item,Pack,Price\nLeeks,10 lb,$20.00\nOnions,10 lb,€10.00\nCarrots,10 lb,€5.00\n")]);
    assert_eq!(json["currency"], "EUR");
    assert_eq!(cells(&json, "currency-mixed"), ["C2"]);
}

#[test]
fn what_the_header_of_a_price_says_is_no_currency_when_it_is_a_unit() {
    for header in ["Price (per lb)", "Price (lb)", "Price ($/lb)", "Price (USD/lb)"] {
        let json = costed(&format!(
            "Item,Per,{header}\nSamphire,,2.00\n\nRecipe,Soup\nPortions,1\nIngredient,Qty,Unit\nSamphire,3,lb\n"
        ));
        assert_eq!(json["problems"].as_array().unwrap().len(), 0, "{header}: {:#}", json["problems"]);
        // 3 lb × 2.00.
        assert_eq!(food(&json, "Soup"), 6.into());
    }
}

#[test]
fn a_row_that_says_otherwise_than_its_header_is_a_problem_in_every_amount() {
    for (tables, cell) in [
        ("Item,Pack count,Size (kg),Size unit,Price\nLeeks,2,12 oz,,20.00\n", "C2"),
        ("Item,Pack count,Unit size,Size unit,Price\nLeeks,2,5 lb,kg,20.00\n", "C2"),
        ("Item,Per,Price ($/kg)\nLeeks,lb,2.00\n", "B2"),
        ("Recipe,Ingredient,Qty (kg),Unit\nSoup,Leeks,2,lb\n", "C2"),
        ("Item,Measure,Weighs (g)\nLeeks,each,5 oz\n", "C2"),
        ("Recipe,Makes (qt)\nSoup,3 lb\n", "B2"),
        ("Test,Role,Part,Weight (kg)\nLeek test,main,Leek whites,\"12 each, 15 lb\"\n", "D2"),
    ] {
        let json = costed(tables);
        let met = [cells(&json, "unit-twice"), cells(&json, "currency-mixed")].concat();
        assert_eq!(met, [cell], "{tables}{:#}", json["problems"]);
    }
}

#[test]
fn a_percentage_by_its_header_that_is_too_small_is_met_again() {
    // Read as a fraction it could be held; the header says that it is a hundredth of that.
    let json = costed("Recipe,Ingredient,Qty,Unit,Yield (%)\nSoup,Leeks,1,lb,0.0000000000000000000000000001\n");
    assert_eq!(cells(&json, "number-out-of-range"), ["E2"]);
    is_stopped(&json, "Soup");
}

#[test]
fn a_count_beside_a_weight_does_not_contradict_the_header() {
    let json = costed(
        "Test,Role,Part,Weight (lb)\nHen test,as purchased,Hens,\"12 each, 36 lb\"\nHen test,main,Breasts,12\n\n\
         Item,Price,Per\nHens,6.00,each\n\nRecipe,Soup\nPortions,1\nIngredient,Qty,Unit\nBreasts,1,lb\n",
    );
    // 12 × 6.00 on 12 lb.
    assert_eq!(food(&json, "Soup"), 6.into());
}

#[test]
fn a_third_typed_as_text_stays_a_third() {
    let json =
        costed("Item,Pack,Price\nLeeks,1 lb,3.00\n\nRecipe,Soup\nPortions,1\nIngredient,Qty,Unit\nLeeks,1/3,lb\n");
    // A third to 28 digits: 0.9999…9.
    assert_eq!(food(&json, "Soup"), "0.9999999999999999999999999999".parse().unwrap());
}

#[test]
fn a_q_factor_of_nothing_needs_no_sign_in_csv_either() {
    let json = costed(
        "Item,Pack,Price\nLeeks,1 lb,3.00\n\nRecipe,Soup\nPortions,1\nQ factor,0\nIngredient,Qty,Unit\nLeeks,1,lb\n",
    );
    assert_eq!(cells(&json, "percent-unclear"), Vec::<String>::new());
    assert_eq!(dec(&recipe(&json, "Soup")["batch_cost"]), 3.into());
}

#[test]
fn lines_of_a_flat_list_stay_lines_on_the_card() {
    let json = costed(
        "Recipe,Ingredient,Qty,Unit\nSoup,SALT,,\nSoup,For the top:,,\nSoup,Leeks,1,lb\nSoup,Total,4,lb\n\
         Soup,Food cost,4,\n,,2,lb\nSoup,,,\n\nItem,Pack,Price\nLeeks,10 lb,20.00\n\nRecipe,Portions\nSoup,1\n",
    );
    assert_eq!(cells(&json, "total-skipped"), ["B5", "B6"]);
    assert_eq!(cells(&json, "line-uncosted"), ["B2", "B3"]);
    assert_eq!(cells(&json, "row-not-understood"), ["C7"]);
    assert_eq!(recipe(&json, "Soup")["lines"].as_array().unwrap().len(), 3);
}

#[test]
fn a_recipe_may_bear_the_name_of_a_header() {
    for name in ["Seasoning", "Price", "Item", "Section"] {
        let json = costed(&format!(
            "Item,Pack,Price\nLeeks,10 lb,20.00\n\nRecipe,{name}\nPortions,1\nIngredient,Qty,Unit\nLeeks,1,lb\n"
        ));
        assert_eq!(food(&json, name), 2.into());
    }
}

#[test]
fn a_period_alone_is_a_row_of_the_control_table() {
    let json = costed("Opening,Purchases,Closing,Period\n,,,November\n10,20,5,December\n");
    assert_eq!(cells(&json, "heading-kept"), Vec::<String>::new());
}

/// Two prices of one day are compared by what is usable. North's yield, the only one stated, is the item's: 30.00 ÷ 50 is
/// less than 31.00 ÷ 50 whatever peeling loses.
#[test]
fn a_price_row_that_states_no_yield_is_not_taken_for_pure() {
    let json = costed(
        "Item,Pack,Price,Supplier,Date,Yield\nOnions,50 lb,30.00,North,2026-11-01,50%\n\
         Onions,50 lb,31.00,South,2026-11-01,\n\nRecipe,Soup\nPortions,1\nIngredient,Qty,Unit\nOnions,1,lb\n",
    );
    // 30.00 ÷ 50 lb ÷ 50 %.
    assert_eq!(food(&json, "Soup"), "1.2".parse().unwrap());
}

/// A number under a time's format, and an amount of money under a currency's, are met again in the costed workbook.
#[test]
fn what_a_number_format_says_is_said_again() {
    let rows: &[&[Cell]] = &[
        &[Text("Test"), Text("Role"), Text("Part"), Text("Weight"), Text("Charged as"), Text("Value")],
        &[Text("Cod test"), Text("as purchased"), Text("Cod"), Text("10 lb")],
        &[Text("Cod test"), Text("main"), Text("Fillet"), Text("5 lb")],
        &[Text("Cod test"), Text("by-product"), Text("Frames"), Text("2 lb"), Text("price"), Cell::Money(0.5)],
        &[],
        &[Text("Item"), Text("Pack"), Text("Price")],
        &[Text("Cod"), Text("10 lb"), Cell::Time(0.75)],
        &[],
        &[Text("Setting"), Text("Value")],
        &[Text("Currency"), Text("EUR")],
        &[Text("Price age"), Number(30.0)],
    ];
    let bytes = super::expect::sheet(rows);
    same_again("book.xlsx", &bytes).unwrap();
    let (reading, costing) = cost_bytes(&[("book.xlsx", &bytes)]);
    let json = json_of(&reading, &costing);
    assert_eq!(
        (cells(&json, "currency-mixed"), cells(&json, "cell-is-a-date")),
        (vec!["F4".into()], vec!["C7".into()])
    );
}

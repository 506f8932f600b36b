//! A book of one recipe, of none, and of as many as there are cards.

use std::io::Cursor;

use calamine::{Data, Reader, Xlsx};

use crate::recalc::{Sheets, Value, assert_recalculates};
use crate::workbook::costed;

/// What stands on every sheet: its name, and its texts and numbers by rows.
fn sheets(bytes: &[u8]) -> Vec<(String, Vec<Vec<String>>)> {
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).unwrap();
    let names = book.sheet_names();
    let mut all = Vec::new();
    for name in names {
        let range = book.worksheet_range(&name).unwrap();
        let filled = |row: &[Data]| -> Vec<String> {
            let filled = row.iter().filter(|cell| **cell != Data::Empty).map(ToString::to_string);
            // A seal is none of what people read.
            filled.filter(|text| !(text.starts_with('w') && text.contains(".."))).collect()
        };
        all.push((name, range.rows().map(filled).filter(|row: &Vec<String>| !row.is_empty()).collect()));
    }
    all
}

/// Fails when a sheet says nothing: when no row stands below the mark, the title and the headers.
#[track_caller]
fn every_sheet_says_something(bytes: &[u8]) -> Vec<String> {
    let all = sheets(bytes);
    for (name, rows) in &all {
        let marked = rows.first().is_some_and(|row| row[0].starts_with("Figured by"));
        assert!(rows.len() >= if marked { 3 } else { 2 }, "{name} says nothing: {rows:?}");
    }
    all.into_iter().map(|(name, _)| name).collect()
}

#[test]
fn one_recipe_and_nothing_else_is_a_whole_book() {
    let book = "Item,Pack,Price\nLeeks,10 lb,$20.00\n\nRecipe,Leek soup\nPortions,4\nIngredient,Qty,Unit\nLeeks,2,lb\n";
    let (reading, costing, once) = costed("book.csv", book.as_bytes());
    assert!(!reading.problems_with(&costing).iter().any(parings::problem::Problem::is_error));
    let names = every_sheet_says_something(&once);
    let others = ["Kitchen cards", "Prices", "Settings", "Problems", "How it was figured"];
    assert_eq!(names, ["Summary", "Leek soup"].into_iter().chain(others).collect::<Vec<&str>>());
    // 2 lb at $2.00: $4.00, a dollar a portion.
    let engine = Sheets::open(&once);
    let card = &sheets(&once)[1].1;
    assert!(card.iter().any(|row| row == &["Portion cost", "1"]), "{card:?}");
    assert!(engine.errors().is_empty());
    assert_recalculates(&once, "one recipe");
    let (_, _, twice) = costed("book.costed.xlsx", &once);
    assert!(once == twice);
}

#[test]
fn a_price_list_alone_is_a_whole_book() {
    let (_, _, once) = costed("book.csv", b"Item,Pack,Price\nLeeks,10 lb,$20.00\n");
    assert_eq!(every_sheet_says_something(&once), ["Summary", "Prices", "Settings", "Problems", "How it was figured"]);
    // $20.00 for 10 lb.
    let prices = &sheets(&once)[1].1;
    let unit_cost =
        prices[1][prices[0].iter().position(|header| header == "AP cost per unit").unwrap() - 1].parse::<f64>();
    assert!((unit_cost.unwrap() - 2.0).abs() < 1e-12, "{prices:?}");
    let (_, _, twice) = costed("book.costed.xlsx", &once);
    assert!(once == twice);
}

#[test]
fn a_card_without_lines_and_a_test_without_use_say_what_they_are() {
    let book = "Item,Pack,Price\nCod,10 lb,$20.00\n\nTest,Role,Part,Weight,Unit\nCutting cod,as purchased,Cod,10,lb\n\
                Cutting cod,main,Fillet,6,lb\nCutting cod,waste,Bones,4,lb\n\nRecipe,Empty\nPortions,4\n\
                Ingredient,Qty,Unit\n\n";
    let (_, _, once) = costed("book.csv", book.as_bytes());
    let names = every_sheet_says_something(&once);
    assert!(names.contains(&"Yield tests".to_owned()), "{names:?}");
    assert_recalculates(&once, "a test alone");
}

/// Cards up to two hundred, lists above: what holds the recipes, and every dish's figure, worked by hand.
#[test]
fn two_hundred_cards_and_two_hundred_and_one_in_lists() {
    for count in [200_usize, 201] {
        let mut book = "Item,Pack,Price\nLeeks,10 lb,$10.00\n\n".to_owned();
        for nth in 1..=count {
            book.push_str(&format!(
                "Recipe,Soup {nth}\nPortions,2\nMenu price,$900\nIngredient,Qty,Unit\nLeeks,{nth},lb\n\n"
            ));
        }
        let (_, _, once) = costed("book.csv", book.as_bytes());
        let names = every_sheet_says_something(&once);
        let others =
            ["Summary", "Kitchen cards", "In pictures", "Prices", "Settings", "Problems", "How it was figured"];
        let of_recipes: Vec<&String> = names.iter().filter(|name| !others.contains(&name.as_str())).collect();
        if count == 200 {
            assert_eq!(
                of_recipes,
                (1..=count).map(|nth| format!("Soup {nth}")).collect::<Vec<_>>().iter().collect::<Vec<_>>()
            );
        } else {
            assert_eq!(of_recipes, ["Recipes", "Lines"]);
        }
        let engine = Sheets::open(&once);
        for nth in 1..=count {
            // n lb at a dollar, in two portions.
            let cost = engine.value("Summary", &format!("B{}", nth + 7));
            assert!(cost.agrees(&Value::Number(nth as f64 / 2.0)), "Soup {nth} costs {cost}");
        }
        assert!(engine.errors().is_empty());
    }
}

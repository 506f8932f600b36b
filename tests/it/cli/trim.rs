//! `trim`: the report in its forms, which charge is moved, and what is said where there is nothing to report.

use serde_json::Value;

use super::{BOOK, BROKEN, Folder};

/// Prawns whose shells become a butter; a plan of both.
const TRIM: &str = "\
Setting,Value
Costing date,2026-11-20
Target food cost,30%

Item,Pack,Price
Prawns,10 lb,$60.00
Shellfish base,1 lb,$16.00

Test,Role,Part,Weight,Charged as,Value,Instead of
Peeling,as purchased,Prawns,10 lb,,,
Peeling,main,Tails,5 lb,,,
Peeling,by-product,Shells,2 lb,fraction,10%,2 oz Shellfish base per lb
Peeling,by-product,Heads,2 lb,free,,

Recipe,Prawn plate
Portions,10
Menu price,$20.00
Ingredient,Qty,Unit
Tails,5,lb

Recipe,Shell butter
Portions,4
Menu price,$5.00
Ingredient,Qty,Unit
Shells,1,lb

Dish,Portions
Prawn plate,10
Shell butter,12
";

#[test]
fn the_table_tells_the_whole_story_and_nothing_is_written() {
    let folder = Folder::with("book.csv", TRIM);
    let ran = folder.run(&["trim", "book.csv"]).ends(0);
    for words in [
        "Costed on 2026-11-20 in USD: 1 yield test.",
        "10.00 lb of Prawns went in",
        "Is there enough trim for the plan?",
        // 10 plates leave 2 lb of shells, 12 butters want 3: what stands in for one pound costs 2.00.
        "1.00 lb of Shells are short",
        "costs $2.00",
        "What is using trim worth?",
        // 2 lb used at 2.00.
        "In all $4.00 are really saved",
        // The first by-product that a dish is made of.
        "What if Shells were charged more, or less?",
        "your local food code",
    ] {
        assert!(ran.out.contains(words), "no “{words}” in {}", ran.out);
    }
    assert!(ran.out.lines().all(|line| line.chars().count() <= 100), "{}", ran.out);
    assert_eq!(ran.out.matches("What if ").count(), 1);
    assert_eq!(folder.names(), ["book.csv"]);
}

#[test]
fn json_alone_is_on_standard_output() {
    let folder = Folder::with("book.csv", TRIM);
    let ran = folder.run(&["trim", "book.csv", "--format", "json"]).ends(0);
    let json: Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!((&json["as_of"], &json["currency"]), (&"2026-11-20".into(), &"USD".into()));
    assert_eq!(json["tests"][0]["name"], "Peeling");
    assert_eq!(json["sweeps"][0]["by_product"], "Shells");
    // From nothing to all in steps of ten.
    assert_eq!(json["sweeps"][0]["steps"].as_array().unwrap().len(), 11);
    assert_eq!(folder.names(), ["book.csv"]);
}

#[test]
fn csv_is_a_row_for_every_part_and_way_or_for_every_step_and_dish() {
    let folder = Folder::with("book.csv", TRIM);
    let ran = folder.run(&["trim", "book.csv", "--format", "csv"]).ends(0);
    let lines: Vec<&str> = ran.out.lines().collect();
    assert!(lines[0].starts_with("test,part,role,weight_g,yield_percent,way,cost,"), "{}", lines[0]);
    let row = lines.iter().find(|line| line.starts_with("Peeling,Shells,") && line.contains(",as the book says,"));
    // 2 lb of 10, 20 %; a tenth of 6.00 for each pound.
    assert!(row.unwrap().contains(",by-product,907.18474,20,as the book says,1.2,"), "{row:?}");

    let ran = folder.run(&["trim", "book.csv", "--format", "csv", "--vary", "shells", "--step", "50%"]).ends(0);
    let lines: Vec<&str> = ran.out.lines().collect();
    assert!(lines[0].starts_with("by_product,charged_percent,bears,total,dish,"), "{}", lines[0]);
    // At 50 % of 6.00 two pounds bear 6 of 60; a quarter pound in a butter costs 0.75, 15 % of 5.00.
    assert!(
        lines.iter().any(|line| line.starts_with("Shells,50,6,60,Shell butter,made of it,0.75,15,")),
        "{}",
        ran.out
    );
    // Nothing, half and all, for two dishes.
    assert_eq!(lines.len(), 1 + 3 * 2, "{}", ran.out);
}

#[test]
fn the_charges_that_are_asked_for_are_moved_in_steps_as_asked() {
    let folder = Folder::with("book.csv", TRIM);
    let ran =
        folder.run(&["trim", "book.csv", "--vary", "Heads", "--vary", "Peeling: Shells", "--step", "25%"]).ends(0);
    let at = |words: &str| ran.out.find(words).unwrap_or_else(|| panic!("no “{words}” in {}", ran.out));
    assert!(at("What if Heads were charged") < at("What if Shells were charged"));
    for words in ["\n25.0 ", "\n75.0 ", "\n100.0 "] {
        assert_eq!(ran.out.matches(words).count(), 2, "{words}{}", ran.out);
    }
    assert!(!ran.out.contains("\n10.0 "), "{}", ran.out);
}

#[test]
fn a_by_product_that_is_not_there_ends_in_two_with_the_nearest() {
    let folder = Folder::with("book.csv", TRIM);
    let ran = folder.run(&["trim", "book.csv", "--vary", "Shels"]).ends(2).complains_of(&["Shels", "“Shells”?"]);
    assert_eq!(ran.out, "");
    // A main has no charge to move.
    folder.run(&["trim", "book.csv", "--vary", "Tails"]).ends(2).complains_of(&["Tails"]);
    folder.run(&["trim", "book.csv", "--vary", "Saffron"]).ends(2).complains_of(&["Saffron"]);
}

#[test]
fn a_step_that_is_none_ends_in_two() {
    let folder = Folder::with("book.csv", TRIM);
    for step in ["0%", "0", "lots", "150%", ""] {
        let ran = folder.run(&["trim", "book.csv", "--step", step]).ends(2);
        assert!(ran.out.is_empty() && ran.err.contains("--step"), "{step}: {ran:#?}");
    }
    folder.run(&["trim", "book.csv", "--step=-5%"]).ends(2).complains_of(&["--step"]);
    folder.run(&["trim"]).ends(2).complains_of(&["BOOK"]);
}

#[test]
fn without_yield_tests_it_says_what_to_do() {
    let folder = Folder::with("book.csv", BOOK);
    let ran = folder.run(&["trim", "book.csv"]).ends(0);
    assert!(ran.out.contains("yield test") && ran.out.contains("parings new"), "{}", ran.out);
    // The reminders about keeping trim would speak of nothing.
    assert!(!ran.out.contains("When trim is kept"), "{}", ran.out);
    let json: Value = serde_json::from_str(&folder.run(&["trim", "book.csv", "--format", "json"]).ends(0).out).unwrap();
    assert_eq!((&json["tests"], &json["sweeps"]), (&serde_json::json!([]), &serde_json::json!([])));
    assert_eq!(folder.run(&["trim", "book.csv", "--format", "csv"]).ends(0).out.lines().count(), 1);
}

#[test]
fn errors_in_the_book_end_in_one_and_the_rest_is_told() {
    let folder = Folder::with("book.csv", format!("{TRIM}{BROKEN}"));
    let ran = folder.run(&["trim", "book.csv"]).ends(1);
    assert!(ran.out.contains("In all $4.00 are really saved"), "{}", ran.out);
    folder.run(&["trim", "nothing.xlsx"]).ends(2).complains_of(&["there is no file nothing.xlsx"]);
    folder.put("letter.txt", "Dear cook,\nplease peel the shrimp.\n");
    folder.run(&["trim", "letter.txt"]).ends(2).complains_of(&["no table that parings knows"]);
}

#[test]
fn it_reckons_with_the_prices_of_the_day_asked_for() {
    let dated = TRIM.replace("Item,Pack,Price\n", "Item,Pack,Price,Date\nPrawns,10 lb,$80.00,2026-12-01\n");
    let folder = Folder::with("book.csv", dated);
    let ran = folder.run(&["trim", "book.csv", "--as-of", "2026-12-02"]).ends(0);
    assert!(ran.out.contains("Costed on 2026-12-02") && ran.out.contains("$80.00"), "{}", ran.out);
}

/// What a way of charging lacks is said of every part, so a list of all by-products would be theirs times theirs.
#[test]
fn what_many_by_products_lack_is_told_of_a_few() {
    let tops: String = (0..40).map(|n| format!("Peeling,by-product,Tops {n},1 oz\n")).collect();
    let book = format!(
        "Item,Pack,Price\nLeeks,10 lb,$20.00\n\nTest,Role,Part,Weight\nPeeling,as purchased,Leeks,10 lb\n\
         Peeling,main,Rounds,5 lb\n{tops}"
    );
    let folder = Folder::with("book.csv", book);
    let ran = folder.run(&["trim", "book.csv", "--format", "csv"]);
    let at_market = ran.out.lines().find(|line| line.contains(",at market,") || line.contains(",market,")).unwrap();
    assert!(at_market.contains("Tops 5") && !at_market.contains("Tops 6,"), "{at_market}");
    assert!(at_market.contains("34 more"), "{at_market}");
}

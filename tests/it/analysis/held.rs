//! How much of a dish is trim, by hand: at what it would cost to buy, through recipes and a further test. Invented.

use super::planned::{is, planned};
use super::sold::{ONE_DAY, goose};
use super::{d, errors};

/// Goose as in `sold`: fat at 1.50 saves buying for 2.00, carcasses at 0.50 for 0.50, base is 0.50 an ounce.
const MORE: &str = "
Recipe,Glazed plate
Portions,1
Menu price,25.00
Ingredient,Qty,Unit
Breast,0.5,lb
Fat,1,oz

Recipe,Half soup
Portions,1
Menu price,7.00
Ingredient,Qty,Unit
Carcass,1,lb
Bone base,1,oz

Recipe,Stock
Makes,2 qt
Spice factor,10%
Ingredient,Qty,Unit
Carcass,2,lb
Bone base,1,oz

Recipe,Stock soup
Portions,1
Menu price,8.00
Ingredient,Qty,Unit
Stock,1,qt

Test,Role,Part,Weight
Rendering,as purchased,Fat,4 lb
Rendering,main,Lard,3 lb

Recipe,Toast
Portions,1
Menu price,4.00
Ingredient,Qty,Unit
Lard,0.75,lb
Bone base,2,oz

Recipe,Feet salad
Portions,1
Menu price,5.00
Ingredient,Qty,Unit
Feet,1,lb
";

#[test]
fn the_share_is_at_what_its_trim_would_cost_to_buy() {
    let of = planned(&goose("", MORE, ONE_DAY));
    assert_eq!(errors(&of.reading, &of.costing), [""; 0]);
    for (dish, bought, rest, possible) in [
        ("Plate", "0", "5.4", false),
        // Nothing but trim.
        ("Broth", "0.25", "0", true),
        ("Spread", "0.5", "0", true),
        // An ounce of fat, 2.00 ÷ 16, beside half a pound of breast at 10.80: 2.3 %.
        ("Glazed plate", "0.125", "5.4", false),
        // A pound of carcass for 0.50 and as much of base: half is enough.
        ("Half soup", "0.5", "0.5", true),
        // Half of a batch: 2 lb for 1.00, and of 1.50 with 10 % less 1.00 of trim 0.65.
        ("Stock soup", "0.5", "0.325", true),
        // 4 lb of fat would cost 8.00 and make 3 of lard at 2.00: 0.75 lb hold 2.00, and of 2.50 without 1.50 a rest of 1.00.
        ("Toast", "2", "1", true),
    ] {
        let found = of.dish(dish);
        let trim = found.trim.unwrap_or_else(|| panic!("{dish}: not known"));
        is(trim.bought, d(bought), dish);
        is(trim.rest, d(rest), dish);
        is(found.trim_share().unwrap(), d(bought) / (d(bought) + d(rest)), dish);
        assert_eq!(found.made_possible(), Some(possible), "{dish}");
    }
    // Nobody says what feet would cost to buy.
    let feet = of.dish("Feet salad");
    assert_eq!((feet.trim, feet.made_possible(), feet.of_trim), (None, None, true));
}

#[test]
fn every_dish_stands_with_its_margin_and_no_sum() {
    let plan = "Plate,20,\nBroth,12,\nGlazed plate,2,\nFeet salad,1,\n";
    let of = planned(&goose("", MORE, plan));
    let report = of.report();
    // 6.00 − 0.25; 25.00 − 5.40 − 0.09375; 5.00 and free.
    for words in [
        "Broth 100.0 5.75 made possible by trim",
        "Glazed plate 2.3 19.51 holds some trim",
        "Feet salad – 5.00 not known",
    ] {
        assert!(report.contains(words), "no “{words}” in {report}");
    }
    // The plate holds none, the spread is not planned, and nothing is summed.
    let table = report.split("How much of a dish is trim").nth(1).unwrap();
    assert!(!table.contains("Spread 100.0") && !table.contains("Plate 0.0") && !report.contains("earn $"), "{report}");
}

//! Suppliers of one day whose packs differ: each is compared by the yield that its own row comes to.

use super::{HEAD, asking, json, one, told};
use crate::analysis::{d, rounded};
use crate::prices::everywhere;
use crate::reprice::repriced;

/// Limes of 3.2 oz edible. Of Alpha's 140 to the 35 lb one is 4 oz, 80 %; of Beta's 120 one is 14/3 oz, 24/35.
fn limes(alpha: &str, beta: &str) -> String {
    format!(
        "Item,Pack,Price,Supplier,Date\nKey limes,140 ct 35 lb,{alpha},Alpha,2026-11-01\n\
         Key limes,120 ct 35 lb,{beta},Beta,2026-11-01\n\nItem,Measure,Weighs,Basis\nKey limes,each,3.2 oz,EP\n"
    )
}

#[test]
fn each_row_has_the_yield_that_its_own_pack_implies() {
    let pound = "Key limes,1,lb,,,";
    // Alpha 56.00 ÷ 35 = 1.60 a pound, ÷ 80 % = 2.00. Beta 49.00 ÷ 35 = 1.40, × 35 ÷ 24 = 49 ÷ 24 = 2.0416…: Alpha's, though
    // dearer as purchased. A lime of it is 56.00 ÷ 140 = 0.40.
    assert_eq!(super::sound(&limes("56.00", "49.00"), &[pound, "Key limes,1,each,,,"]), ["2", "0.4"]);
    // 47.00 ÷ 24 = 1.9583333333 a pound; 47.00 ÷ 120 = 0.3916666667 a lime.
    assert_eq!(
        super::sound(&limes("56.00", "47.00"), &[pound, "Key limes,1,each,,,"]),
        ["1.9583333333", "0.3916666667"]
    );
    // 48.00 ÷ 24 = 2.00, a tie on the plate: Beta's is the cheaper as purchased, 48.00 for 35 lb.
    assert_eq!(super::sound(&limes("56.00", "48.00"), &[pound, "Key limes,35,lb,,AP,"]), ["2", "48"]);
    // The workbook recalculates to the same, and is the same book again.
    let json = everywhere(&format!("{HEAD}{}{}", limes("56.00", "49.00"), asking(&[pound])));
    assert_eq!(super::costs(&json), ["2"]);
}

/// Alpha's yield is stated and stands before the piece: 1.60 ÷ 70 % = 2.2857142857 a pound, so Beta's 2.0416666667 counts.
#[test]
fn a_stated_yield_stands_before_it_in_the_comparison_too() {
    let tables = "Item,Pack,Price,Supplier,Date,Yield\nKey limes,140 ct 35 lb,56.00,Alpha,2026-11-01,70%\n\
                  Key limes,120 ct 35 lb,49.00,Beta,2026-11-01,YIELD\n\nItem,Measure,Weighs,Basis\nKey limes,each,3.2 oz,EP\n";
    // Beta states 68 %: 1.40 ÷ 68 % = 2.0588235294.
    assert_eq!(one(&tables.replace("YIELD", "68%"), "Key limes,1,lb,,,"), "2.0588235294");
    // It states none: it is lent Alpha's, 1.40 ÷ 70 % = 2.00, for a yield that a price row states stands before a piece.
    assert_eq!(one(&tables.replace("YIELD", ""), "Key limes,1,lb,,,"), "2");
}

/// USDA SR28: leeks (11246) lose 56 %, 44 % is left; onions (11282) lose 10 %, 90 % is left.
#[test]
fn each_row_has_the_yield_of_the_food_that_it_names() {
    let tables = |beta: &str| {
        format!(
            "Item,Pack,Price,Supplier,Date,Reference food\nWelsh onions,10 lb,10.00,Alpha,2026-11-01,leek\n\
             Welsh onions,10 lb,{beta},Beta,2026-11-01,\"onion, yellow\"\n"
        )
    };
    // 1.00 ÷ 44 % = 2.2727…; 1.80 ÷ 90 % = 2.00.
    assert_eq!(super::sound(&tables("18.00"), &["Welsh onions,1,lb,,,"]), ["2"]);
    // 2.07 ÷ 90 % = 2.30.
    assert_eq!(super::sound(&tables("20.70"), &["Welsh onions,1,lb,,,"]), ["2.2727272727"]);
    let json = everywhere(&format!("{HEAD}{}{}", tables("18.00"), asking(&["Welsh onions,1,lb,,,"])));
    assert_eq!(super::costs(&json), ["2"]);
}

/// Beta's 200 to the 35 lb are 2.8 oz, less than the 3.2 oz that should be left of one: which is cheaper nobody can tell.
#[test]
fn a_piece_that_cannot_be_leaves_the_choice_open() {
    let tables = limes("56.00", "49.00").replace("120 ct", "200 ct");
    let json = json(&tables, &["Key limes,1,lb,,,"]);
    assert_eq!(super::costs(&json), ["-"]);
    assert_eq!(
        told(&json, "yield-too-high"),
        [("C11", "1 each of “Key limes” is 3.2 oz EP here and 2.8 oz AP at book.csv ▸ B8")]
    );
}

/// By the piece from Alpha, by weight from Beta.
fn unlike(alpha: &str, rows: &str) -> String {
    format!(
        "Item,Pack,Price,Supplier,Date\nKey limes,100 ct,{alpha},Alpha,2026-11-01\nKey limes,35 lb,42.00,Beta,2026-11-01\n\n\
         Item,Measure,Weighs,Basis\n{rows}"
    )
}

const BOUGHT: &str = "Key limes,each,4 oz,AP\n";
const EDIBLE: &str = "Key limes,each,3.2 oz,EP\n";

#[test]
fn a_price_by_the_piece_and_one_by_weight_meet_in_the_weight_that_is_edible() {
    let pound = "Key limes,1,lb,,,";
    let both = format!("{BOUGHT}{EDIBLE}");
    // A pound edible is 5 limes: 2.50 at 0.50, 1.40 at 0.28. Beta's 1.20 a pound ÷ 80 % = 1.50.
    assert_eq!(super::sound(&unlike("50.00", &both), &[pound]), ["1.5"]);
    assert_eq!(super::sound(&unlike("28.00", &both), &[pound]), ["1.4"]);
    // Without a weight as purchased all of Beta's pound counts as edible: 1.20.
    assert_eq!(super::sound(&unlike("28.00", EDIBLE), &[pound]), ["1.2"]);
    // Without an edible one a pound is 4 limes: 1.12.
    assert_eq!(super::sound(&unlike("28.00", BOUGHT), &[pound]), ["1.12"]);
    // Nothing joins them.
    let apart = json(&unlike("28.00", "Limes,each,4 oz,AP\n"), &[pound]);
    assert_eq!((super::costs(&apart)[0].as_str(), told(&apart, "prices-not-comparable").len()), ("-", 1));
    for alpha in ["50.00", "28.00"] {
        everywhere(&format!("{HEAD}{}{}", unlike(alpha, &both), asking(&[pound])));
    }
}

/// What is left of a piece is weighed, so the yields that rows state of what is counted change nothing: 100 g are one, 0.50 of
/// Alpha's and 0.52 of Beta's.
#[test]
fn stated_yields_choose_nothing_where_the_weight_of_the_piece_holds_the_yield() {
    let tables = "Item,Pack,Price,Supplier,Date,Yield\nBaby gem,100 ct,50.00,Alpha,2026-11-01,60%\n\
                  Baby gem,100 ct,52.00,Beta,2026-11-01,90%\n\nItem,Measure,Weighs,Basis\nBaby gem,each,100 g,EP\n";
    assert_eq!(one(tables, "Baby gem,500,g,,,"), "2.5");
    // Without that weight they do: 0.50 ÷ 60 % = 0.833 a piece, 0.52 ÷ 90 % = 0.577…; two edible 1.1555555556.
    let unweighed = tables.split("\n\n").next().unwrap();
    assert_eq!(one(&format!("{unweighed}\n"), "Baby gem,2,each,,EP,"), "1.1555555556");
}

/// The newer list is Alpha's, 2.00 an edible pound; Beta's older one has 120 to the 35 lb.
#[test]
fn a_switch_is_told_by_the_yield_of_each_pack() {
    let others = "Item,Measure,Weighs,Basis\nKey limes,each,3.2 oz,EP\n\n\
                  Recipe,Sorbet\nPortions,1\nMenu price,9.00\nIngredient,Qty,Unit\nKey limes,1.6,lb\n";
    let prices = |beta: &str| {
        format!("Key limes,140 ct 35 lb,56.00,Alpha,2026-11-01,,\nKey limes,120 ct 35 lb,{beta},Beta,2026-10-01,,\n")
    };
    // 49.00 ÷ 24 = 2.04: cheaper a pound, dearer on the plate.
    assert!(repriced(&prices("49.00"), "", others).without_errors().effects.switches.is_empty());
    // 45.00 ÷ 24 = 1.875: of 1.6 lb edible 3.20 becomes 3.00.
    let found = repriced(&prices("45.00"), "", others).without_errors();
    let [limes] = found.effects.switches.as_slice() else { panic!("one switch") };
    let pound = d("453.59237");
    for (found, expected) in
        [(limes.ep_from * pound, "2"), (limes.ep_to * pound, "1.875"), (limes.saving * pound, "0.125")]
    {
        assert_eq!(rounded(found, 20).normalize(), d(expected));
    }
    assert_eq!(rounded(limes.worth.unwrap(), 20).normalize(), d("0.2"));
}

/// By the piece in use, by weight on offer, and only the edible weight joins them: a lime is 3.2 oz, 0.2 lb at 1.20, 0.24.
#[test]
fn a_switch_between_a_price_by_the_piece_and_one_by_weight() {
    let others = "Item,Measure,Weighs,Basis\nKey limes,each,3.2 oz,EP\n\n\
                  Recipe,Sorbet\nPortions,1\nMenu price,9.00\nIngredient,Qty,Unit\nKey limes,2,lb\n";
    let prices = "Key limes,100 ct,28.00,Alpha,2026-11-01,,\nKey limes,35 lb,42.00,Beta,2026-10-01,,\n";
    let found = repriced(prices, "", others).without_errors();
    let [limes] = found.effects.switches.as_slice() else { panic!("one switch") };
    assert_eq!((limes.ep_from, rounded(limes.ep_to, 20).normalize()), (d("0.28"), d("0.24")));
    // Ten limes.
    assert_eq!(rounded(limes.worth.unwrap(), 20).normalize(), d("0.4"));
}

//! Pieces in the costed workbook: every formula stands, changed cells are followed, and card, working, JSON and csv say the
//! same of a line.

use super::HEAD;
use crate::follow::every_cell_follows;
use crate::recalc::{Sheets, Value, assert_recalculates};
use crate::support::{cost_json, dec, line, no_errors};
use crate::workbook::costed;

const BOOK: &str = "\
Item,Pack,Price,Yield
Cling peaches,6/#10 (6 lb 12 oz),54.00,
Hispi cabbage,20 kg,40.00,80%
Key limes,150 ct 30 lb,60.00,
Baby gem,100 ct,100.00,80%
Rolled oats,8/4 lb,40.00,
Leaf greens,100 ct,50.00,

Item,Measure,Weighs,Basis
Cling peaches,#10 can,4 lb 14 oz,EP
Hispi cabbage,each,900 g,EP
Key limes,dozen,3 lb,AP
Baby gem,each,100 g,EP
Leaf greens,each,125 g,AP
Leaf greens,each,100 g,EP

Test,Role,Part,Weight,Charged as,Value
Gem test,as purchased,Baby gem,\"10 each, 1250 g\",,
Gem test,main,Gem hearts,1 kg,,
Gem test,by-product,Gem leaves,0.2 kg,price,5.00 / kg

Recipe,Pot
Portions,4
Menu price,30.00
Ingredient,Qty,Unit,Basis,Yield
Cling peaches,3,lb,,
Cling peaches,2,can,,
Hispi cabbage,2,each,,
Hispi cabbage,2,each,EP,
Hispi cabbage,500,g,,70%
Key limes,1,dozen,,
Baby gem,500,g,,
Baby gem,2,each,EP,
Baby gem,400,g,AP,
Rolled oats,3,bag,,
Leaf greens,300,g,,
Leaf greens,300,g,AP,
";

fn book() -> String {
    format!("{HEAD}{BOOK}")
}

#[test]
fn pieces_are_live_and_the_same_when_read_again() {
    let (_, _, once) = costed("pieces.csv", book().as_bytes());
    assert_recalculates(&once, "pieces.costed.xlsx");
    let (_, _, twice) = costed("pieces.costed.xlsx", &once);
    assert!(once == twice, "costing the costed book gave another book");
    every_cell_follows(&once, 24);
}

#[test]
fn a_piece_as_purchased_tells_one_story() {
    let json = cost_json(&[("pieces.csv", &book())]);
    no_errors(&json);
    // 900 g ÷ 80 % × 2 = 2250 g as purchased at 0.002 a gram: 4.50.
    let found = line(&json, "Pot", "Hispi cabbage");
    assert_eq!(
        (&found["base_qty"], &found["unit_cost"], &found["cost"]),
        (&"2250".into(), &"0.002".into(), &"4.5".into())
    );
    let (_, _, bytes) = costed("pieces.csv", book().as_bytes());
    let sheets = Sheets::open(&bytes);
    let row =
        (1..40).find(|row| sheets.value("Pot", &format!("A{row}")) == Value::Text("Hispi cabbage".to_owned())).unwrap();
    let head = (1..row)
        .rev()
        .find(|row| sheets.value("Pot", &format!("A{row}")) == Value::Text("Ingredient".to_owned()))
        .unwrap();
    let under = |header: &str| {
        let column = ('A'..='Z')
            .find(|column| sheets.value("Pot", &format!("{column}{head}")) == Value::Text(header.to_owned()));
        sheets.value("Pot", &format!("{}{row}", column.unwrap_or_else(|| panic!("no {header}"))))
    };
    assert_eq!(under("AP or EP"), Value::Text("AP".to_owned()));
    assert_eq!(under("Qty in g, ml, each"), Value::Number(2250.0));
    assert_eq!(under("Line cost"), Value::Number(4.5));
    let working = (1..200)
        .find(|row| sheets.value("How it was figured", &format!("B{row}")) == Value::Text("Hispi cabbage".to_owned()));
    let at = |column: &str| sheets.value("How it was figured", &format!("{column}{}", working.unwrap()));
    assert_eq!(at("D"), Value::Text("2250 g".to_owned()));
    let Value::Text(said) = at("F") else { panic!("no yield is said") };
    assert!(said.starts_with("80 %, ") && said.ends_with("so what a piece weighs as purchased"), "{said}");
}

/// A list of new prices moves pieces by their share of the new pack.
#[test]
fn new_prices_move_pieces_and_cans() {
    let before = cost_json(&[("pieces.csv", &book())]);
    let after = cost_json(&[(
        "pieces.csv",
        &book().replace("54.00", "60.00").replace("150 ct 30 lb,60.00", "120 ct 30 lb,60.00"),
    )]);
    let cost =
        |json: &serde_json::Value, nth: usize| dec(&json["recipes"][0]["lines"][nth]["cost"]).normalize().to_string();
    // Two cans of six: 18.00, then 20.00. A dozen of 150 for 60.00: 4.80; of 120: 6.00.
    assert_eq!((cost(&before, 1), cost(&after, 1)), ("18".to_owned(), "20".to_owned()));
    assert_eq!((cost(&before, 5), cost(&after, 5)), ("4.8".to_owned(), "6".to_owned()));
}

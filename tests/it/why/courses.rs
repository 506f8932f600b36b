//! From the pot to the plate: what a dish within a set menu costs, step by step. Worked by hand.
//!
//! Ten pounds of leeks at 2.00 make 160 fl oz of soup, 20.00: 8 fl oz of them are 1.00. Two pounds of skate at 8.00 for four, with
//! 1.40 of Q a portion on its card: 16.00 + 5.60 = 21.60, so half a portion is 2.70 with 0.70 of that; sold by itself it is 2.00
//! of food and a whole Q, 3.40.

use super::adds_up::{Sums, check};
use super::{asked, step};
use crate::cli::Folder;

const BOOK: &str = "\
Setting,Value
Currency,USD
Costing date,2026-11-20

Item,Pack,Price,Yield
Leeks,10 lb,$20.00,100%
Skate,10 lb,$80.00,100%

Recipe,Leek soup
Makes,5 qt
Portion,16 fl oz
Ingredient,Qty,Unit
Leeks,10,lb

Recipe,Skate
Portions,4
Q factor,$1.40
Ingredient,Qty,Unit
Skate,2,lb

Dish,Recipe,Portion,Menu price
\"Soup, cup\",Leek soup,8 fl oz,$4.50
\"Skate, small\",Skate,1/2 portion,$9.00
Lunch,,,$14.00

Recipe,Lunch
Portions,1
Ingredient,Qty,Unit
\"Soup, cup\",2,portion
\"Skate, small\",1,
";

#[test]
fn a_course_is_walked_from_its_pot_to_the_plate() {
    let json = asked(BOOK, "Lunch", None);
    let amount = |of: &str, word: &str| step(&json, of, 0, word)["amount"].as_str().unwrap().to_owned();
    // 8 of 160 fl oz are a twentieth.
    let soup = ["cost of the batch", "share of the batch", "plate cost"].map(|word| amount("Soup, cup", word));
    assert_eq!(soup, ["20", "5", "1"]);
    let skate = ["cost of the batch", "share of the batch", "plate cost"].map(|word| amount("Skate, small", word));
    assert_eq!(skate, ["21.6", "12.5", "2.7"]);
    assert_eq!(step(&json, "Lunch", 1, "unit cost")["amount"], "1");
    assert_eq!(step(&json, "Lunch", 2, "unit cost")["amount"], "2.7");
    assert_eq!(amount("Lunch", "portion cost"), "4.7");
    let mut sums = Sums::default();
    check(&json, &mut sums);
    assert!(sums.differ.is_empty(), "{:?}", sums.differ);
    // Of one line alone, that course.
    let line = asked(BOOK, "Lunch", Some("Soup, cup"));
    assert_eq!(step(&line, "Soup, cup", 0, "plate cost")["amount"], "1");
    assert!(line["steps"].as_array().unwrap().iter().all(|step| step["of"] != "Skate, small"));
}

#[test]
fn a_course_that_bears_a_share_of_its_cards_q_says_so() {
    let folder = Folder::with("book.csv", BOOK);
    let why = folder.run(&["why", "book.csv", "Lunch", "--all"]).ends(0).out;
    let flat = why.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains("= $1.00 plate cost: that share of it Skate, small (dish)"), "{why}");
    let says = "= $2.70 plate cost: that share of it, with $0.70 of its card's Q; a plate sold by itself has $1.40";
    assert!(flat.contains(says), "{why}");
    let alone = asked(BOOK, "Skate, small", None);
    assert_eq!(alone["cost"], "3.4");
    // A whole portion has a whole Q on either side, of which nothing need be said.
    folder.put("whole.csv", BOOK.replace("1/2 portion", ""));
    let whole = folder.run(&["why", "whole.csv", "Lunch", "--all"]).ends(0).out;
    let flat = whole.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains("plate cost: that share of it, with $1.40 of its card's Q Leek soup (recipe)"), "{whole}");
}

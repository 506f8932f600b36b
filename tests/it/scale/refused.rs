//! Sizes that are refused, each in a plain sentence that says what to give instead.

use super::support::{by, from, scaled, to};

const BOOK: &str = "\
Item,Price,Per
Leeks,2.00,lb
\"Onions, yellow\",1.00,lb
Cream,4.00,qt

Recipe,Soup
Makes,3 qt
Ingredient,Qty,Unit
Leeks,2,lb
\"Onions, yellow\",1,lb
Cream,1,cup

Recipe,Pot
Ingredient,Qty,Unit
Leeks,2,lb
";

#[track_caller]
fn refused(request: &parings::analysis::resize::Request, says: &str) {
    let said = scaled(BOOK, request).expect_err("it is no size").to_string();
    assert!(said.contains(says), "{said}");
}

#[test]
fn sizes_that_are_none() {
    for (amount, says) in [
        ("0", "above zero"),
        ("-3 qt", "above zero"),
        ("lots", "is no amount to scale to"),
        ("", "is no amount to scale to"),
        (
            "60",
            "does not say how many portions it gives: add Portion or Portions to its card, or scale it by what it makes, such as 3 qt",
        ),
        ("12 kg", "makes 3 qt, and the book does not say how much of that 12 kg is"),
        ("999999999 gal", "times the recipe: give a size from a ten-thousandth"),
        ("0.00000001 tsp", "times the recipe: give a size from a ten-thousandth"),
        ("9999999999999999999999999999 gal", "too large or too small"),
    ] {
        refused(&to("Soup", amount), says);
    }
    refused(&to("Pot", "3 qt"), "does not say how much it makes: add Makes to its card, such as 3 qt");
    for (factor, says) in [
        ("0", "above zero"),
        ("-2", "above zero"),
        ("twice", "is no number to multiply by"),
        ("10001", "that is 10001 times the recipe"),
        ("0.00009", "that is 0.00009 times the recipe"),
        ("79228162514264337593543950335", "is no number"),
    ] {
        refused(&by("Soup", factor), says);
    }
}

#[test]
fn names_that_are_none() {
    refused(&by("Soop", "2"), "no recipe or dish is called “Soop”. Did you mean “Soup”?");
    for (on_hand, says) in [
        ("4 lb Leek", ""),
        ("4 lb Lekes", "give how much and of what, such as 4 lb Leeks. Did you mean “Leeks”?"),
        ("Leeks", "is not an amount of anything in “Soup”"),
        ("3 bunch Leeks", "how far 3 bunch of “Leeks” goes is not known"),
        ("0 lb Leeks", "above zero"),
        ("2 lb Butter", "is not an amount of anything in “Soup”"),
    ] {
        if says.is_empty() {
            assert!(scaled(BOOK, &from("Soup", &[on_hand])).is_ok(), "{on_hand}");
        } else {
            refused(&from("Soup", &[on_hand]), says);
        }
    }
    // What stands before the comma is enough where it is one thing's alone.
    assert!(scaled(BOOK, &from("Soup", &["4 lb onion"])).is_ok());
    let mut request = by("Soup", "2");
    request.whole = Some("Leeks".to_owned());
    refused(&request, "“Leeks” is not counted in “Soup”");
    request.whole = Some("Eggs".to_owned());
    refused(&request, "no line of “Soup” asks for “Eggs”");
    let mut request = to("Soup", "6");
    request.portion = Some("big".to_owned());
    refused(&request, "“big” is no portion");
}

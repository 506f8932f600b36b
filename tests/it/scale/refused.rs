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
        ("4 lb Lekes", "give how much and of what, such as 2 lb Leeks. Did you mean “Leeks”?"),
        // What was typed is no answer to itself: it lacks an amount, or its unit is none.
        ("Leeks", "“Leeks” does not say how much there is: give a number and a unit, such as 2 lb Leeks"),
        ("some Leeks", "“some Leeks” does not say how much there is"),
        (
            "4 lbb Leeks",
            "“lbb” is neither a unit nor part of a name there. Did you mean lb? Give how much and of what, such as 2 lb Leeks",
        ),
        (
            "Leeks 4 zz",
            "anything in “Soup”: “zz” is neither a unit nor part of a name there. Give how much and of what, such as 2 lb",
        ),
        (
            "3 bunch Leeks",
            "how far 3 bunch of “Leeks” goes is not known: “Leeks” is counted in bunch but priced by weight, and nothing \
             joins the two. Add a Measures row: Item Leeks, Measure bunch, Weighs",
        ),
        ("0 lb Leeks", "above zero"),
        (
            "2 lb Butter",
            "is not an amount of anything in “Soup”: give how much and of what, such as 2 lb Leeks. It takes “Leeks”, “Onions, \
             yellow” and “Cream”.",
        ),
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
    refused(&request, "no line of “Soup” asks for “Eggs”. It takes “Leeks”, “Onions, yellow” and “Cream”.");
    // A word of three letters is near none; what begins so is proposed, else which there are.
    refused(&by("Sou", "2"), "no recipe or dish is called “Sou”. Did you mean “Soup”?");
    refused(&by("Nope", "2"), "no recipe or dish is called “Nope”. The book has “Soup” and “Pot”.");
    // A dish without its recipe is not proposed for itself.
    let dish = format!("{BOOK}\nDish,Recipe\nRoast,Rosat\n");
    let said = scaled(&dish, &by("Roast", "2")).expect_err("it has no recipe").to_string();
    assert_eq!(
        said,
        "“Roast” is a dish of the menu, and its recipe is not in the book: add the recipe, or name one in that row"
    );
    let none = BOOK.replacen("Cream,1,cup", "Cream,0,cup", 1);
    let said = scaled(&none, &from("Soup", &["2 qt Cream"])).expect_err("it takes none").to_string();
    assert_eq!(said, "“Soup” asks for nothing of “Cream”, so no amount of it runs out: give what else there is");
    let mut request = to("Soup", "6");
    request.portion = Some("big".to_owned());
    refused(&request, "“big” is no portion");
}

//! Portion on the menu: whose portion a figure is of where menu and card differ, what is told of one that cannot be, and what
//! asks to be costed again once it is changed. Worked by hand.
//!
//! A gallon and a quart of soup is 160 fl oz, of which 10 % stay in the pot: 144 fl oz, twelve portions of the card's 12 fl oz,
//! eighteen of the menu's 8. It takes 9 lb of leeks at 2.00: 18.00, so 1.50 and 1.00.

use serde_json::Value;

use crate::cli::Folder;
use crate::recalc::{Sheets, Value as Cell, assert_recalculates, with_changes};
use crate::support::{cost_json, dish, line, no_errors, recipe};
use crate::why::{asked, step};
use crate::workbook::costed;

const SOUP: &str = "\
Setting,Value
Currency,USD
Costing date,2026-11-20
Target food cost,30%

Item,Pack,Price,Yield,Allergens
Leeks,10 lb,$20.00,100%,none

Recipe,Leek soup
Makes,\"1 gal 1 qt\"
Portion,12 fl oz
Serving loss,10%
Ingredient,Qty,Unit
Leeks,9,lb

Dish,Portion,Menu price
Leek soup,8 fl oz,$4.50
";

const COURSES: &str = "
Recipe,Lunch
Portions,1
Menu price,$9.00
Ingredient,Qty,Unit
Leek soup,1,portion

Recipe,Supper
Portions,1
Menu price,$9.00
Ingredient,Qty,Unit
Leek soup,1,each
";

/// Code, cell and message of everything told of a book.
fn told(json: &Value) -> Vec<(String, String, String)> {
    let text = |problem: &Value, key: &str| problem[key].as_str().unwrap().to_owned();
    let problems = json["problems"].as_array().unwrap().iter();
    problems.map(|one| (text(one, "code"), text(one, "cell"), text(one, "message"))).collect()
}

/// The row in which a text stands in column A, as it was written.
fn row(sheets: &Sheets, sheet: &str, text: &str) -> usize {
    let row = (1..90).find(|row| sheets.value(sheet, &format!("A{row}")) == Cell::Text(text.to_owned()));
    row.unwrap_or_else(|| panic!("no {text} on {sheet}"))
}

fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() < 1e-9, "{found}, not {wanted}");
}

#[test]
fn a_recipe_sold_under_its_own_name_in_another_portion_says_which_is_meant() {
    let book = format!("{SOUP}{COURSES}");
    let json = cost_json(&[("book.csv", &book)]);
    no_errors(&json);
    // What is sold is the menu's, what the recipe is the card's; a line says which it counts.
    let sold = dish(&json, "Leek soup");
    assert_eq!((&sold["portion"]["qty"], &sold["portion_cost"]), (&"8".into(), &"1".into()));
    let made = recipe(&json, "Leek soup");
    assert_eq!((&made["portion"]["qty"], &made["portion"]["unit"]), (&"12".into(), &"fl oz".into()));
    assert_eq!((&made["portions"], &made["portion_cost"]), (&"12".into(), &"1.5".into()));
    assert_eq!(line(&json, "Lunch", "Leek soup")["cost"], "1.5");
    assert_eq!(line(&json, "Supper", "Leek soup")["cost"], "1");
    let apart = |cell: &str, message: &str| ("portions-apart".to_owned(), cell.to_owned(), message.to_owned());
    assert_eq!(
        told(&json),
        [
            apart("B17", "“Leek soup” is sold as 8 fl oz, and a portion on its card is 12 fl oz"),
            apart("B23", "a portion of “Leek soup” is its card's here, 12 fl oz; the dish of that name is 8 fl oz"),
            apart("B29", "“Leek soup” is the dish here, 8 fl oz; a portion on its card is 12 fl oz"),
        ]
    );
    let folder = Folder::with("book.csv", &book);
    let why = folder.run(&["why", "book.csv", "Leek soup"]).ends(0).out;
    assert!(why.contains("Assumed: “Leek soup” is sold as 8 fl oz, and a portion on its card is"), "{why}");
    let rows = folder.run(&["cost", "book.csv", "--format", "csv", "--rows", "recipes"]).ends(0).out;
    assert!(rows.contains("Leek soup,18,18,1.25,gal,12,1.5,0,12,fl oz,USD,2026-11-20\n"), "{rows}");
    // In the workbook the card stands by its own portion, above its lines too, and the dish beside the menu's.
    let (_, _, written) = costed("book.csv", book.as_bytes());
    assert_recalculates(&written, "two portions of one name");
    let (_, _, again) = costed("book.costed.xlsx", &written);
    assert!(again == written, "costed again it is another book");
    let sheets = Sheets::open(&written);
    let on_card = |label: &str| format!("B{}", row(&sheets, "Leek soup", label));
    assert_eq!(sheets.value("Leek soup", &on_card("Portion")), Cell::Text("12 fl oz".to_owned()));
    near(sheets.number("Leek soup", &on_card("Portion cost")), 1.5);
    let sold = row(&sheets, "Leek soup", "Sold as: Leek soup");
    assert_eq!(sheets.value("Leek soup", &format!("C{sold}")), Cell::Text("8 fl oz".to_owned()));
    near(sheets.number("Leek soup", &format!("G{sold}")), 1.0);
    let problems = (4..10).map(|row| sheets.value("Problems", &format!("E{row}")));
    assert_eq!(problems.filter(|code| *code == Cell::Text("portions-apart".to_owned())).count(), 3);
}

/// The card's portion in other words is the card's; and a dish by another name is one by itself.
#[test]
fn one_portion_in_other_words_is_one() {
    for (row, cost) in [
        ("Leek soup,12 fl oz,$4.50", "1.5"),
        ("Leek soup,1 1/2 cup,$4.50", "1.5"),
        ("Leek soup,1 portion,$4.50", "1.5"),
        ("Leek soup,,$4.50", "1.5"),
    ] {
        let json = cost_json(&[("book.csv", &SOUP.replace("Leek soup,8 fl oz,$4.50", row))]);
        assert_eq!(dish(&json, "Leek soup")["portion_cost"], cost, "{row}");
        assert_eq!(told(&json), [], "{row}");
    }
    let other = SOUP.replace("Dish,Portion", "Dish,Recipe,Portion").replace("soup,8 fl", "soup cup,Leek soup,8 fl");
    let json = cost_json(&[("book.csv", &other)]);
    assert_eq!(dish(&json, "Leek soup cup")["portion_cost"], "1");
    assert_eq!(told(&json), []);
    // A card that says Portions alone: half of one is another portion.
    let half = SOUP.replace("Makes,\"1 gal 1 qt\"\nPortion,12 fl oz\nServing loss,10%", "Portions,12");
    let json = cost_json(&[("book.csv", &half.replace("8 fl oz", "1/2 portion"))]);
    assert_eq!(dish(&json, "Leek soup")["portion_cost"], "0.75");
    assert_eq!(
        told(&json)[0].2,
        "“Leek soup” is sold as 0.5 portion, and a portion on its card is one of the 12 of a batch"
    );
}

/// A line in a measure that nothing weighs, and pounds of what is made by volume: neither waits for the other. What hangs on
/// the batch that could not be read does.
#[test]
fn a_portion_that_cannot_be_is_told_beside_the_recipes_errors() {
    let book = SOUP.replace("Leeks,9,lb", "Leeks,9,trug").replace("8 fl oz", "3 lb");
    let errors = |book: &str| {
        let json = cost_json(&[("book.csv", book)]);
        assert!(dish(&json, "Leek soup")["portion_cost"].is_null());
        let errors = json["problems"].as_array().unwrap().iter().filter(|one| one["severity"] == "error");
        let text = |one: &Value, key: &str| one[key].as_str().unwrap().to_owned();
        errors.map(|one| (text(one, "code"), text(one, "cell"))).collect::<Vec<_>>()
    };
    let said = |told: &[(&str, &str)]| -> Vec<(String, String)> {
        told.iter().map(|(code, cell)| ((*code).to_owned(), (*cell).to_owned())).collect()
    };
    assert_eq!(errors(&book), said(&[("measure-missing", "B14"), ("measure-missing", "B17")]));
    // So is the card's own portion, on which the menu's then hangs.
    let card = book.replace("Portion,12 fl oz", "Portion,12 oz wt");
    assert_eq!(errors(&card), said(&[("measure-missing", "B11"), ("measure-missing", "B14")]));
    let unread = book.replace("Makes,\"1 gal 1 qt\"", "Makes,a lot");
    assert_eq!(errors(&unread), said(&[("not-a-number", "B10"), ("measure-missing", "B14")]));
}

/// A 10 lb skate gives 5 lb of wing and 4 lb of bones; a plate is a quarter of 2 lb of wing and half a pound of bones. As long
/// as the menu serves what it did the weights hold; a portion typed there asks to cost again.
#[test]
fn another_portion_on_the_menu_asks_to_weigh_the_trim_again() {
    let book = "\
Setting,Value
Currency,USD
Costing date,2026-11-20

Item,Pack,Price,Yield
Skate,10 lb,$80.00,100%

Test,Role,Part,Weight
Cutting up skate,as purchased,Skate,10 lb
Cutting up skate,main,Skate wing,5 lb
Cutting up skate,by-product,Skate bones,4 lb

Recipe,Skate in its broth
Portions,4
Ingredient,Qty,Unit
Skate wing,2,lb
Skate bones,1/2,lb

Dish,Recipe,Portion,Menu price
Skate plate,Skate in its broth,,$18.00
Skate for two,Skate in its broth,2 portions,$34.00
Skate to take home,Skate in its broth,1 batch,$60.00

Dish,Portions
Skate plate,20
Skate for two,5
";
    let (_, _, written) = costed("book.csv", book.as_bytes());
    assert_recalculates(&written, "portions of skate");
    let sheets = Sheets::open(&written);
    let all = "All, plan and stock too";
    let stands = format!(
        "B{}",
        (1..200).find(|row| sheets.value("Trim", &format!("A{row}")) == Cell::Text(all.to_owned())).unwrap()
    );
    let group = "What the menu serves";
    assert!((1..200).any(|row| sheets.value("Trim", &format!("A{row}")) == Cell::Text(group.to_owned())));
    let word = |text: &str| Cell::Text(text.to_owned());
    assert_eq!(sheets.value("Trim", &stands), word("yes"));
    for (served, holds) in
        [("Skate plate", "cost again"), ("Skate for two", "cost again"), ("Skate to take home", "yes")]
    {
        let cell = format!("C{}", row(&sheets, "Menu", served));
        let changed = with_changes(&written, &[("Menu", &cell, 3.0)]);
        // What is not planned is not weighed.
        assert_eq!(changed.value("Trim", &stands), word(holds), "{served}");
    }
}

/// By the cup: 18.00 × 8 ÷ 144 = 1.00, which the walk re-adds.
#[test]
fn why_says_of_how_much_a_dish_is_a_share() {
    let json = asked(SOUP, "Leek soup", None);
    let share = step(&json, "Leek soup", 0, "share of the batch");
    assert_eq!(share["from"], "8 fl oz of it are served; a batch gives 12 portions of 12 fl oz");
    assert_eq!(step(&json, "Leek soup", 0, "portion cost")["amount"], "1");
}

//! Cards on request: a book of more than 200 recipes stands in lists, but for those that are asked for.

use std::fmt::Write as _;

use jiff::civil::date;
use parings::{Cards, Options, Reading, Scenario, Source, cost, read, write_with_cards};
use serde_json::Value as Json;

use crate::recalc::{Sheets, Value, assert_recalculates};
use crate::support::{cost_bytes_json, dec, dish, no_errors};

const STAMP: jiff::civil::DateTime = date(2026, 11, 20).at(9, 0, 0, 0);

/// 205 soups of one pound of onions at $0.50 and as many more as their number; the menu sells three, two of them in a group.
/// Soup 7 is sold by its card alone.
fn book() -> String {
    let mut book = "Setting,Value\nCosting date,2026-11-20\nTarget food cost,30%\n\n\
                    Item,Pack,Price,Date\nOnions,50 lb,$25.00,2026-11-01\n\n\
                    Dish,Recipe,Menu price,Group\nLeek soup,Soup 3,$4.00,\nBowl,Soup 150,$60.00,Winter\n\
                    Mug,Soup 204,$80.00,Winter\n\n\
                    Recipe,Portions,Menu price,Group\n"
        .to_owned();
    for nth in 0..205 {
        let price = if nth == 7 { "$9.00" } else { "" };
        let group = if nth == 99 { "Café" } else { "" };
        writeln!(book, "Soup {nth},2,{price},{group}").unwrap();
    }
    book += "\nRecipe,Ingredient,Qty,Unit\n";
    for nth in 0..205 {
        writeln!(book, "Soup {nth},Onions,{},lb", nth + 1).unwrap();
    }
    book
}

fn reading() -> Reading {
    read(&[Source { name: "book.csv", bytes: book().as_bytes() }], Options::on(date(2026, 11, 20))).unwrap()
}

fn written(names: &[&str]) -> Vec<u8> {
    let reading = reading();
    let costing = cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
    let cards = Cards::named(&reading.kitchen, names).unwrap();
    write_with_cards(&reading, &costing, &cards, STAMP).unwrap().0
}

/// What stands in the first column of a sheet.
fn names(sheets: &Sheets, sheet: &str) -> Vec<String> {
    let texts = (1..300).map(|row| sheets.value(sheet, &format!("A{row}")));
    texts.filter_map(|value| if let Value::Text(text) = value { Some(text) } else { None }).collect()
}

#[test]
fn a_recipe_stands_on_its_card_or_in_the_lists_and_costs_the_same() {
    let bytes = written(&["leek soup", "Winter", "Soup 99"]);
    assert_recalculates(&bytes, "cards.xlsx");
    let sheets = Sheets::open(&bytes);
    assert_eq!(sheets.errors(), Vec::<String>::new());
    // Of the dish its recipe, of the group both recipes, and the recipe itself.
    let listed = names(&sheets, "Recipes");
    for name in ["Soup 3", "Soup 150", "Soup 204", "Soup 99"] {
        assert_eq!(sheets.value(name, "A1").to_string(), Value::Text("Recipe".to_owned()).to_string());
        assert!(!listed.contains(&name.to_owned()), "{name} stands twice");
    }
    assert!(listed.contains(&"Soup 4".to_owned()) && listed.len() == 202, "{}", listed.len());
    // Read again: every recipe once, and each dish at what it was. Four pounds for two portions are 1.00 a portion.
    let before = cost_bytes_json(&[("book.csv", book().as_bytes())]);
    let again = cost_bytes_json(&[("cards.xlsx", &bytes)]);
    no_errors(&again);
    assert_eq!(dec(&dish(&again, "Leek soup")["portion_cost"]), "1".parse().unwrap());
    let by_name = |json: &Json, list: &str, key: &str| {
        let all = json[list].as_array().unwrap().iter();
        let mut all: Vec<(String, String)> =
            all.map(|one| (one["name"].as_str().unwrap().to_owned(), one[key].to_string())).collect();
        all.sort();
        all
    };
    assert_eq!(by_name(&again, "recipes", "food_cost").len(), 205);
    assert_eq!(by_name(&again, "recipes", "food_cost"), by_name(&before, "recipes", "food_cost"));
    assert_eq!(by_name(&again, "dishes", "food_cost_percent"), by_name(&before, "dishes", "food_cost_percent"));
}

#[test]
fn a_name_that_is_none_is_told_with_the_nearest() {
    let reading = reading();
    let told = |name: &str| Cards::named(&reading.kitchen, &[name]).unwrap_err().to_string();
    assert_eq!(told("Leak soup"), "no recipe, dish or group is called “Leak soup”. Did you mean “Leek soup”?");
    assert_eq!(told("Wintr"), "no recipe, dish or group is called “Wintr”. Did you mean “Winter”?");
    let which = "no recipe, dish or group is called “Bread”. The book has “Bowl”, “Café”, “Leek soup”, ";
    assert!(told("Bread").starts_with(which), "{}", told("Bread"));
    // The command says which flag it was, and could not run.
    let folder = crate::cli::Folder::with("book.csv", book());
    let ran = folder.run(&["cost", "book.csv", "--cards", "Leak soup"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("Did you mean “Leek soup”? (--cards takes the name of a recipe"), "{}", ran.err);
    assert_eq!(folder.run(&["cost", "book.csv", "--cards", "Leek soup", "-o", "out.xlsx"]).code, 0);
    // A group of a card is one as well, as names are compared.
    let cafe = Cards::named(&reading.kitchen, &["cafe"]).unwrap();
    assert_eq!(cafe, Cards::named(&reading.kitchen, &["Soup 99"]).unwrap());
}

#[test]
fn names_reach_every_dish_above_200_recipes_wherever_its_row_went() {
    let bytes = written(&["Soup 204"]);
    let mut archive = zip::ZipArchive::new(std::io::Cursor::new(bytes.as_slice())).unwrap();
    let mut text = String::new();
    std::io::Read::read_to_string(&mut archive.by_name("xl/workbook.xml").unwrap(), &mut text).unwrap();
    let formula = |name: &str| {
        let named = text.split(&format!("<definedName name=\"{name}\">")).nth(1);
        let formula = named.unwrap_or_else(|| panic!("no {name}")).split("</definedName>").next().unwrap();
        formula.replace("&quot;", "\"").replace("&amp;", "&").replace("&lt;", "<").replace("&gt;", ">")
    };
    // On the menu the row is found by its key, whichever it is now; on its card a dish stays where it is.
    assert!(
        formula("Portion_cost.Leek_soup").contains("MATCH(\"M2\",'Menu'!"),
        "{}",
        formula("Portion_cost.Leek_soup")
    );
    assert!(formula("Portion_cost.Mug").starts_with("'Soup 204'!$"), "{}", formula("Portion_cost.Mug"));
    assert!(formula("Batch_cost.Soup_0").contains("'Recipes'!$"), "{}", formula("Batch_cost.Soup_0"));
    // One that stands on no menu is figured from its recipe: nothing leads to the Summary, which may be sorted.
    assert!(!text.split("<definedNames>").nth(1).unwrap().contains("Summary!$B$"), "{text}");
    // What the names come to, in a cell of another sheet. Eight pounds for two portions are 2.00; of 9.00 that is 22.2 %.
    let mut sheets = Sheets::open(&bytes);
    for (name, expected) in [
        ("Portion_cost.Leek_soup", 1.0),
        ("Margin.Leek_soup", 3.0),
        ("Portion_cost.Mug", 51.25),
        ("Portion_cost.Soup_7", 2.0),
        ("Food_cost.Soup_7", 2.0 / 9.0),
        ("Margin.Soup_7", 7.0),
        // Two dollars over 30 % is 6.67, no step is set.
        ("Price_at_target.Soup_7", 2.0 / 0.3),
        ("Batch_cost.Soup_0", 0.5),
    ] {
        let found = sheets.formula(&formula(name));
        assert!((found - expected).abs() < 1e-9, "{name}: {found}, not {expected}");
    }
}

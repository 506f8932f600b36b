//! The book written as it was typed: the same kitchen when it is read again, the same bytes when it is written again, and
//! nothing in it that was figured.

use std::collections::BTreeMap;
use std::io::Cursor;

use calamine::{Data, Reader, Xlsx};
use parings::problem::Code;
use parings::{Reading, Source, read, write_book};
use proptest::prelude::*;
use serde_json::Value;

use crate::faults::chance::difference;
use crate::support::{cost_bytes, json_of, options};
use crate::workbook::STAMP;

/// The book of these files as it is written.
fn written(reading: &Reading) -> Result<Vec<u8>, TestCaseError> {
    write_book(reading, STAMP).map_err(|error| TestCaseError::fail(error.to_string()))
}

/// The figures, and what is wrong with them, without where it stands; what concerns only the shape of a file left out, as
/// the costed workbook leaves it out.
fn figures(files: &[(&str, &[u8])]) -> (Reading, Value, Vec<u8>) {
    let (reading, costing) = cost_bytes(files);
    let mut json = json_of(&reading, &costing);
    // They are compared in the costed workbook, where each stands at its cell.
    json["problems"] = Value::Null;
    // Read under one name, so that its sheets name the same origin.
    let mut of_one = reading.clone();
    of_one.origins = vec!["book.xlsx".to_owned()];
    let costed = parings::write(&of_one, &costing, STAMP).unwrap();
    (reading, json, costed)
}

/// Asserts that a book is the same when written as typed: its JSON, its costed workbook with every problem at its cell, and
/// byte for byte when written again.
pub fn same_when_written(files: &[(&str, &[u8])]) -> Result<Vec<u8>, TestCaseError> {
    let (reading, before, costed) = figures(files);
    let once = written(&reading)?;
    let (again, after, costed_again) = figures(&[("book.xlsx", &once)]);
    prop_assert_eq!(&before, &after);
    let (old, new) = (codes(&reading), codes(&again));
    let fresh: Vec<_> = new.iter().filter(|(code, count)| old.get(code).is_none_or(|before| before < count)).collect();
    prop_assert!(fresh.is_empty(), "problems that the book did not have: {:?}: {:#?}", fresh, again.problems);
    prop_assert!(costed == costed_again, "costed workbooks:\n{}", difference(&costed, &costed_again));
    let twice = written(&again)?;
    prop_assert!(once == twice, "written twice:\n{}", difference(&once, &twice));
    Ok(once)
}

/// How often each problem was met in reading.
fn codes(reading: &Reading) -> BTreeMap<Code, usize> {
    let mut codes = BTreeMap::new();
    reading.problems.iter().for_each(|problem| *codes.entry(problem.code).or_default() += 1);
    codes
}

#[track_caller]
fn holds(files: &[(&str, &[u8])]) -> Vec<u8> {
    same_when_written(files).unwrap_or_else(|error| panic!("{error}"))
}

/// The sheets of a workbook with the texts of their rows.
fn sheets(bytes: &[u8]) -> Vec<(String, Vec<Vec<String>>)> {
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).unwrap();
    let names = book.sheet_names();
    let rows = |range: calamine::Range<Data>| {
        range.rows().map(|row| row.iter().map(ToString::to_string).collect()).collect::<Vec<Vec<String>>>()
    };
    names.into_iter().map(|name| (name.clone(), rows(book.worksheet_range(&name).unwrap()))).collect()
}

fn sheet<'a>(sheets: &'a [(String, Vec<Vec<String>>)], name: &str) -> &'a [Vec<String>] {
    &sheets.iter().find(|(known, _)| known == name).unwrap_or_else(|| panic!("no {name} in {sheets:?}")).1
}

#[test]
fn a_book_is_written_as_typed_and_nothing_beside_it() {
    let book = "Setting,Value\nCurrency,USD\n\nItem,Pack,Price\nOnions,50 lb,$25.00\n\n\
                Recipe,Broth\nPortions,4\nIngredient,Qty,Unit\nOnions,1 1/2,lb\nSalt,to taste,\n\n\
                Dish,Recipe,Menu price\nCup of broth,Broth,3.00\n";
    let bytes = holds(&[("broth.csv", book.as_bytes())]);
    let sheets = sheets(&bytes);
    let names: Vec<&str> = sheets.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(names, ["Menu", "Broth", "Prices", "Settings"]);
    assert_eq!(sheet(&sheets, "Prices"), [["Item", "Pack", "Price", "Per"], ["Onions", "50 lb", "25", ""]]);
    assert_eq!(sheet(&sheets, "Settings"), [["Setting", "Value"], ["Currency", "USD"]]);
    let card = [
        ["Recipe", "Broth", ""],
        ["Portions", "4", ""],
        ["", "", ""],
        ["Ingredient", "Qty", "Unit"],
        ["Onions", "1.5", "lb"],
        ["Salt", "to taste", ""],
    ];
    assert_eq!(sheet(&sheets, "Broth"), card);
}

/// Rows that were rows where they stood and would be headings, totals, tables or cards where they come to stand.
#[test]
fn rows_that_look_like_something_else_stay_rows() {
    for (name, book, doubtful) in [
        (
            "an ingredient in capitals",
            "Item,Pack,Price\nSALT,1 lb,1.00\n\nRecipe,Soup\nPortions,2\nQty,Ingredient,X\n,SALT,y\n2,SALT,z\n",
            "Soup",
        ),
        ("an item without a price", "No,Item,Pack,Price\n7,Salt,,\n8,Oil,1 l,2.00\n", "Prices"),
        ("a line named as a label", "Recipe,Ingredient,Qty,Unit\nSoup,Salt,1,g\nSoup,Method,1,g\n", ""),
        ("a setting left open", "Setting,Value,X\nHOUSE RULE,,y\nCurrency,USD,\n", "Settings"),
        ("a dish in capitals", "X,Dish,Recipe,Menu price\ny,SOUP,,\nz,Stew,,3.00\n", "Menu"),
        ("a planned dish in capitals", "X,Dish,Portions\ny,SOUP,\nz,Stew,3\n", "Plan"),
        ("a recipe in capitals", "Recipe,Makes,Portions\nSOUP,,1\nBroth,1 l,\n", ""),
    ] {
        let bytes =
            same_when_written(&[("book.csv", book.as_bytes())]).unwrap_or_else(|error| panic!("{name}: {error}"));
        let guarded: Vec<String> = sheets(&bytes)
            .into_iter()
            .filter(|(_, rows)| rows.iter().flatten().any(|text| text == "Row read as"))
            .map(|(name, _)| name)
            .collect();
        assert_eq!(guarded.join(" "), doubtful, "{name}");
    }
}

#[test]
fn settings_stand_as_typed_and_no_other() {
    let (reading, _) = cost_bytes(&[("book.csv", b"Item,Pack,Price\nOnions,50 lb,$25.00\n")]);
    let bytes = write_book(&reading, STAMP).unwrap();
    assert_eq!(sheets(&bytes).iter().map(|(name, _)| name.as_str()).collect::<Vec<_>>(), ["Prices"]);
    let typed = "Setting,Value\nTarget food cost,30\nHouse colour,green\nTarget food cost,31\n\
                 Price step,a nickel\n\nItem,Pack,Price\nOnions,50 lb,$25.00\n";
    let sheets = sheets(&holds(&[("book.csv", typed.as_bytes())]));
    let settings = sheet(&sheets, "Settings");
    // Where a percentage is meant, one is shown: the cell is 30 %.
    let rows = [
        ["Setting", "Value"],
        ["Target food cost", "0.3"],
        ["House colour", "green"],
        ["Target food cost", "0.31"],
        ["Price step", "a nickel"],
    ];
    assert_eq!(settings, rows);
}

#[test]
fn a_written_book_is_the_kitchens_own() {
    let (reading, _) = cost_bytes(&[("book.csv", b"Item,Pack,Price\nOnions,50 lb,$25.00\n")]);
    let bytes = write_book(&reading, STAMP).unwrap();
    let archive = zip::ZipArchive::new(Cursor::new(&bytes)).unwrap();
    assert!(!archive.file_names().any(|name| name.unwrap() == "docProps/custom.xml"), "it bears our stamp");
    let again = read(&[Source { name: "next.xlsx", bytes: &bytes }], options()).unwrap();
    assert_eq!(again.origins, ["next.xlsx"]);
    assert!(again.sheets.iter().all(|sheet| !sheet.is_output));
}

#[test]
fn a_costed_workbook_gives_its_inputs_alone() {
    let (name, bytes) = ("book.costed.xlsx", crate::workbook::costed("t.xlsx", crate::workbook::TEACHING_KITCHEN).2);
    let (of_costed, _) = cost_bytes(&[(name, &bytes)]);
    let from_costed = write_book(&of_costed, STAMP).unwrap();
    let names: Vec<String> = sheets(&from_costed).into_iter().map(|(name, _)| name).collect();
    for figured in ["Summary", "Trim", "What if", "Problems", "How it was figured"] {
        assert!(!names.iter().any(|name| name == figured), "{figured}");
    }
    same_when_written(&[(name, &bytes)]).unwrap();
}

#[test]
fn sheets_that_are_not_read_are_carried_as_they_were() {
    let carried = b"Our suppliers call before nine\n\nSummary of the week,12.5,2026-11-20\n";
    let book: &[u8] = b"Item,Pack,Price\nOnions,50 lb,$25.00\n";
    let sheets = sheets(&holds(&[("book.csv", book), ("Summary.csv", carried)]));
    assert_eq!(sheet(&sheets, "Summary")[2][..2], ["Summary of the week", "12.5"]);
}

#[test]
fn many_recipes_stand_in_lists_as_typed() {
    let mut book = "Item,Pack,Price\nGreens,10 lb,$9.00\n\n".to_owned();
    for n in 0..201 {
        let name = if n == 7 { "SOUP OF THE DAY".to_owned() } else { format!("Soup {n}") };
        let makes = if n == 7 { "" } else { "Makes,2 qt\n" };
        book.push_str(&format!(
            "Recipe,{name}\n{makes}Ingredient,Qty,Unit,Note\nGreens,{n},oz,\nSALT,,,\nSalt,,,flaky\n\n"
        ));
    }
    let sheets = sheets(&holds(&[("many.csv", book.as_bytes())]));
    let names: Vec<&str> = sheets.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(names, ["Recipes", "Lines", "Prices"]);
}

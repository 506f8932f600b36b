//! Hostile books: absurd numbers, names that look like something else, cells as long as they may be. A clear problem, no
//! panic, and nothing in the workbook that a spreadsheet program cannot hold.

use std::io::{Cursor, Read};

use calamine::{Data, Reader, Xlsx};
use parings::problem::Code;
use proptest::prelude::*;
use serde_json::Value;

use super::chance::{difference, through};
use crate::support::{at_length, cost_json, dec, recipe};
use crate::written::same_when_written;

/// A book of one recipe of one item.
fn one(item: &str, price: &str, pack: &str, recipe: &str, qty: &str) -> String {
    let quoted = |text: &str| format!("\"{}\"", text.replace('"', "\"\""));
    let [item, price, pack, recipe, qty] = [item, price, pack, recipe, qty].map(quoted);
    format!(
        "Item,Pack,Price\n{item},{pack},{price}\n\nRecipe,Portions\n{recipe},1\n\n\
         Recipe,Ingredient,Qty,Unit\n{recipe},{item},{qty},lb\n\n\
         Setting,Value\nCurrency,USD\nTarget food cost,30%\n"
    )
}

/// The codes of a book's errors with their cells.
fn errors(json: &Value) -> Vec<String> {
    let errors = json["problems"].as_array().into_iter().flatten().filter(|problem| problem["severity"] == "error");
    errors.map(|p| format!("{} {}", p["cell"].as_str().unwrap(), p["code"].as_str().unwrap())).collect()
}

/// Every part of a workbook as text.
fn parts(bytes: &[u8]) -> Vec<(String, String)> {
    let mut zip = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    (0..zip.len())
        .map(|at| {
            let mut entry = zip.by_index(at).unwrap();
            let name = entry.name().unwrap().into_owned();
            let mut text = String::new();
            entry.read_to_string(&mut text).unwrap();
            (name, text)
        })
        .collect()
}

/// Costs a book, writes it, and does so again with what was written; gives the workbook.
fn written(book: &str) -> Result<Vec<u8>, TestCaseError> {
    let (_, once) = through("book.csv", book.as_bytes())?;
    let (_, twice) = through("book.costed.xlsx", &once)?;
    prop_assert!(once == twice, "{}", difference(&once, &twice));
    // What no cell holds is cut off.
    let fits = book.split('"').all(|text| text.len() <= 32_767);
    let as_typed = if fits { same_when_written(&[("book.csv", book.as_bytes())])? } else { once.clone() };
    // XML 1.0, 2.2: the characters that a document may hold.
    let legal = |c: char| matches!(c, '\t' | '\n' | '\r' | ' '..='\u{D7FF}' | '\u{E000}'..='\u{FFFD}' | '\u{10000}'..);
    for (name, text) in parts(&once).into_iter().chain(parts(&as_typed)) {
        prop_assert!(text.chars().all(legal), "{name} holds what no XML may");
    }
    Ok(once)
}

#[test]
fn absurd_numbers_are_problems_where_they_stand() {
    let most = "79228162514264337593543950335";
    for (price, pack, qty, cell, code) in [
        ("1e300", "10 lb", "1", "C2", Code::NumberOutOfRange),
        ("-3.00", "10 lb", "1", "C2", Code::PriceNegative),
        ("(3.00)", "10 lb", "1", "C2", Code::PriceNegative),
        ("99999999999999999999999999999", "10 lb", "1", "C2", Code::NumberOutOfRange),
        ("3.00", "0 lb", "1", "B2", Code::NumberOutOfRange),
        ("3.00", "0/5 lb", "1", "B2", Code::NumberOutOfRange),
        ("3.00", most, "1", "B2", Code::NumberOutOfRange),
        ("3.00", "10 lb", "1e20", "C8", Code::NumberOutOfRange),
        ("3.00", "10 lb", most, "C8", Code::NumberOutOfRange),
        ("3.00", "10 lb", "-1", "C8", Code::NumberOutOfRange),
        // Each can be held; what it comes to cannot.
        ("9999999999999999999999999999", "10 lb", "9999999999", "C8", Code::NumberOutOfRange),
        ("9999999999999999999999999999", "10 lb", "100000000000000000000", "C8", Code::NumberOutOfRange),
    ] {
        let book = one("Onions", price, pack, "Soup", qty);
        let json = cost_json(&[("book.csv", &book)]);
        assert_eq!(errors(&json), [format!("{cell} {code}")], "{price}, {pack}, {qty}: {:#}", json["problems"]);
        assert!(recipe(&json, "Soup")["food_cost"].is_null());
        written(&book).unwrap();
    }
}

#[test]
fn what_costs_nothing_or_next_to_nothing_is_costed() {
    // A free item, and the smallest price by the largest quantity that a spreadsheet keeps.
    for (price, qty, cost) in [("0", "2", "0"), ("0.0000000001", "1000000000000", "10")] {
        let json = cost_json(&[("book.csv", &one("Onions", price, "10 lb", "Soup", qty))]);
        assert_eq!(errors(&json), Vec::<String>::new());
        assert_eq!(dec(&recipe(&json, "Soup")["food_cost"]), cost.parse().unwrap());
    }
}

#[test]
fn names_that_look_like_formulas_come_back_as_text() {
    for name in ["+1", "@x", "-2+3", "@SUM(A1)", "+cmd|' /C calc'!A0", "=cmd|' /C calc'!A0", "=1+1", "\t=1+1"] {
        let bytes = written(&one(name, "3.00", "10 lb", &format!("{name} soup"), "2")).unwrap();
        let mut book: Xlsx<_> = Xlsx::new(Cursor::new(&bytes[..])).unwrap();
        let mut seen = false;
        for sheet in book.sheet_names() {
            let formulas = book.worksheet_formula(&sheet).unwrap();
            // A card's sheet bears the recipe's name, and formulas name the sheet in quotation marks.
            let is_name = |formula: &str| formula.starts_with(name.trim().trim_start_matches('='));
            assert!(!formulas.used_cells().any(|(_, _, formula)| is_name(formula)), "{name}");
            let values = book.worksheet_range(&sheet).unwrap();
            seen |= values.used_cells().any(|(_, _, cell)| matches!(cell, Data::String(text) if text == name.trim()));
        }
        assert!(seen, "{name} is lost");
    }
}

#[test]
fn cells_as_long_as_they_may_be_and_longer() {
    let few = [32, 32_768];
    let all = [31, 32, 255, 256, 32_767, 32_768, 40_000];
    for length in if at_length() { all.to_vec() } else { few.to_vec() } {
        let name = "Onion ".repeat(length / 6 + 1)[..length].trim().to_owned();
        written(&one(&name, "3.00", "10 lb", &name, "2")).unwrap();
        written(&one(&name, &name, &name, &name, &name)).unwrap();
    }
}

#[test]
fn characters_that_no_workbook_holds_do_no_harm() {
    for name in ["a\u{1}b", "a\u{B}b", "\u{FFFE}x", "x\u{FFFF}", "a\u{7F}b", "_x0041_", "a\rb", "a\nb", "\u{2028}z"] {
        written(&one(name, "3.00", "10 lb", &format!("{name} soup"), "2")).unwrap();
    }
}

proptest! {
    #![proptest_config(crate::support::chance(8))]

    /// Whatever a recipe is called, its card's sheet has a name that a workbook allows.
    #[test]
    fn any_name_makes_a_sheet(
        name in prop_oneof!["\\PC{1,40}", "[-'\\[\\]:*?/\\\\ a-cA-C]{1,40}", "(History|Prices|summary|Menu)( 2)?", ".{1,12}"],
    ) {
        let name = name.replace('\0', "");
        written(&one("Onions", "3.00", "10 lb", &name, "2"))?;
    }
}

//! The sample books: committed as their program makes them, and costed to the answers worked by hand beside them.

use std::collections::BTreeMap;

use rust_decimal::Decimal;
use serde_json::Value;

use crate::follow::every_cell_follows;
use crate::recalc::assert_recalculates;
use crate::support::{cost_bytes, dec, json_of};
use crate::workbook;

#[path = "../../sample-books/make.rs"]
mod make;

#[test]
fn the_committed_books_are_what_their_program_makes() {
    for (file, make) in make::BOOKS.iter().flat_map(|book| book.files) {
        let committed = std::fs::read(format!("{}/sample-books/{file}", env!("CARGO_MANIFEST_DIR"))).unwrap();
        assert!(committed == make().unwrap(), "run `cargo run --example make-sample-books`: {file} differs");
    }
}

/// Every sample book's name and files.
fn books() -> impl Iterator<Item = (&'static str, Vec<(&'static str, Vec<u8>)>)> {
    make::BOOKS
        .iter()
        .map(|book| (book.name, book.files.iter().map(|(file, make)| (*file, make().unwrap())).collect::<Vec<_>>()))
}

/// The costed workbook of files read together.
fn costed(files: &[(&'static str, Vec<u8>)]) -> Vec<u8> {
    let files: Vec<(&str, &[u8])> = files.iter().map(|(file, bytes)| (*file, bytes.as_slice())).collect();
    workbook::costed_together(&files).2
}

#[test]
fn every_formula_of_every_sample_recalculates() {
    for (name, files) in books() {
        assert_recalculates(&costed(&files), &format!("{name}.costed.xlsx"));
    }
}

#[test]
fn every_sample_costs_to_the_same_book_again() {
    for (name, files) in books() {
        let once = costed(&files);
        let twice = workbook::costed(&format!("{name}.costed.xlsx"), &once).2;
        assert!(once == twice, "{name}: costing its costed workbook gives another book");
    }
}

#[test]
fn every_sample_follows_every_cell() {
    for (name, files) in books() {
        println!("{name}");
        every_cell_follows(&costed(&files), 100);
    }
}

/// Where an answer stands in the JSON; `None` for figures that the JSON does not carry.
fn find<'a>(json: &'a Value, kind: &str, name: &str, figure: &str) -> Option<&'a Value> {
    let named = |list: &'a Value, name: &str| list.as_array().unwrap().iter().find(|one| one["name"] == name);
    match kind {
        "dish" => Some(&named(&json["dishes"], name)?[figure]),
        "test" => Some(&named(&json["tests"], name)?[figure]),
        "part" => {
            let tests = json["tests"].as_array().unwrap();
            Some(&tests.iter().find_map(|test| named(&test["parts"], name))?[figure])
        }
        "recipe" if figure.starts_with("cost_per_") => None,
        "recipe" => Some(&named(&json["recipes"], name)?[figure]),
        "line" => {
            let mut words = name.split(" > ");
            let recipe = named(&json["recipes"], words.next()?)?;
            let index: usize = words.next()?.parse().ok()?;
            Some(&recipe["lines"].as_array()?.get(index - 1)?[figure])
        }
        other => panic!("no figures of kind {other}"),
    }
}

/// Worked in fractions by `sample-books/check_…_kitchen.py`, which never opens the book; 28 digits are compared. Gives how
/// many figures of each kind there were.
fn costs_what_was_worked_by_hand<'a>(files: &[(&str, &[u8])], answers: &'a str) -> Vec<(&'a str, usize)> {
    let (reading, costing) = cost_bytes(files);
    let json = json_of(&reading, &costing);
    let mut compared: BTreeMap<&str, usize> = BTreeMap::new();
    for answer in answers.lines().skip(1) {
        let [kind, name, figure, _, expected] = answer.split('\t').collect::<Vec<_>>()[..] else {
            panic!("not five columns: {answer}");
        };
        let Some(value) = find(&json, kind, name, figure) else {
            assert!(kind == "recipe" && figure.starts_with("cost_per_"), "not found: {answer}");
            continue;
        };
        let (found, expected) = (dec(value), expected.parse::<Decimal>().unwrap());
        let off = (found - expected).abs();
        assert!(off <= Decimal::new(1, 20) * expected.abs().max(Decimal::ONE), "{answer}: found {found}");
        *compared.entry(kind).or_default() += 1;
    }
    compared.into_iter().collect()
}

#[test]
fn the_teaching_kitchen_costs_what_was_worked_by_hand() {
    let files = [("teaching-kitchen.xlsx", workbook::TEACHING_KITCHEN)];
    let answers = include_str!("../../sample-books/teaching-kitchen.answers.tsv");
    let counts = costs_what_was_worked_by_hand(&files, answers);
    assert_eq!(counts, [("dish", 42), ("line", 80), ("part", 75), ("recipe", 36), ("test", 12)]);
}

#[test]
fn the_metric_kitchen_costs_what_was_worked_by_hand() {
    let files: [(&str, &[u8]); 2] = [
        ("metric-kitchen-prices.csv", include_bytes!("../../sample-books/metric-kitchen-prices.csv")),
        ("metric-kitchen.xlsx", include_bytes!("../../sample-books/metric-kitchen.xlsx")),
    ];
    let answers = include_str!("../../sample-books/metric-kitchen.answers.tsv");
    let counts = costs_what_was_worked_by_hand(&files, answers);
    assert_eq!(counts, [("dish", 66), ("line", 113), ("part", 125), ("recipe", 56), ("test", 18)]);
}

//! The sample books: committed as their program makes them, and costed to the answers worked by hand beside them.

use std::collections::BTreeMap;

use rust_decimal::Decimal;
use serde_json::Value;

use crate::support::{cost_bytes, dec, json_of};

#[path = "../../sample-books/make.rs"]
mod make;

#[test]
fn the_committed_books_are_what_their_program_makes() {
    for (name, book) in make::BOOKS {
        let committed = std::fs::read(format!("{}/sample-books/{name}", env!("CARGO_MANIFEST_DIR"))).unwrap();
        assert!(committed == book().unwrap(), "run `cargo run --example make-sample-books`: {name} differs");
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

/// Worked in fractions by `sample-books/check_teaching_kitchen.py`, which never opens the book; 28 digits are compared.
#[test]
fn the_teaching_kitchen_costs_what_was_worked_by_hand() {
    let (reading, costing) = cost_bytes(&[("teaching-kitchen.xlsx", crate::workbook::TEACHING_KITCHEN)]);
    let json = json_of(&reading, &costing);
    let answers = include_str!("../../sample-books/teaching-kitchen.answers.tsv");
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
    let counts: Vec<_> = compared.into_iter().collect();
    assert_eq!(counts, [("dish", 42), ("line", 80), ("part", 75), ("recipe", 36), ("test", 12)]);
}

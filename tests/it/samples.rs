//! The sample books: committed as their program makes them, and costed to the answers worked by hand beside them.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

use parings::analysis::Trim;
use rust_decimal::Decimal;
use serde_json::Value;

use crate::follow::every_cell_follows;
use crate::recalc::assert_recalculates;
use crate::support::{cost_bytes, dec, dish, json_of, recipe, test};
use crate::workbook;
use crate::written::same_when_written;

#[path = "../../sample-books/make.rs"]
mod make;

#[test]
fn the_committed_files_are_what_their_program_makes() {
    for (file, make) in make::files() {
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

/// The costed workbook of every sample book, by its name.
static COSTED: LazyLock<Vec<(&str, Vec<u8>)>> = LazyLock::new(|| {
    books()
        .map(|(name, files)| {
            let files: Vec<(&str, &[u8])> = files.iter().map(|(file, bytes)| (*file, bytes.as_slice())).collect();
            (name, workbook::costed_together(&files).2)
        })
        .collect()
});

#[test]
fn every_formula_of_every_sample_recalculates() {
    for (name, costed) in COSTED.iter() {
        assert_recalculates(costed, &format!("{name}.costed.xlsx"));
    }
}

#[test]
fn every_sample_costs_to_the_same_book_again() {
    for (name, once) in COSTED.iter() {
        let twice = workbook::costed(&format!("{name}.costed.xlsx"), once).2;
        assert!(*once == twice, "{name}: costing its costed workbook gives another book");
    }
}

#[test]
fn every_sample_is_the_same_book_when_written() {
    for (name, files) in books() {
        let files: Vec<(&str, &[u8])> = files.iter().map(|(file, bytes)| (*file, bytes.as_slice())).collect();
        same_when_written(&files).unwrap_or_else(|error| panic!("{name}: {error}"));
    }
}

#[test]
fn every_sample_follows_every_cell() {
    for (name, costed) in COSTED.iter() {
        println!("{name}");
        every_cell_follows(costed, 100);
    }
}

/// Where an answer stands in the JSON; `None` for figures that the JSON does not carry.
fn find<'a>(json: &'a Value, kind: &str, name: &str, figure: &str) -> Option<&'a Value> {
    let by = |list: &'a Value, key: &str, name: &str| list.as_array().unwrap().iter().find(|one| one[key] == name);
    let named = |list: &'a Value, name: &str| by(list, "name", name);
    match kind {
        "dish" => Some(&named(&json["dishes"], name)?[figure]),
        "test" => Some(&named(&json["tests"], name)?[figure]),
        "part" => {
            let tests = json["tests"].as_array().unwrap();
            Some(&tests.iter().find_map(|test| named(&test["parts"], name))?[figure])
        }
        "recipe" if figure.starts_with("cost_per_") => None,
        "recipe" => Some(&named(&json["recipes"], name)?[figure]),
        "goes in" => Some(&by(&json["balance"], "test", name)?[figure]),
        "balance" => {
            let tests = json["balance"].as_array().unwrap();
            Some(&tests.iter().find_map(|test| named(&test["parts"], name))?[figure])
        }
        "planned" => Some(&named(&json["planned"], name)?[figure]),
        "earned" => Some(&named(&json["if_thrown_away"], name)?[figure]),
        "saving" => Some(&by(&json["savings"], "by_product", name)?[figure]),
        "total" if name == "plan" => Some(&json["plan"][figure]),
        "total" => {
            let kitchens = json["plan"]["kitchens"].as_array().unwrap();
            Some(&kitchens.iter().find(|one| one["kitchen"].as_str().unwrap().ends_with(name))?[figure])
        }
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
    let mut json = json_of(&reading, &costing);
    let trim = Trim::of(&reading.kitchen, &costing, &[], Decimal::ONE);
    let trim: Value =
        serde_json::from_str(&parings::output::json::trim(&reading.kitchen, &costing, &trim, &[])).unwrap();
    // Both lists of dishes have their own figures.
    json["planned"] = trim["dishes"].clone();
    for key in ["balance", "savings", "plan", "if_thrown_away"] {
        json[key] = trim[key].clone();
    }
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
    let costed = [("dish", 42), ("line", 80), ("part", 75), ("recipe", 36), ("test", 12)];
    let planned = [("balance", 66), ("goes in", 5), ("planned", 36), ("saving", 30), ("earned", 4), ("total", 30)];
    let mut all = [&costed[..], &planned].concat();
    all.sort_unstable();
    assert_eq!(counts, all);
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

/// The messy kitchen, read and costed.
fn messy_kitchen() -> Value {
    let (_, files) = books().find(|(name, _)| *name == "messy-kitchen").unwrap();
    let files: Vec<(&str, &[u8])> = files.iter().map(|(file, bytes)| (*file, bytes.as_slice())).collect();
    let (reading, costing) = cost_bytes(&files);
    json_of(&reading, &costing)
}

/// The list says what was planted and what a cook should read of it; nothing else may be found, notes included.
#[test]
fn the_messy_kitchen_has_the_faults_that_were_planted() {
    let planted: BTreeSet<String> = include_str!("../../sample-books/messy-kitchen.faults.tsv")
        .lines()
        .skip(1)
        .map(|line| line.rsplit_once('\t').unwrap().0.replace('\t', " | "))
        .collect();
    let json = messy_kitchen();
    let found: Vec<String> = json["problems"]
        .as_array()
        .unwrap()
        .iter()
        .map(|p| ["file", "sheet", "cell", "severity", "code", "message", "help"].map(|key| p[key].as_str().unwrap()))
        .map(|parts| parts.join(" | "))
        .collect();
    let all: BTreeSet<String> = found.iter().cloned().collect();
    let missed: Vec<_> = planted.difference(&all).collect();
    let noise: Vec<_> = all.difference(&planted).collect();
    assert!(missed.is_empty() && noise.is_empty(), "not found as planted: {missed:#?}\nnot planted: {noise:#?}");
    assert_eq!(found.len(), all.len(), "a fault is told twice: {found:#?}");
}

/// The arithmetic stands in `sample-books/messy-kitchen.md`; numbers here are money over a divisor.
#[test]
fn the_messy_kitchen_costs_what_was_worked_by_hand() {
    let json = messy_kitchen();
    let is = |value: &Value, money: &str, divisor: i64, what: &str| {
        let expected = money.parse::<Decimal>().unwrap() / Decimal::from(divisor);
        let found = dec(value);
        assert!((found - expected).abs() < Decimal::new(1, 20), "{what}: {found} instead of {expected}");
    };
    // 35 lb × 2.10 = 73.50, less the carcass 10 × 0.35: 70.00, shared 10 × 4.00 to 12 × 2.50.
    let chickens = test(&json, "Breaking down chickens");
    for (name, cost) in [("Chicken breast", "40"), ("Chicken legs", "30"), ("Chicken carcass", "3.5")] {
        let part = chickens["parts"].as_array().unwrap().iter().find(|part| part["name"] == name).unwrap();
        is(&part["cost"], cost, 1, name);
    }
    for (name, money, divisor) in [
        // 1 lb × 118.80 ÷ 36 + 1 lb × 21 ÷ 50.
        ("Roux", "3.72", 1),
        // 10 × 0.35 + 2 × 24 ÷ 50 + 14.50 ÷ 25 + 14 oz of 28 oz × 38.40 ÷ 24: 3.50 + 0.96 + 0.58 + 0.80.
        ("Chicken stock", "5.84", 1),
        // One can of 6 lb 6 oz × 38.25 ÷ 38.25 lb + 0.48 + 100 ml × 132 ÷ 12 l.
        ("Tomato sauce", "7.955", 1),
        // 18.40 ÷ 16 qt + 6 × 48.60 ÷ 180 + 4 oz × 27 ÷ 50 lb + 1 t of 192 × 96: 1.15 + 1.62 + 0.135 + 0.50.
        ("Custard", "3.405", 1),
        // 500 ml × 132 ÷ 12 l + 2 of 64 cups × 21.60.
        ("Vinaigrette", "6.175", 1),
        // 2 × 28.80 ÷ 12 + 190 of 950 ml × 6.175: 4.80 + 1.235.
        ("Leaf salad", "6.035", 1),
    ] {
        is(&recipe(&json, name)["food_cost"], money, divisor, name);
    }
    for (name, money, divisor) in [
        // 4.5 × 4.00 + 0.5 × 3.30 + 4 × 42 ÷ 140 + 27 ÷ 30: 18.00 + 1.65 + 1.20 + 0.90, ÷ 12.
        ("Pan-fried chicken breast", "21.75", 12),
        // 6 × 2.50 + 0.48 + 99 ÷ 12 + 2 of 6 qt × 5.84: 23.73 + 5.84 ÷ 3 = 77.03 ÷ 3, ÷ 12.
        ("Braised chicken legs", "77.03", 36),
        // 3 × 9.20 + 2 of 6 qt × 5.84 + 8 of 32 fl oz × 4.90 + 2 × 1.60 + 6 of 30 oz × 3.72: 32.769 + 5.84 ÷ 3
        // = 104.147 ÷ 3; 160 fl oz ÷ 8 = 20.
        ("Cod chowder", "104.147", 60),
        // 2 × 4.50 + 3.405 + 4 oz × 3.30 + 2 oz × 0.54: 9.00 + 3.405 + 0.825 + 0.0675, ÷ the 10 that are stated.
        ("Bread pudding", "13.2975", 10),
        // 6 × 0.30 + 8 × 0.27 + 0.54 + 4.90 ÷ 2 + 1.65 + 0.42, ÷ 12.
        ("Lemon tart", "9.02", 12),
        // 24 × 0.27 + 7.955 + 9.80, ÷ 12.
        ("Baked eggs", "24.235", 12),
        // 10 × 0.48 + 1.65 + 1 oz × 0.42 + 5 of 6 qt × 5.84 + 250 ml × 99 ÷ 9 l: 4.80 + 1.65 + 0.02625 + 2.75 + 29.2 ÷ 6
        // = 84.5575 ÷ 6, ÷ 20. Four T of flour are a quarter of a cup of 4 oz.
        ("Onion soup", "84.5575", 120),
        // 2 g × 1.2345 + 2 × 24.20 ÷ 11 + 0.825 + 0.24 + 2.92: 2.469 + 4.40 + 0.825 + 0.24 + 2.92, ÷ 12. The price of 30
        // November does not count yet.
        ("Saffron risotto", "10.854", 12),
        // 2.20 + 27 of 324 fl oz × 36, ÷ 8.
        ("Coconut rice", "5.20", 8),
    ] {
        is(&dish(&json, name)["portion_cost"], money, divisor, name);
    }
    let dishes = json["dishes"].as_array().unwrap();
    let stopped: Vec<_> = dishes.iter().filter(|dish| dish["portion_cost"].is_null()).map(|d| &d["name"]).collect();
    let names = [
        "Mashed potatoes",
        "Fish supper",
        "Brunch board",
        "Chicken pie",
        "Leaf salad",
        "Braised pork",
        "Chickpea curry",
    ];
    assert_eq!(stopped, names);
}

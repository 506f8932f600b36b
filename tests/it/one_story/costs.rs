//! Dishes, recipes with their lines, and parts of yield tests.

use parings::internals::minor_digits;
use parings::output::{csv, text};
use parings::{Costing, Reading};
use proptest::prelude::*;
use rust_decimal::Decimal;
use serde_json::Value;

use super::{Cells, Stored, Story, WIDE, csv_rows, list, name, number, on_one_line, rounded, shown};
use crate::laws::kitchen::kitchen;
use crate::support::{chance, cost_bytes, json_of};

/// Holds everything that is said of a costed book against its JSON.
pub fn story(reading: &Reading, costing: &Costing) -> Story {
    let mut story = Story::default();
    let json = json_of(reading, costing);
    let stored = Stored::open(&parings::write(reading, costing, crate::workbook::STAMP).unwrap());
    dishes(&mut story, reading, costing, &json, &stored);
    recipes(&mut story, reading, costing, &json, &stored);
    working(&mut story, &json, &stored);
    tests(&mut story, reading, costing, &json, &stored);
    story
}

/// The keys of a record that stand in csv columns of the same name.
fn same_named(story: &mut Story, what: &str, row: &std::collections::HashMap<String, String>, json: &Value) {
    let keys = json.as_object().unwrap().iter();
    for (key, value) in keys.filter(|(key, value)| row.contains_key(*key) && !value.is_array()) {
        story.text(&format!("{what}, {key} in csv"), &row[key], value);
    }
}

fn dishes(story: &mut Story, reading: &Reading, costing: &Costing, json: &Value, stored: &Stored) {
    let kitchen = &reading.kitchen;
    let places = minor_digits(&kitchen.settings.currency);
    let report = on_one_line(&text::dishes(kitchen, costing, &[], WIDE));
    let rows = csv_rows(&csv::dishes(kitchen, costing));
    let summary = stored.sheet("Summary").unwrap();
    let hundred = Decimal::ONE_HUNDRED;
    assert_eq!(rows.len(), list(&json["dishes"]).len());
    for ((dish, row), at) in list(&json["dishes"]).iter().zip(&rows).zip(7_u32..) {
        let called = name(dish);
        same_named(story, &called, row, dish);
        story.text(&format!("{called} in csv"), &row["dish"], &dish["name"]);
        let mut told = vec![called.clone()];
        told.extend(["portion_cost", "menu_price"].map(|key| shown(&dish[key], places)));
        told.extend(["food_cost_percent", "target_percent"].map(|key| shown(&dish[key], 1)));
        told.extend(["price_at_target", "margin"].map(|key| shown(&dish[key], places)));
        told.push(dish["standing"].as_str().unwrap().to_owned());
        story.told(&report, &told);
        story.text(&format!("{called} in the Summary"), &summary.says(at, 0), &dish["name"]);
        for (column, key, size) in [
            (1, "portion_cost", Decimal::ONE),
            (2, "menu_price", Decimal::ONE),
            (3, "food_cost_percent", hundred),
            (4, "target_percent", hundred),
            (5, "price_at_target", Decimal::ONE),
            (6, "margin", Decimal::ONE),
        ] {
            story.cell(&format!("{called}, {key} in the Summary"), summary.at(at, column), &dish[key], size);
        }
        story.text(&format!("{called}, standing in the Summary"), &summary.says(at, 7), &dish["standing"]);
        let sheet = stored.sheet("How it was figured").unwrap();
        let keys = ["share", "food_cost", "q", "spice", "portion_cost", "ex_tax_price"];
        for (key, column) in keys.into_iter().zip(2..) {
            let what = format!("{called}, {key} in How it was figured");
            story.cell(&what, sheet.at(at - 4, column), &dish[key], Decimal::ONE);
        }
    }
}

fn recipes(story: &mut Story, reading: &Reading, costing: &Costing, json: &Value, stored: &Stored) {
    let mut rows = csv_rows(&csv::lines(&reading.kitchen, costing)).into_iter();
    for recipe in list(&json["recipes"]) {
        let called = name(recipe);
        let is_card = |range: &&calamine::Range<calamine::Data>| {
            range.says(0, 0) == "Recipe" && range.says(0, 1).to_lowercase() == called.to_lowercase()
        };
        let card = stored.0.iter().map(|(_, range)| range).find(is_card).unwrap_or_else(|| panic!("no card {called}"));
        let header = card.row_of(0, "Ingredient").unwrap();
        for (line, at) in list(&recipe["lines"]).iter().zip(header + 1..) {
            let row = rows.next().unwrap();
            let what = format!("{called}, line {}", at - header);
            same_named(story, &what, &row, line);
            story.text(&format!("{what}, cost in csv"), &row["line_cost"], &line["cost"]);
            let hundred = Decimal::ONE_HUNDRED;
            for (column, key, size) in [
                ("Qty in g, ml, each", "base_qty", Decimal::ONE),
                ("Yield used", "yield_percent", hundred),
                ("Cost per g, ml, each", "unit_cost", Decimal::ONE),
                ("Line cost", "cost", Decimal::ONE),
                ("Share of cost", "share_percent", hundred),
            ] {
                let column = card.column(header, column).unwrap_or_else(|| panic!("no column {column}"));
                // The JSON has no yield on a line as purchased; the card shows the one by which its measure is crossed.
                if key == "yield_percent" && line["basis"] == "AP" {
                    continue;
                }
                story.cell(&format!("{what}, {key} on the card"), card.at(at, column), &line[key], size);
            }
            let typed = card.at(at, card.column(header, "Qty").unwrap());
            if let (calamine::Data::Float(_), false) = (typed, line["cost"].is_null()) {
                story.cell(&format!("{what}, qty on the card"), typed, &line["qty"], Decimal::ONE);
            }
        }
        let totals = [
            ("Food cost", "food_cost"),
            ("Batch cost", "batch_cost"),
            ("Portions used", "portions"),
            ("Portion cost", "portion_cost"),
        ];
        for (label, key) in totals {
            // A card on which a dish's cost stands above calls its own portion so.
            let of_batch = (label == "Portion cost").then(|| card.row_of(header, "Portion of batch")).flatten();
            let found =
                of_batch.or_else(|| card.row_of(header, label)).map_or(&calamine::Data::Empty, |row| card.at(row, 1));
            story.cell(&format!("{called}, {key} on the card"), found, &recipe[key], Decimal::ONE);
        }
    }
    assert!(rows.next().is_none(), "csv has more lines");
}

/// The lines as they are told in How it was figured.
fn working(story: &mut Story, json: &Value, stored: &Stored) {
    let sheet = stored.sheet("How it was figured").unwrap();
    let mut at = sheet.row_of(0, "Recipe").unwrap();
    for recipe in list(&json["recipes"]) {
        if recipe["food_cost"].is_null() {
            // One row, which leads to its card.
            at += 1;
            story.text("one without a cost", &sheet.says(at, 0), &recipe["name"]);
            story.text("one without a cost", &sheet.says(at, 1), &Value::from("not costed"));
            continue;
        }
        for line in list(&recipe["lines"]) {
            at += 1;
            let what = format!("{}, {} in How it was figured", name(recipe), line["item"]);
            story.text(&what, &sheet.says(at, 1), &line["item"]);
            if line["cost"].is_null() {
                story.text(&what, &sheet.says(at, 3), &Value::from("not costed"));
                continue;
            }
            story.cell(&what, sheet.at(at, 7), &line["cost"], Decimal::ONE);
            let quantity = sheet.says(at, 3);
            let base = number(&line["base_qty"]).map(|qty| rounded(qty, 4).parse::<Decimal>().unwrap().normalize());
            let base = Value::from(base.map(|qty| qty.to_string()));
            story.text(&what, quantity.split(' ').next().unwrap(), &base);
            let told = match (number(&line["yield_percent"]), line["yield_from"].as_str().unwrap()) {
                (None, _) => "as purchased".to_owned(),
                (Some(_), "none") => "none stated: 100 %".to_owned(),
                (Some(left), _) => format!("{} %,", rounded(left, 2).parse::<Decimal>().unwrap().normalize()),
            };
            if line["basis"] == "AP" {
                continue;
            }
            let found: String = sheet.says(at, 5).chars().take(told.chars().count()).collect();
            story.text(&what, &found, &Value::from(told));
        }
    }
}

fn tests(story: &mut Story, reading: &Reading, costing: &Costing, json: &Value, stored: &Stored) {
    let mut rows = csv_rows(&csv::parts(&reading.kitchen, costing)).into_iter();
    let Some(sheet) = stored.sheet("Yield tests") else { return };
    let column = |header: &str| sheet.column(0, header).unwrap_or_else(|| panic!("no column {header}"));
    let last = sheet.end().map_or(0, |(row, _)| row);
    let (test_at, role_at, part_at) = (column("Test"), column("Role"), column("Part"));
    let row_of = |test: &str, is_input: bool, part: &str| {
        (1..=last).find(|row| {
            let of_test = sheet.says(*row, test_at).eq_ignore_ascii_case(test);
            let goes_in = sheet.says(*row, role_at).eq_ignore_ascii_case("as purchased");
            of_test && goes_in == is_input && (is_input || sheet.says(*row, part_at).eq_ignore_ascii_case(part))
        })
    };
    for test in list(&json["tests"]) {
        let called = name(test);
        for part in list(&test["parts"]) {
            let row = rows.next().unwrap();
            let what = format!("{called}, {}", name(part));
            same_named(story, &what, &row, part);
            let of_test = [
                ("test_weight_g", "weight_g"),
                ("test_cost", "cost"),
                ("test_loss_g", "loss_g"),
                ("test_taken_up_g", "taken_up_g"),
            ];
            for (column, key) in of_test {
                story.text(&format!("{what}, {column} in csv"), &row[column], &test[key]);
            }
            let Some(at) = row_of(&called, false, &name(part)).filter(|_| !test["cost"].is_null()) else { continue };
            for (header, key, size) in [
                ("Weight pooled", "weight_g", Decimal::ONE),
                ("Share of weight", "yield_percent", Decimal::ONE_HUNDRED),
                ("Cost carried", "cost", Decimal::ONE),
                ("Cost per gram", "cost_per_g", Decimal::ONE),
            ] {
                story.cell(&format!("{what}, {key} in its sheet"), sheet.at(at, column(header)), &part[key], size);
            }
        }
        let Some(at) = row_of(&called, true, "") else { panic!("no row of what went into {called}") };
        for (header, key) in [("Weight pooled", "weight_g"), ("Loss in grams", "loss_g"), ("Cost carried", "cost")] {
            // Of a test that is not costed the sheet says nothing.
            let known = if test["cost"].is_null() { &Value::Null } else { &test[key] };
            story.cell(&format!("{called}, {key} in its sheet"), sheet.at(at, column(header)), known, Decimal::ONE);
        }
    }
    assert!(rows.next().is_none(), "csv has more parts");
}

/// Kitchens of measures, packs, basis and yields.
#[test]
fn a_kitchen_of_measures_is_told_alike() {
    crate::model::over_books(12, |book| {
        let (reading, costing) = cost_bytes(&[("book.csv", book.as_bytes())]);
        story(&reading, &costing).end(8)
    });
}

proptest! {
    #![proptest_config(chance(6))]

    /// Kitchens of yield tests and recipes within recipes.
    #[test]
    fn a_kitchen_of_tests_is_told_alike(kitchen in kitchen()) {
        let (reading, costing) = cost_bytes(&[("book.csv", kitchen.tables().book().as_bytes())]);
        let told = story(&reading, &costing).end(40);
        prop_assert!(told.is_ok(), "{}", told.unwrap_err());
    }
}

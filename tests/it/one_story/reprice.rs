//! New prices: what moved, what it does to the dishes and why, and what that is worth.

use parings::output::{csv, json, text};
use parings::{ListOptions, Repriced, Source, read};
use proptest::collection::vec;
use proptest::prelude::*;
use rust_decimal::Decimal;
use serde_json::Value;

use super::{Cells, Stored, Story, WIDE, csv_rows, list, name, number, on_one_line, rounded, shown};
use crate::laws::kitchen::{Kitchen, kitchen};
use crate::support::{chance, options};

/// Grams in a pound, by which all of these kitchens buy.
const LB: Decimal = Decimal::from_parts(45_359_237, 0, 0, false, 5);

/// A kitchen, with a plan or without, whose prices move to so many percent in a supplier's list; some stay.
fn repriced(kitchen: &Kitchen, percents: &[Option<i64>], is_planned: bool) -> Repriced {
    let tables = kitchen.tables();
    let mut rows = Vec::new();
    for (nth, (row, percent)) in tables.prices.iter().zip(percents.iter().cycle()).enumerate() {
        let cells: Vec<&str> = row.split(',').collect();
        // A list has a row at least.
        let Some(percent) = percent.or((nth == 0).then_some(110)) else { continue };
        let price = (cells[2].parse::<Decimal>().unwrap() * Decimal::new(percent, 2)).max(Decimal::new(1, 2));
        rows.push(format!("{},{},{price},{},2026-11-19", cells[0], cells[1], cells[3]));
    }
    let list = format!("Item,Pack,Price,Per,Date\n{}\n", rows.join("\n"));
    let planned = tables.facts.iter().enumerate().filter(|_| is_planned);
    let planned = planned.map(|(nth, facts)| format!("{},{}\n", facts.split(',').next().unwrap(), 3 + nth));
    let book = format!("{}\n\nDish,Portions\n{}", tables.book(), planned.collect::<String>());
    let reading = read(&[Source { name: "book.csv", bytes: book.as_bytes() }], options()).unwrap();
    let lists = [Source { name: "new.csv", bytes: list.as_bytes() }];
    let wide = ListOptions { supplier: Some("Quay".to_owned()), bound: Decimal::TEN, ..ListOptions::default() };
    parings::reprice(reading, &lists, &wide, false).unwrap()
}

/// The fewest decimals, two or more, that tell two figures apart.
fn apart(was: &Value, now: &Value) -> u32 {
    (2..=12).find(|places| shown(was, *places) != shown(now, *places)).unwrap_or(2)
}

/// A change with its sign.
fn signed(json: &Value, places: u32) -> String {
    let shown = shown(json, places);
    if number(json).is_some_and(|number| number > Decimal::ZERO) { format!("+{shown}") } else { shown }
}

/// A percentage with its sign, to one decimal at the most.
fn signed_percent(json: &Value) -> String {
    let Some(number) = number(json) else { return "–".to_owned() };
    let told: Decimal = rounded(number, 1).parse().unwrap();
    format!("{}{} %", if told > Decimal::ZERO { "+" } else { "" }, told.normalize())
}

fn story(repriced: &Repriced) -> Story {
    let mut story = Story::default();
    let changes = repriced.changes();
    let json: Value = serde_json::from_str(&json::reprice(&changes, &[])).unwrap();
    crate::wire::schemas::meets("reprice", &json);
    let report = on_one_line(&text::reprice(&changes, WIDE));
    let stored = Stored::open(&parings::write_repriced(repriced, crate::workbook::STAMP).unwrap());
    let sheet = stored.sheet("What changed").unwrap();
    items(&mut story, &json, &report, sheet);
    dishes(&mut story, &json, &report, sheet);
    drivers(&mut story, &json, &csv::reprice(&changes), sheet);
    let index = &json["index"];
    if let Some(ratio) = number(&index["laspeyres"]) {
        let points = Value::from((ratio * Decimal::ONE_HUNDRED).to_string());
        let text = format!(
            "cost ${} and costs ${} now: an index of {}",
            shown(&index["before"], 2),
            shown(&index["now"], 2),
            shown(&points, 2)
        );
        story.told(&report, &[text]);
        let row = sheet.row_of(0, "Laspeyres: the same quantities").unwrap() + 1;
        for (found, column) in [(&index["before"], 1), (&index["now"], 2), (&points, 3)] {
            story.cell("the index in What changed", sheet.at(row, column), found, Decimal::ONE);
        }
    }
    story
}

fn items(story: &mut Story, json: &Value, report: &str, sheet: &calamine::Range<calamine::Data>) {
    let Some(mut row) = sheet.row_of(0, "Item") else { return };
    for item in list(&json["items"]) {
        row += 1;
        let called = name(item);
        assert_eq!((sheet.says(row, 0), sheet.says(row, 1)), (called.clone(), "lb".to_owned()), "row {row}");
        let per_lb = Decimal::ONE / LB;
        for (key, column, size) in [
            ("before", 2, per_lb),
            ("now", 3, per_lb),
            ("change_percent", 4, Decimal::ONE_HUNDRED),
            ("quantity", 5, LB),
            ("worth", 6, Decimal::ONE),
        ] {
            story.cell(&format!("{called}, {key} in What changed"), sheet.at(row, column), &item[key], size);
        }
        let [was, now] =
            ["before", "now"].map(|key| number(&item[key]).map_or("–".to_owned(), |cost| rounded(cost * LB, 3)));
        let told =
            [called, "lb".to_owned(), was, now, signed_percent(&item["change_percent"]), signed(&item["worth"], 2)];
        story.told(report, &told);
    }
}

fn dishes(story: &mut Story, json: &Value, report: &str, sheet: &calamine::Range<calamine::Data>) {
    let mut row = sheet.row_of(0, "Dish").unwrap();
    for dish in list(&json["dishes"]) {
        row += 1;
        let (called, was, now) = (name(dish), &dish["before"], &dish["now"]);
        assert_eq!(sheet.says(row, 0), called, "row {row}");
        let (one, hundred) = (Decimal::ONE, Decimal::ONE_HUNDRED);
        for (json, column, size) in [
            (&was["portion_cost"], 1, one),
            (&now["portion_cost"], 2, one),
            (&dish["change"], 3, one),
            (&was["food_cost_percent"], 4, hundred),
            (&now["food_cost_percent"], 5, hundred),
            (&dish["target_percent"], 6, hundred),
            (&now["price_at_target"], 7, one),
            (&dish["worth"], 9, one),
        ] {
            story.cell(&format!("{called}, column {column} in What changed"), sheet.at(row, column), json, size);
        }
        let places = apart(&was["portion_cost"], &now["portion_cost"]);
        let told = [
            called,
            shown(&was["portion_cost"], places),
            shown(&now["portion_cost"], places),
            signed(&dish["change"], places.max(3)),
            shown(&was["food_cost_percent"], 1),
            shown(&now["food_cost_percent"], 1),
            shown(&dish["target_percent"], 1),
            shown(&now["price_at_target"], 2),
            signed(&dish["worth"], 2),
        ];
        story.told(report, &told);
    }
}

/// The rows of csv and of the sheet: every dish with what drove it.
fn drivers(story: &mut Story, json: &Value, table: &str, sheet: &calamine::Range<calamine::Data>) {
    let mut rows = csv_rows(table).into_iter();
    let first = sheet.row_of(0, "Dish").unwrap() + 1;
    let mut at = (first..first + 400).find(|row| sheet.says(*row, 0) == "Dish").unwrap_or_default();
    for dish in list(&json["dishes"]) {
        let rest = [("many small ones", &dish["together"]), ("no one item", &dish["other"])];
        let rest = rest.into_iter().filter(|(_, change)| **change != "0");
        let items = list(&dish["drivers"]).iter().map(|one| (one["item"].as_str().unwrap(), &one["change"]));
        for (who, change) in items.chain(rest) {
            let row = rows.next().unwrap();
            let what = format!("{} by {who}", name(dish));
            for (column, key) in [
                ("dish", &dish["name"]),
                ("portion_cost_before", &dish["before"]["portion_cost"]),
                ("portion_cost_now", &dish["now"]["portion_cost"]),
                ("change", &dish["change"]),
                ("worth", &dish["worth"]),
                ("food_cost_percent_before", &dish["before"]["food_cost_percent"]),
                ("food_cost_percent_now", &dish["now"]["food_cost_percent"]),
                ("target_percent", &dish["target_percent"]),
                ("price_at_target_now", &dish["now"]["price_at_target"]),
                ("driver", &Value::from(who)),
                ("driver_change", change),
            ] {
                story.text(&format!("{what}, {column} in csv"), &row[column], key);
            }
            at += 1;
            story.text(&what, &sheet.says(at, 0), &dish["name"]);
            story.cell(&format!("{what} in What changed"), sheet.at(at, 1), change, Decimal::ONE);
        }
    }
    assert!(rows.next().is_none(), "csv has more drivers");
}

proptest! {
    #![proptest_config(chance(8))]

    #[test]
    fn new_prices_are_told_alike(
        kitchen in kitchen(),
        percents in vec(prop::option::weighted(0.8, 40_i64..250), 1..9),
        is_planned: bool,
    ) {
        let told = story(&repriced(&kitchen, &percents, is_planned)).end(0);
        prop_assert!(told.is_ok(), "{}", told.unwrap_err());
    }
}

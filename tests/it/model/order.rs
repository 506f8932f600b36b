//! The order of rows, sheets and files never decides anything: over kitchens of chance, and over the same with a tie
//! or a contradiction put wherever one can be.

use proptest::strategy::Strategy;
use proptest::test_runner::{TestCaseError, TestRunner};
use serde_json::Value;

use super::book::{Table, csv, tables};
use super::dice::{Dice, Tape};
use super::kitchen::{Kitchen, Tapes, tape, tapes};
use crate::laws::figures::{Figures, figures, same};
use crate::support::cost_bytes_json;

/// Any order of these.
fn shuffle<T>(dice: &mut Dice<'_>, list: &mut [T]) {
    for at in (1..list.len()).rev() {
        list.swap(at, dice.below(at + 1));
    }
}

/// The same tables with rows, labels and tables in another order.
fn shuffled(dice: &mut Dice<'_>, tables: &[Table]) -> Vec<Table> {
    let mut tables = tables.to_vec();
    for table in &mut tables {
        shuffle(dice, &mut table.labels);
        shuffle(dice, &mut table.rows);
    }
    shuffle(dice, &mut tables);
    tables
}

/// The columns whose figure a row is about.
const FIGURES: [&str; 6] = ["Price", "Weighs", "Holds", "Weight", "Portion", "Value"];

/// Rows said twice with one cell that another row has there: equal prices, days and yields, a measure with two weights,
/// a test with two methods, a dish of two portions. What contradicts itself is an error, in whatever order. A cell in
/// which the two rows say the same would contradict nothing, so that is left to chance alone.
fn tangled(dice: &mut Dice<'_>, tables: &mut [Table]) {
    for _ in 0..dice.between(2, 5) {
        let all: Vec<usize> = (0..tables.len()).collect();
        let mut lists: Vec<usize> = all.iter().copied().filter(|at| tables[*at].top.is_none()).collect();
        // Prices stand first, and in them most can contradict.
        lists.extend(lists.first().copied());
        // In a card a line said twice is a second line.
        let of_lists = dice.chance(75) && !lists.is_empty();
        let table = dice.of(if of_lists { &lists } else { &all });
        let Table { header, rows, .. } = &mut tables[table];
        if rows.is_empty() {
            continue;
        }
        let mut row = rows[dice.below(rows.len())].clone();
        let other = dice.below(rows.len());
        // The name stays, or the row is about something else.
        let cells: Vec<usize> = (1..row.len()).collect();
        let apart: Vec<usize> = cells.iter().copied().filter(|cell| row[*cell] != rows[other][*cell]).collect();
        let figures: Vec<usize> =
            apart.iter().copied().filter(|cell| FIGURES.contains(&header[*cell].as_str())).collect();
        let choices = [(60, figures), (80, apart)].into_iter().find(|(percent, some)| {
            let wanted = dice.chance(*percent);
            wanted && !some.is_empty()
        });
        let cell = dice.of(&choices.map_or(cells, |(_, some)| some));
        row[cell].clone_from(&rows[other][cell]);
        rows.push(row);
    }
}

/// One file, a file for each table, or a workbook with a sheet for each.
fn files(dice: &mut Dice<'_>, tables: &[Table]) -> Vec<(String, Vec<u8>)> {
    match dice.below(3) {
        0 => vec![("book.csv".into(), csv(tables).into_bytes())],
        1 => tables.iter().enumerate().map(|(at, table)| (format!("{at}.csv"), csv([table]).into_bytes())).collect(),
        _ => vec![("book.xlsx".into(), super::book::xlsx(tables))],
    }
}

fn json(files: &[(String, Vec<u8>)]) -> Value {
    let files: Vec<(&str, &[u8])> = files.iter().map(|(name, bytes)| (name.as_str(), bytes.as_slice())).collect();
    cost_bytes_json(&files)
}

/// What differs, by name.
fn apart(left: &Figures, right: &Figures) -> Vec<String> {
    let keys: std::collections::BTreeSet<_> = left.keys().chain(right.keys()).collect();
    let null = Value::Null;
    let of = |figures: &Figures, key: &String| figures.get(key).cloned().unwrap_or(Value::Null);
    keys.into_iter()
        .map(|key| (key, of(left, key), of(right, key)))
        .filter(|(_, a, b)| !(a == b || (*a != null && *b != null && same(a, b))))
        .map(|(key, a, b)| format!("{key}: {a} and {b}"))
        .collect()
}

/// Whether a book has an error.
fn has_errors(json: &Value) -> bool {
    json["problems"].as_array().is_some_and(|all| all.iter().any(|problem| problem["severity"] == "error"))
}

/// The figures of a book, without what cannot be costed: of that the cells of one row or another are shown, and nothing is
/// made of them.
fn figures_of(json: &Value) -> Figures {
    let mut known = json.clone();
    for (list, cost) in [("dishes", "portion_cost"), ("recipes", "food_cost"), ("tests", "cost")] {
        if let Some(entries) = known[list].as_array_mut() {
            entries.retain(|entry| !entry[cost].is_null());
        }
    }
    figures(&known)
}

/// What another order changes in the figures of a book of this kitchen.
pub fn changes(kitchen: &Kitchen, tape: &Tape, tangle: bool) -> Option<String> {
    let mut dice = Dice::new(tape);
    let mut first = tables(kitchen);
    if tangle {
        tangled(&mut dice, &mut first);
    }
    let second = shuffled(&mut dice, &first);
    let (before, after) = (json(&[("book.csv".into(), csv(&first).into_bytes())]), json(&files(&mut dice, &second)));
    let mut apart = apart(&figures_of(&before), &figures_of(&after));
    if has_errors(&before) != has_errors(&after) {
        apart.push("an error in one order, none in the other".into());
    }
    (!apart.is_empty()).then(|| format!("{}\n\n{}\n---\n\n{}", apart.join("\n"), csv(&first), csv(&second)))
}

/// A kitchen and a tape for its orders.
pub fn cases() -> impl Strategy<Value = (Tapes, Tape)> {
    (tapes(), tape(400))
}

fn law(cases_in_the_usual_run: u32, tangle: bool) {
    let mut runner = TestRunner::new(super::chance(cases_in_the_usual_run));
    let outcome = runner.run(&cases(), |(tapes, tape)| match changes(&tapes.kitchen(), &tape, tangle) {
        None => Ok(()),
        Some(change) => Err(TestCaseError::fail(change)),
    });
    outcome.unwrap_or_else(|failure| panic!("{failure}"));
}

/// Rows, tables, sheets and files in any order give the same figures and the same errors.
#[test]
fn order_changes_no_figure() {
    law(20, false);
}

/// Nor do they where rows say the same of a thing, or contradict each other.
#[test]
fn order_decides_no_tie() {
    law(45, true);
}

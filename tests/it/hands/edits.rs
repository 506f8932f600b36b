//! The edits that are tried on a workbook: every table sorted by every column, rows put in and taken out, inputs cleared,
//! our own output sheets taken out.

use std::collections::BTreeMap;

use super::played::{Edit, Played};
use super::{cards, moved};
use crate::recalc::Value;

/// Numbers of one column by their row and column.
type NumbersByCell = BTreeMap<(i32, i32), f64>;

/// What kind of edit it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    Sort,
    Part,
    Insert,
    Delete,
    Clear,
    Fill,
    Change,
    BelowNought,
    Line,
    Sheets,
    Several,
    Better,
    Row,
    Cut,
    Header,
    Column,
}

/// A table: its sheet, its header row, its rows and its last column, counted from one.
pub struct Table {
    pub sheet: String,
    pub header: i32,
    pub rows: (i32, i32),
    pub wide: i32,
}

/// Headers of inputs that are cleared whatever stands there; under others numbers are.
const COUNTED: &[&str] = &[
    "Price",
    "Pack",
    "Per",
    "Yield",
    "Weight",
    "Value",
    "Weighs",
    "Holds",
    "Qty",
    "Used",
    "Portion",
    "Portions",
    "Menu price",
    "Target",
    "Tax",
    "Further cost",
];
/// Labels of cards and settings that count.
const LABELS: &[&str] = &[
    "Makes",
    "Portion",
    "Portions",
    "Menu price",
    "Target",
    "Q factor",
    "Spice factor",
    "Serving loss",
    "Target food cost",
    "Menu prices include tax",
    "Price step",
    "Price ending",
];

/// What is typed into a blank cell under a header.
const TYPED: &[(&str, f64)] = &[
    ("Yield", 0.85),
    ("Used", 0.9),
    ("Target", 0.3),
    ("Tax", 0.07),
    ("Serving loss", 0.04),
    ("Basis amount", 0.5),
    ("Value", 0.4),
    ("Further cost", 0.15),
    ("Credit", 0.1),
    ("Menu price", 9.5),
    ("Sold", 40.0),
];
/// Headers under which a number names something, and is no amount.
const NAMING: &[&str] = &["Run", "Code", "Day", "Date", "Until"];

/// The sheets of tables.
const SHEETS: &[&str] = &["Prices", "Yield tests", "Measures", "Menu", "Plan", "Stock", "Control", "Settings"];

/// Numbers typed into every cell of a table that looks like one to type into: a plausible one into a blank one, over a
/// number one a tenth above it.
fn typed(played: &Played, table: &Table, edits: &mut Vec<(Kind, Edit)>) {
    let sheet = table.sheet.as_str();
    let (first, last) = table.rows;
    for column in 1..=table.wide {
        let header = played.text(sheet, table.header, column);
        for row in first..=last {
            if NAMING.contains(&header.as_str()) || !played.is_input(sheet, row, column) {
                continue;
            }
            let plausible = TYPED.iter().find(|(known, _)| *known == header).map_or(2.0, |(_, number)| *number);
            let (kind, number) = match played.value(sheet, row, column) {
                Value::Empty => (Kind::Fill, plausible),
                Value::Number(number) if !played.is_date(sheet, row, column) => {
                    // Nothing ends in a whole one.
                    let ends = played.text(sheet, row, 1) == "Price ending";
                    if !COUNTED.contains(&header.as_str()) {
                        clear(played, sheet, row, column, edits);
                    }
                    (Kind::Change, number * if ends { 0.9 } else { 1.1 })
                }
                _ => continue,
            };
            edits.push((kind, Edit::Type { sheet: sheet.to_owned(), row, column, number }));
            if kind == Kind::Change {
                let typed = Edit::Type { sheet: sheet.to_owned(), row, column, number: -number };
                edits.push((Kind::BelowNought, typed));
            }
        }
    }
}

/// A number typed at one go into every input of a table, in one row of each column; of a card or of the settings into all
/// that stand in one column. So every input is tried, where each by itself would be too many.
pub fn at_one_go(edits: &[(Kind, Edit)]) -> Vec<(Kind, Edit)> {
    let mut typed: BTreeMap<(&str, i32), NumbersByCell> = BTreeMap::new();
    for (kind, edit) in edits {
        let (Kind::Fill | Kind::Change, Edit::Type { sheet, row, column, number }) = (kind, edit) else { continue };
        let is_table = SHEETS.contains(&sheet.as_str()) && sheet != "Settings";
        let cells = typed.entry((sheet, if is_table { 0 } else { *column })).or_default();
        if !is_table || cells.keys().all(|(_, known)| known != column) {
            cells.insert((*row, *column), *number);
        }
    }
    let several = typed.into_iter().filter(|(_, cells)| cells.len() > 1).map(|((sheet, _), cells)| {
        let cells = cells.into_iter().map(|((row, column), number)| (row, column, number)).collect();
        (Kind::Several, Edit::TypeSeveral { sheet: sheet.to_owned(), cells })
    });
    several.collect()
}

/// Every edit of a workbook, with its kind.
pub fn all(played: &Played) -> Vec<(Kind, Edit)> {
    let mut edits = Vec::new();
    for table in tables(played) {
        let sheet = || table.sheet.clone();
        let (first, last) = table.rows;
        for column in 1..=table.wide {
            let header = played.text(&table.sheet, table.header, column);
            if last > first && !header.is_empty() {
                edits
                    .push((Kind::Sort, Edit::Sort { sheet: sheet(), rows: table.rows, column, down: column % 2 == 0 }));
                edits
                    .push((Kind::Sort, Edit::Sort { sheet: sheet(), rows: table.rows, column, down: column % 2 == 1 }));
            }
            for row in (first..=last).filter(|_| COUNTED.contains(&header.as_str()) && table.sheet != "Summary") {
                clear(played, &table.sheet, row, column, &mut edits);
            }
        }
        if SHEETS.contains(&table.sheet.as_str()) {
            typed(played, &table, &mut edits);
        }
        parts(played, &table, &mut edits);
        for row in [first, (first + last) / 2 + 1, last + 1] {
            edits.push((Kind::Insert, Edit::Insert { sheet: sheet(), row }));
        }
        let few = [first, (first + last) / 2, last];
        let goes = (first..=last).filter(|row| SHEETS.contains(&table.sheet.as_str()) || few.contains(row));
        edits.extend(goes.map(|row| (Kind::Delete, Edit::Delete { sheet: sheet(), row })));
    }
    for sheet in played.sheets() {
        let is_card = played.text(&sheet, 1, 1) == "Recipe";
        for row in (1..40).filter(|_| is_card || sheet == "Settings") {
            if LABELS.contains(&played.text(&sheet, row, 1).as_str()) {
                clear(played, &sheet, row, 2, &mut edits);
            }
        }
    }
    edits.extend(cards::edits(played));
    for table in tables(played) {
        moved::edits(played, &table, &mut edits);
    }
    let outputs = |names: &[&str]| Edit::DeleteSheets { sheets: names.iter().map(|name| (*name).to_owned()).collect() };
    for names in [&["Problems"][..], &["How it was figured"], &["Problems", "How it was figured", "Trim", "What if"]] {
        edits.push((Kind::Sheets, outputs(names)));
    }
    edits
}

/// The inputs of a table sorted without the columns of our own beside them, and those of a row pasted over another one.
fn parts(played: &Played, table: &Table, edits: &mut Vec<(Kind, Edit)>) {
    const LEFT_OUT: &[&str] = &["Summary", "Settings", "Control", "Plan", "Stock"];
    let sheet = table.sheet.as_str();
    let (first, last) = table.rows;
    let Some(own) = played.first_own(sheet, table.header).filter(|own| *own > 1) else { return };
    if last == first || LEFT_OUT.contains(&sheet) {
        return;
    }
    for column in 1..own {
        let part = Edit::SortPart { sheet: sheet.to_owned(), rows: table.rows, last: own - 1, column };
        edits.push((Kind::Part, part));
    }
    for (from, over) in [(first, last), (last, first), (first, i32::midpoint(first, last))] {
        if from != over {
            edits.push((Kind::Part, Edit::Paste { sheet: sheet.to_owned(), from, over, last: own - 1 }));
        }
    }
}

fn clear(played: &Played, sheet: &str, row: i32, column: i32, edits: &mut Vec<(Kind, Edit)>) {
    if played.value(sheet, row, column) != Value::Empty && !played.is_formula(sheet, row, column) {
        edits.push((Kind::Clear, Edit::Clear { sheet: sheet.to_owned(), row, column }));
    }
}

/// The tables of inputs, the lines of cards, and the dishes of the Summary.
fn tables(played: &Played) -> Vec<Table> {
    let begins = |sheet: &str| match sheet {
        "Summary" => Some("Dish"),
        "Recipes" | "Lines" => None,
        _ if played.text(sheet, 1, 1) == "Recipe" => Some("Ingredient"),
        _ if ["Item", "Test", "Dish", "Setting"].contains(&played.text(sheet, 1, 1).as_str()) => None,
        _ => Some("no table"),
    };
    let mut tables = Vec::new();
    for sheet in played.sheets() {
        let (last, wide) = played.extent(&sheet);
        let header = match begins(&sheet) {
            Some(first) => (1..=last).find(|row| played.text(&sheet, *row, 1) == first),
            None => Some(1),
        };
        let Some(header) = header else { continue };
        let blank = |row: &i32| played.value(&sheet, *row, 1) == Value::Empty;
        let end = (header + 1..=last + 1).find(blank).unwrap_or(last + 1);
        if end > header + 1 {
            tables.push(Table { sheet, header, rows: (header + 1, end - 1), wide });
        }
    }
    tables
}

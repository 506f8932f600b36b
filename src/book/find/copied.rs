//! Copies of tables and cards that we wrote: a sheet duplicated in a spreadsheet program would count twice.

use std::collections::HashMap;

use super::{Card, Found, SheetState, SheetTables, Table};
use crate::problem::{Code, Fault, Place, Problem, THERE};
use crate::schema::{TableKind, output};

/// Takes out every table and card that equals an earlier one of the same file cell for cell and that parings wrote, and
/// says so. What a cook typed twice is another matter: it may be meant.
pub fn pass_over_copies(sheets: &mut [SheetTables<'_>]) {
    let mut seen: HashMap<CopyKey, Vec<(usize, usize)>> = HashMap::new();
    let mut copies: Vec<(usize, usize, Place)> = Vec::new();
    for (sheet, tables) in sheets.iter().enumerate() {
        for (nth, found) in tables.found.iter().enumerate() {
            let Some(key) = CopyKey::of(&tables.place, found) else { continue };
            let alike = seen.entry(key).or_default();
            let of = |(sheet, nth): &(usize, usize)| sheets.get(*sheet).and_then(|tables| tables.found.get(*nth));
            match alike.iter().filter_map(of).find(|earlier| same(earlier, found)) {
                Some(earlier) => copies.push((sheet, nth, place(earlier).clone())),
                None => alike.push((sheet, nth)),
            }
        }
    }
    // From the last, so that what stands before keeps its number.
    for (sheet, nth, original) in copies.into_iter().rev() {
        let Some(tables) = sheets.get_mut(sheet) else { continue };
        if nth >= tables.found.len() {
            continue;
        }
        let copy = tables.found.remove(nth);
        tables.problems.push(problem(&copy, &original));
        if tables.found.is_empty() {
            tables.standing = SheetState::Output;
        }
    }
}

/// What two copies share at a glance: file, kind, rows, and what the first is called.
#[derive(Debug, PartialEq, Eq, Hash)]
struct CopyKey {
    file: String,
    kind: TableKind,
    rows: usize,
    name: String,
}

impl CopyKey {
    /// `None` for what we did not write.
    fn of(place: &Place, found: &Found<'_>) -> Option<CopyKey> {
        let (kind, rows, name) = match found {
            Found::Table(table) if we_wrote(table) => (table.kind, table.rows.len(), String::new()),
            Found::Card(card) if card.lines.iter().any(we_costed) => {
                let rows = card.lines.iter().map(|lines| lines.rows.len()).sum();
                (TableKind::CardLines, rows, card.labels.first().map(|cell| cell.value.seen()).unwrap_or_default())
            }
            _ => return None,
        };
        Some(CopyKey { file: place.file_name().to_owned(), kind, rows, name })
    }
}

/// Whether a costed workbook's columns stand in a table.
fn we_wrote(table: &Table<'_>) -> bool {
    !table.rows.is_empty() && output::is_costed(table.kind, table.ours.iter().map(|(_, header)| header.as_str()))
}

/// Whether they are lines that have costs: two cards of one recipe that somebody typed have none in a workbook of ours.
fn we_costed(lines: &Table<'_>) -> bool {
    we_wrote(lines) && lines.rows.iter().any(|row| !lines.own_cell(row, "Line cost").is_blank())
}

fn place<'f>(found: &'f Found<'_>) -> &'f Place {
    match found {
        Found::Table(table) => &table.place,
        Found::Card(card) => &card.place,
        Found::Loose(card) => &card.place,
    }
}

fn same(a: &Found<'_>, b: &Found<'_>) -> bool {
    match (a, b) {
        (Found::Table(a), Found::Table(b)) => same_table(a, b),
        (Found::Card(a), Found::Card(b)) => same_card(a, b),
        _ => false,
    }
}

fn same_table(a: &Table<'_>, b: &Table<'_>) -> bool {
    let columns = a.columns.iter().map(|heading| (heading.column, &heading.default));
    columns.eq(b.columns.iter().map(|heading| (heading.column, &heading.default)))
        && a.rows.len() == b.rows.len()
        && a.rows.iter().zip(&b.rows).all(|(one, other)| {
            one.group == other.group
                && a.columns.iter().all(|heading| a.cell(one, heading.column) == b.cell(other, heading.column))
        })
}

fn same_card(a: &Card<'_>, b: &Card<'_>) -> bool {
    let labels = a.labels.iter().map(|cell| (cell.label, cell.value, &cell.default));
    labels.eq(b.labels.iter().map(|cell| (cell.label, cell.value, &cell.default)))
        && a.lines.len() == b.lines.len()
        && a.lines.iter().zip(&b.lines).all(|(a, b)| same_table(a, b))
}

fn problem(copy: &Found<'_>, original: &Place) -> Problem {
    let message = match copy {
        Found::Card(card) => {
            let name = card.labels.first().map(|cell| cell.value.seen()).unwrap_or_default();
            format!("this card of “{name}” is a copy of the one at {THERE}, cell for cell, so it was not read")
        }
        Found::Table(_) | Found::Loose(_) => {
            format!("this table is a copy of the one at {THERE}, cell for cell, so it was not read")
        }
    };
    let help = match copy {
        Found::Card(_) => "Take the copy out. To make another recipe of it, give it a name of its own.",
        Found::Table(_) | Found::Loose(_) => "Take the copy out, or change in it what should count besides.",
    };
    Fault::new(Code::TableCopied, message, help).speaking_of(original.clone()).at(place(copy).clone())
}

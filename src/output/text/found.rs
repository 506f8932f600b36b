//! Tables found in a book, on the terminal: file by file and sheet by sheet, the tables, the cards by name, and the
//! sheets that were not read.

use super::width::{hang, left, printable, width, wrap};
use super::{Emphasis, View, many};
use crate::kitchen::Kitchen;
use crate::schema::{FoundTable, SheetFound, TableKind};

/// The widest column of sheet names.
const NAMES: usize = 24;

/// What was found on every sheet, then how much of everything was understood.
pub fn found(kitchen: &Kitchen, sheets: &[SheetFound], view: View) -> String {
    let mut out = String::new();
    let names = sheets.iter().map(|sheet| width(&printable(sheet.place.sheet_name())));
    let room = names.max().unwrap_or(0).min(NAMES);
    let mut file = None;
    for sheet in sheets {
        if file != Some(sheet.place.file_name()) {
            file = Some(sheet.place.file_name());
            out.push_str(&Emphasis::Strong.on(&printable(sheet.place.file_name()), view));
            out.push('\n');
        }
        push_sheet(&mut out, sheet, room, view);
    }
    out.push('\n');
    out.push_str(&hang("", &understood(kitchen), view.width));
    out
}

/// `Understood: 34 bought items, 2 yield tests, 9 recipes, 7 dishes.`
fn understood(kitchen: &Kitchen) -> String {
    format!(
        "Understood: {}, {}, {}, {}.",
        many(kitchen.bought_items(), "bought item", "bought items"),
        many(kitchen.tests.len(), "yield test", "yield tests"),
        many(kitchen.recipes.len(), "recipe", "recipes"),
        many(kitchen.dishes.len(), "dish", "dishes"),
    )
}

fn push_sheet(out: &mut String, sheet: &SheetFound, room: usize, view: View) {
    let name = printable(sheet.place.sheet_name());
    let mut names = wrap(&name, room).into_iter();
    let indent = if room == 0 { 2 } else { room + 4 };
    for entry in entries(sheet) {
        for line in wrap(&entry, view.width.saturating_sub(indent)) {
            match names.next() {
                Some(name) if room > 0 => out.push_str(&format!("  {}  ", left(&name, room))),
                _ => out.push_str(&" ".repeat(indent)),
            }
            out.push_str(&line);
            out.push('\n');
        }
    }
    // A long name may need more lines than what stands beside it.
    for name in names.filter(|name| !name.is_empty()) {
        out.push_str(&format!("  {name}\n"));
    }
}

/// What to say of a sheet, an entry a line.
fn entries(sheet: &SheetFound) -> Vec<String> {
    if sheet.is_output {
        return vec!["passed over: parings wrote it".to_owned()];
    }
    if sheet.is_guide {
        return vec!["instructions".to_owned()];
    }
    if sheet.is_form {
        return vec!["an empty recipe card".to_owned()];
    }
    if sheet.tables.is_empty() {
        return vec!["not read: no table that parings knows".to_owned()];
    }
    let (cards, tables): (Vec<&FoundTable>, Vec<&FoundTable>) =
        sheet.tables.iter().partition(|table| table.kind == TableKind::CardLines);
    let mut entries: Vec<String> = tables.iter().map(|table| table_entry(table)).collect();
    if !cards.is_empty() {
        let named: Vec<String> = cards.iter().map(|card| card_entry(card)).collect();
        entries.push(format!("{}: {}", many(cards.len(), "card", "cards"), named.join(" · ")));
    }
    entries
}

fn table_entry(table: &FoundTable) -> String {
    let rows = if table.rows == 0 { "no rows yet".to_owned() } else { many(table.rows, "row", "rows") };
    match table.place.cell_ref() {
        Some(cell) => format!("{}, {rows}, from {cell}", table.kind.name()),
        None => format!("{}, {rows}", table.kind.name()),
    }
}

fn card_entry(card: &FoundTable) -> String {
    let name = card.name.as_deref().map(printable).filter(|name| !name.is_empty());
    format!("{} ({})", name.as_deref().unwrap_or("without a name"), many(card.rows, "line", "lines"))
}

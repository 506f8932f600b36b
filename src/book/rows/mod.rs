//! From found tables and cards to rows with every field read: one reader per kind of table.
//!
//! Takes what `find` found; gives [`Entries`] and the problems of single cells. Cells that were understood are tidied
//! (a fraction typed as text becomes the number), so that what is written back is live; broken ones keep their text.

mod amounts;
mod batch;
mod billed;
mod catch_weights;
mod control;
mod doubts;
mod fields;
mod fill_in;
mod instead;
mod layouts;
mod list;
mod loose;
mod lost;
mod marks;
mod measures;
mod menu;
mod names;
mod notes;
mod packs;
mod passed_over;
mod per;
mod prices;
mod reader;
mod recipes;
mod second_price;
mod settings;
mod suppliers;
mod weights;
mod withdrawn;
mod yield_tests;

pub use list::rows as of_list;

use std::cmp::Reverse;
use std::collections::BTreeMap;

use crate::book::{Found, SheetTables, Table};
use crate::kitchen::Entries;
use crate::kitchen::price::PriceRow;
use crate::kitchen::settings::{Setting, SettingValue};
use crate::measure::{Volumes, currency};
use crate::problem::Problem;
use crate::schema::TableKind;
use catch_weights::Averaged;
use fill_in::FillIns;
use notes::ReadingNotes;
use reader::Reader;

/// Reads everything found on all sheets of a book into one set of entries.
///
/// What the book's currency is shows only when all of it is read. Where a cell turns out to be in another one, the book
/// is read once more, so that the cell is met as the fault it is.
pub fn read(sheets: &[SheetTables<'_>]) -> (Entries, Vec<Problem>) {
    let (mut entries, mut notes) = read_in(sheets, None);
    let code = currency_of(&entries, &notes);
    if let Some(code) = code.clone().filter(|code| notes.signs.iter().any(|seen| !currency::fits(&seen.sign, code))) {
        (entries, notes) = read_in(sheets, Some(code));
    }
    entries.currency = code;
    (entries, notes.problems)
}

/// The book's currency: the setting's, else that of the sign in most cells, of equals the first in the alphabet.
fn currency_of(entries: &Entries, notes: &ReadingNotes) -> Option<String> {
    let setting = entries.settings.iter().find(|row| row.setting == Some(Setting::Currency));
    if let Some(SettingValue::Text(code)) = setting.and_then(|row| row.value.given()) {
        return Some(code.clone());
    }
    most_seen(notes)
}

/// The currency of the sign in most cells, of equals the first in the alphabet.
fn most_seen(notes: &ReadingNotes) -> Option<String> {
    let mut cells: BTreeMap<&str, usize> = BTreeMap::new();
    for seen in &notes.signs {
        if let Some(code) = currency::code_of(&seen.sign) {
            let count = cells.entry(code).or_default();
            *count = count.saturating_add(seen.cells);
        }
    }
    cells.into_iter().max_by_key(|(code, count)| (*count, Reverse(*code))).map(|(code, _)| code.to_owned())
}

/// Reads everything; a sign that does not fit `currency` breaks its cell.
fn read_in(sheets: &[SheetTables<'_>], currency: Option<String>) -> (Entries, ReadingNotes) {
    let mut entries = Entries::default();
    let marks = marks::marks_of_book(sheets);
    let mut notes = ReadingNotes { currency, marks, fill_ins: FillIns::of(sheets), ..ReadingNotes::default() };
    let found = || sheets.iter().flat_map(|sheet| sheet.found.iter());
    let tables = || found().filter_map(|found| if let Found::Table(table) = found { Some(table) } else { None });
    // Settings come first: what a cup is must be known before cups are read.
    for table in tables().filter(|table| table.kind == TableKind::Settings) {
        each(table, &mut notes, Volumes::Us, |reader| entries.settings.push(settings::row(reader)));
    }
    let volumes = volumes(&entries);
    let mut lists = recipes::RecipeLists::default();
    let mut parted = Vec::new();
    // What completes a row of the book is known to be used when all of the book is read.
    let is_fill_in = |found: &&Found<'_>| matches!(found, Found::Table(table) if table.is_fill_in());
    for found in found().filter(|found| !is_fill_in(found)).chain(found().filter(is_fill_in)) {
        let table = match found {
            Found::Card(card) => {
                entries.recipes.push(recipes::card(card, &mut notes, volumes));
                continue;
            }
            Found::Loose(card) => {
                let index = entries.recipes.len();
                let recipe = loose::card(card, index, &mut notes, volumes, &mut parted);
                entries.recipes.push(recipe);
                continue;
            }
            Found::Table(table) => table,
        };
        match table.kind {
            TableKind::Settings | TableKind::CardLines => {}
            TableKind::Prices => {
                let mut rows = Vec::new();
                each(table, &mut notes, volumes, |reader| rows.extend(prices::row(reader)));
                let averaged = catch_weights::averaged(&rows.iter().collect::<Vec<_>>());
                entries.prices.extend(one_of_each(rows, averaged, &mut notes, |row| row));
            }
            TableKind::Measures => {
                each(table, &mut notes, volumes, |reader| entries.measures.extend(measures::row(reader)));
            }
            TableKind::YieldTests => {
                each(table, &mut notes, volumes, |reader| entries.tests.extend(yield_tests::row(reader)))
            }
            TableKind::RecipeFacts => each(table, &mut notes, volumes, |reader| lists.facts(reader)),
            TableKind::RecipeLines => each(table, &mut notes, volumes, |reader| lists.line(reader)),
            TableKind::Menu => each(table, &mut notes, volumes, |reader| entries.menu.extend(menu::row(reader))),
            TableKind::Plan => each(table, &mut notes, volumes, |reader| entries.plan.extend(menu::plan(reader))),
            TableKind::Stock => each(table, &mut notes, volumes, |reader| entries.stock.extend(menu::stock(reader))),
            TableKind::Counts => {
                each(table, &mut notes, volumes, |reader| entries.counts.extend(control::count(reader)));
            }
            TableKind::Control => {
                each(table, &mut notes, volumes, |reader| entries.control.push(control::period(reader)))
            }
            TableKind::Names => each(table, &mut notes, volumes, |reader| entries.names.extend(names::row(reader))),
            TableKind::SupplierLayouts => {
                each(table, &mut notes, volumes, |reader| entries.layouts.extend(layouts::row(reader)));
            }
            TableKind::Suppliers => {
                each(table, &mut notes, volumes, |reader| entries.suppliers.extend(suppliers::row(reader)));
            }
        }
    }
    lists.join(&mut entries);
    loose::join_names(parted, &mut entries, &mut notes, volumes);
    entries.unread = std::mem::take(&mut notes.unread);
    (entries, notes)
}

/// The rows of a table, those that were averaged put together.
fn one_of_each<R>(
    mut rows: Vec<R>,
    averaged: Vec<catch_weights::Averaged>,
    notes: &mut ReadingNotes,
    price: impl Fn(&mut R) -> &mut PriceRow,
) -> Vec<R> {
    let mut dropped: Vec<usize> = Vec::new();
    for Averaged { kept, row, others, note } in averaged {
        if let Some(kept) = rows.get_mut(kept) {
            *price(kept) = row;
        }
        dropped.extend(others);
        notes.problems.push(note);
    }
    rows.into_iter().enumerate().filter(|(at, _)| !dropped.contains(at)).map(|(_, row)| row).collect()
}

/// Reads every row of a table.
fn each<'g>(table: &Table<'g>, notes: &mut ReadingNotes, volumes: Volumes, mut read: impl FnMut(Reader<'_>)) {
    let marks = marks::marks_of(table);
    notes.weighed_in = weights::unit_of(table);
    for row in &table.rows {
        if notes.fill_ins.is_settled(table, row) {
            continue;
        }
        if let Some(problem) = notes.fill_ins.orphan(table, row) {
            notes.problems.push(problem);
            continue;
        }
        read(Reader::of_row(table, row, &marks, volumes, notes));
    }
}

fn volumes(entries: &Entries) -> Volumes {
    let given = entries.settings.iter().filter_map(|row| row.value.given());
    given
        .filter_map(|value| if let SettingValue::Volumes(volumes) = value { Some(*volumes) } else { None })
        .next()
        .unwrap_or_default()
}

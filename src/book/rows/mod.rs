//! From found tables and cards to rows with every field read: one reader per kind of table.
//!
//! Takes what `find` found; gives [`Entries`] and the problems of single cells. Cells that were understood are tidied
//! (a fraction typed as text becomes the number), so that what is written back is live; broken ones keep their text.

mod amounts;
mod fields;
mod instead;
mod measures;
mod menu;
mod prices;
mod reader;
mod recipes;
mod settings;
mod tests;

use crate::book::{Found, Sheet, Table};
use crate::kitchen::Entries;
use crate::kitchen::settings::SettingValue;
use crate::measure::Volumes;
use crate::problem::Problem;
use crate::schema::TableKind;
use reader::{Notes, Reader};

/// Reads everything found on all sheets of a book into one set of entries.
pub fn read(sheets: &[Sheet<'_>]) -> (Entries, Vec<Problem>) {
    let mut entries = Entries::default();
    let mut notes = Notes::default();
    let found = || sheets.iter().flat_map(|sheet| sheet.found.iter());
    let tables = || found().filter_map(|found| if let Found::Table(table) = found { Some(table) } else { None });
    // Settings come first: what a cup is must be known before cups are read.
    for table in tables().filter(|table| table.kind == TableKind::Settings) {
        each(table, &mut notes, Volumes::Us, |reader| entries.settings.push(settings::row(reader)));
    }
    let volumes = volumes(&entries);
    let mut lists = recipes::Lists::default();
    for found in found() {
        let table = match found {
            Found::Card(card) => {
                entries.recipes.extend(recipes::card(card, &mut notes, volumes));
                continue;
            }
            Found::Table(table) => table,
        };
        match table.kind {
            TableKind::Settings | TableKind::CardLines => {}
            TableKind::Prices => each(table, &mut notes, volumes, |reader| entries.prices.extend(prices::row(reader))),
            TableKind::Measures => {
                each(table, &mut notes, volumes, |reader| entries.measures.extend(measures::row(reader)));
            }
            TableKind::YieldTests => {
                each(table, &mut notes, volumes, |reader| entries.tests.extend(tests::row(reader)))
            }
            TableKind::RecipeFacts => each(table, &mut notes, volumes, |reader| lists.facts(reader)),
            TableKind::RecipeLines => each(table, &mut notes, volumes, |reader| lists.line(reader)),
            TableKind::Menu => each(table, &mut notes, volumes, |reader| entries.menu.extend(menu::row(reader))),
            TableKind::Plan => each(table, &mut notes, volumes, |reader| entries.plan.extend(menu::plan(reader))),
            TableKind::Stock => each(table, &mut notes, volumes, |reader| entries.stock.extend(menu::stock(reader))),
            TableKind::Control => {
                each(table, &mut notes, volumes, |reader| entries.control.push(menu::control(reader)))
            }
        }
    }
    lists.join(&mut entries);
    entries.unread = std::mem::take(&mut notes.unread);
    entries.signs = std::mem::take(&mut notes.signs);
    (entries, notes.problems)
}

/// Reads every row of a table.
fn each<'g>(table: &Table<'g>, notes: &mut Notes, volumes: Volumes, mut read: impl FnMut(Reader<'_>)) {
    let marks = reader::marks_of(table);
    for row in &table.rows {
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

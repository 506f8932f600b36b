//! Fill-ins: tables that we wrote because something was missing, read back with what was typed into them.
//!
//! A row that was left as it was written is none. One about a row of the book (a price without a pack, a card without
//! portions) completes that row: what was typed in it counts there, as if it had been typed there, and problems name the
//! cell where it was typed. Every other row is a row like any.

use std::cell::Cell;
use std::collections::HashMap;

use crate::book::{Found, SheetTables, Table, TableRow};
use crate::kitchen::NameKey;
use crate::kitchen::field::InputCell;
use crate::problem::{Code, Fault, Place, Problem};
use crate::schema::fill_in::PACK;
use crate::schema::{Column, TableKind, Typed, Value, fill_in};

/// What tells the rows of a kind apart.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(super) struct FillInKey(TableKind, NameKey, [String; 4]);

/// What was typed into a row of a fill-in.
#[derive(Debug)]
struct Answer {
    /// Where its row begins.
    at: Place,
    cells: Vec<InputCell>,
    /// Whether a row of the book was completed with it.
    used: Cell<bool>,
}

/// The answers of a book's fill-ins, by the row that they are about.
#[derive(Debug, Default)]
pub(super) struct FillIns {
    answers: HashMap<FillInKey, Vec<Answer>>,
}

/// The columns that say what a row is about; those that were filled in when it was written.
fn about(kind: TableKind) -> &'static [Column] {
    match kind {
        TableKind::Prices => &[Column::Item, Column::Supplier, Column::Code, Column::Date],
        TableKind::Names => &[Column::AlsoCalled],
        TableKind::Measures => &[Column::Item, Column::Measure, Column::Basis],
        TableKind::RecipeFacts => &[Column::Recipe],
        TableKind::Menu => &[Column::Dish],
        _ => &[],
    }
}

/// Whether rows of this kind complete others.
fn completes(kind: TableKind) -> bool {
    matches!(kind, TableKind::Prices | TableKind::RecipeFacts | TableKind::Menu)
}

impl FillIns {
    /// The answers in the fill-ins among `sheets`.
    pub(super) fn of(sheets: &[SheetTables<'_>]) -> Self {
        let mut answers: HashMap<FillInKey, Vec<Answer>> = HashMap::new();
        let found = sheets.iter().flat_map(|sheet| &sheet.found);
        let tables = found.filter_map(|found| if let Found::Table(table) = found { Some(table) } else { None });
        for table in tables.filter(|table| table.is_fill_in() && completes(table.kind)) {
            for row in &table.rows {
                let columns = typed_columns(table, row);
                let cells: Vec<InputCell> = columns
                    .map(|column| InputCell {
                        column,
                        typed: table.cell(row, column).clone(),
                        place: table.place_of(row, column),
                    })
                    .collect();
                if let (Some(key), false) = (key_of_row(table, row), cells.is_empty()) {
                    let at = place_of(table, row);
                    answers.entry(key).or_default().push(Answer { at, cells, used: Cell::new(false) });
                }
            }
        }
        FillIns { answers }
    }

    /// Puts what was typed in a fill-in into the row of the book that has these `cells`.
    pub(super) fn complete(&self, kind: TableKind, cells: &mut Vec<InputCell>, defaults: &mut Vec<(Column, String)>) {
        if self.answers.is_empty() || !completes(kind) {
            return;
        }
        let Some(answers) = key_of_cells(kind, cells).and_then(|key| self.answers.get(&key)) else { return };
        // One answer serves all rows that nothing tells apart; of several each serves one.
        let Some(answer) = answers.iter().find(|answer| !answer.used.get()).or(answers.last()) else { return };
        answer.used.set(true);
        if answer.cells.iter().any(|cell| PACK.contains(&cell.column)) {
            cells.retain(|cell| !PACK.contains(&cell.column));
        }
        for cell in &answer.cells {
            cells.retain(|known| known.column != cell.column);
            defaults.retain(|(column, _)| *column != cell.column);
            cells.push(cell.clone());
        }
    }

    /// What is wrong with a row of a fill-in about a row that the book does not have, or not as it was: its answer belongs
    /// nowhere. To be asked when all of the book is read.
    pub(super) fn orphan(&self, table: &Table<'_>, row: &TableRow<'_>) -> Option<Problem> {
        let there = table.is_fill_in() && table.kind == TableKind::Prices;
        let is_blank = |header: &str| table.own_cell(row, header).is_blank();
        if !there || (is_blank(fill_in::PACK_THERE) && is_blank(fill_in::PRICE_THERE)) {
            return None;
        }
        let fault = Fault::new(
            Code::RowNotUnderstood,
            "this row completes a price row that the book does not have any more, so it was not read",
            "Clear it, if the book has the answer now; else ask anew for what is missing.",
        );
        Some(fault.at(place_of(table, row)))
    }

    /// Whether a row of a table is none: one of a fill-in that was left as it was written, or has completed another.
    pub(super) fn is_settled(&self, table: &Table<'_>, row: &TableRow<'_>) -> bool {
        if !table.is_fill_in() {
            return false;
        }
        if typed_columns(table, row).next().is_none() {
            return true;
        }
        let answers = key_of_row(table, row).and_then(|key| self.answers.get(&key));
        let at = place_of(table, row);
        answers.is_some_and(|answers| answers.iter().any(|answer| answer.used.get() && answer.at == at))
    }
}

/// The columns in which something was typed that was not there when the row was written.
fn typed_columns<'t>(table: &'t Table<'_>, row: &'t TableRow<'_>) -> impl Iterator<Item = Column> + use<'t> {
    let columns = table.columns.iter().map(|heading| heading.column);
    columns.filter(|column| !about(table.kind).contains(column) && !is_left(table.cell(row, *column)))
}

fn place_of(table: &Table<'_>, row: &TableRow<'_>) -> Place {
    table.place_of(row, table.kind.name_column())
}

/// Whether nothing was typed or chosen.
fn is_left(typed: &Typed) -> bool {
    match &typed.value {
        Value::Blank => true,
        Value::Text(text) => text.trim().is_empty() || text.trim() == fill_in::A_NEW_ITEM,
        _ => false,
    }
}

fn key_of_row(table: &Table<'_>, row: &TableRow<'_>) -> Option<FillInKey> {
    let pack = table.own_cell(row, fill_in::PACK_THERE).seen();
    key(table.kind, |column| table.cell(row, column).seen(), pack)
}

fn key_of_cells(kind: TableKind, cells: &[InputCell]) -> Option<FillInKey> {
    let typed = |column: Column| cells.iter().find(|cell| cell.column == column).map(|cell| &cell.typed);
    let pack = fill_in::pack_seen(typed);
    key(kind, |column| typed(column).map_or_else(String::new, Typed::seen), pack)
}

fn key(kind: TableKind, seen: impl Fn(Column) -> String, pack: String) -> Option<FillInKey> {
    let name = seen(kind.name_column());
    if name.trim().is_empty() {
        return None;
    }
    let apart =
        |column: Column| if kind == TableKind::Prices { seen(column).trim().to_lowercase() } else { String::new() };
    let pack = if kind == TableKind::Prices { pack.trim().to_owned() } else { String::new() };
    let apart = [apart(Column::Supplier), apart(Column::Code), apart(Column::Date), pack];
    Some(FillInKey(kind, NameKey::of(&name), apart))
}

//! Figures and readings of a costed workbook that were typed over: they are not read, so whoever typed there must hear
//! of it.
//!
//! What stood in a row is known from its seal (`schema/as_written.rs`), cell by cell. Without seals, in long lists and in
//! workbooks of before, a figure is known by its form: it was written as a formula, and a number in its place where formulas
//! stand beside it was typed. Where no formula stands in a table at all, a program wrote values only, and nobody typed any.

mod sealed;

use std::collections::{HashMap, HashSet};

use super::find::{Found, SheetState, SheetTables, Table};
use super::grid::{Grid, GridRow};
use crate::problem::{CellRef, Place};
use crate::schema::as_written::Seal;
use crate::schema::header::same;
use crate::schema::{TableKind, Typed, Value, as_written, output, own_sheets};

/// Filled rows in which the headers of our figures are looked for.
const ROWS: usize = 60;
/// Sheets with more rows are lists of thousands of recipes: nobody types there by hand.
const MOST_ROWS: usize = 50_000;

/// What stood in a cell that was typed over.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Kind {
    /// A formula.
    Figure,
    /// What was read or chosen.
    Reading,
    /// Nothing.
    Nothing,
}

/// Where a table stands in a workbook, whatever its sheet is called.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Home {
    /// The sheet of a table.
    Table(TableKind),
    /// The card of the recipe with this name.
    Card(String),
    /// The Summary.
    Summary,
}

/// A cell that was typed over.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TypedOver {
    /// The cell.
    pub place: Place,
    /// What was typed.
    pub said: String,
    /// The header above it, or the label beside it.
    pub named: String,
    /// What stood there.
    pub kind: Kind,
    /// Whose table it is.
    pub home: Home,
    /// What its row begins with, and how many rows before it begin with the same.
    pub row: (String, usize),
    /// The header of its column; none of the cell beside a label.
    pub header: Option<String>,
}

/// Whether a sheet may hold figures of ours, so that it matters which of its cells are formulas.
pub fn may_hold_figures(grid: &Grid) -> bool {
    let texts = |row: &GridRow, is: fn(&str) -> bool, least: usize| {
        let of = |(_, typed): &&(u32, Typed)| matches!(&typed.value, Value::Text(text) if is(text));
        row.cells().iter().filter(of).take(least).count() == least
    };
    grid.rows().len() <= MOST_ROWS
        && grid
            .rows()
            .iter()
            .take(ROWS)
            .any(|row| texts(row, |text| same(text, as_written::HEADER), 1) || texts(row, output::is_figure, 2))
}

/// What was typed over on all sheets.
pub fn cells(grids: &[Grid], sheets: &[SheetTables<'_>]) -> Vec<TypedOver> {
    let mut found = Vec::new();
    // A program that keeps values alone wrote them where formulas stood.
    let file = |grid: &Grid| grid.place().file_name().to_owned();
    let live: HashSet<String> = grids.iter().filter(|grid| grid.has_formulas()).map(file).collect();
    for (grid, sheet) in grids.iter().zip(sheets) {
        let is_live = grid.knows_formulas() && live.contains(grid.place().file_name());
        found.extend(TypedOverSheet { grid, is_live, typed: Vec::new(), begins: HashMap::new() }.looked_through(sheet));
    }
    found
}

/// A sheet, and what was typed over on it so far.
struct TypedOverSheet<'g> {
    grid: &'g Grid,
    /// Whether it is known which of its cells are formulas, in a file that has any.
    is_live: bool,
    typed: Vec<TypedOver>,
    /// What each row begins with, and how many rows before it begin with the same; once something is told.
    begins: HashMap<u32, (String, usize)>,
}

impl TypedOverSheet<'_> {
    fn looked_through(mut self, sheet: &SheetTables<'_>) -> Vec<TypedOver> {
        for found in &sheet.found {
            match found {
                Found::Table(table) => self.table(table, &Home::Table(table.kind)),
                Found::Card(card) => {
                    let name = card.labels.first().map(|label| label.value.seen()).unwrap_or_default();
                    let home = Home::Card(name);
                    let costed: Vec<&Table<'_>> = card.lines.iter().filter(|lines| is_costed(lines)).collect();
                    costed.iter().for_each(|lines| self.table(lines, &home));
                    if costed.iter().any(|lines| sealed::column(lines).is_none()) {
                        self.totals(&home);
                    }
                }
                Found::Loose(_) => {}
            }
        }
        if sheet.standing == SheetState::Output {
            self.summary();
        }
        self.typed
    }

    fn table(&mut self, table: &Table<'_>, home: &Home) {
        if !is_costed(table) {
            return;
        }
        if let Some(seals) = sealed::column(table) {
            let Some(header) = table.place.cell_ref().map(|cell| cell.row) else { return };
            let own = table.ours.iter().filter(|(at, _)| *at != seals);
            let own: Vec<(u32, &str)> = own.map(|(at, header)| (*at, header.as_str())).collect();
            return self.sealed(header, seals, &own, home);
        }
        let rows = || table.rows.iter().map(|row| row.row());
        let live = table.ours.iter().any(|(at, _)| rows().any(|row| self.grid.is_formula(CellRef::new(row, *at))));
        for (at, header) in &table.ours {
            let cells = rows().map(|row| CellRef::new(row, *at));
            if live && output::is_figure(header) {
                let nothing = output::may_be_nothing(header);
                let typed: Vec<CellRef> = cells.filter(|cell| self.is_number(*cell, nothing)).collect();
                self.tell(header, Some(header), Kind::Figure, home, &typed);
            } else if same(header, output::ROW_USED) {
                let is_ours = |text: &str| output::ROW_STATES.contains(&text);
                let other = |cell: &CellRef| matches!(&self.grid.get(cell.row, cell.column).value, Value::Text(text) if !is_ours(text));
                let typed: Vec<CellRef> = cells.filter(other).collect();
                self.tell(header, Some(header), Kind::Reading, home, &typed);
            }
        }
    }

    /// The totals of the cards on the sheet: a label of ours and its figure right beside it.
    fn totals(&mut self, home: &Home) {
        let mut totals: Vec<(&str, CellRef)> = Vec::new();
        for row in self.grid.rows() {
            let Some((at, typed)) = row.cells().first() else { continue };
            if let Value::Text(text) = &typed.value
                && output::is_total(text)
            {
                totals.push((text, CellRef::new(row.row, at.saturating_add(1))));
            }
        }
        if totals.iter().any(|(_, cell)| self.grid.is_formula(*cell)) {
            for (label, cell) in totals {
                if self.is_number(cell, false) {
                    self.tell(label, None, Kind::Figure, home, &[cell]);
                }
            }
        }
    }

    /// The dishes of the Summary. What is typed elsewhere on our output sheets goes with them when they are written anew.
    fn summary(&mut self) {
        let texts = |row: &GridRow| -> Vec<(u32, String)> {
            row.cells().iter().map(|(at, typed)| (*at, typed.seen())).collect()
        };
        let mut rows = self.grid.rows().iter().map(|row| (row.row, texts(row)));
        let head = rows.by_ref().take(ROWS).find(|(_, cells)| {
            let mut cells = cells.iter();
            own_sheets::SUMMARY.iter().all(|header| cells.any(|(_, text)| text == header))
        });
        let Some((header, head)) = head else { return };
        let own = head.iter().filter(|(_, text)| own_sheets::SUMMARY.iter().skip(1).any(|header| text == header));
        let own: Vec<(u32, &str)> = own.map(|(at, text)| (*at, text.as_str())).collect();
        // Seals have no header there.
        let is_seal = |text: &str| Seal::read(text).is_some_and(|seal| seal.cells() == own.len());
        let mut below = rows.clone();
        if let Some((seals, _)) = below.find_map(|(_, cells)| cells.into_iter().rev().find(|(_, text)| is_seal(text))) {
            return self.sealed(header, seals, &own, &Home::Summary);
        }
        let (mut before, mut dishes) = (header, Vec::new());
        for (row, cells) in rows {
            if row != before.saturating_add(1) || cells.len() < 2 {
                break;
            }
            before = row;
            dishes.push(row);
        }
        let figures: Vec<(u32, &str)> = own.into_iter().filter(|(_, header)| output::is_figure(header)).collect();
        let live = |row: &u32| figures.iter().any(|(at, _)| self.grid.is_formula(CellRef::new(*row, *at)));
        if !dishes.iter().any(live) {
            return;
        }
        for (at, header) in figures {
            let cells = dishes.iter().map(|row| CellRef::new(*row, at));
            let typed: Vec<CellRef> = cells.filter(|cell| self.is_number(*cell, false)).collect();
            self.tell(header, Some(header), Kind::Figure, &Home::Summary, &typed);
        }
    }

    /// Whether a number and no formula stands in a cell; where `or_nothing`, a zero may be ours.
    fn is_number(&self, cell: CellRef, or_nothing: bool) -> bool {
        let number = match &self.grid.get(cell.row, cell.column).value {
            Value::Number(number) => !(or_nothing && number.is_zero()),
            _ => false,
        };
        number && self.grid.knows_formulas() && !self.grid.is_formula(cell)
    }

    fn tell(&mut self, named: &str, header: Option<&str>, kind: Kind, home: &Home, cells: &[CellRef]) {
        for cell in cells {
            let typed = TypedOver {
                place: self.grid.place_of(*cell),
                said: self.grid.get(cell.row, cell.column).seen(),
                named: named.trim_end_matches(':').to_owned(),
                kind,
                home: home.clone(),
                row: self.row_begins(cell.row),
                header: header.map(str::to_owned),
            };
            self.typed.push(typed);
        }
    }

    /// What a row begins with, and how many rows before it begin with the same.
    fn row_begins(&mut self, row: u32) -> (String, usize) {
        if self.begins.is_empty() {
            let mut times: HashMap<String, usize> = HashMap::new();
            for row in self.grid.rows() {
                let named = row.cells().first().map(|(_, typed)| begins(typed)).unwrap_or_default();
                let seen = times.entry(named.clone()).or_default();
                self.begins.insert(row.row, (named, *seen));
                *seen = seen.saturating_add(1);
            }
        }
        self.begins.get(&row).cloned().unwrap_or_default()
    }
}

/// What a cell says that a row begins with.
fn begins(typed: &Typed) -> String {
    match &typed.value {
        Value::Text(text) => text.trim().to_owned(),
        _ => typed.seen(),
    }
}

/// Whether a table is one that we costed.
fn is_costed(table: &Table<'_>) -> bool {
    output::is_costed(table.kind, table.ours.iter().map(|(_, header)| header.as_str()))
}

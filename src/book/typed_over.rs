//! Figures and readings of a costed workbook that were typed over: they are not read, so whoever typed there must hear
//! of it.
//!
//! A figure is written as a formula. Where a number stands in its place and formulas stand beside it, somebody typed it.
//! Where no formula stands in a table at all, a program wrote values only, and nobody typed anything.

use super::find::{Found, SheetState, SheetTables, Table};
use super::grid::Grid;
use crate::problem::{CellRef, Code, Fault, Problem};
use crate::schema::{Value, output, own_sheets};

/// Filled rows in which the headers of our figures are looked for.
const ROWS: usize = 60;
/// Sheets with more rows are lists of thousands of recipes: nobody types there by hand.
const MOST_ROWS: usize = 50_000;
/// The most cells that are named.
const NAMED: usize = 3;

/// Whether a sheet may hold figures of ours, so that it matters which of its cells are formulas.
pub fn may_hold_figures(grid: &Grid) -> bool {
    grid.rows().len() <= MOST_ROWS
        && grid.rows().iter().take(ROWS).any(|row| {
            let ours = row
                .cells()
                .iter()
                .filter(|(_, typed)| matches!(&typed.value, Value::Text(text) if output::is_figure(text)));
            ours.take(2).count() == 2
        })
}

/// What was typed over on all sheets: a line for each sheet and column.
pub fn problems(grids: &[Grid], sheets: &[SheetTables<'_>]) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (grid, sheet) in grids.iter().zip(sheets) {
        let mut typed = TypedOver { grid, columns: Vec::new() };
        for found in &sheet.found {
            match found {
                Found::Table(table) => typed.table(table),
                Found::Card(card) => card.lines.iter().for_each(|lines| typed.table(lines)),
                Found::Loose(_) => {}
            }
        }
        if sheet.found.iter().any(|found| matches!(found, Found::Card(card) if card.lines.iter().any(is_costed))) {
            typed.totals();
        }
        if sheet.standing == SheetState::Output {
            typed.summary();
        }
        problems.extend(typed.columns.iter().map(|column| column.problem(grid)));
    }
    problems
}

/// Whether a table is one that we costed.
fn is_costed(table: &Table<'_>) -> bool {
    output::is_costed(table.kind, table.ours.iter().map(|(_, header)| header.as_str()))
}

/// A column, or a label of cards, and the cells that were typed over.
struct Column {
    header: String,
    is_figure: bool,
    cells: Vec<CellRef>,
}

/// What was typed over on a sheet.
struct TypedOver<'g> {
    grid: &'g Grid,
    columns: Vec<Column>,
}

impl TypedOver<'_> {
    fn table(&mut self, table: &Table<'_>) {
        if !is_costed(table) {
            return;
        }
        let rows = || table.rows.iter().map(|row| row.row());
        let live = table.ours.iter().any(|(at, _)| rows().any(|row| self.grid.is_formula(CellRef::new(row, *at))));
        for (at, header) in &table.ours {
            let cells = rows().map(|row| CellRef::new(row, *at));
            if live && output::is_figure(header) {
                let typed = cells.filter(|cell| self.is_number(*cell, output::may_be_nothing(header))).collect();
                self.tell(header, true, typed);
            } else if crate::schema::header::same(header, output::ROW_USED) {
                let is_ours = |text: &str| output::ROW_STATES.contains(&text);
                let other = |cell: &CellRef| matches!(&self.grid.get(cell.row, cell.column).value, Value::Text(text) if !is_ours(text));
                self.tell(header, false, cells.filter(other).collect());
            }
        }
    }

    /// The totals of the cards on the sheet: a label of ours and its figure right beside it.
    fn totals(&mut self) {
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
                    self.tell(label, true, vec![cell]);
                }
            }
        }
    }

    /// The dishes of the Summary. What is typed elsewhere on our output sheets goes with them when they are written anew.
    fn summary(&mut self) {
        let texts = |cells: &[(u32, crate::schema::Typed)]| -> Vec<(u32, String)> {
            cells.iter().map(|(at, typed)| (*at, typed.seen())).collect()
        };
        let mut rows = self.grid.rows().iter().map(|row| (row.row, texts(row.cells())));
        let head = rows.by_ref().take(ROWS).find(|(_, cells)| {
            let mut cells = cells.iter();
            own_sheets::SUMMARY.iter().all(|header| cells.any(|(_, text)| text == header))
        });
        let Some((mut before, head)) = head else { return };
        let mut dishes = Vec::new();
        for (row, cells) in rows {
            if row != before.saturating_add(1) || cells.len() < 2 {
                break;
            }
            before = row;
            dishes.push(row);
        }
        let figures: Vec<&(u32, String)> = head.iter().filter(|(_, header)| output::is_figure(header)).collect();
        let live = |row: &u32| figures.iter().any(|(at, _)| self.grid.is_formula(CellRef::new(*row, *at)));
        if !dishes.iter().any(live) {
            return;
        }
        for (at, header) in figures {
            let cells = dishes.iter().map(|row| CellRef::new(*row, *at));
            let typed = cells.filter(|cell| self.is_number(*cell, false)).collect();
            self.tell(header, true, typed);
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

    fn tell(&mut self, header: &str, is_figure: bool, mut cells: Vec<CellRef>) {
        if cells.is_empty() {
            return;
        }
        match self.columns.iter_mut().find(|column| column.header == header) {
            Some(column) => column.cells.append(&mut cells),
            None => self.columns.push(Column { header: header.to_owned(), is_figure, cells }),
        }
    }
}

impl Column {
    fn problem(&self, grid: &Grid) -> Problem {
        let said = |cell: &CellRef| format!("{} in {cell}", grid.get(cell.row, cell.column).seen());
        let mut cells: Vec<String> = self.cells.iter().take(NAMED).map(said).collect();
        match self.cells.len().saturating_sub(NAMED) {
            0 => {}
            1 => cells.push("one more".to_owned()),
            more => cells.push(format!("{more} more")),
        }
        let first = self.cells.first().copied().unwrap_or(CellRef::new(0, 0));
        let (what, help) = if self.is_figure {
            (
                "stands where parings has a formula, and was not read",
                "To change a figure, type into the cells that it comes from. Cost the workbook again, and the formula is back.",
            )
        } else {
            (
                "is none of the words that parings writes there, and was not read",
                "Which row is used follows from dates, suppliers and prices: to choose a supplier type yes under Preferred.",
            )
        };
        let message = format!("“{}” was typed over: {} {what}", self.header.trim_end_matches(':'), cells.join(", "));
        Fault::new(Code::FigureTypedOver, message, help).at(grid.place_of(first))
    }
}

//! Body of a loose card, row by row: lines, headings, sums, the method, and what is told and not read.

use std::collections::BTreeMap;

use super::columns::{self, CardColumns, ColumnRole};
use super::starts::{CardArea, Start};
use super::{LooseCard, LooseLine, PlacedText, stated, text};
use crate::book::grid::Grid;
use crate::kitchen::InputCell;
use crate::problem::{CellRef, Code, Fault, Problem};
use crate::schema::row_names::is_total;
use crate::schema::{Column, Typed};

/// A card while its rows come in.
struct Body<'g> {
    grid: &'g Grid,
    columns: CardColumns,
    card: LooseCard,
    group: Option<String>,
    /// Whether a total has closed the lines.
    closed: bool,
    /// Columns and rows that are told, not read: the first cell of each and how many.
    told: BTreeMap<String, (CellRef, usize)>,
    problems: Vec<Problem>,
}

/// The card that begins at `start`, and what there is to say of its rows.
pub(super) fn card(grid: &Grid, start: &Start, block: &CardArea) -> (LooseCard, Vec<Problem>) {
    let columns = columns::of(grid, block, start.body);
    let place = grid.place_of(start.cell);
    let sheet = || PlacedText { text: sheet_name(grid), place: place.clone() };
    let card = LooseCard {
        place: place.clone(),
        name: start.name.clone().unwrap_or_else(sheet),
        is_named_by_sheet: start.name.is_none(),
        makes: start.makes.clone(),
        lines: Vec::new(),
        method: Vec::new(),
        whole_lines: columns.whole_lines,
    };
    let mut body =
        Body { grid, columns, card, group: None, closed: false, told: BTreeMap::new(), problems: Vec::new() };
    for row in grid.rows_within(start.body, block.end) {
        let within = row.cells_within((block.first, block.last));
        let cells: Vec<(u32, &Typed)> = within.iter().map(|(at, typed)| (*at, typed)).collect();
        if Some(row.row) != body.columns.header && !cells.is_empty() {
            body.row(row.row, &cells);
        }
    }
    body.finish()
}

/// The name of the sheet; of a file without sheets, its own without folders and ending.
fn sheet_name(grid: &Grid) -> String {
    let sheet = grid.place().sheet_name();
    if !sheet.is_empty() {
        return sheet.to_owned();
    }
    let file = grid.place().file_name();
    let base = file.rsplit(['/', '\\']).next().unwrap_or(file);
    base.rsplit_once('.').map_or(base, |(stem, _)| stem).to_owned()
}

impl Body<'_> {
    fn row(&mut self, row: u32, cells: &[(u32, &Typed)]) {
        if let Some((at, total)) = cells.iter().find(|(_, typed)| text(typed).is_some_and(is_total)) {
            self.closed = true;
            let fault = Fault::new(
                Code::TotalSkipped,
                format!("the row “{}” was skipped: totals are computed", total.seen()),
                "If something that counts has that name, give it another.",
            );
            return self.problems.push(fault.at(self.grid.place_of(CellRef::new(row, *at))));
        }
        let mut of_line: Vec<InputCell> = Vec::new();
        let mut unit_above = None;
        let mut second = None;
        for (at, typed) in cells {
            let cell = CellRef::new(row, *at);
            let place = self.grid.place_of(cell);
            let role = self.columns.roles.get(at).cloned().unwrap_or(ColumnRole::Told(String::new()));
            let column = match role {
                ColumnRole::Item => Column::Item,
                ColumnRole::Amount(unit) => {
                    unit_above = unit;
                    Column::Qty
                }
                ColumnRole::Second => {
                    second = Some(InputCell { column: Column::Qty, typed: (*typed).clone(), place });
                    continue;
                }
                ColumnRole::Unit => Column::Unit,
                ColumnRole::Prep => Column::Prep,
                ColumnRole::Method => {
                    self.card.method.push(stated(self.grid, cell));
                    continue;
                }
                ColumnRole::Told(heading) => {
                    self.tell(heading, cell);
                    continue;
                }
            };
            of_line.push(InputCell { column, typed: (*typed).clone(), place });
        }
        if !of_line.iter().any(|cell| cell.column == Column::Qty)
            && let Some(second) = second
        {
            unit_above = None;
            of_line.push(second);
        }
        if of_line.is_empty() {
            return;
        }
        let first = cells.first().map_or(CellRef::new(row, 0), |(at, _)| CellRef::new(row, *at));
        self.line(first, of_line, unit_above);
    }

    /// Takes the cells of a line: a line, or what stands between or below lines.
    fn line(&mut self, first: CellRef, mut cells: Vec<InputCell>, unit_above: Option<String>) {
        let place = self.grid.place_of(first);
        if let [only] = cells.as_mut_slice()
            && let Some(alone) = text(&only.typed).map(str::to_owned)
        {
            let is_item = only.column == Column::Item;
            if alone.ends_with(':') {
                self.group = Some(alone.trim_end_matches(':').trim().to_owned());
                return;
            }
            if is_step(&alone) || (!self.card.method.is_empty() && !self.has_method_column()) {
                return self.card.method.push(PlacedText { text: alone, place: only.place.clone() });
            }
            if self.closed || !(is_item || starts_a_line(only.column)) {
                return self.tell(String::new(), first);
            }
            only.column = Column::Item;
        }
        let has_text = cells.iter().any(|cell| cell.column == Column::Item && text(&cell.typed).is_some());
        if !has_text {
            // A sum below the lines.
            return self.tell(String::new(), first);
        }
        self.card.lines.push(LooseLine { place, cells, unit_above, group: self.group.clone() });
    }

    fn has_method_column(&self) -> bool {
        self.columns.roles.values().any(|role| *role == ColumnRole::Method)
    }

    fn tell(&mut self, heading: String, cell: CellRef) {
        let told = self.told.entry(heading).or_insert((cell, 0));
        told.1 = told.1.saturating_add(1);
    }

    fn finish(mut self) -> (LooseCard, Vec<Problem>) {
        for (heading, (cell, cells)) in std::mem::take(&mut self.told) {
            let name = &self.card.name.text;
            let (stands, was) = if cells == 1 { ("cell stands", "was") } else { ("cells stand", "were") };
            let message = if heading.is_empty() {
                format!("{cells} filled {stands} beside or below the lines of “{name}” and {was} not read")
            } else {
                format!("{cells} filled {stands} under “{heading}” in “{name}” and {was} not read")
            };
            let help = "Nothing to do, unless they hold something that should count: prices belong in a table with the \
                        headings Item, Pack and Price.";
            self.problems.push(Fault::new(Code::ColumnIgnored, message, help).at(self.grid.place_of(cell)));
        }
        (self.card, self.problems)
    }
}

/// A cell alone that may be the name of a line, or hold all of it.
fn starts_a_line(column: Column) -> bool {
    matches!(column, Column::Qty | Column::Unit)
}

/// Whether a text alone in its row is a step of the method: numbered, or sentences.
fn is_step(text: &str) -> bool {
    let digits = text.bytes().take_while(u8::is_ascii_digit).count();
    let behind = text.get(digits..).unwrap_or("");
    let is_numbered = digits > 0 && (behind.starts_with(". ") || behind.starts_with(") "));
    let words = text.split_whitespace().count();
    is_numbered || (words >= 4 && (text.ends_with('.') || text.contains(". ")))
}

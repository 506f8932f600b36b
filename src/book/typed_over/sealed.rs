//! Rows with a seal, held against it.

use super::{Home, Kind, TypedOverSheet};
use crate::book::find::Table;
use crate::problem::CellRef;
use crate::schema::as_written::{self, Seal, Stands, Was};
use crate::schema::header::same;
use crate::schema::{Typed, Value};

/// The column of a table's seals.
pub(super) fn column(table: &Table<'_>) -> Option<u32> {
    table.ours.iter().find(|(_, header)| same(header, as_written::HEADER)).map(|(at, _)| *at)
}

impl TypedOverSheet<'_> {
    /// The rows from the one above the row `header` on that have a seal in the column `seals`: of the columns in `own`, and of rows that are
    /// no lines of a table also of the cell beside what they begin with.
    pub(super) fn sealed(&mut self, header: u32, seals: u32, own: &[(u32, &str)], home: &Home) {
        let grid = self.grid;
        // What a card comes to stands right above its headers.
        let above = header.saturating_sub(1);
        let mut told: Vec<(String, Option<String>, Kind, CellRef)> = Vec::new();
        if !self.is_live {
            return;
        }
        for row in grid.rows().iter().filter(|row| row.row >= above) {
            let Value::Text(text) = &grid.get(row.row, seals).value else { continue };
            let Some(seal) = Seal::read(text) else { continue };
            let first = row.cells().first();
            let beside = first.map(|(at, typed)| (at.saturating_add(1), super::begins(typed)));
            // What stands in a row that is none of a table is known by its label.
            let label = beside.as_ref().filter(|_| seal.cells() == own.len().saturating_add(1));
            if label.is_none() && seal.cells() != own.len() {
                continue;
            }
            let label_cell = label.map(|(at, named)| (*at, named.as_str(), None));
            let own = own.iter().map(|(at, header)| (*at, label.map_or(*header, |(_, named)| named), Some(*header)));
            for (index, (at, named, header)) in label_cell.into_iter().chain(own).enumerate() {
                let cell = CellRef::new(row.row, at);
                let typed = grid.get(row.row, at);
                let kind = match seal.was(index, stands(typed)) {
                    Was::Formula => Kind::Figure,
                    Was::Changed => Kind::Reading,
                    Was::Nothing => Kind::Nothing,
                    Was::Same | Was::NotWatched => continue,
                };
                if !typed.is_blank() && !grid.is_formula(cell) && typed.lost_formula().is_none() {
                    told.push((named.to_owned(), header.map(str::to_owned), kind, cell));
                }
            }
        }
        for (named, header, kind, cell) in told {
            self.tell(&named, header.as_deref(), kind, home, &[cell]);
        }
    }
}

/// What stands in a cell, as a seal has it.
fn stands(typed: &Typed) -> Stands<'_> {
    match &typed.value {
        Value::Blank => Stands::Nothing,
        Value::Text(text) => Stands::Text(text),
        Value::Number(number) => Stands::Number(*number),
        _ => Stands::Other,
    }
}

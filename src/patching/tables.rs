//! Table of a file that takes new rows: where it ends, which cell goes under which header, and what each is to look like.

use std::collections::HashMap;

use crate::book::{Found, Grid, Table};
use crate::in_order::InOrder;
use crate::kitchen::InputRow;
use crate::patching::xlsx::{Addition, NewCell, NewContent, NewRow, NotPatched};
use crate::problem::{CellRef, Place};
use crate::schema::{Column, Shown, TableKind, Typed, Value};

/// The heading under which new rows stand in a list that is parted by headings: they belong to none of the others.
const NEW_PRICES: &str = "NEW PRICES";

/// A table of a file.
pub(super) struct OwnTable<'g> {
    /// Which file it stands in.
    pub source: usize,
    pub grid: &'g Grid,
    table: Table<'g>,
}

impl<'g> OwnTable<'g> {
    /// The tables on a sheet that may take rows.
    pub fn all(source: usize, grid: &'g Grid, found: Vec<Found<'g>>) -> impl Iterator<Item = OwnTable<'g>> {
        let table = move |found| match found {
            Found::Table(table) if !table.is_fill_in() => Some(OwnTable { source, grid, table }),
            _ => None,
        };
        found.into_iter().filter_map(table)
    }

    pub fn kind(&self) -> TableKind {
        self.table.kind
    }

    pub fn is_prices(&self) -> bool {
        self.kind() == TableKind::Prices
    }

    pub fn rows(&self) -> usize {
        self.table.rows.len()
    }

    pub fn has_rows(&self) -> bool {
        !self.table.rows.is_empty()
    }

    /// Whether a cell of one of its rows stands there.
    pub fn holds(&self, place: &Place) -> bool {
        let here = self.grid.place();
        let Some(cell) = place.cell_ref() else { return false };
        place.file_name() == here.file_name()
            && place.sheet_name() == here.sheet_name()
            && (self.header().saturating_add(1)..=self.last()).contains(&cell.row)
            && self.table.columns.iter().any(|heading| heading.at == cell.column)
    }

    /// Its first and last column: those it knows and what stands right beside them; not what stands further off.
    fn span(&self) -> (u32, u32) {
        let known = || self.table.columns.iter().map(|heading| heading.at);
        let (mut first, mut last) = (known().min().unwrap_or_default(), known().max().unwrap_or_default());
        let headed = |column: u32| !self.grid.get(self.header(), column).is_blank();
        while let Some(left) = first.checked_sub(1).filter(|left| headed(*left)) {
            first = left;
        }
        while let Some(right) = last.checked_add(1).filter(|right| headed(*right)) {
            last = right;
        }
        (first, last)
    }

    /// The row of its headers.
    pub fn header(&self) -> u32 {
        self.table.place.cell_ref().map_or(0, |cell| cell.row)
    }

    /// Its last row.
    pub fn last(&self) -> u32 {
        self.table.rows.iter().map(|row| row.row()).max().unwrap_or_else(|| self.header())
    }

    /// Where its first new row begins.
    pub fn first_new_cell(&self) -> Place {
        self.grid.place_of(CellRef::new(self.last().saturating_add(1), self.span().0))
    }

    /// What puts `rows` below its last one.
    ///
    /// # Errors
    /// [`NotPatched`] where a cell of a row cannot be typed.
    pub fn addition(&self, rows: &[&InputRow]) -> Result<Addition, NotPatched> {
        let mut lacking: Vec<Column> = Vec::new();
        for column in rows.iter().flat_map(|row| row.cells.iter()).filter(|cell| !cell.typed.is_blank()) {
            if self.table.heading(column.column).is_none() && !lacking.contains(&column.column) {
                lacking.push(column.column);
            }
        }
        // In the order in which we would have them.
        lacking.put_in_order_by_key(|column| self.kind().columns().iter().position(|def| def.column == *column));
        let span = self.span();
        let first_new = span.1.saturating_add(1);
        let at = |column: Column| {
            let own = self.table.heading(column).map(|heading| heading.at);
            own.or_else(|| {
                let nth = lacking.iter().position(|lacks| *lacks == column)?;
                first_new.checked_add(u32::try_from(nth).ok()?)
            })
        };
        let known: Vec<u32> = self.table.columns.iter().map(|heading| heading.at).collect();
        let goes_on: Vec<u32> = (span.0..=span.1).filter(|at| !known.contains(at)).collect();
        let mut new: Vec<NewRow> = self.heading().into_iter().collect();
        // Where a column holds nothing of a kind, every row would be looked through for it.
        let mut likes: HashMap<(u32, std::mem::Discriminant<NewContent>), Option<u32>> = HashMap::new();
        for row in rows {
            let mut cells = Vec::new();
            for cell in row.cells.iter().filter(|cell| !cell.typed.is_blank()) {
                let Some(column) = at(cell.column) else { continue };
                let content = content(&cell.typed)
                    .ok_or_else(|| NotPatched(format!("{} of the list cannot be typed again", cell.typed.seen())))?;
                let kind = (column, std::mem::discriminant(&content));
                let like = *likes.entry(kind).or_insert_with(|| self.like(column, &content));
                cells.push(NewCell { column, content, like });
            }
            new.push(NewRow { cells, goes_on: goes_on.clone() });
        }
        let headers = lacking.iter().map(|column| self.kind().header(*column).to_owned()).collect();
        Ok(Addition {
            sheet: self.grid.place().sheet_name().to_owned(),
            header: self.header(),
            last: self.last(),
            span,
            headers,
            rows: new,
        })
    }

    /// A heading for the new rows, where the last ones stand under one.
    fn heading(&self) -> Option<NewRow> {
        let last = self.table.rows.iter().max_by_key(|row| row.row())?;
        let group = last.group.as_deref().filter(|group| *group != NEW_PRICES)?;
        let above = self.grid.rows().iter().rev().filter(|row| (self.header()..self.last()).contains(&row.row));
        let (row, column) = above
            .filter_map(|row| match row.cells() {
                [(at, Typed { value: Value::Text(text), .. })] => Some((row.row, *at, text)),
                _ => None,
            })
            .find(|(_, _, text)| text.trim_end_matches(':').trim_end() == group)
            .map(|(row, at, _)| (row, at))?;
        let content = NewContent::Text(NEW_PRICES.to_owned());
        Some(NewRow { cells: vec![NewCell { column, content, like: Some(row) }], goes_on: Vec::new() })
    }

    /// The nearest row above in which a cell of the same kind stands in `column`.
    fn like(&self, column: u32, content: &NewContent) -> Option<u32> {
        let own = self.table.rows.iter().rev().map(|row| row.row());
        own.map(|row| (row, self.grid.get(row, column))).find(|(_, typed)| is_like(typed, content)).map(|(row, _)| row)
    }

    /// The cells of a column, from the last up.
    pub fn column(&self, column: u32) -> impl Iterator<Item = &'g Typed> {
        let grid = self.grid;
        self.table.rows.iter().rev().map(move |row| grid.get(row.row(), column))
    }
}

fn is_like(typed: &Typed, content: &NewContent) -> bool {
    match (&typed.value, content) {
        (Value::Text(_), NewContent::Text(_))
        | (Value::Date(_), NewContent::Date(_))
        | (Value::Bool(_), NewContent::Bool(_)) => true,
        (Value::Number(_), NewContent::Percent(_)) => typed.shown == Shown::Percent,
        (Value::Number(_), NewContent::Number(_)) => !matches!(typed.shown, Shown::Percent | Shown::Date),
        _ => false,
    }
}

fn content(typed: &Typed) -> Option<NewContent> {
    Some(match &typed.value {
        Value::Text(text) => NewContent::Text(text.clone()),
        Value::Number(number) if typed.shown == Shown::Percent => NewContent::Percent(*number),
        Value::Number(number) => NewContent::Number(*number),
        Value::Date(day) => NewContent::Date(*day),
        Value::Bool(yes) => NewContent::Bool(*yes),
        Value::Blank | Value::Error(_) | Value::Formula(_) => return None,
    })
}

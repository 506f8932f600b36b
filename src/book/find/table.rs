//! A table that was found: its kind, its columns, and its rows with their cells by column.

use std::collections::HashMap;
use std::sync::Arc;

use crate::book::grid::GridRow;
use crate::problem::{CellRef, Place};
use crate::schema::header::normal;
use crate::schema::{Column, TableKind, Typed, fill_in};

/// The cell of a column that is not there.
static BLANK: Typed = Typed::BLANK;

/// A column of a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Heading {
    /// What it means.
    pub column: Column,
    /// Its zero-based column on the sheet.
    pub at: u32,
    /// Its header as typed.
    pub text: String,
    /// The unit or currency in its header's brackets.
    pub default: Option<String>,
}

/// A row of a table that holds something in a column the table knows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TableRow<'g> {
    /// The sheet's row.
    pub(super) line: &'g GridRow,
    /// The heading it stands under.
    pub group: Option<Arc<str>>,
}

impl TableRow<'_> {
    /// Its zero-based row on the sheet.
    pub fn row(&self) -> u32 {
        self.line.row
    }
}

/// A table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Table<'g> {
    /// What kind of table.
    pub kind: TableKind,
    /// The first cell of its header row.
    pub place: Place,
    /// The columns it knows, in the sheet's order, each meaning once.
    pub columns: Vec<Heading>,
    /// Our own columns in it, by zero-based column.
    pub(in crate::book) ours: Vec<(u32, String)>,
    /// The first of our own columns under each header, by its normal form.
    pub(super) own: HashMap<String, u32>,
    /// Its rows, in the sheet's order.
    pub rows: Vec<TableRow<'g>>,
}

impl<'g> Table<'g> {
    /// Its column of this meaning, if it has one.
    pub fn heading(&self, column: Column) -> Option<&Heading> {
        self.columns.iter().find(|heading| heading.column == column)
    }

    /// The cell of `row` in `column`; blank when the table has no such column.
    pub fn cell(&self, row: &TableRow<'g>, column: Column) -> &'g Typed {
        self.heading(column).map_or(&BLANK, |heading| row.line.get(heading.at))
    }

    /// The cell of `row` in our own column of this header; blank when the table has no such column.
    pub fn own_cell(&self, row: &TableRow<'g>, header: &str) -> &'g Typed {
        self.own_column(header).map_or(&BLANK, |at| row.line.get(at))
    }

    /// Whether it is a table of a fill-in.
    pub fn is_fill_in(&self) -> bool {
        self.own_column(fill_in::ASKED_AT).is_some()
    }

    /// The first of our own columns under this header.
    fn own_column(&self, header: &str) -> Option<u32> {
        // Tables without any are most.
        if self.own.is_empty() { None } else { self.own.get(&normal(header)).copied() }
    }

    /// The place of the cell of `row` in `column`; of the row's first column when the table has no such column.
    pub fn place_of(&self, row: &TableRow<'g>, column: Column) -> Place {
        let at = self.heading(column).or(self.columns.first()).map_or(0, |heading| heading.at);
        self.place.cell(CellRef::new(row.line.row, at))
    }

    /// Whether a cell of a known column in a filled row has no value though it is there.
    pub(super) fn may_lack_values(&self) -> bool {
        self.rows.iter().any(|row| {
            self.columns.iter().any(|heading| row.line.get(heading.at).is_blank() && row.line.is_valueless(heading.at))
        })
    }
}

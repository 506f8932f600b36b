//! Books of chance: tables, cards and loose cells drawn from the words kitchens use and from rubbish.
//!
//! A [`Book`] is numbers only, so that proptest can shrink it; [`Book::xlsx`] and [`Book::csv`] draw the words.

use proptest::prelude::*;
use rust_xlsxwriter::Workbook;

use super::cell::{Cell, csv_field, put};
use super::expect::without_lost_results;
use super::words::{CARD, Column, KINDS_OF_TABLE, LABELS, RUBBISH};

/// A table of chance.
#[derive(Debug, Clone)]
pub struct Table {
    kind: usize,
    columns: u32,
    headers: u16,
    labels: Vec<u16>,
    rows: Vec<Vec<u16>>,
}

/// A book of chance.
#[derive(Debug, Clone)]
pub struct Book {
    tables: Vec<Table>,
    /// How often in a hundred a cell is rubbish.
    rubbish: u16,
    /// Whether every table has a sheet of its own.
    sheets: bool,
}

/// The cell that `number` stands for under `words`: mostly the first words, which are those that can be read; `rubbish`
/// times in a hundred rubbish.
pub fn drawn(number: u16, words: &'static str, rubbish: u16) -> Cell {
    let (chance, which) = (number % 100, usize::from(number / 100));
    let nth = |words: &'static str, at: usize| Cell::of_word(words.split('¦').nth(at).unwrap_or_default());
    let count = words.split('¦').count();
    if chance >= 100 - rubbish {
        return nth(RUBBISH, (which * 7 + usize::from(chance)) % RUBBISH.split('¦').count());
    }
    nth(words, if chance < 70 { which % count.div_ceil(2) } else { which % count })
}

/// Any book.
pub fn book() -> impl Strategy<Value = Book> {
    let cell = 0_u16..10_000;
    let kind = prop_oneof![
        4 => Just(0_usize), 3 => Just(1), 2 => Just(2), 4 => Just(3), 2 => Just(4), 1 => Just(5), 1 => Just(6), 1 => Just(7),
        1 => Just(8), 1 => Just(9), 4 => Just(CARD), 1 => Just(11),
    ];
    let rows = prop::collection::vec(prop::collection::vec(cell.clone(), 18), 0..7);
    let table = (kind, any::<u32>(), any::<u16>(), prop::collection::vec(cell, 13), rows)
        .prop_map(|(kind, columns, headers, labels, rows)| Table { kind, columns, headers, labels, rows });
    (prop::collection::vec(table, 1..8), prop_oneof![3 => Just(0_u16), 2 => Just(3), 1 => Just(30)], any::<bool>())
        .prop_map(|(tables, rubbish, sheets)| Book { tables, rubbish, sheets })
}

impl Book {
    /// The same book without rubbish.
    pub fn without_rubbish(mut self) -> Self {
        self.rubbish = 0;
        self
    }

    fn cell(&self, number: u16, words: &'static str) -> Cell {
        drawn(number, words, self.rubbish)
    }

    fn header(columns: &'static [Column], at: usize, which: u16) -> &'static str {
        let headers = columns[at].headers;
        // Mostly the canonical header.
        let turn = usize::from(which >> (at % 12)) % 16;
        if turn < headers.len() { headers[turn] } else { headers[0] }
    }

    fn rows_of(&self, table: &Table) -> Vec<Vec<Cell>> {
        let columns = KINDS_OF_TABLE[table.kind];
        let kept: Vec<usize> =
            (0..columns.len()).filter(|at| columns[*at].must || table.columns & (1 << at) != 0).collect();
        let mut rows = Vec::new();
        if table.kind == CARD {
            for (at, label) in LABELS.iter().enumerate() {
                if label.must || table.columns & (1 << (at + 12)) != 0 {
                    let name = Self::header(LABELS, at, table.headers);
                    rows.push(vec![Cell::Text(name), self.cell(table.labels[at], label.words)]);
                }
            }
        }
        rows.push(kept.iter().map(|at| Cell::Text(Self::header(columns, *at, table.headers))).collect());
        for row in &table.rows {
            rows.push(kept.iter().map(|at| self.cell(row[*at], columns[*at].words)).collect());
        }
        rows
    }

    /// All rows, sheet by sheet.
    pub fn grids(&self) -> Vec<Vec<Vec<Cell>>> {
        let mut sheets: Vec<Vec<Vec<Cell>>> = Vec::new();
        for table in &self.tables {
            let rows = self.rows_of(table);
            match sheets.last_mut() {
                Some(open) if !self.sheets => {
                    open.push(Vec::new());
                    open.extend(rows);
                }
                _ => sheets.push(rows),
            }
        }
        sheets
    }

    /// The book as a workbook.
    pub fn xlsx(&self) -> Vec<u8> {
        let mut workbook = Workbook::new();
        for grid in self.grids() {
            let sheet = workbook.add_worksheet();
            for (row, cells) in (0_u32..).zip(&grid) {
                for (column, cell) in (0_u16..).zip(cells) {
                    put(sheet, row, column, *cell);
                }
            }
        }
        without_lost_results(&workbook.save_to_buffer().unwrap())
    }

    /// The book as csv text.
    pub fn csv(&self) -> String {
        let mut text = String::new();
        for grid in self.grids() {
            for cells in grid {
                let fields: Vec<String> = cells.iter().map(|cell| csv_field(*cell)).collect();
                text.push_str(&fields.join(","));
                text.push('\n');
            }
            text.push('\n');
        }
        text
    }
}

//! Grid: one sheet as a sparse grid of its filled cells, in row and column order.
//!
//! Takes cells in whatever order a file holds them; gives rows in order. Cells without a value are only remembered as
//! a hint that a formula may have been saved without its result.

mod builder;
mod room;

use crate::in_order::InOrder;
use crate::problem::{CellRef, Place};
use crate::schema::Typed;

pub use builder::GridBuilder;
pub use room::{Room, TooMuch};

/// The cell that is everywhere where nothing stands.
static BLANK: Typed = Typed::BLANK;

/// A row that holds at least one filled cell.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GridRow {
    /// Zero-based row.
    pub row: u32,
    /// Filled cells by zero-based column, in order.
    cells: Vec<(u32, Typed)>,
    /// First and last column of each run of cells that are there but hold no value.
    valueless: Vec<(u32, u32)>,
}

impl GridRow {
    /// The filled cells with their zero-based columns, in order.
    pub fn cells(&self) -> &[(u32, Typed)] {
        &self.cells
    }

    /// The filled cells from one zero-based column to another.
    pub fn cells_within(&self, (first, last): (u32, u32)) -> &[(u32, Typed)] {
        let from = self.cells.partition_point(|(at, _)| *at < first);
        let to = self.cells.partition_point(|(at, _)| *at <= last);
        self.cells.get(from..to).unwrap_or_default()
    }

    /// The cell at a zero-based column.
    pub fn get(&self, column: u32) -> &Typed {
        self.cells
            .binary_search_by_key(&column, |(column, _)| *column)
            .ok()
            .and_then(|at| self.cells.get(at))
            .map_or(&BLANK, |(_, typed)| typed)
    }

    /// Whether a cell is there at `column` that holds no value: styled, or a formula without its result.
    pub fn is_valueless(&self, column: u32) -> bool {
        self.valueless.iter().any(|(first, last)| (*first..=*last).contains(&column))
    }
}

/// A sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Grid {
    /// The sheet.
    place: Place,
    /// Rows that hold something, in order.
    rows: Vec<GridRow>,
    /// The last row in which only cells without a value stand.
    last_valueless_row: Option<u32>,
    /// Cells whose text was longer than a workbook's cell holds, and how long it was.
    cut: Vec<(CellRef, usize)>,
    /// A cell that stood in the file twice, with different values.
    twice: Option<CellRef>,
    /// The first cell that no sheet of a workbook has, and how many there were.
    beyond: Option<(CellRef, usize)>,
    /// The cells that are formulas, in order, where that was asked for and the file says so.
    formulas: Option<Vec<CellRef>>,
    /// The first cells of rows that stand again below themselves, and how often: they were kept once.
    repeated: Vec<(CellRef, usize)>,
}

/// A row that stands so often, one below the other, was filled down by accident, and is kept once.
pub const MOST_REPEATS: u32 = 1_000;

impl Grid {
    /// The sheet it is.
    pub fn place(&self) -> &Place {
        &self.place
    }

    /// The place of one of its cells.
    pub fn place_of(&self, cell: CellRef) -> Place {
        self.place.cell(cell)
    }

    /// The rows that hold something, in order.
    pub fn rows(&self) -> &[GridRow] {
        &self.rows
    }

    /// The rows that hold something, from the zero-based row `first` up to but without `end`.
    pub fn rows_within(&self, first: u32, end: u32) -> &[GridRow] {
        let from = self.rows.partition_point(|row| row.row < first);
        let to = self.rows.partition_point(|row| row.row < end);
        self.rows.get(from..to).unwrap_or_default()
    }

    /// The cell at a zero-based row and column.
    pub fn get(&self, row: u32, column: u32) -> &Typed {
        self.rows
            .binary_search_by_key(&row, |row| row.row)
            .ok()
            .and_then(|at| self.rows.get(at))
            .map_or(&BLANK, |row| row.get(column))
    }

    /// The cells whose text was longer than a workbook's cell holds and was cut, with how many characters it had.
    pub fn cut(&self) -> &[(CellRef, usize)] {
        &self.cut
    }

    /// A cell that stood in the file twice, with different values: each program takes the one that it likes.
    pub fn twice(&self) -> Option<CellRef> {
        self.twice
    }

    /// The first of the cells that lay beyond the last row or column of a sheet and were left out, and how many there were.
    pub fn beyond(&self) -> Option<(CellRef, usize)> {
        self.beyond
    }

    /// Puts other values into filled cells; a blank one takes the cell away.
    pub fn replace(&mut self, values: Vec<(CellRef, Typed)>) {
        for (cell, typed) in values {
            let row = self.rows.binary_search_by_key(&cell.row, |row| row.row).ok();
            let Some(row) = row.and_then(|at| self.rows.get_mut(at)) else { continue };
            let at = row.cells.binary_search_by_key(&cell.column, |(column, _)| *column).ok();
            if let Some((_, known)) = at.and_then(|at| row.cells.get_mut(at)) {
                *known = typed;
            }
        }
        for row in &mut self.rows {
            row.cells.retain(|(_, typed)| !typed.is_blank());
        }
        self.rows.retain(|row| !row.cells.is_empty());
    }

    /// Puts `typed` into a filled cell; gives what stood there, `None` where the cell is not filled.
    pub fn set(&mut self, cell: CellRef, typed: Typed) -> Option<Typed> {
        let row = self.rows.binary_search_by_key(&cell.row, |row| row.row).ok()?;
        let cells = &mut self.rows.get_mut(row)?.cells;
        let at = cells.binary_search_by_key(&cell.column, |(column, _)| *column).ok()?;
        cells.get_mut(at).map(|(_, known)| std::mem::replace(known, typed))
    }

    /// Whether it is known which cells are formulas.
    pub fn knows_formulas(&self) -> bool {
        self.formulas.is_some()
    }

    /// Whether a cell is a formula, as far as is known.
    pub fn is_formula(&self, cell: CellRef) -> bool {
        self.formulas.as_ref().is_some_and(|cells| cells.binary_search(&cell).is_ok())
    }

    /// Whether any of its cells is known to be a formula.
    pub fn has_formulas(&self) -> bool {
        self.formulas.as_ref().is_some_and(|cells| !cells.is_empty())
    }

    /// Says which of its cells are formulas.
    pub fn note_formulas(&mut self, mut cells: Vec<CellRef>) {
        cells.put_in_order();
        self.formulas = Some(cells);
    }

    /// The first cells of rows that stood over and over again below themselves and were kept once, with how often.
    pub fn repeated(&self) -> &[(CellRef, usize)] {
        &self.repeated
    }

    /// The bytes of memory that its rows take, as near as can be told.
    pub fn memory(&self) -> usize {
        self.rows.iter().map(|row| room::taken_by_row(&row.cells)).fold(0, usize::saturating_add)
    }

    /// Whether nothing stands on it.
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// Whether a cell is there that holds no value.
    pub fn has_valueless(&self) -> bool {
        self.last_valueless_row.is_some() || self.rows.iter().any(|row| !row.valueless.is_empty())
    }

    /// The last row in which only cells without a value stand: styled, or formulas without their results.
    pub fn last_valueless_row(&self) -> Option<u32> {
        self.last_valueless_row
    }
}

//! Grid: one sheet as a sparse grid of its filled cells, in row and column order.
//!
//! Takes cells in whatever order a file holds them; gives rows in order. Cells without a value are only remembered as
//! a hint that a formula may have been saved without its result.

mod room;

use crate::problem::{CellRef, Place};
use crate::schema::{Typed, Value, characters, fitting};

use room::{OF_A_ROW, taken_by};
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

    /// Whether it is known which cells are formulas.
    pub fn knows_formulas(&self) -> bool {
        self.formulas.is_some()
    }

    /// Whether a cell is a formula, as far as is known.
    pub fn is_formula(&self, cell: CellRef) -> bool {
        self.formulas.as_ref().is_some_and(|cells| cells.binary_search(&cell).is_ok())
    }

    /// Says which of its cells are formulas.
    pub fn note_formulas(&mut self, mut cells: Vec<CellRef>) {
        cells.sort_unstable();
        self.formulas = Some(cells);
    }

    /// The first cells of rows that stood over and over again below themselves and were kept once, with how often.
    pub fn repeated(&self) -> &[(CellRef, usize)] {
        &self.repeated
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

/// Takes the cells of a sheet and makes its [`Grid`].
#[derive(Debug)]
pub struct GridBuilder {
    /// The grid so far, its rows perhaps out of order.
    grid: Grid,
    /// The row whose cells are coming in.
    current: GridRow,
    /// How much more may come.
    room: Room,
    /// How often the last row was found again right below itself.
    again: u32,
}

impl GridBuilder {
    /// An empty sheet at `place` in a file that has `room` left.
    pub fn new(place: Place, room: Room) -> Self {
        let grid = Grid {
            place,
            rows: Vec::new(),
            last_valueless_row: None,
            cut: Vec::new(),
            beyond: None,
            formulas: None,
            repeated: Vec::new(),
        };
        GridBuilder { grid, current: empty_row(0), room, again: 0 }
    }

    /// Goes on filling `grid`, whose valueless cells are forgotten.
    pub fn resume(grid: Grid, room: Room) -> Self {
        let mut grid = Grid { last_valueless_row: None, ..grid };
        for row in &mut grid.rows {
            row.valueless = Vec::new();
        }
        GridBuilder { grid, current: empty_row(0), room, again: 0 }
    }

    /// Puts `typed` at `cell`; what was there before is replaced. A blank puts nothing. Of a text that no cell of a workbook
    /// holds, its beginning is put, and it is remembered.
    ///
    /// # Errors
    /// [`TooMuch`] when there is no room left.
    pub fn put(&mut self, cell: CellRef, typed: Typed) -> Result<(), TooMuch> {
        if typed.is_blank() {
            return Ok(());
        }
        let begins = self.current.row != cell.row || self.current.cells.is_empty();
        let of_row = if begins { OF_A_ROW } else { 0 };
        self.room = self.room.take(taken_by(&typed).saturating_add(of_row))?;
        let typed = self.fitted(cell, typed);
        self.go_to(cell.row);
        self.current.cells.push((cell.column, typed));
        Ok(())
    }

    /// What goes into a cell: longer text is cut here, so that what is costed is what can be written and read again.
    fn fitted(&mut self, cell: CellRef, typed: Typed) -> Typed {
        let Value::Text(text) = &typed.value else { return typed };
        let fits = fitting(text);
        if fits.len() == text.len() {
            return typed;
        }
        self.grid.cut.push((cell, characters(text)));
        Typed { value: Value::Text(fits.to_owned()), shown: typed.shown }
    }

    /// Remembers that the row of `first` stands `count` times, one below the other, and is kept once.
    pub fn repeat(&mut self, first: CellRef, count: usize) {
        self.grid.repeated.push((first, count));
    }

    /// Remembers that a filled cell at `cell` was left out because no sheet has it.
    pub fn leave_out(&mut self, cell: CellRef) {
        let (_, count) = self.grid.beyond.get_or_insert((cell, 0));
        *count = count.saturating_add(1);
    }

    /// Remembers that a cell without a value is at `cell`.
    pub fn mark_valueless(&mut self, cell: CellRef) {
        self.go_to(cell.row);
        match self.current.valueless.last_mut() {
            Some((_, last)) if last.checked_add(1) == Some(cell.column) => *last = cell.column,
            _ => self.current.valueless.push((cell.column, cell.column)),
        }
    }

    /// How much more may come.
    pub fn room(&self) -> Room {
        self.room
    }

    /// The sheet.
    pub fn finish(mut self) -> Grid {
        self.flush();
        let rows = &mut self.grid.rows;
        if !rows.is_sorted_by(|a, b| a.row < b.row) {
            rows.sort_by_key(|row| row.row);
            rows.dedup_by(|later, earlier| {
                let same = later.row == earlier.row;
                if same {
                    earlier.cells.append(&mut later.cells);
                    earlier.valueless.append(&mut later.valueless);
                }
                same
            });
        }
        for row in rows.iter_mut().filter(|row| !row.cells.is_sorted_by(|a, b| a.0 < b.0)) {
            row.cells.sort_by_key(|(column, _)| *column);
            row.cells.dedup_by(|later, earlier| {
                let same = later.0 == earlier.0;
                if same {
                    std::mem::swap(later, earlier);
                }
                same
            });
        }
        rows.shrink_to_fit();
        self.grid
    }

    /// Makes `row` the current one.
    fn go_to(&mut self, row: u32) {
        if self.current.row != row {
            self.flush();
            self.current.row = row;
        }
    }

    /// Puts the current row away, if it holds anything, at its true size; its buffers are kept for the next one.
    fn flush(&mut self) {
        let current = &mut self.current;
        if !current.cells.is_empty() {
            let rows = &mut self.grid.rows;
            let above = rows.last().filter(|above| {
                let kept_once = if self.again >= MOST_REPEATS { self.again } else { 0 };
                above.row.checked_add(kept_once).and_then(|row| row.checked_add(1)) == Some(current.row)
                    && above.cells == current.cells
            });
            self.again = above.map_or(0, |_| self.again.saturating_add(1));
            if self.again > MOST_REPEATS {
                // One more of those that are kept once.
                if let Some((_, count)) = self.grid.repeated.last_mut() {
                    *count = count.saturating_add(1);
                }
                self.room = self.room.give(&current.cells);
                current.cells.clear();
            } else if self.again == MOST_REPEATS {
                let first = rows.len().saturating_sub(usize::try_from(MOST_REPEATS).unwrap_or(usize::MAX));
                for row in rows.drain(first.saturating_add(1)..) {
                    self.room = self.room.give(&row.cells);
                }
                self.room = self.room.give(&current.cells);
                let column = current.cells.first().map_or(0, |(column, _)| *column);
                let at = CellRef::new(current.row.saturating_sub(MOST_REPEATS), column);
                self.grid.repeated.push((at, usize::try_from(MOST_REPEATS).unwrap_or(usize::MAX).saturating_add(1)));
                current.cells.clear();
            } else {
                let mut cells = Vec::with_capacity(current.cells.len());
                cells.append(&mut current.cells);
                rows.push(GridRow { row: current.row, cells, valueless: current.valueless.as_slice().into() });
            }
        } else if !current.valueless.is_empty() {
            self.grid.last_valueless_row = self.grid.last_valueless_row.max(Some(current.row));
        }
        current.valueless.clear();
    }
}

/// A row without cells.
fn empty_row(row: u32) -> GridRow {
    GridRow { row, cells: Vec::new(), valueless: Vec::new() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::schema::Limits;

    fn builder() -> GridBuilder {
        GridBuilder::new(Place::sheet("a.xlsx", "S"), Room::of(&Limits::USUAL))
    }

    fn at(row: u32, column: u32) -> CellRef {
        CellRef::new(row, column)
    }

    #[test]
    fn cells_come_out_in_order_and_the_last_of_two_stays() {
        let mut grid = builder();
        for (row, column, text) in [(7, 3, "d"), (7, 1, "b"), (2, 0, "a"), (7, 3, "D")] {
            grid.put(at(row, column), Typed::text(text)).unwrap();
        }
        let grid = grid.finish();
        let seen: Vec<_> =
            grid.rows().iter().flat_map(|row| row.cells().iter().map(|(c, t)| (row.row, *c, t.seen()))).collect();
        assert_eq!(seen, [(2, 0, "a".into()), (7, 1, "b".into()), (7, 3, "D".into())]);
        assert_eq!(grid.get(7, 1), &Typed::text("b"));
        assert!(grid.get(7, 2).is_blank() && grid.get(1_048_575, 16_383).is_blank());
    }

    #[test]
    fn valueless_cells_are_remembered_beside_values_only() {
        let mut grid = builder();
        for column in 1..=3 {
            grid.mark_valueless(at(0, column));
        }
        grid.put(at(1, 0), Typed::text("x")).unwrap();
        grid.mark_valueless(at(1, 1));
        grid.mark_valueless(at(1, 2));
        grid.mark_valueless(at(1, 5));
        let grid = grid.finish();
        assert_eq!(grid.rows().len(), 1);
        let row = &grid.rows()[0];
        assert_eq!([0, 1, 2, 3, 5].map(|c| row.is_valueless(c)), [false, true, true, false, true]);
        assert_eq!(grid.last_valueless_row(), Some(0));
    }

    #[test]
    fn text_that_no_cell_holds_is_cut_and_remembered() {
        let mut grid = GridBuilder::new(Place::sheet("a.csv", ""), Room::of(&Limits::USUAL));
        // A sign beyond the first plane counts twice and is never halved.
        let fits = "x".repeat(32_767);
        for (row, text) in [fits.clone(), format!("{fits}y"), format!("{}🍋", "x".repeat(32_766)), "🍋".repeat(16_384)]
            .into_iter()
            .enumerate()
        {
            grid.put(at(u32::try_from(row).unwrap(), 0), Typed::text(text)).unwrap();
        }
        grid.put(at(4, 0), Typed::text(format!("{} y", "x".repeat(32_766)))).unwrap();
        let grid = grid.finish();
        assert_eq!(grid.cut(), [(at(1, 0), 32_768), (at(2, 0), 32_768), (at(3, 0), 32_768), (at(4, 0), 32_768)]);
        let kept = [0, 1, 2, 3, 4].map(|row| crate::schema::characters(&grid.get(row, 0).seen()));
        assert_eq!(kept, [32_767, 32_767, 32_766, 32_766, 32_766]);
    }

    #[test]
    fn the_room_is_bounded() {
        // Five rows of one text of a letter: 5 × (100 + 56 + 32 + 1).
        let limits = Limits { cells: 945, ..Limits::USUAL };
        let mut grid = GridBuilder::new(Place::sheet("a.xlsx", "S"), Room::of(&limits));
        for row in 0..5 {
            grid.put(at(row, 0), Typed::text(format!("{row}"))).unwrap();
        }
        grid.put(at(5, 0), Typed::BLANK).unwrap();
        assert_eq!(grid.put(at(5, 0), Typed::text("x")), Err(TooMuch("0 MB of cells".to_owned())));
    }

    #[test]
    fn a_row_filled_down_a_thousand_times_is_kept_once() {
        let rows = |count: u32| {
            let mut grid = builder();
            for row in 0..count {
                grid.put(at(row, 2), Typed::text("x")).unwrap();
                grid.put(at(row, 3), Typed::text("y")).unwrap();
            }
            grid.put(at(count, 2), Typed::text("z")).unwrap();
            let left = grid.room();
            (grid.finish(), left)
        };
        let (grid, _) = rows(1_000);
        assert_eq!((grid.rows().len(), grid.repeated()), (1_001, &[][..]));
        let (once, left) = rows(1_001);
        assert_eq!((once.rows().len(), once.repeated()), (2, &[(at(0, 2), 1_001)][..]));
        let (many, left_of_many) = rows(100_000);
        assert_eq!((many.rows().len(), many.repeated()), (2, &[(at(0, 2), 100_000)][..]));
        assert_eq!(left, left_of_many);
    }
}

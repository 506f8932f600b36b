//! Builder of a grid: cells come in whatever order a file holds them, within the room that there is.

use super::room::{OF_A_ROW, taken_by};
use super::{Grid, GridRow, MOST_REPEATS, Room, TooMuch};
use crate::in_order::InOrder;
use crate::problem::{CellRef, Place};
use crate::schema::{Typed, Value, characters, fitting};

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
            twice: None,
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
        let Grid { rows, twice, .. } = &mut self.grid;
        if !rows.is_sorted_by(|a, b| a.row < b.row) {
            rows.put_in_order_by_key(|row| row.row);
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
            row.cells.put_in_order_by_key(|(column, _)| *column);
            let at = row.row;
            row.cells.dedup_by(|later, earlier| {
                let same = later.0 == earlier.0;
                if same {
                    if later.1 != earlier.1 {
                        *twice = Some(CellRef::new(at, later.0));
                    }
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
        assert_eq!(grid.put(at(5, 0), Typed::text("x")), Err(TooMuch::Allowed("0 MB of cells".to_owned())));
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

//! Extent of a sheet: whatever kind of file a cell comes from, it stands within these bounds.

use crate::book::error::ReadError;
use crate::problem::CellRef;

/// Rows of a sheet (ECMA-376 part 1, 18.3.1.73, as programs keep it).
const ROWS: u32 = 1_048_576;
/// Columns of a sheet (the same, 18.3.1.13).
const COLUMNS: u32 = 16_384;

/// Whether a sheet has the cell.
pub(super) fn holds(cell: CellRef) -> bool {
    cell.row < ROWS && cell.column < COLUMNS
}

/// The cell in zero-based `row` and `column`.
///
/// # Errors
/// [`ReadError`] when a sheet of `file` has no such cell.
pub(super) fn cell(file: &str, row: u32, column: u32) -> Result<CellRef, ReadError> {
    let cell = CellRef::new(row, column);
    if holds(cell) {
        Ok(cell)
    } else {
        Err(ReadError::damaged(file, "a cell lies beyond the last row or column of a sheet"))
    }
}

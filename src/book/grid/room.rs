//! Room of a file: how much more it may hold within the limits of whoever asks.

use crate::schema::{Limits, Typed, Value, memory};

/// More than there is room for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TooMuch {
    /// The bound that was passed, in words.
    Allowed(String),
    /// No memory is left for it.
    Memory,
}

/// How much more a file may hold, over all its sheets: bytes of memory for cells, rows and texts alike.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Room {
    left: usize,
    /// What there was at first.
    limits: Limits,
}

/// What a filled cell takes, as near as can be told.
const OF_A_CELL: usize = 56;
/// What a text takes besides its letters, and a row besides its cells.
const OF_A_TEXT: usize = 32;
pub(super) const OF_A_ROW: usize = 100;

impl Room {
    /// What a file within `limits` may hold.
    pub fn of(limits: &Limits) -> Self {
        Room { left: limits.cells, limits: *limits }
    }

    /// The room when a row of `cells` has moved out again.
    pub(super) fn give(self, cells: &[(u32, Typed)]) -> Room {
        Room { left: self.left.saturating_add(taken_by_row(cells)), ..self }
    }

    /// The room that is left when so many bytes are taken.
    pub(super) fn take(self, bytes: usize) -> Result<Room, TooMuch> {
        let left = self.left.checked_sub(bytes).ok_or_else(|| TooMuch::Allowed(self.limits.cells_in_words()))?;
        let taken = self.limits.cells.saturating_sub(left);
        // Rows are moved as they become more, and stand twice meanwhile; their cells are not.
        if left / memory::STEP != self.left / memory::STEP && !memory::is_left(memory::STEP.saturating_add(taken / 4)) {
            return Err(TooMuch::Memory);
        }
        Ok(Room { left, ..self })
    }
}

/// The bytes that a row of such cells takes.
pub(super) fn taken_by_row(cells: &[(u32, Typed)]) -> usize {
    cells.iter().map(|(_, typed)| taken_by(typed)).fold(OF_A_ROW, usize::saturating_add)
}

/// The bytes that a filled cell takes.
pub(super) fn taken_by(typed: &Typed) -> usize {
    match &typed.value {
        Value::Text(text) | Value::Error(text) | Value::Formula(text) => {
            text.len().saturating_add(OF_A_CELL).saturating_add(OF_A_TEXT)
        }
        _ => OF_A_CELL,
    }
}

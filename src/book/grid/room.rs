//! Room of a file: how much more it may hold within the limits of whoever asks.

use crate::schema::{Limits, Typed, Value};

/// More than there is room for: the bound that was passed, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TooMuch(pub String);

/// How much more a file may hold, over all its sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Room {
    /// Filled cells.
    cells: usize,
    /// Bytes of text in them. Texts that many cells share count once for each: that is what they take.
    text: usize,
    /// What there was at first.
    limits: Limits,
}

impl Room {
    /// What a file within `limits` may hold.
    pub fn of(limits: &Limits) -> Self {
        Room { cells: limits.cells, text: limits.text, limits: *limits }
    }

    /// The room when `cells` have moved out again.
    pub(super) fn give(self, cells: &[(u32, Typed)]) -> Room {
        let text = cells.iter().map(|(_, typed)| text_in(typed)).fold(self.text, usize::saturating_add);
        Room { cells: self.cells.saturating_add(cells.len()), text, ..self }
    }

    /// The room that is left when `typed` has moved in.
    pub(super) fn take(self, typed: &Typed) -> Result<Room, TooMuch> {
        let text = text_in(typed);
        let cells = self.cells.checked_sub(1).ok_or_else(|| TooMuch(self.limits.cells_in_words()))?;
        let text = self.text.checked_sub(text).ok_or_else(|| TooMuch(self.limits.text_in_words()))?;
        Ok(Room { cells, text, ..self })
    }
}

/// The bytes of text in a cell.
fn text_in(typed: &Typed) -> usize {
    match &typed.value {
        Value::Text(text) | Value::Error(text) | Value::Formula(text) => text.len(),
        _ => 0,
    }
}

//! A field of a row: blank, given, or broken; and the row's cells as typed.

use crate::problem::Place;
use crate::schema::{Column, Typed};

/// What a cell gave.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum Field<T> {
    /// Nothing was typed.
    #[default]
    Blank,
    /// It was understood.
    Given(T),
    /// It was not; the problem has been reported.
    Broken,
}

impl<T> Field<T> {
    /// The value, if one was given.
    pub fn given(&self) -> Option<&T> {
        match self {
            Field::Given(value) => Some(value),
            _ => None,
        }
    }

    /// Whether nothing was typed.
    pub fn is_blank(&self) -> bool {
        matches!(self, Field::Blank)
    }

    /// Whether its problem has been reported.
    pub fn is_broken(&self) -> bool {
        matches!(self, Field::Broken)
    }

    /// The value given, else none.
    pub fn given_or_default(self) -> T
    where
        T: Default,
    {
        match self {
            Field::Given(value) => value,
            Field::Blank | Field::Broken => T::default(),
        }
    }

    /// The value made into another.
    pub fn map<U>(self, f: impl FnOnce(T) -> U) -> Field<U> {
        match self {
            Field::Blank => Field::Blank,
            Field::Given(value) => Field::Given(f(value)),
            Field::Broken => Field::Broken,
        }
    }
}

/// A row of a table as typed and tidied: what a report writes back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InputRow {
    /// The row's first cell.
    pub place: Place,
    /// The cells of known columns, those that are blank left out.
    pub cells: Vec<InputCell>,
}

/// One cell of a known column.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InputCell {
    /// Its column.
    pub column: Column,
    /// What stands in it.
    pub typed: Typed,
    /// Where it stands.
    pub place: Place,
}

impl InputRow {
    /// What stands in `column`.
    pub fn typed(&self, column: Column) -> &Typed {
        const BLANK: &Typed = &Typed::BLANK;
        self.cell(column).map_or(BLANK, |cell| &cell.typed)
    }

    /// Where `column` stands; the row's first cell when nothing was typed there.
    pub fn place(&self, column: Column) -> Place {
        self.cell(column).map_or_else(|| self.place.clone(), |cell| cell.place.clone())
    }

    /// Where the unit of what stands in `quantity` is typed: beside it, else within it.
    pub fn unit_place(&self, quantity: Column) -> Place {
        let beside = self.place(Column::Unit);
        // Tidied out of the quantity, it has no cell of its own.
        if self.typed(Column::Unit).is_blank() || beside == self.place { self.place(quantity) } else { beside }
    }

    /// The text seen in `column`; empty when blank.
    pub fn text(&self, column: Column) -> String {
        self.typed(column).seen()
    }

    /// Puts `typed` in `column`, at its own place or the row's.
    pub fn set(&mut self, column: Column, typed: Typed) {
        match self.cells.iter_mut().find(|cell| cell.column == column) {
            Some(cell) => cell.typed = typed,
            None => self.cells.push(InputCell { column, typed, place: self.place.clone() }),
        }
    }

    /// Puts what stands in `from` into `column`, which is blank, and leaves `from` blank.
    pub fn move_to(&mut self, column: Column, from: Column) {
        if let Some(cell) = self.cells.iter_mut().find(|cell| cell.column == from) {
            cell.column = column;
        }
    }

    /// Puts `typed` in `column`, which is blank, and says that it stands where `from` does.
    pub fn put_beside(&mut self, column: Column, from: Column, typed: Typed) {
        let place = self.place(from);
        self.cells.push(InputCell { column, typed, place });
    }

    fn cell(&self, column: Column) -> Option<&InputCell> {
        self.cells.iter().find(|cell| cell.column == column)
    }
}

//! A recipe card that was found: its labels with their values, and its lines.

use crate::book::find::table::Table;
use crate::problem::Place;
use crate::schema::{Label, Typed};

/// A label of a card and the cell right beside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LabelCell<'g> {
    /// What it says.
    pub label: Label,
    /// Where the value stands, or would stand.
    pub place: Place,
    /// The value; blank when there is none.
    pub value: &'g Typed,
    /// The unit or currency in the label's brackets.
    pub default: Option<String>,
    /// Whether the value's cell is there but has no value.
    pub(super) valueless: bool,
}

/// A recipe card.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Card<'g> {
    /// The cell that says `Recipe`.
    pub place: Place,
    /// Its labels in the sheet's order, `Recipe` first; one may be there twice.
    pub labels: Vec<LabelCell<'g>>,
    /// Its lines: one table of kind [`CardLines`](crate::schema::TableKind::CardLines), none for a card without
    /// a line header, several when another line header follows.
    pub lines: Vec<Table<'g>>,
}

impl<'g> Card<'g> {
    /// The first cell of a label, if the card has it.
    #[cfg(test)]
    pub fn label(&self, label: Label) -> Option<&LabelCell<'g>> {
        self.labels.iter().find(|cell| cell.label == label)
    }

    /// Whether nothing is filled in: an empty form.
    pub(super) fn is_empty_form(&self) -> bool {
        self.labels.iter().all(|cell| cell.value.is_blank()) && self.lines.iter().all(|lines| lines.rows.is_empty())
    }
}

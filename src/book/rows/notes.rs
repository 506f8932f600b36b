//! Notes taken while the rows of a book are read: problems, currency signs, and what the tables prove.

use super::fill_in::FillIns;
use crate::kitchen::InputRow;
use crate::measure::Unit;
use crate::number::Marks;
use crate::problem::{Place, Problem};
use crate::schema::TableKind;

/// What reading collects besides rows.
#[derive(Debug, Default)]
pub(super) struct ReadingNotes {
    /// Problems of single cells.
    pub(super) problems: Vec<Problem>,
    /// Currency signs.
    pub(super) signs: Vec<SignSeen>,
    /// The book's currency, once it is known that not all signs fit it.
    pub(super) currency: Option<String>,
    /// Which decimal mark the book shows.
    pub(super) marks: Marks,
    /// The unit that the weights of the table being read are in, as far as they prove it.
    pub(super) weighed_in: Option<Unit>,
    /// What was typed into fill-ins.
    pub(super) fill_ins: FillIns,
    /// Rows without a name, which no reader can take.
    pub(super) unread: Vec<(TableKind, InputRow)>,
}

/// A currency sign and how many cells show it.
#[derive(Debug)]
pub(super) struct SignSeen {
    pub(super) sign: String,
    pub(super) cells: usize,
    /// The last of the cells: one that is read twice counts once.
    last: Place,
}

impl ReadingNotes {
    /// Remembers a currency sign seen at `place`.
    pub(super) fn sign(&mut self, sign: &str, place: Place) {
        match self.signs.iter_mut().find(|seen| seen.sign == sign) {
            Some(seen) if seen.last == place => {}
            Some(seen) => (seen.cells, seen.last) = (seen.cells.saturating_add(1), place),
            None if sign.is_empty() => {}
            None => self.signs.push(SignSeen { sign: sign.to_owned(), cells: 1, last: place }),
        }
    }
}

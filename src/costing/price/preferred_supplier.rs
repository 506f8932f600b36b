//! Preferred supplier of an item: the one whose newest word under *Preferred* is yes.
//!
//! Takes price rows; gives what they say on a day. Of one day a yes stands before a no.

use jiff::civil::Date;

use crate::kitchen::price::PriceRow;

/// A word under *Preferred*. Of two the greater counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct PreferredWord {
    /// Since when; `None` is the oldest.
    pub(super) since: Option<Date>,
    pub(super) yes: bool,
}

/// Whether `rows`, which are one supplier's, make it preferred: those that have begun and not ended by `day`.
pub fn is_preferred<'a>(rows: impl Iterator<Item = &'a PriceRow>, day: Date) -> bool {
    let counting = rows.filter(|row| row.has_begun(day) && !row.has_ended(day));
    let words = counting
        .filter_map(|row| Some(PreferredWord { since: row.date.given().copied(), yes: *row.preferred.given()? }));
    words.max().is_some_and(|word| word.yes)
}

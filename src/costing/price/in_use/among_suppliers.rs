//! The price rows of one item before what they cost is compared: which of each history is current, whose supplier is
//! preferred, which are the most recent.
//!
//! Takes the rows as read; gives those that are left, by their place among the rows of the item.

use std::collections::HashMap;

use jiff::civil::Date;

use super::{HistoryKey, RowState};
use crate::costing::price::preferred_supplier::PreferredWord;
use crate::in_order::InOrder;
use crate::kitchen::price::{Price, PriceRow};
use crate::kitchen::{Field, NameKey};

/// The price rows of one item.
pub(super) struct Pool<'a> {
    /// The rows, in book order.
    pub(super) entries: Vec<SupplierRow<'a>>,
    histories: usize,
    day: Date,
}

/// One of them.
pub(super) struct SupplierRow<'a> {
    /// The row, as an index into the entries of the book.
    pub(super) index: usize,
    /// The row.
    pub(super) row: &'a PriceRow,
    /// Its supplier, code and pack.
    pub(super) key: HistoryKey,
    /// The number of its history among those of the item.
    pub(super) history: usize,
    /// Whether it cannot be used: it could not be read, or says otherwise than another row.
    pub(super) at_fault: bool,
}

/// What is taken to be so of one row that does not say it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Assumed {
    /// The row.
    pub(super) at: usize,
    /// Whether it counts on the day.
    pub(super) holds: bool,
    /// What it says of *Preferred*.
    pub(super) preferred: Option<bool>,
}

/// Under which assumptions rows are picked.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Assumptions {
    /// What one row is taken to say; others that do not say when they count do not.
    pub(super) assumed: Option<Assumed>,
    /// Whether prices that have ended are taken to hold on.
    pub(super) endless: bool,
}

/// The rows of two suppliers that are both preferred.
#[derive(Debug, Clone, Copy)]
pub(super) struct BothPreferred(pub(super) usize, pub(super) usize);

impl<'a> Pool<'a> {
    /// The rows `indices` of `prices`; `usable` are those that could be read.
    pub(super) fn of(
        prices: &'a [PriceRow],
        indices: &[usize],
        day: Date,
        usable: impl Fn(usize) -> bool,
        key: impl Fn(&PriceRow) -> HistoryKey,
    ) -> Self {
        let mut known: HashMap<HistoryKey, usize> = HashMap::new();
        let mut entries = Vec::with_capacity(indices.len());
        for index in indices {
            let Some(row) = prices.get(*index) else { continue };
            let key = key(row);
            let next = known.len();
            let history = *known.entry(key.clone()).or_insert(next);
            entries.push(SupplierRow { index: *index, row, key, history, at_fault: !usable(*index) });
        }
        Pool { entries, histories: known.len(), day }
    }

    /// A row, by its place.
    pub(super) fn get(&self, at: usize) -> Option<&SupplierRow<'a>> {
        self.entries.get(at)
    }

    /// The rows with their places.
    pub(super) fn all(&self) -> impl Iterator<Item = (usize, &SupplierRow<'a>)> {
        self.entries.iter().enumerate()
    }

    /// Since when a row counts, where it does on the day; a blank date is the oldest.
    fn since(&self, at: usize, frame: Assumptions) -> Option<Option<Date>> {
        let row = self.get(at)?.row;
        let assumed = frame.assumed.filter(|assumed| assumed.at == at);
        let ends = match row.until {
            Field::Given(until) => until < self.day && !frame.endless,
            Field::Broken => !assumed.is_some_and(|assumed| assumed.holds),
            Field::Blank => false,
        };
        let since = match row.date {
            Field::Given(date) => (date <= self.day).then_some(Some(date)),
            Field::Blank => Some(None),
            // It may have begun at any time, and today is the newest.
            Field::Broken => assumed.filter(|assumed| assumed.holds).map(|_| Some(self.day)),
        };
        since.filter(|_| !ends)
    }

    fn preferred(&self, at: usize, frame: Assumptions) -> Option<bool> {
        let assumed = frame.assumed.filter(|assumed| assumed.at == at);
        match (&self.get(at)?.row.preferred, assumed) {
            (Field::Given(yes), _) => Some(*yes),
            (Field::Broken, Some(assumed)) => assumed.preferred,
            _ => None,
        }
    }

    /// The current row of every history that has one, by place. Of two of one day one that is at fault, for they should
    /// say one thing.
    fn current(&self, frame: Assumptions) -> Vec<Option<usize>> {
        let mut newest: Vec<Option<(Option<Date>, bool, usize)>> = vec![None; self.histories];
        for (at, entry) in self.all() {
            let Some(since) = self.since(at, frame) else { continue };
            let Some(slot) = newest.get_mut(entry.history) else { continue };
            if slot.is_none_or(|(date, fault, _)| (date, fault) < (since, entry.at_fault)) {
                *slot = Some((since, entry.at_fault, at));
            }
        }
        newest.into_iter().map(|slot| slot.map(|(.., at)| at)).collect()
    }

    /// The newest word on *Preferred* by what `key` tells rows apart, of rows that count on the day, and the first row that
    /// says it.
    fn words<K: std::hash::Hash + Eq>(
        &self,
        frame: Assumptions,
        key: impl Fn(&SupplierRow<'a>) -> K,
    ) -> HashMap<K, (PreferredWord, usize)> {
        let mut says: HashMap<K, (PreferredWord, usize)> = HashMap::new();
        for (at, entry) in self.all() {
            let (Some(yes), Some(since)) = (self.preferred(at, frame), self.since(at, frame)) else { continue };
            let word = PreferredWord { since, yes };
            let said = says.entry(key(entry)).or_insert((word, at));
            if word > said.0 {
                *said = (word, at);
            }
        }
        says
    }

    /// Those of `rows` whose own history says *Preferred*.
    pub(super) fn marked(&self, rows: &[usize], frame: Assumptions) -> Vec<usize> {
        let words = self.words(frame, |entry| entry.history);
        let word = |at: &usize| self.get(*at).and_then(|entry| words.get(&entry.history));
        rows.iter().copied().filter(|at| word(at).is_some_and(|(word, _)| word.yes)).collect()
    }

    /// The rows that are left when all but cost has decided: current, of the preferred supplier, the most recent.
    ///
    /// # Errors
    /// [`BothPreferred`] when two suppliers are.
    pub(super) fn pick(&self, frame: Assumptions) -> Result<Vec<usize>, BothPreferred> {
        let mut left: Vec<usize> = self.current(frame).into_iter().flatten().collect();
        let mut yes: Vec<(usize, NameKey)> = self
            .words(frame, |entry| entry.key.0.clone())
            .into_iter()
            .filter_map(|(supplier, (word, at))| word.yes.then_some((at, supplier)))
            .collect();
        yes.put_in_order();
        if let [(first, _), (second, _), ..] = yes.as_slice() {
            return Err(BothPreferred(*first, *second));
        }
        if let Some((_, supplier)) = yes.pop() {
            let of_supplier = |at: &usize| self.get(*at).is_some_and(|entry| entry.key.0 == supplier);
            if left.iter().any(&of_supplier) {
                left.retain(of_supplier);
            }
            // Rows that name no supplier have nothing but the mark itself in common.
            if supplier.is_empty() {
                let marked = self.marked(&left, frame);
                if !marked.is_empty() {
                    left = marked;
                }
            }
        }
        let newest = left.iter().filter_map(|at| self.since(*at, frame)).max();
        left.retain(|at| self.since(*at, frame) == newest);
        left.put_in_order();
        Ok(left)
    }

    /// The row of the last price that the market price `at` stands for; `None` when it has none.
    pub(super) fn last_price(&self, at: usize, frame: Assumptions) -> Option<usize> {
        let market = self.get(at)?;
        let limit = market.row.date.given().copied().unwrap_or(self.day);
        let before = self.all().filter_map(|(other, entry)| {
            let of_history = entry.history == market.history && entry.row.price != Field::Given(Price::Market);
            let since =
                self.since(other, frame).filter(|since| of_history && since.is_none_or(|date| date <= limit))?;
            Some((since, entry.at_fault, other))
        });
        // Of one day one that is at fault.
        before.max_by_key(|(since, fault, other)| (*since, *fault, std::cmp::Reverse(*other))).map(|(.., other)| other)
    }

    /// The places of rows that do not say when they count, or what they say of *Preferred*; one of those that are alike
    /// to the choice.
    pub(super) fn unclear(&self) -> Vec<usize> {
        let mut seen = std::collections::HashSet::new();
        let unclear = self.all().filter(|(_, entry)| {
            let row = entry.row;
            row.date.is_broken() || row.until.is_broken() || row.preferred.is_broken()
        });
        let apart = unclear.filter(|(_, entry)| {
            let row = entry.row;
            let (since, until) = (row.date.given().copied(), row.until.given().copied());
            let broken = [row.date.is_broken(), row.until.is_broken(), row.preferred.is_broken()];
            seen.insert((entry.history, since, until, row.preferred.given().copied(), broken))
        });
        apart.map(|(at, _)| at).collect()
    }

    /// Why a row is not looked at any further; `None` for one that is current, or says what a current one says.
    pub(super) fn passed_over(&self, at: usize, current: &[Option<usize>]) -> Option<RowState> {
        let entry = self.get(at)?;
        if !entry.row.has_begun(self.day) {
            Some(RowState::Later)
        } else if entry.row.has_ended(self.day) {
            Some(RowState::Ended)
        } else {
            let since = |at: usize| self.since(at, Assumptions::default());
            let newest = current.get(entry.history).copied().flatten().and_then(since);
            since(at).is_some_and(|since| newest.is_some_and(|newest| since < newest)).then_some(RowState::Older)
        }
    }

    /// The current rows as costing finds them.
    pub(super) fn current_rows(&self) -> Vec<Option<usize>> {
        self.current(Assumptions::default())
    }
}

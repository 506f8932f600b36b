//! What there is of one part while a plan runs: what was on hand before it, then what was left of every day.

use std::collections::VecDeque;

use crate::number::{Decimal, Overflow, exact};

/// Grams of one part, the oldest first.
#[derive(Debug, Clone, Default)]
pub(super) struct Shelf {
    /// On hand before the plan; it has no age.
    before: Decimal,
    /// Made on a day and not used on it.
    made: VecDeque<(usize, Decimal)>,
}

impl Shelf {
    /// Adds what is on hand before the plan.
    pub(super) fn hold(&mut self, grams: Decimal) -> Result<(), Overflow> {
        self.before = exact::add(self.before, grams)?;
        Ok(())
    }

    /// Puts away what was left on `day`, which is none before the last.
    pub(super) fn put(&mut self, day: usize, grams: Decimal) {
        if !grams.is_zero() {
            self.made.push_back((day, grams));
        }
    }

    /// Takes up to `asked`, the oldest first; gives what was taken.
    pub(super) fn take(&mut self, asked: Decimal) -> Result<Decimal, Overflow> {
        let mut taken = self.before.min(asked);
        self.before = exact::sub(self.before, taken)?;
        while let Some((_, grams)) = self.made.front_mut().filter(|_| taken < asked) {
            let more = (*grams).min(exact::sub(asked, taken)?);
            *grams = exact::sub(*grams, more)?;
            taken = exact::add(taken, more)?;
            if grams.is_zero() {
                self.made.pop_front();
            }
        }
        Ok(taken)
    }

    /// Throws away what was made on days that are `too_old`; gives how much that was.
    pub(super) fn throw_away(&mut self, too_old: impl Fn(usize) -> bool) -> Result<Decimal, Overflow> {
        let mut gone = Decimal::ZERO;
        while let Some((_, grams)) = self.made.front().filter(|(day, _)| too_old(*day)) {
            gone = exact::add(gone, *grams)?;
            self.made.pop_front();
        }
        Ok(gone)
    }

    /// What there is.
    pub(super) fn left(&self) -> Result<Decimal, Overflow> {
        exact::sum(std::iter::once(self.before).chain(self.made.iter().map(|(_, grams)| *grams)))
    }
}

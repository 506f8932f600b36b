//! Stock of one part while a plan runs, the oldest first: what was on hand before it, then what was left of every day.

use std::collections::VecDeque;

use super::rest;
use crate::number::{Decimal, Overflow, exact};

/// Grams of one part by the day they were made, the oldest first. What is on hand before the plan counts as made on its
/// first day.
#[derive(Debug, Clone, Default)]
pub(super) struct Shelf {
    made: VecDeque<(usize, Decimal)>,
    /// What of it was on hand before the plan: of the first day's it is taken first.
    before: Decimal,
}

impl Shelf {
    /// Puts away what was left on `day`, which is none before the last.
    pub(super) fn put(&mut self, day: usize, grams: Decimal) -> Result<(), Overflow> {
        match self.made.back_mut().filter(|(last, _)| *last == day) {
            _ if grams.is_zero() => {}
            Some((_, there)) => *there = exact::add(*there, grams)?,
            None => self.made.push_back((day, grams)),
        }
        Ok(())
    }

    /// So many grams of what is there were on hand before the plan.
    pub(super) fn was_before(&mut self, grams: Decimal) -> Result<(), Overflow> {
        self.before = exact::add(self.before, grams)?;
        Ok(())
    }

    /// Takes up to `asked`, the oldest first; gives what was taken.
    pub(super) fn take(&mut self, asked: Decimal) -> Result<Decimal, Overflow> {
        let mut taken = Decimal::ZERO;
        while let Some((_, grams)) = self.made.front_mut().filter(|_| taken < asked) {
            let more = (*grams).min(exact::sub(asked, taken)?);
            *grams = rest(*grams, more)?;
            taken = exact::add(taken, more)?;
            self.before = rest(self.before, self.before.min(more))?;
            if grams.is_zero() {
                self.made.pop_front();
            }
        }
        Ok(taken)
    }

    /// Throws away what was made on `day` or before it; gives how much that was.
    pub(super) fn throw_away(&mut self, day: usize) -> Result<Decimal, Overflow> {
        let mut gone = Decimal::ZERO;
        while let Some((_, grams)) = self.made.front().filter(|(made, _)| *made <= day) {
            gone = exact::add(gone, *grams)?;
            self.before = Decimal::ZERO;
            self.made.pop_front();
        }
        Ok(gone)
    }

    /// What there is of what the plan made.
    pub(super) fn left_of_made(&self) -> Result<Decimal, Overflow> {
        rest(self.left()?, self.before)
    }

    /// What there is.
    pub(super) fn left(&self) -> Result<Decimal, Overflow> {
        exact::sum(self.made.iter().map(|(_, grams)| *grams))
    }
}

//! Takings of portions: what goes into a portion of everything that is served, and where on the Trim sheet it stands.

use std::collections::BTreeMap;

use crate::kitchen::plan::Served;
use crate::number::Decimal;

/// What portions take, by what is served: each with how much a portion takes, and its zero-based row.
#[derive(Debug)]
pub(super) struct TakenByPortion<T> {
    order: Vec<Served>,
    by: BTreeMap<Served, Vec<(T, Decimal, u32)>>,
}

impl<T> Default for TakenByPortion<T> {
    fn default() -> Self {
        TakenByPortion { order: Vec::new(), by: BTreeMap::new() }
    }
}

impl<T: Copy> TakenByPortion<T> {
    /// Adds what `served` takes, below what stands there already.
    pub(super) fn push(&mut self, served: Served, what: T, amount: Decimal, row: u32) {
        let of_it = self.by.entry(served).or_insert_with(|| {
            self.order.push(served);
            Vec::new()
        });
        of_it.push((what, amount, row));
    }

    /// What a portion of `served` takes.
    pub(super) fn by(&self, served: Served) -> &[(T, Decimal, u32)] {
        self.by.get(&served).map(Vec::as_slice).unwrap_or_default()
    }

    /// All of it, from the top down.
    pub(super) fn all(&self) -> impl Iterator<Item = (Served, T, Decimal, u32)> {
        self.order.iter().flat_map(move |served| {
            let served = *served;
            self.by(served).iter().map(move |(what, amount, row)| (served, *what, *amount, *row))
        })
    }
}

//! Price history of the book: its rows by item, supplier and code, the oldest first.

use std::cmp::Reverse;
use std::collections::HashMap;

use jiff::civil::Date;

use crate::costing::price::bought::PriceFrom;
use crate::costing::price::in_use::{HistoryKey, history_of, pack_key};
use crate::costing::{Costing, RowCost, RowState};
use crate::kitchen::price::{Item, Price, PriceRow};
use crate::kitchen::{Field, ItemId, Kitchen, NameKey};

/// Rows by date, the oldest first; of one day the first by supplier, code and pack last.
type DatedRows = Vec<(Option<Date>, usize)>;

/// The prices of a book so far.
pub(super) struct Past<'a> {
    pub kitchen: &'a Kitchen,
    pub costing: &'a Costing,
    by_supplier: HashMap<(ItemId, NameKey), DatedRows>,
    by_code: HashMap<(ItemId, NameKey, String), DatedRows>,
    by_history: HashMap<(ItemId, HistoryKey), Vec<usize>>,
}

/// By what a row of the book was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum MatchedBy {
    /// The supplier and code.
    Code,
    /// The supplier alone.
    Supplier,
    /// It is the price in use, or the newest, of another supplier.
    Item,
}

impl<'a> Past<'a> {
    pub fn of(kitchen: &'a Kitchen, costing: &'a Costing) -> Self {
        let mut past =
            Past { kitchen, costing, by_supplier: HashMap::new(), by_code: HashMap::new(), by_history: HashMap::new() };
        for (id, item) in ids(kitchen) {
            for index in &item.rows {
                let Some(row) = past.row(*index) else { continue };
                if row.date.is_broken() {
                    continue;
                }
                let at = (row.date.given().copied(), *index);
                let history = history_of(row);
                let supplier = history.0.clone();
                past.by_code.entry((id, supplier.clone(), history.1.clone())).or_default().push(at);
                past.by_supplier.entry((id, supplier)).or_default().push(at);
                past.by_history.entry((id, history)).or_default().push(*index);
            }
        }
        for rows in past.by_supplier.values_mut().chain(past.by_code.values_mut()) {
            rows.sort_by_cached_key(|(date, index)| {
                let name = kitchen.entries.prices.get(*index).map(history_of);
                (*date, Reverse((name, *index)))
            });
        }
        past
    }

    /// A price row of the book.
    pub fn row(&self, index: usize) -> Option<&'a PriceRow> {
        self.kitchen.entries.prices.get(index)
    }

    /// What a price row costs; `None` for a market price too, which has none of its own.
    pub fn cost(&self, index: usize) -> Option<&'a RowCost> {
        let money = matches!(self.row(index)?.price, Field::Given(Price::Money(_)));
        self.costing.rows.get(index).filter(|_| money)?.as_ref()
    }

    /// Whether a row may be what others are compared with on `day`: it has not ended by then or by today, and nothing
    /// contradicts it.
    pub fn counts(&self, index: usize, day: Date) -> bool {
        let ended = |row: &PriceRow| row.has_ended(day.max(self.costing.scenario.date));
        let contradicted = self.costing.row_states.get(index) == Some(&RowState::Contradicted);
        self.row(index).is_some_and(|row| !ended(row)) && !contradicted
    }

    /// The items with their ids.
    pub fn items(&self) -> impl Iterator<Item = (ItemId, &'a Item)> {
        ids(self.kitchen)
    }

    /// Whether any price row of the book names a supplier.
    pub fn has_suppliers(&self) -> bool {
        self.by_supplier.keys().any(|(_, supplier)| !supplier.is_empty())
    }

    /// Whether the book has a price row of this item and supplier.
    pub fn knows(&self, item: ItemId, supplier: &NameKey) -> bool {
        self.by_supplier.contains_key(&(item, supplier.clone()))
    }

    /// Whether the book has a row of the item with this supplier and code; `None` when the code is blank, or all rows of the
    /// supplier are without.
    pub fn knows_code(&self, item: ItemId, (supplier, code, _): &HistoryKey) -> Option<bool> {
        let rows = self.by_supplier.get(&(item, supplier.clone())).filter(|_| !code.is_empty())?;
        let known = self.by_code.contains_key(&(item, supplier.clone(), code.clone()));
        let any_code = || rows.iter().any(|(_, index)| self.row(*index).is_some_and(|row| !row.code.is_empty()));
        (known || any_code()).then_some(known)
    }

    /// The newest row of a supplier's item on or before `day` that is `usable`: of the same code, else of any. Of several of
    /// that day the one of the same pack, else the last.
    pub fn of_supplier(
        &self,
        item: ItemId,
        history: &HistoryKey,
        day: Date,
        usable: impl Fn(usize) -> bool,
    ) -> Option<(usize, MatchedBy)> {
        let (supplier, code, pack) = history;
        let same_pack = |index: usize| self.row(index).is_some_and(|row| pack_key(row) == *pack);
        let newest = |rows: &DatedRows| {
            let end = rows.partition_point(|(date, _)| *date <= Some(day));
            let mut before = rows.get(..end)?.iter().rev().filter(|(_, index)| usable(*index));
            let (date, last) = *before.next()?;
            let of_that_day = before.take_while(|(other, _)| *other == date).map(|(_, index)| *index);
            Some(std::iter::once(last).chain(of_that_day).find(|index| same_pack(*index)).unwrap_or(last))
        };
        let coded = (!code.is_empty()).then(|| self.by_code.get(&(item, supplier.clone(), code.clone()))).flatten();
        let any = || self.by_supplier.get(&(item, supplier.clone()));
        coded
            .and_then(newest)
            .map(|index| (index, MatchedBy::Code))
            .or_else(|| Some((newest(any()?)?, MatchedBy::Supplier)))
    }

    /// The price row in use of an item; where it has none, its newest that costs anything.
    pub fn in_use(&self, id: ItemId, item: &Item) -> Option<usize> {
        match self.costing.item(id).map(|cost| cost.from) {
            Some(PriceFrom::Row(row)) => Some(row),
            _ => {
                let today = self.costing.scenario.date;
                let priced = item.rows.iter().copied();
                let priced = priced.filter(|index| self.cost(*index).is_some() && self.counts(*index, today));
                priced.max_by_key(|index| {
                    let row = self.row(*index);
                    (row.and_then(|row| row.date.given().copied()), Reverse(row.map(history_of)), *index)
                })
            }
        }
    }

    /// The date of the newest row of a supplier's item that has begun and not ended by today.
    pub fn newest(&self, item: ItemId, supplier: &NameKey) -> Option<Date> {
        let rows = self.by_supplier.get(&(item, supplier.clone()))?;
        let today = rows.partition_point(|(date, _)| *date <= Some(self.costing.scenario.date));
        let today = rows.get(..today)?.iter();
        today.rev().find(|(_, index)| self.counts(*index, self.costing.scenario.date))?.0
    }

    /// The newest row of an item that has not ended, whoever sells it.
    pub fn newest_of_all(&self, item: &Item) -> Option<(usize, &'a PriceRow)> {
        let rows = item.rows.iter().filter_map(|index| Some((*index, self.row(*index)?)));
        let rows = rows.filter(|(_, row)| !row.has_ended(self.costing.scenario.date));
        rows.max_by_key(|(index, row)| (row.date.given().copied(), *index))
    }

    /// The rows of a history, in book order.
    pub fn history(&self, item: ItemId, history: &HistoryKey) -> &[usize] {
        self.by_history.get(&(item, history.clone())).map_or(&[], Vec::as_slice)
    }

    /// The one code that all of a supplier's rows of an item bear, where they bear one.
    pub fn only_code(&self, item: ItemId, supplier: &NameKey) -> Option<&'a str> {
        let rows = self.by_supplier.get(&(item, supplier.clone()))?;
        let mut codes = rows.iter().filter_map(|(_, index)| self.row(*index)).map(|row| row.code.as_str());
        let first = codes.next().filter(|code| !code.is_empty())?;
        codes.all(|code| code.eq_ignore_ascii_case(first)).then_some(first)
    }
}

fn ids(kitchen: &Kitchen) -> impl Iterator<Item = (ItemId, &Item)> {
    (0..kitchen.items.len()).map(ItemId::new).zip(&kitchen.items)
}

//! Statements of a price row about an item, and what it is lent where it is silent: its yield and its built-in food
//! belong to what is bought, so a row without takes those of the rows nearest to it.
//!
//! Takes the rows of an item that have begun by a day, ended ones too: what peeling loses does not end with a promotion.
//! In order a row of the same pack and day, which says the same thing of it, then the newest row that states it, of the same
//! supplier and code, of the same supplier, of anybody.

use std::cmp::Ordering;
use std::collections::HashMap;

use jiff::civil::Date;

use crate::costing::price::in_use::{HistoryKey, history_of};
use crate::kitchen::price::{Item, PriceRow};
use crate::kitchen::{Field, Kitchen, NameKey, Reference};
use crate::number::Decimal;

/// How near the row that states something is to the one that is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lender {
    /// The row itself.
    Itself,
    /// One of its supplier and code.
    SameCode,
    /// One of its supplier.
    SameSupplier,
    /// One of another supplier.
    Another,
}

/// What is stated, and by which row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LentStatement<T> {
    /// What is stated; broken where that row could not be read.
    pub value: Field<T>,
    /// The row, as an index into the entries.
    pub row: usize,
    /// How near it is.
    pub lender: Lender,
    /// Another row, equally near and new, that states otherwise.
    pub beside: Option<usize>,
}

/// The newest statement of some rows.
struct Newest<T> {
    value: Field<T>,
    date: Option<Date>,
    history: HistoryKey,
    row: usize,
    beside: Option<usize>,
}

/// What the price rows of one item state of one thing.
pub struct Statements<'k, T> {
    kitchen: &'k Kitchen,
    says: fn(&PriceRow) -> &Field<T>,
    by_day: HashMap<(HistoryKey, Option<Date>), Newest<T>>,
    by_code: HashMap<(NameKey, String), Newest<T>>,
    by_supplier: HashMap<NameKey, Newest<T>>,
    of_all: Option<Newest<T>>,
}

/// What the rows of `item` that have begun by `day` state of its yield; of equally new ones the lowest counts.
pub fn yields<'k>(kitchen: &'k Kitchen, day: Date, item: &Item) -> Statements<'k, Decimal> {
    Statements::of(kitchen, day, item, |row| &row.trim_yield, Decimal::cmp)
}

/// What the rows of `item` that have begun by `day` state of its built-in food; of equally new ones the first by supplier,
/// code and pack.
pub(crate) fn references<'k>(kitchen: &'k Kitchen, day: Date, item: &Item) -> Statements<'k, Reference> {
    Statements::of(kitchen, day, item, |row| &row.reference, |_, _| Ordering::Equal)
}

impl<'k, T: Clone + PartialEq> Statements<'k, T> {
    fn of(
        kitchen: &'k Kitchen,
        day: Date,
        item: &Item,
        says: fn(&PriceRow) -> &Field<T>,
        order: fn(&T, &T) -> Ordering,
    ) -> Self {
        let (by_day, by_code, by_supplier) = (HashMap::new(), HashMap::new(), HashMap::new());
        let mut all = Statements { kitchen, says, by_day, by_code, by_supplier, of_all: None };
        for index in &item.rows {
            let Some(row) = kitchen.entries.prices.get(*index) else { continue };
            if *says(row) == Field::Blank || row.date.is_broken() || !row.has_begun(day) {
                continue;
            }
            let history = history_of(row);
            let (supplier, code, _) = history.clone();
            let said = || Newest {
                value: says(row).clone(),
                date: row.date.given().copied(),
                history: history.clone(),
                row: *index,
                beside: None,
            };
            let take = |slot: Option<Newest<T>>| match slot {
                Some(before) => before.or(said(), order),
                None => said(),
            };
            // One that has ended is none of two that say one thing.
            if !row.has_ended(day) {
                let its_day = (history.clone(), row.date.given().copied());
                let of_day = all.by_day.remove(&its_day);
                all.by_day.insert(its_day, take(of_day));
            }
            let of_code = all.by_code.remove(&(supplier.clone(), code.clone()));
            all.by_code.insert((supplier.clone(), code), take(of_code));
            let of_supplier = all.by_supplier.remove(&supplier);
            all.by_supplier.insert(supplier, take(of_supplier));
            all.of_all = Some(take(all.of_all.take()));
        }
        all
    }

    /// What counts for a row of the item; `None` when no row states it.
    pub fn of_row(&self, index: usize) -> Option<LentStatement<T>> {
        let row = self.kitchen.entries.prices.get(index)?;
        let own = (self.says)(row);
        if *own != Field::Blank {
            return Some(LentStatement { value: own.clone(), row: index, lender: Lender::Itself, beside: None });
        }
        let of_all = self.of_all.as_ref()?;
        let history = history_of(row);
        let lent = |newest: &Newest<T>, lender| LentStatement {
            value: newest.value.clone(),
            row: newest.row,
            lender,
            beside: newest.beside,
        };
        let its_day = (history, row.date.given().copied());
        if let Some(same) = self.by_day.get(&its_day) {
            return Some(lent(same, Lender::SameCode));
        }
        let ((supplier, code, _), _) = its_day;
        let of_supplier = self.by_supplier.get(&supplier).map(|newest| lent(newest, Lender::SameSupplier));
        let of_code = self.by_code.get(&(supplier, code)).map(|newest| lent(newest, Lender::SameCode));
        Some(of_code.or(of_supplier).unwrap_or_else(|| lent(of_all, Lender::Another)))
    }
}

impl<T: PartialEq> Newest<T> {
    /// The newer of the two; of equally new ones the one that cannot be read, for what it says might count, else the first
    /// by `order`, else by supplier, code and pack.
    fn or(self, other: Self, order: fn(&T, &T) -> Ordering) -> Self {
        match self.date.cmp(&other.date) {
            Ordering::Less => return other,
            Ordering::Greater => return self,
            Ordering::Equal => {}
        }
        let by_name = || self.history.cmp(&other.history);
        let (first, second) = match (&self.value, &other.value) {
            (Field::Given(one), Field::Given(two)) if order(one, two).then_with(by_name).is_gt() => (other, self),
            (Field::Given(_), Field::Broken) => (other, self),
            _ => (self, other),
        };
        let beside = if first.value == second.value { first.beside.or(second.beside) } else { Some(second.row) };
        Newest { beside, ..first }
    }
}

//! From a book and suppliers' new lists to the book with their prices and what those do: one call for callers who want
//! all of it.

use std::collections::HashSet;

use jiff::civil::Date;

use crate::analysis::reprice::Effects;
use crate::analysis::supplier_list::PriceList;
use crate::analysis::supplier_list::stops::{BothCostings, culprits};
use crate::book::{ReadError, Source};
use crate::costing::{Costing, Scenario, cost};
use crate::kitchen::ItemId;
use crate::kitchen::list::ListOptions;
use crate::kitchen::list::matching::Matcher;
use crate::reading::{Reading, read_list};
use crate::results::changes::Changes;

/// A book before suppliers' new lists and after, both costed for one day.
#[derive(Debug, Clone)]
#[non_exhaustive]
pub struct Repriced {
    /// The book as it stands.
    pub before: Reading,
    /// What it costs.
    pub was: Costing,
    /// The book with the prices that are taken.
    pub after: Reading,
    /// What that costs.
    pub now: Costing,
    /// The lists, and what became of each row.
    pub list: PriceList,
    /// What the new prices do.
    pub effects: Effects,
    /// The book's own costing day, where the lists' prices count from a later one only and both are costed for that.
    pub moved_from: Option<Date>,
}

/// Reads suppliers' new `lists` and says what they do to the book that was read. Where `fixed_day` is not set and the lists'
/// prices count from a later day than the book's costing date, both sides are costed for that day.
///
/// # Errors
/// [`ReadError`] as [`read_list`] gives it.
pub fn reprice(
    reading: Reading,
    lists: &[Source<'_>],
    options: &ListOptions,
    fixed_day: bool,
) -> Result<Repriced, ReadError> {
    let costed = cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
    let mut list = read_list(&reading, &costed, lists, options)?;
    let day = reading.kitchen.settings.costing_date;
    let (before, was, after, now, moved_from) = loop {
        let newest = list.taken.iter().filter_map(|taken| taken.price.date.given().copied()).max();
        let later = newest.filter(|newest| !fixed_day && *newest > day);
        let before = later.map_or_else(|| reading.clone(), |later| reading.clone().on(later));
        let was = cost(&before.kitchen, &Scenario::of(&before.kitchen));
        let after = before.with_list(&list);
        let now = cost(&after.kitchen, &Scenario::of(&after.kitchen));
        let sides = BothCostings { old: &before.kitchen, was: &was, new: &after.kitchen, now: &now };
        if !hold_what_stops(sides, &options.accepted, &mut list) {
            break (before, was, after, now, later.map(|_| day));
        }
    };
    let effects = Effects::of(&before.kitchen, &was, &after.kitchen, &now);
    Ok(Repriced { before, was, after, now, list, effects, moved_from })
}

/// Holds back the rows that would stop what was costed and that nobody accepted; whether there were any.
fn hold_what_stops(sides: BothCostings<'_>, accepted: &[String], list: &mut PriceList) -> bool {
    let culprits = culprits(sides, list);
    if culprits.is_empty() {
        return false;
    }
    let matcher = Matcher::of(sides.old);
    let asked_for: HashSet<ItemId> = accepted.iter().filter_map(|name| matcher.named(name)).collect();
    list.accepted_in_vain.retain(|name| matcher.named(name).is_none_or(|item| !culprits.contains_key(&item)));
    let unasked: Vec<(ItemId, String)> = culprits.into_iter().filter(|(item, _)| !asked_for.contains(item)).collect();
    for (item, what) in &unasked {
        list.hold(sides.old, *item, what);
    }
    !unasked.is_empty()
}

impl Repriced {
    /// What reports are made from.
    pub fn changes(&self) -> Changes<'_> {
        Changes {
            old: &self.before.kitchen,
            was: &self.was,
            new: &self.after.kitchen,
            now: &self.now,
            list: &self.list,
            effects: &self.effects,
            moved_from: self.moved_from,
        }
    }
}

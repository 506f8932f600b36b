//! Supplier's new list and what it means for a kitchen: which prices are taken, what moved, what is held back and why.
//!
//! Takes the kitchen, its costing as it stands, and the lists as read; gives a [`PriceList`]: rows ready to be appended to
//! the book's price rows, and what there is to say of each row of the lists. It changes nothing.

mod candidates;
mod doubles;
mod fill;
mod held_back;
mod missing;
mod moved;
mod notes;
mod past;
pub(crate) mod stops;

use std::collections::HashSet;

use jiff::civil::Date;

use crate::costing::{Costing, RowCost};
use crate::in_order::InOrder;
use crate::kitchen::layout::LayoutRow;
use crate::kitchen::list::matching::Matcher;
use crate::kitchen::list::{ListHeading, ListOptions, NewList};
use crate::kitchen::price::PriceRow;
use crate::kitchen::{ItemId, Kitchen};
use crate::number::Decimal;
use crate::problem::{Advice, Problem};
use crate::schema::Column;
use crate::schema::header::same;
use candidates::Sorted;
use notes::ListNotes;
use past::Past;

/// What new lists mean for a kitchen.
#[derive(Debug, Clone, Default)]
#[non_exhaustive]
pub struct PriceList {
    /// The rows of the lists as read; the indices of everything else point here.
    pub rows: Vec<PriceRow>,
    /// The prices that are taken.
    pub taken: Vec<Taken>,
    /// The rows that are not taken, each with the reason; what to do stands among the problems.
    pub held: Vec<Held>,
    /// Rows that are older than the book's: history, which changes no price in use.
    pub older: Vec<Older>,
    /// Rows that say what the book says already.
    pub already: Vec<usize>,
    /// Rows that are about nothing in the book.
    pub unknown: Vec<Unknown>,
    /// What the kitchen buys of these suppliers and their lists do not have.
    pub missing: Vec<Delisted>,
    /// Each file and whose list it is; empty when nothing says so.
    pub suppliers: Vec<(String, String)>,
    /// The headings over the lists' prices, each once, and what they were read as.
    pub headings: Vec<ListHeading>,
    /// What the caller said of columns, as rows for the book's supplier layouts: those that the book does not have.
    pub layouts: Vec<LayoutRow>,
    /// The accepted names under which nothing was held back.
    pub accepted_in_vain: Vec<String>,
    /// What was met on the way, at the cells of the lists.
    pub problems: Vec<Problem>,
}

/// A price that is taken.
#[derive(Debug, Clone)]
pub struct Taken {
    /// The list's row.
    pub row: usize,
    /// What is appended to the book's price rows.
    pub price: PriceRow,
    /// What moved.
    pub moved: Move,
}

/// A price beside the one before.
#[derive(Debug, Clone)]
pub struct Move {
    /// The item.
    pub item: ItemId,
    /// The row that it succeeds, as an index into the entries; `None` when the item has no price yet.
    pub before: Option<usize>,
    /// What that row costs as purchased.
    pub old: Option<RowCost>,
    /// What the new one costs as purchased; by the kind of base unit of `old` where the two can be compared.
    pub new: Option<RowCost>,
    /// What happened.
    pub change: Change,
    /// By which fraction the price per unit rose; below zero it fell. `None` when the two cannot be compared.
    pub by: Option<Decimal>,
}

/// What happened to a price, judged per unit.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum Change {
    /// It costs the same.
    Same,
    /// It costs more.
    Rise,
    /// It costs less.
    Fall,
    /// The pack shrank and its price did not fall in proportion: a rise.
    SmallerPack {
        /// The pack before.
        from: String,
        /// The pack now.
        to: String,
    },
    /// The pack grew and its price did not rise in proportion: a fall.
    LargerPack {
        /// The pack before.
        from: String,
        /// The pack now.
        to: String,
    },
    /// The item was not bought of this supplier before; compared with the price in use.
    NewSupplier,
    /// The item has no price to compare with.
    First,
    /// It is at market price: the last dated price stays in use.
    Market,
    /// The kind of unit differs, and nothing in the book joins the two.
    NotComparable,
}

/// A row that is not taken.
#[derive(Debug, Clone)]
pub struct Held {
    /// The list's row.
    pub row: usize,
    /// The item that it is about; `None` when its code and its name speak of two.
    pub item: Option<ItemId>,
    /// What would have moved, where that is known.
    pub moved: Option<Move>,
    /// Why.
    pub why: NotTaken,
}

/// Why a row is not taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum NotTaken {
    /// The price per unit moved by more than the bound.
    Jump,
    /// It looks as if it were for another unit than before.
    Slip,
    /// It is in a unit that nothing joins with the one before.
    NotComparable,
    /// With it something that had a cost would have none.
    Stops,
    /// It has ended already.
    Ended,
    /// Its code is of one item and its name of another.
    CodeOfAnother,
    /// Another row says otherwise.
    Conflict,
    /// Its supplier offers it no more.
    Withdrawn,
    /// A cell of it could not be read.
    Unreadable,
}

impl NotTaken {
    /// Whether naming the item takes the price all the same.
    pub fn may_be_accepted(self) -> bool {
        matches!(self, NotTaken::Jump | NotTaken::Slip | NotTaken::NotComparable | NotTaken::Stops)
    }
}

/// A row that is older than the book's.
#[derive(Debug, Clone)]
pub struct Older {
    /// The list's row.
    pub row: usize,
    /// The item.
    pub item: ItemId,
    /// What is appended to the book's price rows as history.
    pub price: PriceRow,
    /// The date of the book's newest row of the item and supplier.
    pub newest: Date,
}

/// A row that is about nothing in the book.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unknown {
    /// The list's row.
    pub row: usize,
    /// `Did you mean “Onions, yellow”?`, where a name is near.
    pub question: Option<String>,
    /// What to do about it.
    pub what_to_do: Advice,
}

/// An item that its supplier's list does not have.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Delisted {
    /// The item.
    pub item: ItemId,
    /// Its newest price row, as an index into the entries.
    pub before: usize,
    /// `Did you mean “Onions, yellow”?`, where a row of the lists that is about nothing in the book has a name near it.
    pub question: Option<String>,
    /// What to do about it.
    pub what_to_do: String,
}

impl PriceList {
    /// The rows to append to the book's price rows, in the order of the lists.
    pub fn new_rows(&self) -> Vec<PriceRow> {
        let taken = self.taken.iter().map(|taken| (taken.row, &taken.price));
        let mut rows: Vec<(usize, &PriceRow)> =
            taken.chain(self.older.iter().map(|older| (older.row, &older.price))).collect();
        rows.put_in_order_by_key(|(row, _)| *row);
        rows.into_iter().map(|(_, price)| price.clone()).collect()
    }
}

/// Compares new lists with the kitchen whose costing `costing` is.
pub(crate) fn compare(kitchen: &Kitchen, costing: &Costing, lists: Vec<NewList>, options: &ListOptions) -> PriceList {
    let matcher = Matcher::of(kitchen);
    let past = Past::of(kitchen, costing);
    let mut out = PriceList {
        suppliers: lists.iter().map(|list| (list.file.clone(), list.supplier.clone().unwrap_or_default())).collect(),
        ..PriceList::default()
    };
    let mut notes = ListNotes::default();
    let mut sorted = Sorted::default();
    for list in lists {
        let unknown_supplier = list.supplier.is_none() && list.rows.iter().any(|row| row.row.supplier.is_empty());
        notes.unknown_supplier.extend((unknown_supplier && past.has_suppliers()).then(|| list.file.clone()));
        notes.titled.insert(list.file.clone(), list.titled);
        for heading in list.headings {
            if !out.headings.iter().any(|known| same(&known.text, &heading.text)) {
                out.headings.push(heading);
            }
        }
        for row in list.rows {
            sorted.take(row, &list.file, (&matcher, &past, options), &mut out, &mut notes);
        }
    }
    sorted.part_from_codes(&past, &mut out);
    let conflicts = doubles::settle(&sorted.candidates, kitchen, &past, &mut out, &mut notes);
    let accepted: HashSet<ItemId> = options.accepted.iter().filter_map(|name| matcher.named(name)).collect();
    let mut in_vain = accepted.clone();
    for (candidate, _) in
        std::mem::take(&mut sorted.candidates).into_iter().zip(conflicts).filter(|(_, settled)| !settled)
    {
        let Some(item) = kitchen.item(candidate.item) else { continue };
        if let Some(newest) =
            past.newest(candidate.item, &candidate.history.0).filter(|newest| candidate.date < *newest)
        {
            notes.older(&candidate, newest);
            out.older.push(Older { row: candidate.row, item: candidate.item, price: candidate.price, newest });
            continue;
        }
        let (moved, cannot) = moved::of(&past, item, &candidate);
        if !cannot.is_empty() {
            out.problems.extend(cannot);
            let (row, item) = (candidate.row, Some(candidate.item));
            out.held.push(Held { row, item, moved: None, why: NotTaken::Unreadable });
            continue;
        }
        let doubt = held_back::of(&past, item, &candidate, &moved, options.bound);
        if let Some((why, fault)) = doubt {
            if !accepted.contains(&candidate.item) {
                out.problems.push(fault.at(candidate.price.input.place(Column::Price)));
                out.held.push(Held { row: candidate.row, item: Some(candidate.item), moved: Some(moved), why });
                continue;
            }
            in_vain.remove(&candidate.item);
        }
        out.taken.push(Taken { row: candidate.row, price: candidate.price, moved });
    }
    let vain = |name: &&String| matcher.named(name).is_none_or(|item| in_vain.contains(&item));
    out.accepted_in_vain = options.accepted.iter().filter(vain).cloned().collect();
    out.missing = missing::of(&past, &sorted, &out);
    out.held.put_in_order_by_key(|held| held.row);
    out.problems.extend(notes.problems(kitchen, options));
    out
}

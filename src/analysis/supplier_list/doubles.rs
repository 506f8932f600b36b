//! Rows that say one thing twice, and rows that say two things: within the lists, and beside the book's rows of that
//! day.

use std::collections::HashMap;

use jiff::civil::Date;

use super::candidates::Candidate;
use super::notes::ListNotes;
use super::past::Past;
use super::{Held, NotTaken, PriceList};
use crate::kitchen::price::PriceRow;
use crate::kitchen::{ItemId, Kitchen, NameKey};
use crate::problem::{Advice, Choice, Code, Fault, THERE};
use crate::schema::Column;

/// Which candidates are settled here, beside them: said already, or in conflict with another row.
pub(super) fn settle(
    candidates: &[Candidate],
    kitchen: &Kitchen,
    past: &Past<'_>,
    out: &mut PriceList,
    notes: &mut ListNotes,
) -> Vec<bool> {
    let mut settled = vec![false; candidates.len()];
    let mut conflicts = vec![false; candidates.len()];
    let mut known: HashMap<(ItemId, NameKey, String, Date), Vec<usize>> = HashMap::new();
    for (at, candidate) in candidates.iter().enumerate() {
        let (supplier, code, pack) = &candidate.history;
        let same = known.entry((candidate.item, supplier.clone(), pack.clone(), candidate.date)).or_default();
        let double = same.iter().copied().find(|other| {
            let other = candidates.get(*other).map_or("", |other| other.history.1.as_str());
            other.is_empty() || code.is_empty() || other == code
        });
        let Some(first) = double.and_then(|other| Some((other, candidates.get(other)?))) else {
            same.push(at);
            continue;
        };
        let (other, first) = first;
        if agree(&first.price, &candidate.price) {
            notes.double(candidate);
            set(&mut settled, at);
            continue;
        }
        let name = kitchen.item(candidate.item).map_or("", |item| item.name.as_str());
        let fault = Fault::new(
            Code::ListRowTwice,
            format!("“{name}” has another {} for the same pack at {THERE}", apart(&first.price, &candidate.price)),
            "Ask the supplier which is right, and take the other row out of the list.",
        );
        let fault = fault.speaking_of(first.price.input.place(Column::Price));
        out.problems.push(fault.at(candidate.price.input.place(Column::Price)));
        set(&mut conflicts, other);
        set(&mut conflicts, at);
    }
    for (at, candidate) in candidates.iter().enumerate() {
        if settled.get(at) == Some(&true) || conflicts.get(at) == Some(&true) {
            continue;
        }
        let rows = past.history(candidate.item, &candidate.history).iter().filter_map(|index| past.row(*index));
        let mut of_that_day = rows.filter(|row| row.date.given() == Some(&candidate.date));
        let Some(row) = of_that_day.next() else { continue };
        if agree(row, &candidate.price) {
            out.already.push(candidate.row);
            set(&mut settled, at);
            continue;
        }
        let fault = Fault::new(
            Code::ListRowTwice,
            format!(
                "“{}” has another {} for the same pack and {} in the book, at {THERE}",
                row.item,
                apart(row, &candidate.price),
                candidate.date
            ),
            Advice::from("Say since when the list holds")
                .choosing(Choice::Dated(None))
                .then(", or correct the row in the book."),
        );
        let fault = fault.speaking_of(row.input.place(Column::Price));
        out.problems.push(fault.at(candidate.price.input.place(Column::Price)));
        set(&mut conflicts, at);
    }
    for (candidate, _) in candidates.iter().zip(&conflicts).filter(|(_, conflicts)| **conflicts) {
        let (row, item) = (candidate.row, Some(candidate.item));
        out.held.push(Held { row, item, moved: None, why: NotTaken::Conflict });
    }
    settled.iter().zip(conflicts).map(|(settled, conflicts)| *settled || conflicts).collect()
}

fn set(flags: &mut [bool], at: usize) {
    if let Some(flag) = flags.get_mut(at) {
        *flag = true;
    }
}

fn agree(a: &PriceRow, b: &PriceRow) -> bool {
    a.price == b.price && a.per == b.per && a.until == b.until
}

/// What two rows that do not agree differ in.
fn apart(a: &PriceRow, b: &PriceRow) -> &'static str {
    if a.price == b.price && a.per == b.per { "Until" } else { "price" }
}

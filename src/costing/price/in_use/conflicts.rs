//! Rows of one item, supplier, code and pack that say different things of one date: which of them is right nobody
//! knows.

use std::collections::HashMap;

use jiff::civil::Date;

use crate::costing::price::in_use::among_suppliers::{Entry, Pool};
use crate::kitchen::price::PriceRow;
use crate::kitchen::{Field, InputRow};
use crate::problem::{Code, Fault, Problem, THERE};
use crate::schema::{Column, TableKind};

/// What two rows of one date may differ in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Matter {
    Price,
    Per,
    Until,
    Yield,
    Preferred,
    ReferenceFood,
}

const MATTERS: [Matter; 6] =
    [Matter::Price, Matter::Per, Matter::Until, Matter::Yield, Matter::Preferred, Matter::ReferenceFood];

impl Matter {
    /// Whether a row says anything of it. A blank Per is the pack and a blank Until is for good; any other blank is silent.
    fn is_said(self, row: &PriceRow) -> bool {
        match self {
            Matter::Price => row.price.given().is_some(),
            Matter::Per => !row.per.is_broken(),
            Matter::Until => !row.until.is_broken(),
            Matter::Yield => row.trim_yield.given().is_some(),
            Matter::Preferred => row.preferred.given().is_some(),
            Matter::ReferenceFood => row.reference.given().is_some(),
        }
    }

    fn differs(self, a: &PriceRow, b: &PriceRow) -> bool {
        match self {
            Matter::Price => a.price != b.price,
            Matter::Per => a.per != b.per,
            Matter::Until => a.until != b.until,
            Matter::Yield => a.trim_yield != b.trim_yield,
            Matter::Preferred => a.preferred != b.preferred,
            Matter::ReferenceFood => a.reference != b.reference,
        }
    }

    fn column(self) -> Column {
        match self {
            // What a price is for is a part of it.
            Matter::Price | Matter::Per => Column::Price,
            Matter::Until => Column::Until,
            Matter::Yield => Column::Yield,
            Matter::Preferred => Column::Preferred,
            Matter::ReferenceFood => Column::ReferenceFood,
        }
    }
}

/// Marks the rows that contradict each other, and tells of them. Rows that have ended by `day` are as if they were not
/// there.
pub(super) fn mark(pool: &mut Pool<'_>, day: Date, problems: &mut Vec<Problem>) {
    let mut first: HashMap<(usize, Option<Date>, Matter), usize> = HashMap::new();
    let mut at_fault: Vec<(usize, Option<Date>)> = Vec::new();
    for (at, entry) in pool.all() {
        if entry.row.date.is_broken() || entry.row.has_ended(day) {
            continue;
        }
        let since = entry.row.date.given().copied();
        let mut told = false;
        for matter in MATTERS.into_iter().filter(|matter| matter.is_said(entry.row)) {
            let known = *first.entry((entry.history, since, matter)).or_insert(at);
            let Some(other) = pool.get(known).filter(|other| matter.differs(other.row, entry.row)) else { continue };
            if !told {
                problems.push(fault(other, entry, matter));
                at_fault.push((entry.history, since));
                told = true;
            }
        }
    }
    if at_fault.is_empty() {
        return;
    }
    for entry in &mut pool.entries {
        let of = (entry.history, entry.row.date.given().copied());
        entry.at_fault |= !entry.row.date.is_broken() && !entry.row.has_ended(day) && at_fault.contains(&of);
    }
}

fn fault(first: &Entry<'_>, other: &Entry<'_>, matter: Matter) -> Problem {
    let column = matter.column();
    let place = |input: &InputRow| input.place(column);
    let what = match column {
        Column::Price => "price".to_owned(),
        _ => TableKind::Prices.header(column).to_owned(),
    };
    let when = match other.row.date {
        Field::Given(date) => date.to_string(),
        _ => "no date".to_owned(),
    };
    Fault::new(
        Code::PriceRowTwice,
        format!("“{}” has another {what} for the same pack and {when} at {THERE}", other.row.item),
        "Give the newer row its Date, or delete the wrong one.",
    )
    .speaking_of(place(&first.row.input))
    .at(place(&other.row.input))
}

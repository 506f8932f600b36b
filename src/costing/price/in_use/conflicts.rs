//! Rows of one item, supplier, code and pack that say different things of one date: which of them is right nobody
//! knows.

use std::collections::{HashMap, HashSet};

use jiff::civil::Date;

use crate::costing::price::in_use::among_suppliers::{Pool, SupplierRow};
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
            Matter::Price => a.price != b.price || a.charges != b.charges,
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

/// The rows of one history and date.
type DatedHistory = (usize, Option<Date>);

/// The first row of a group that says anything of a matter, and the first after it that says otherwise; by place.
struct ConflictingRows {
    first: usize,
    other: Option<usize>,
}

/// Marks the rows that contradict each other, and tells of them: at each but the first of a date, so that their number is
/// the same in any order. Rows that have ended by `day` are as if they were not there.
pub(super) fn mark(pool: &mut Pool<'_>, day: Date, problems: &mut Vec<Problem>) {
    let group = |entry: &SupplierRow<'_>| {
        let counts = !entry.row.date.is_broken() && !entry.row.has_ended(day);
        counts.then(|| (entry.history, entry.row.date.given().copied()))
    };
    let sides = sides(pool, group);
    let mut at_fault: HashSet<DatedHistory> = HashSet::new();
    for (_, entry) in pool.all() {
        let Some(of) = group(entry) else { continue };
        let against = MATTERS.into_iter().find_map(|matter| {
            let ConflictingRows { first, other } = sides.get(&(of, matter)).filter(|_| matter.is_said(entry.row))?;
            let first = pool.get(*first).filter(|first| matter.differs(first.row, entry.row));
            Some((matter, first.or_else(|| pool.get((*other)?))?))
        });
        if let Some((matter, other)) = against
            && !at_fault.insert(of)
        {
            problems.push(fault(other, entry, matter));
        }
    }
    if at_fault.is_empty() {
        return;
    }
    for entry in &mut pool.entries {
        entry.at_fault |= group(entry).is_some_and(|of| at_fault.contains(&of));
    }
}

/// The sides that the rows of every group take on every matter.
fn sides(
    pool: &Pool<'_>,
    group: impl Fn(&SupplierRow<'_>) -> Option<DatedHistory>,
) -> HashMap<(DatedHistory, Matter), ConflictingRows> {
    let mut all: HashMap<(DatedHistory, Matter), ConflictingRows> = HashMap::new();
    for (at, entry) in pool.all() {
        let Some(of) = group(entry) else { continue };
        for matter in MATTERS.into_iter().filter(|matter| matter.is_said(entry.row)) {
            let sides = all.entry((of, matter)).or_insert(ConflictingRows { first: at, other: None });
            let first = pool.get(sides.first);
            if sides.other.is_none() && first.is_some_and(|first| matter.differs(first.row, entry.row)) {
                sides.other = Some(at);
            }
        }
    }
    all
}

fn fault(first: &SupplierRow<'_>, other: &SupplierRow<'_>, matter: Matter) -> Problem {
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

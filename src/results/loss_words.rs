//! Losses: what is missing of the weight that went into a yield test, or was taken up of what went in with it: what it
//! is called.

use std::collections::BTreeMap;

use crate::in_order::InOrder;
use crate::kitchen::yield_test::{Test, TestKind};
use crate::kitchen::{Entries, NameKey};

/// What came out heavier than what went in, by no more than a scale may be off.
pub const OVER: &str = "More than went in";

/// The loss by what the test measures.
pub fn of(kind: TestKind) -> &'static str {
    match kind {
        TestKind::Trim => "Cutting loss",
        TestKind::Cooking => "Cooking loss",
    }
}

/// What went in with what was purchased, by name, as first spelled; empty where nothing did.
pub fn added(entries: &Entries, test: &Test) -> String {
    let rows = test.added.iter().filter_map(|added| entries.tests.get(added.row));
    let mut names: BTreeMap<NameKey, (usize, &str)> = BTreeMap::new();
    for (at, row) in rows.enumerate() {
        names.entry(NameKey::of(&row.part)).or_insert((at, &row.part));
    }
    let mut names: Vec<(usize, &str)> = names.into_values().collect();
    names.put_in_order();
    names.into_iter().map(|(_, name)| name).collect::<Vec<_>>().join(", ")
}

/// What was taken up of it: `Water taken up`.
pub fn taken_up(entries: &Entries, test: &Test) -> String {
    format!("{} taken up", added(entries, test))
}

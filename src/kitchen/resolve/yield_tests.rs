//! Yield tests: rows grouped by name, pooled over runs, checked and linked to what went in.

use std::collections::{HashMap, HashSet};

use indexmap::IndexMap;

use super::items::price_from_tests;
use super::lookups::{Asker, Lookups};
use super::uncosted::UncostedNames;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::{Role, Test};
use crate::kitchen::{Entries, Field, NameKey, PartId, TestId};
use crate::problem::{Code, Problem};
use crate::schema::Column;

mod agreement;
mod borne;
mod charges;
mod far_off;
mod pooled_runs;
mod reuse;
mod unused;

use pooled_runs::Gathering;

/// Groups the test rows by name, pools what came out, and registers the parts.
pub(super) fn list(entries: &Entries, lookups: &mut Lookups, problems: &mut Vec<Problem>) -> Vec<Test> {
    let mut groups: IndexMap<NameKey, Vec<usize>> = IndexMap::new();
    for (index, row) in entries.tests.iter().enumerate() {
        groups.entry(NameKey::of(&row.test)).or_default().push(index);
    }
    let mut tests = Vec::new();
    for (key, rows) in groups {
        let Some(first) = rows.first().and_then(|index| entries.tests.get(*index)) else { continue };
        let mut gathering = Gathering::new(first, key);
        for index in &rows {
            if let Some(row) = entries.tests.get(*index) {
                gathering.take(*index, row, problems);
            }
        }
        gathering.miss_unread(entries);
        let test = gathering.finish(entries, problems);
        far_off::tell(&test, entries, problems);
        let id = TestId::new(tests.len());
        for (index, part) in test.parts.iter().enumerate() {
            lookups.part(&test.name, &part.name, part.role, PartId::new(id, index));
        }
        tests.push(test);
    }
    tests
}

/// Finds what went into each test and how its parts are charged.
pub(super) fn link(
    tests: &mut [Test],
    entries: &Entries,
    lookups: &mut Lookups,
    uncosted: &mut UncostedNames,
    problems: &mut Vec<Problem>,
) {
    let named = named_inputs(entries);
    for (index, test) in tests.iter_mut().enumerate() {
        let id = TestId::new(index);
        let names = named.get(&test.key).map(Vec::as_slice).unwrap_or_default();
        if names.len() > 1 {
            test.broken = true;
            for name in names {
                if let Ok(IngredientSource::Bought(item)) = lookups.find(name, Asker::Test(id)) {
                    test.contested.push(item);
                }
            }
        } else {
            link_input(id, test, entries, lookups, problems);
        }
        for added in &mut test.added {
            let Some(row) = entries.tests.get(added.row) else { continue };
            added.source = match lookups.find(&row.part, Asker::Test(id)) {
                Ok(source) => Some(source),
                Err(fault) if fault.code != Code::NameUnknown => {
                    problems.push(fault.at(row.input.place(Column::Part)));
                    test.broken = true;
                    None
                }
                Err(_) => match price_from_tests(entries, &row.part, lookups, problems) {
                    Some(item) => Some(IngredientSource::Bought(item)),
                    // Brine and the like cost nothing unless priced.
                    None => {
                        uncosted.take(&row.part, row.input.place(Column::Part));
                        None
                    }
                },
            };
        }
        borne::check(test, entries, lookups, problems);
        reuse::settle(test, entries, lookups, problems);
        charges::settle(test, entries, lookups, problems);
    }
}

/// The names that the rows of each test give to what went in.
fn named_inputs(entries: &Entries) -> HashMap<NameKey, Vec<String>> {
    let mut named: HashMap<NameKey, Vec<String>> = HashMap::new();
    let mut seen = HashSet::new();
    for row in entries.tests.iter().filter(|row| row.role == Field::Given(Role::AsPurchased)) {
        let key = NameKey::of(&row.test);
        if seen.insert((key.clone(), NameKey::of(&row.part))) {
            named.entry(key).or_default().push(row.part.clone());
        }
    }
    named
}

fn link_input(id: TestId, test: &mut Test, entries: &Entries, lookups: &mut Lookups, problems: &mut Vec<Problem>) {
    let Some(row) = test.runs.first().and_then(|run| entries.tests.get(run.row)) else { return };
    test.input = match lookups.find(&row.part, Asker::Test(id)) {
        Ok(source) => source,
        Err(fault) => match price_from_tests(entries, &row.part, lookups, problems) {
            Some(item) => IngredientSource::Bought(item),
            None => {
                problems.push(fault.at(row.input.place(Column::Part)));
                test.broken = true;
                IngredientSource::Unknown
            }
        },
    };
}

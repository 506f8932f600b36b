//! Names that a part of a yield test may not bear, since recipes could not tell it from what went in: another name of
//! what was purchased, and those of what was added.

use super::super::lookups::Lookups;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::{Part, Role, Test};
use crate::kitchen::{Entries, NameKey};
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// The first main or by-product that bears such a name is told, and stops the test. What is poured off as waste is named by
/// no recipe, and may be called what it is. That a part bears the very name typed as purchased has been told.
pub(super) fn check(test: &mut Test, entries: &Entries, lookups: &Lookups, problems: &mut Vec<Problem>) {
    let went_in: Vec<(NameKey, Option<IngredientSource>)> = test
        .runs
        .iter()
        .map(|run| (run.row, Some(test.input)))
        .chain(test.added.iter().map(|added| (added.row, added.source)))
        .filter_map(|(row, source)| Some((own_name(&entries.tests.get(row)?.part, source), source)))
        .collect();
    let bears = |part: &&Part| {
        let bought = lookups.bought(&part.name).map(IngredientSource::Bought);
        went_in.iter().any(|(name, source)| *name == part.key || (bought.is_some() && bought == *source))
    };
    let named = test.parts.iter().filter(|part| part.role != Role::Waste).find(bears);
    let Some(part) = named.filter(|_| !test.broken) else { return };
    let place = part.rows.first().and_then(|row| entries.tests.get(*row)).map(|row| row.input.place(Column::Part));
    let fault = Fault::new(
        Code::PartNamedAsInput,
        format!("“{}” is both what went in and what came out", part.name),
        format!("Name what came out differently, for example “{}, used”.", part.name),
    );
    problems.push(fault.at(place.unwrap_or_else(|| test.place.clone())));
    test.broken = true;
}

/// The name itself, where the test that makes it is named as well: `Cod test: Cod fillet`.
fn own_name(typed: &str, source: Option<IngredientSource>) -> NameKey {
    let name = match (source, typed.rsplit_once(": ")) {
        (Some(IngredientSource::Part(_)), Some((_, name))) => name,
        _ => typed,
    };
    NameKey::of(name)
}

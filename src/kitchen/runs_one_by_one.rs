//! The runs of a yield test one by one: what each part weighed in each, which runs are far from the others, and the
//! test as if one run were all there is.

use std::collections::HashMap;

use super::Entries;
use super::yield_test::{Part, Run, Test};
use crate::number::{Decimal, Fences, Overflow, exact};

/// By how much of what went in a scale may be off; common practice, as for the balance of a test.
const SCALE: Decimal = Decimal::from_parts(5, 0, 0, false, 3);

impl Test {
    /// The weight of a part in every run, in grams, beside [`Test::runs`]; `None` where a run does not list it.
    pub fn grams_by_run(&self, entries: &Entries, part: &Part) -> Vec<Option<Decimal>> {
        let rows = part.rows.iter().filter_map(|row| entries.tests.get(*row));
        let weights: HashMap<_, Decimal> =
            rows.filter_map(|row| Some((row.breakdown(), row.weight.given()?.grams))).collect();
        let weight = |run: &Run| weights.get(&entries.tests.get(run.row)?.breakdown()).copied();
        self.runs.iter().map(weight).collect()
    }

    /// A part's weight over the weight in, as a fraction, in every run; nothing where a run does not list it.
    ///
    /// # Errors
    /// [`Overflow`] when a figure does not fit.
    pub fn yields_by_run(&self, entries: &Entries, part: &Part) -> Result<Vec<Decimal>, Overflow> {
        let weights = self.grams_by_run(entries, part).into_iter().map(Option::unwrap_or_default);
        weights.zip(&self.runs).map(|(grams, run)| exact::div(grams, run.grams)).collect()
    }

    /// The fences beyond which one of a part's `yields` is far from the others: Tukey's, or half a percent of what went in
    /// beyond the quartiles where they lie closer than a scale can tell. `None` below four runs.
    ///
    /// # Errors
    /// [`Overflow`] when a figure does not fit.
    pub fn fences(yields: &[Decimal]) -> Result<Option<Fences>, Overflow> {
        Fences::of(yields, SCALE)
    }

    /// The test as if `run`, an index into [`Test::runs`], were its only one; `None` where there is no such run.
    pub fn of_one_run(&self, entries: &Entries, run: usize) -> Option<Test> {
        let one = self.runs.get(run)?;
        let breakdown = entries.tests.get(one.row)?.breakdown();
        let is_in = |row: usize| entries.tests.get(row).is_some_and(|row| row.breakdown() == breakdown);
        let mut alone = Test { runs: vec![one.clone()], ..self.clone() };
        alone.added.retain(|added| is_in(added.row));
        for (part, pooled) in alone.parts.iter_mut().zip(&self.parts) {
            part.grams = self.grams_by_run(entries, pooled).get(run).copied()?.unwrap_or_default();
        }
        Some(alone)
    }
}

//! Variation of a yield test's runs, and what the best and the worst of them would make of the dishes.
//!
//! Takes a trial of a costing and a test; gives every part's yield run by run, and for every main the portion costs if the
//! test were costed from one run alone, exactly as the costing would.

use std::collections::BTreeSet;

use jiff::civil::Date;

use super::where_used::Reach;
use crate::costing::Trial;
use crate::costing::what_if::Trying;
use crate::kitchen::depends::Reached;
use crate::kitchen::yield_test::{Part, Role, Test};
use crate::kitchen::{Kitchen, PartId, TestId};
use crate::number::{Decimal, Fences, Overflow, exact};

/// A test run by run.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spread {
    /// The test.
    pub test: TestId,
    /// Its runs, in book order.
    pub runs: Vec<RunOf>,
    /// The first and the last date that a run names.
    pub dates: Option<(Date, Date)>,
    /// Its parts, beside the test's own.
    pub parts: Vec<PartSpread>,
    /// Its mains with their best and worst runs, where there are several runs.
    pub mains: Vec<MainSpread>,
}

/// One run.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RunOf {
    /// Its as purchased row, as an index into the entries.
    pub row: usize,
    /// When it was made, if it says so.
    pub date: Option<Date>,
    /// Its own mark, as typed; empty when it has none.
    pub run: String,
    /// What went in, in grams.
    pub grams: Decimal,
}

/// What a part came to, run by run.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PartSpread {
    /// The part.
    pub part: PartId,
    /// Its weight in every run, in grams; `None` where the run does not list it, which counts as nothing.
    pub grams: Vec<Option<Decimal>>,
    /// Its weight over the weight in, as a fraction, in every run.
    pub yields: Vec<Decimal>,
    /// The run in which it is least; the first of several.
    pub lowest: usize,
    /// The run in which it is most; the first of several.
    pub highest: usize,
    /// Over all runs: weight over weight in. This is what is costed with.
    pub pooled: Decimal,
    /// The quartiles of the runs and the fences beyond them; `None` below four runs, of which none is called far off.
    pub fences: Option<Fences>,
    /// The runs beyond the fences.
    pub far_off: Vec<usize>,
}

/// What the best and the worst run of a main would make of the dishes that it goes into.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MainSpread {
    /// The main.
    pub part: PartId,
    /// The run in which it is most.
    pub best: usize,
    /// The run in which it is least.
    pub worst: usize,
    /// The dishes, in menu order.
    pub dishes: Vec<DishSpread>,
}

/// Portion costs of a dish, in money; `None` where a problem stops it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DishSpread {
    /// The dish, as an index into the kitchen's.
    pub dish: usize,
    /// As it is costed: from all runs.
    pub pooled: Option<Decimal>,
    /// From the best run alone.
    pub best: Option<Decimal>,
    /// From the worst run alone.
    pub worst: Option<Decimal>,
}

/// The test of `id` run by run. `None` when it is broken, or a yield does not fit a decimal.
pub fn of(trial: &mut Trial<'_>, id: TestId) -> Option<Spread> {
    let kitchen = trial.kitchen();
    let test = kitchen.test(id).filter(|test| !test.broken)?;
    let runs: Vec<RunOf> = test.runs.iter().filter_map(|run| named(kitchen, run.row, run.grams)).collect();
    let dates = runs.iter().filter_map(|run| run.date);
    let dates = dates.clone().min().zip(dates.max());
    let parts =
        test.parts.iter().enumerate().map(|(index, part)| part_spread(kitchen, test, PartId::new(id, index), part));
    let parts: Vec<PartSpread> = parts.collect::<Result<_, Overflow>>().ok()?;
    let mains = if runs.len() > 1 { mains(trial, id, test, &parts) } else { Vec::new() };
    Some(Spread { test: id, runs, dates, parts, mains })
}

fn named(kitchen: &Kitchen, row: usize, grams: Decimal) -> Option<RunOf> {
    let entry = kitchen.entries.tests.get(row)?;
    Some(RunOf { row, date: entry.date.given().copied(), run: entry.run.clone(), grams })
}

fn part_spread(kitchen: &Kitchen, test: &Test, id: PartId, part: &Part) -> Result<PartSpread, Overflow> {
    let grams = test.grams_by_run(&kitchen.entries, part);
    let yields = test.yields_by_run(&kitchen.entries, part)?;
    let went_in = exact::sum(test.runs.iter().map(|run| run.grams))?;
    let fences = Test::fences(&yields)?;
    let runs = || yields.iter().copied().enumerate();
    // The first of equals: `min_by_key` gives the first, `max_by_key` the last.
    let lowest = runs().min_by_key(|(_, share)| *share).map_or(0, |(run, _)| run);
    let highest = runs().rev().max_by_key(|(_, share)| *share).map_or(0, |(run, _)| run);
    let far_off = runs().filter(|(_, share)| fences.is_some_and(|fences| fences.leave_out(*share)));
    let far_off = far_off.map(|(run, _)| run).collect();
    Ok(PartSpread {
        part: id,
        lowest,
        highest,
        pooled: exact::div(part.grams, went_in)?,
        far_off,
        grams,
        yields,
        fences,
    })
}

/// The mains with what each one's best and worst runs make of the dishes.
fn mains(trial: &mut Trial<'_>, id: TestId, test: &Test, parts: &[PartSpread]) -> Vec<MainSpread> {
    let kitchen = trial.kitchen();
    let reached = Reached::by(kitchen, id);
    let reach = Reach::of(kitchen, trial.costing(), id);
    let mains: Vec<&PartSpread> =
        parts.iter().zip(&test.parts).filter(|(_, part)| part.role == Role::Main).map(|(spread, _)| spread).collect();
    let wanted: BTreeSet<usize> = mains.iter().flat_map(|main| [main.lowest, main.highest]).collect();
    let costs = |costing: &crate::costing::Costing| -> Vec<Option<Decimal>> {
        let cost = |dish: &usize| Some(costing.dishes.get(*dish)?.as_ref()?.portion_cost);
        reached.dishes.iter().map(cost).collect()
    };
    let pooled = costs(trial.costing());
    let alone: Vec<(usize, Vec<Option<Decimal>>)> =
        wanted.into_iter().map(|run| (run, trial.under(Trying::OneRun(id, run), &reached, costs))).collect();
    let of_run = |run: usize, nth: usize| {
        let (_, costs) = alone.iter().find(|(one, _)| *one == run)?;
        costs.get(nth).copied().flatten()
    };
    let spread = |main: &PartSpread| {
        let uses =
            |dish: usize| kitchen.dishes.get(dish).is_some_and(|dish| reach.dish(dish).contains(&main.part.index()));
        let dishes = reached.dishes.iter().zip(&pooled).enumerate().filter(|(_, (dish, _))| uses(**dish));
        let dishes = dishes.map(|(nth, (dish, pooled))| DishSpread {
            dish: *dish,
            pooled: *pooled,
            best: of_run(main.highest, nth),
            worst: of_run(main.lowest, nth),
        });
        MainSpread { part: main.part, best: main.highest, worst: main.lowest, dishes: dishes.collect() }
    };
    mains.into_iter().map(spread).collect()
}

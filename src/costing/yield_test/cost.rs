//! Costs of the parts of a yield test: fixed charges first, the joint remainder spread over the mains, every cent
//! of the purchase accounted for.

use std::borrow::Cow;

use super::charge::{in_scenario, takers, takes};
use super::split::{Takes, Unsplit, split};
use crate::costing::Costing;
use crate::costing::conversion::cans;
use crate::costing::conversion::convert::NoConversion;
use crate::costing::rate::Rate;
use crate::costing::yield_test::input_cost::weight_cost;
use crate::costing::yield_test::large_credits::Credits;
use crate::kitchen::yield_test::{Part, Role, Run, Test};
use crate::kitchen::{Kitchen, PartId, TestId};
use crate::number::{Decimal, Overflow, exact, share};
use crate::problem::Place;
use crate::schema::Column;

/// What a test costs, pooled over its runs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TestCost {
    /// Weight in, in grams.
    pub grams: Decimal,
    /// What was added, in grams.
    pub added_grams: Decimal,
    /// Cost of what went in, added included.
    pub cost: Decimal,
    /// Cost of the input alone.
    pub input_cost: Decimal,
    /// Cutting or cooking loss in grams: what is missing of what went in, added included. Below zero by what the scale is off.
    pub loss_grams: Decimal,
    /// What was taken up of what was added, in grams: by how much what came out weighs more than what went in as purchased.
    pub taken_up_grams: Decimal,
    /// Its parts, beside the test's own.
    pub parts: Vec<PartCost>,
}

impl TestCost {
    /// `grams`, such as what is lost, taken up or was added, over what went in as purchased, as yields are; nothing where that
    /// is less than a last digit. `None` where nothing went in.
    pub fn of_input(&self, grams: Decimal) -> Option<Decimal> {
        exact::div_to_last_digit(grams, self.grams).ok()
    }

    /// All that went in, in grams, what was added included. `None` where that does not fit.
    pub fn all_grams(&self) -> Option<Decimal> {
        exact::add(self.grams, self.added_grams).ok()
    }

    /// `grams` over all that went in, what was added included.
    pub fn of_all(&self, grams: Decimal) -> Option<Decimal> {
        exact::div_to_last_digit(grams, self.all_grams()?).ok()
    }

    /// What is missing, in grams: nothing where more came out than went in.
    pub fn lost_grams(&self) -> Decimal {
        self.loss_grams.max(Decimal::ZERO)
    }
}

/// What a part costs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PartCost {
    /// Its pooled weight in grams.
    pub grams: Decimal,
    /// Its weight over the weight in, as a fraction.
    pub fraction: Decimal,
    /// Its share of the cost: a main's, a by-product's credit, nothing for waste.
    pub cost: Decimal,
    /// What those who use it pay per gram: its cost by weight, unless the scenario has it bought in. `None` when it weighs
    /// nothing, or nobody says what buying it would cost.
    pub rate: Option<Rate>,
    /// Cost per weight over the input's cost per weight; `None` when either is nothing.
    pub cost_factor: Option<Decimal>,
    /// What a fixed charge comes to per gram, as a ratio.
    pub charge: Option<Rate>,
}

/// Costs one test. `None` when a reported problem stops it.
pub(crate) fn cost(kitchen: &Kitchen, costing: &mut Costing, id: TestId) -> Option<TestCost> {
    let test = as_tested(kitchen, costing, id)?;
    match compute(kitchen, costing, id, &test) {
        Ok(cost) => {
            let warnings = cans::of_test(kitchen, costing, id, &test);
            costing.problems.extend(warnings);
            Some(cost)
        }
        Err(stopped) => {
            let (place, stop) = *stopped;
            costing.problems.extend(stop.at(place));
            None
        }
    }
}

/// The test of `id` as the scenario has it: all its runs pooled, or one alone. `None` where a reported problem stops it.
pub(crate) fn as_tested<'k>(kitchen: &'k Kitchen, costing: &Costing, id: TestId) -> Option<Cow<'k, Test>> {
    let test = kitchen.test(id).filter(|test| !test.broken)?;
    match costing.scenario.one_run {
        Some((one, run)) if one == id => Some(Cow::Owned(test.of_one_run(&kitchen.entries, run)?)),
        _ => Some(Cow::Borrowed(test)),
    }
}

type Placed<T> = Result<T, Box<(Place, NoConversion)>>;

/// What went into a test, pooled over its runs, at today's prices.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WentIn {
    /// Weight in, in grams.
    pub grams: Decimal,
    /// What was added, in grams.
    pub added_grams: Decimal,
    /// Cost of the input alone.
    pub input_cost: Decimal,
    /// Cost of what went in, added included.
    pub cost: Decimal,
}

impl WentIn {
    /// What the input costs by weight.
    pub fn input(&self) -> Rate {
        Rate { money: self.input_cost, per: self.grams }
    }
}

/// What went into `test`, weighed and costed.
///
/// # Errors
/// A [`NoConversion`] at its place when a cost is not known.
pub(crate) fn went_in(kitchen: &Kitchen, costing: &Costing, test: &Test) -> Placed<WentIn> {
    let overflow = |_: Overflow| Box::new((test.place.clone(), NoConversion::Overflow));
    let mut costs = Vec::new();
    for run in &test.runs {
        costs.push(
            run_cost(kitchen, costing, test, run).map_err(|stop| Box::new((place_of(kitchen, test, run.row), stop)))?,
        );
    }
    let input_cost = exact::sum(costs).map_err(overflow)?;
    let grams = exact::sum(test.runs.iter().map(|run| run.grams)).map_err(overflow)?;
    let mut cost = input_cost;
    for added in &test.added {
        let Some(source) = added.source else { continue };
        let spent = weight_cost(kitchen, costing, source, added.grams, added.count)
            .map_err(|stop| Box::new((place_of(kitchen, test, added.row), stop)))?;
        cost = exact::add(cost, spent).map_err(overflow)?;
    }
    let added_grams = exact::sum(test.added.iter().map(|added| added.grams)).map_err(overflow)?;
    Ok(WentIn { grams, added_grams, input_cost, cost })
}

fn compute(kitchen: &Kitchen, costing: &mut Costing, id: TestId, test: &Test) -> Placed<TestCost> {
    let overflow = |_: Overflow| Box::new((test.place.clone(), NoConversion::Overflow));
    let WentIn { grams, added_grams, input_cost, cost } = went_in(kitchen, costing, test)?;
    let came_out = exact::sum(test.parts.iter().map(|part| part.grams)).map_err(overflow)?;
    let loss_grams = exact::add(grams, added_grams).and_then(|total| exact::sub(total, came_out)).map_err(overflow)?;

    let gained = exact::sub(came_out, grams).map_err(overflow)?;
    let taken_up_grams = gained.max(Decimal::ZERO).min(added_grams);

    let input = Rate { money: input_cost, per: grams };
    let charges = charges(kitchen, costing, id, test, input)?;
    let shares = shares(kitchen, test, cost, &charges)?;
    let mut parts = Vec::new();
    for ((part, takes), cost) in test.parts.iter().zip(charges).zip(shares) {
        let charge = takes.fixed();
        let rate = (!part.grams.is_zero()).then_some(Rate { money: cost, per: part.grams });
        let cost_factor = match rate {
            // (cost ÷ w) ÷ (input ÷ W) = cost × W ÷ (w × input)
            Some(rate) if !input_cost.is_zero() => {
                let num = exact::mul(rate.money, grams).map_err(overflow)?;
                let den = exact::mul(rate.per, input_cost).map_err(overflow)?;
                Some(exact::div_to_last_digit(num, den).map_err(overflow)?)
            }
            _ => None,
        };
        let fraction = exact::div(part.grams, grams).map_err(overflow)?;
        parts.push(PartCost { grams: part.grams, fraction, cost, rate, cost_factor, charge });
    }
    unearned(costing, id, test, cost, &mut parts).map_err(overflow)?;
    for (index, part) in parts.iter_mut().enumerate() {
        if let Some(bought_in) = costing.scenario.bought_in.get(&PartId::new(id, index)) {
            part.rate = bought_in.rate(part.rate).map_err(overflow)?;
        }
    }
    Ok(TestCost { grams, added_grams, cost, input_cost, loss_grams, taken_up_grams, parts })
}

/// Takes the credit that is unearned in the scenario from by-products and lays it on the mains, in proportion to what they
/// bear, or else weigh. Who uses a by-product pays for it as before.
fn unearned(
    costing: &Costing,
    id: TestId,
    test: &Test,
    whole: Decimal,
    parts: &mut [PartCost],
) -> Result<(), Overflow> {
    let mut lost = Decimal::ZERO;
    for (index, part) in parts.iter_mut().enumerate() {
        let Some(unused) = costing.scenario.unused.get(&PartId::new(id, index)) else { continue };
        let unearned = share::rounded(unused.unearned(part.cost, part.grams)?, whole);
        part.cost = exact::sub(part.cost, unearned)?;
        lost = exact::add(lost, unearned)?;
    }
    if lost.is_zero() {
        return Ok(());
    }
    let is_main = |part: &Part| part.role == Role::Main;
    let keys = |of: fn(&PartCost) -> Decimal| -> Vec<Decimal> {
        let keys = test.parts.iter().zip(parts.iter());
        keys.map(|(part, cost)| if is_main(part) { of(cost) } else { Decimal::ZERO }).collect()
    };
    let costs = keys(|part| part.cost);
    let keys = if costs.iter().all(Decimal::is_zero) { keys(|part| part.grams) } else { costs };
    let last = keys.iter().rposition(|key| !key.is_zero()).ok_or(Overflow)?;
    for ((part, more), key) in parts.iter_mut().zip(share::share_of(whole, lost, &keys, &[last])?).zip(&keys) {
        if !key.is_zero() {
            part.cost = exact::add(part.cost, more)?;
            part.rate = (!part.grams.is_zero()).then_some(Rate { money: part.cost, per: part.grams });
        }
    }
    Ok(())
}

fn place_of(kitchen: &Kitchen, test: &Test, row: usize) -> Place {
    kitchen.entries.tests.get(row).map_or_else(|| test.place.clone(), |row| row.input.place(Column::Part))
}

fn run_cost(kitchen: &Kitchen, costing: &Costing, test: &Test, run: &Run) -> Result<Decimal, NoConversion> {
    weight_cost(kitchen, costing, test.input, run.grams, run.count)
}

/// What every part takes in the scenario.
fn charges(kitchen: &Kitchen, costing: &Costing, id: TestId, test: &Test, input: Rate) -> Placed<Vec<Takes>> {
    let mut all = Vec::new();
    for (index, part) in test.parts.iter().enumerate() {
        let row = part.rows.first().copied().unwrap_or_default();
        let place = || place_of(kitchen, test, row);
        let charge = in_scenario(costing.scenario.charging, PartId::new(id, index), part);
        all.push(takes(kitchen, costing, &charge, input).map_err(|stop| Box::new((place(), stop)))?);
    }
    Ok(all)
}

/// Every part's cost, as [`split`] splits it.
fn shares(kitchen: &Kitchen, test: &Test, cost: Decimal, charges: &[Takes]) -> Placed<Vec<Decimal>> {
    match split(cost, &takers(&test.parts, charges)) {
        Ok(split) => Ok(split.costs),
        Err(Unsplit::CreditsOverCost { credits }) => {
            let charges: Vec<Option<Rate>> = charges.iter().map(|takes| takes.fixed()).collect();
            let (place, fault) = Credits { kitchen, test, charges: &charges, cost }.over_cost(credits);
            Err(Box::new((place, NoConversion::Fault(fault))))
        }
        Err(Unsplit::NothingToShareBy) => {
            Err(Box::new((test.place.clone(), NoConversion::Fault(test.nothing_to_share_by()))))
        }
        Err(Unsplit::Overflow) => Err(Box::new((test.place.clone(), NoConversion::Overflow))),
    }
}

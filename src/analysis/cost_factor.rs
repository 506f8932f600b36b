//! Cost factors then and now: what a stored factor makes of today's price, beside what the test itself makes of it.
//!
//! Takes a test that documents the Price paid; gives every part's factor at that price and at today's. They differ when
//! credits do not move with the price. Money stated in the test, and what by-products save buying, are the same in both.

use crate::analysis::charging_methods::shared;
use crate::analysis::missing_input::Lack;
use crate::costing::yield_test::cost::{WentIn, went_in};
use crate::costing::{Costing, Rate};
use crate::kitchen::yield_test::{Charge, Test};
use crate::kitchen::{Kitchen, TestId};
use crate::number::{Decimal, Overflow, exact};

/// The factors of a test's parts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Factors {
    /// The test.
    pub test: TestId,
    /// What the input cost when it was tested: money for so many grams, over the runs that state a Price.
    pub then: Rate,
    /// What it costs today: money for so many grams.
    pub now: Rate,
    /// Whether the two differ.
    pub moved: bool,
    /// The parts, beside the test's own.
    pub parts: Vec<PartFactors>,
}

/// A part's cost factors, and what they make of today's price.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PartFactors {
    /// Cost per weight over the input's, at the price paid in the test; `None` when it weighs nothing.
    pub then: Option<Decimal>,
    /// The same at today's price; `None` when it weighs nothing or the input costs nothing.
    pub now: Option<Decimal>,
    /// By the old factor: that times today's price, in money for so many grams.
    pub by_old: Option<Rate>,
    /// What it costs today, in money for so many grams.
    pub today: Option<Rate>,
}

/// The factors of the test of `id`, charged as the book says. `None` when it states no Price above zero, or is not costed.
///
/// # Errors
/// What is wanting when the by-products could not be charged at the price then, or now.
pub fn of(kitchen: &Kitchen, costing: &Costing, id: TestId) -> Option<Result<Factors, Vec<Lack>>> {
    let test = kitchen.test(id).filter(|test| !test.broken)?;
    let then = paid(kitchen, test).transpose()?.map(|paid| (paid, went_in(kitchen, costing, test)));
    match then {
        Ok((_, Err(_))) => None,
        Ok((then, Ok(went_in))) => Some(factors(kitchen, costing, id, test, then, went_in)),
        Err(Overflow) => Some(Err(vec![Lack::Outside])),
    }
}

/// Money paid for so many grams, over the runs that state it.
fn paid(kitchen: &Kitchen, test: &Test) -> Result<Option<Rate>, Overflow> {
    let (mut money, mut per) = (Decimal::ZERO, Decimal::ZERO);
    for row in test.runs.iter().filter_map(|run| kitchen.entries.tests.get(run.row)) {
        let (Some(price), Some(weight)) = (row.price.given(), row.weight.given()) else { continue };
        let spent = exact::div(exact::mul(*price, weight.grams)?, weight.unit_grams)?;
        money = exact::add(money, spent)?;
        per = exact::add(per, weight.grams)?;
    }
    Ok((money > Decimal::ZERO && per > Decimal::ZERO).then_some(Rate { money, per }))
}

fn factors(
    kitchen: &Kitchen,
    costing: &Costing,
    id: TestId,
    test: &Test,
    then: Rate,
    went_in: WentIn,
) -> Result<Factors, Vec<Lack>> {
    let outside = |_: Overflow| vec![Lack::Outside];
    let charges: Vec<Charge> = test.parts.iter().map(|part| part.charge.clone()).collect();
    let input_then = exact::mul(then.money, went_in.grams).and_then(|x| exact::div(x, then.per)).map_err(outside)?;
    // What was added costs today's price in both.
    let added = exact::sub(went_in.cost, went_in.input_cost).map_err(outside)?;
    let cost_then = exact::add(input_then, added).map_err(outside)?;
    let now = went_in.input();
    let costs_then = shared(kitchen, costing, id, test, &charges, then, cost_then)?.costs;
    let costs_now = shared(kitchen, costing, id, test, &charges, now, went_in.cost)?.costs;
    let mut parts = Vec::with_capacity(test.parts.len());
    for ((part, then_cost), now_cost) in test.parts.iter().zip(costs_then).zip(costs_now) {
        let weighs = (!part.grams.is_zero()).then_some(part.grams);
        let rate = |money: Decimal| weighs.map(|per| Rate { money, per });
        let by_old = exact::mul(then_cost, went_in.input_cost).and_then(|x| exact::div(x, input_then));
        parts.push(PartFactors {
            then: rate(then_cost).map(|rate| factor(rate, then)).transpose().map_err(outside)?,
            now: rate(now_cost)
                .filter(|_| !now.money.is_zero())
                .map(|rate| factor(rate, now))
                .transpose()
                .map_err(outside)?,
            by_old: rate(by_old.map_err(outside)?),
            today: rate(now_cost),
        });
    }
    let moved =
        exact::mul(then.money, now.per).map_err(outside)? != exact::mul(now.money, then.per).map_err(outside)?;
    Ok(Factors { test: id, then, now, moved, parts })
}

/// (cost ÷ w) ÷ p, multiplied first.
fn factor(part: Rate, input: Rate) -> Result<Decimal, Overflow> {
    exact::div(exact::mul(part.money, input.per)?, exact::mul(part.per, input.money)?)
}

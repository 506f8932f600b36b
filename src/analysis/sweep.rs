//! A credit moved up and down: the fraction of the AP price that one by-product is charged, swept from nothing to all.
//!
//! Takes a trial of a costing and a by-product; gives for every step what the parts of its test bear, what the dishes that
//! make and use it come to, and the total, which stands still: a credit moves cost between dishes, it saves nothing by
//! itself. The frame is one batch of the test, what its runs together took in.

use std::cmp::Ordering;

use super::where_used::Reach;
use crate::costing::what_if::Trying;
use crate::costing::{Charging, Costing, Rate, Trial};
use crate::in_order::InOrder;
use crate::kitchen::depends::Reached;
use crate::kitchen::yield_test::{Part, Role};
use crate::kitchen::{Kitchen, PartId};
use crate::number::{Decimal, Overflow, exact};
use crate::problem::Problem;

/// The step that is taken when none is asked for: a tenth.
pub const TENTH: Decimal = Decimal::from_parts(1, 0, 0, false, 1);

/// The smallest step, a thousandth: smaller ones count as this.
const LEAST: Decimal = Decimal::from_parts(1, 0, 0, false, 3);

/// The fractions from nothing to one in steps of `step`; one is always the last.
pub fn fractions(step: Decimal) -> Vec<Decimal> {
    let step = step.max(LEAST);
    let mut found = Vec::new();
    let mut at = Decimal::ZERO;
    while at < Decimal::ONE {
        found.push(at);
        let Ok(next) = exact::add(at, step) else { break };
        at = next;
    }
    found.push(Decimal::ONE);
    found
}

/// A by-product's charge swept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sweep {
    /// The by-product.
    pub part: PartId,
    /// The dishes whose cost moves, in menu order.
    pub dishes: Vec<SweptDish>,
    /// The steps, in the order asked for.
    pub steps: Vec<Step>,
}

/// A dish whose cost moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SweptDish {
    /// The dish, as an index into the kitchen's.
    pub dish: usize,
    /// On which side of the credit it stands.
    pub side: Side,
}

/// On which side of a credit a dish stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// It is made of what bears the rest of the test's cost: cheaper as the credit grows.
    Maker,
    /// It is made of the by-product: dearer as the credit grows.
    User,
    /// Of both.
    Both,
}

impl Side {
    /// All of them, in the order in which they are shown.
    pub const ALL: [Side; 3] = [Side::Maker, Side::User, Side::Both];
}

impl Sweep {
    /// The dishes that are shown where there is room for `most`, as indices into [`Sweep::dishes`]: one of each side before
    /// a second of any, makers first and those of both last.
    pub fn shown(&self, most: usize) -> Vec<usize> {
        let of = |side: Side| self.dishes.iter().enumerate().filter(move |(_, dish)| dish.side == side);
        let mut shown: Vec<(usize, usize, usize)> = Vec::with_capacity(self.dishes.len());
        for (order, side) in Side::ALL.into_iter().enumerate() {
            // Of each side the first stands before all that are not.
            shown.extend(of(side).enumerate().map(|(nth, (index, _))| (usize::from(nth > 0), order, index)));
        }
        shown.put_in_order();
        shown.truncate(most);
        shown.put_in_order_by_key(|(_, order, index)| (*order, *index));
        shown.into_iter().map(|(.., index)| index).collect()
    }

    /// How the portion cost of a dish moves from the first step that stands to the last; `None` where it is not known.
    pub fn moves(&self, dish: usize) -> Option<Ordering> {
        let steps = self.steps.iter().filter_map(|step| step.outcome.as_ref().ok());
        let mut costs = steps.filter_map(|swept| swept.dishes.get(dish).copied().flatten()).map(|at| at.portion_cost);
        let first = costs.next()?;
        Some(costs.next_back()?.cmp(&first))
    }
}

/// One step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// The fraction of the AP price per weight that the by-product is charged.
    pub fraction: Decimal,
    /// What it comes to; or the problem that stops it, such as credits above the cost.
    pub outcome: Result<Swept, Problem>,
}

/// What a step comes to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Swept {
    /// The parts of the test, beside its own.
    pub parts: Vec<SweptPart>,
    /// What the parts bear together, in money: the same at every step.
    pub total: Decimal,
    /// The dishes, beside [`Sweep::dishes`]; `None` where a problem stops one.
    pub dishes: Vec<Option<DishAt>>,
    /// The problems that stop dishes or tests further on at this step, and do not as the book stands. They may stop dishes
    /// that are not listed: those made of what a stopped test charges at a price of its own.
    pub stopped: Vec<Problem>,
}

impl Swept {
    /// What the part that is charged bears.
    pub fn bears(&self, part: PartId) -> Option<Decimal> {
        self.parts.get(part.index()).map(|part| part.cost)
    }

    /// What the other parts bear together; `None` where it does not fit.
    pub fn rest(&self, part: PartId) -> Option<Decimal> {
        exact::sub(self.total, self.bears(part)?).ok()
    }
}

/// A part at one step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SweptPart {
    /// What it bears, in money.
    pub cost: Decimal,
    /// Money for so many grams; `None` when it weighs nothing.
    pub rate: Option<Rate>,
}

/// A dish at one step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DishAt {
    /// Its ingredients, in money for one of it as served.
    pub food: Decimal,
    /// With Q and spice.
    pub portion_cost: Decimal,
    /// Portion cost over the price without tax, as a fraction; `None` without a menu price.
    pub food_cost: Option<Decimal>,
}

/// Sweeps the charge of `part` over `fractions`, the other parts charged as the book says. `None` when it is no by-product,
/// or a problem that has been reported stops its test whatever it is charged.
pub fn of(trial: &mut Trial<'_>, part: PartId, fractions: &[Decimal]) -> Option<Sweep> {
    let kitchen = trial.kitchen();
    let test = kitchen.test(part.test).filter(|test| !test.broken)?;
    kitchen.part(part).filter(|part| part.role == Role::ByProduct)?;
    let reached = Reached::by(kitchen, part.test);
    let reach = Reach::of(kitchen, trial.costing(), part.test);
    let dishes: Vec<SweptDish> = reached
        .dishes
        .iter()
        .filter_map(|index| {
            let parts = reach.dish(kitchen.dishes.get(*index)?);
            let joint = |index: &usize| *index != part.index() && test.parts.get(*index).is_some_and(Part::is_joint);
            let side = match (parts.iter().any(joint), parts.contains(&part.index())) {
                (true, true) => Side::Both,
                (true, false) => Side::Maker,
                (false, true) => Side::User,
                (false, false) => return None,
            };
            Some(SweptDish { dish: *index, side })
        })
        .collect();
    let known = trial.costing().problems.clone();
    let mut steps = Vec::with_capacity(fractions.len());
    for fraction in fractions {
        let trying = Trying::Charging(Charging::OneAt { part, fraction: *fraction });
        let outcome = trial.under(trying, &reached, |costing| step(kitchen, costing, part, &dishes, &known))?;
        steps.push(Step { fraction: *fraction, outcome });
    }
    Some(Sweep { part, dishes, steps })
}

/// What is seen at one step; `None` when nothing says why its test is not costed.
fn step(
    kitchen: &Kitchen,
    costing: &Costing,
    part: PartId,
    dishes: &[SweptDish],
    known: &[Problem],
) -> Option<Result<Swept, Problem>> {
    let Some(test) = costing.test(part.test) else {
        return costing.problems.iter().find(|problem| problem.is_error()).cloned().map(Err);
    };
    let place = kitchen.test(part.test)?.place.clone();
    let total = exact::sum(test.parts.iter().map(|part| part.cost));
    let swept = total.map(|total| Swept {
        parts: test.parts.iter().map(|part| SweptPart { cost: part.cost, rate: part.rate }).collect(),
        total,
        dishes: dishes.iter().map(|swept| dish(costing, swept.dish)).collect(),
        stopped: costing.problems.iter().filter(|one| one.is_error() && !known.contains(one)).cloned().collect(),
    });
    match swept {
        Ok(swept) => Some(Ok(swept)),
        Err(Overflow) => crate::costing::conversion::convert::NoConversion::Overflow.at(place).map(Err),
    }
}

fn dish(costing: &Costing, index: usize) -> Option<DishAt> {
    let dish = costing.dishes.get(index)?.as_ref()?;
    Some(DishAt { food: dish.food, portion_cost: dish.portion_cost, food_cost: dish.food_cost })
}

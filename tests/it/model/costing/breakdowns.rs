//! What a test costs and what each of its parts bears.

use super::super::fraction::{Fraction, whole};
use super::super::kitchen::breakdowns::{Added, Breakdown, Charge, Input, Joint, Part, PerWeight, Role};
use super::super::kitchen::prices::Sold;
use super::super::unit::Dim;
use super::{Costs, Known, Lack};

/// What came out of a test.
pub struct TestCost {
    /// Grams in as purchased.
    pub weight: Fraction,
    /// Grams lost.
    pub loss: Fraction,
    /// Money for what went in, and what each part bears, with money per gram as purchased.
    pub cost: Known<Shares>,
}

/// A cost shared out.
pub struct Shares {
    pub all: Fraction,
    /// In the order of the parts; waste bears nothing.
    pub parts: Vec<Fraction>,
    /// Money for a gram that went in.
    pub input: Fraction,
}

/// Grams of a part, all runs together.
pub fn weight(part: &Part) -> Fraction {
    part.weights.iter().flatten().fold(whole(0), |sum, weight| sum + weight.base())
}

impl Breakdown {
    /// Grams in as purchased, all runs together.
    pub fn weight_in(&self) -> Fraction {
        self.runs.iter().fold(whole(0), |sum, run| sum + run.weight.base())
    }
}

/// The one joint method: the one that is named, else by sales value where every main has one, else by weight.
fn method(test: &Breakdown) -> Joint {
    let named = test.parts.iter().find_map(|part| match part.charge {
        Charge::Joint(joint) => Some(joint),
        _ => None,
    });
    let valued = test.mains().all(|main| main.value.is_some());
    named.unwrap_or(if valued { Joint::SalesValue } else { Joint::Weight })
}

/// Money for a gram, of money per unit.
fn per_gram(part: &Part, value: &PerWeight) -> Fraction {
    &value.money.value / value.per.unwrap_or_else(|| part.unit()).size()
}

/// By what a main or joint part takes its share of the remainder.
fn key(part: &Part, method: Joint) -> Fraction {
    let sales = || part.value.as_ref().map_or_else(|| whole(0), |value| per_gram(part, value));
    let further = || part.further.as_ref().map_or_else(|| whole(0), |cost| &cost.value / part.unit().size());
    match method {
        Joint::Weight => weight(part),
        Joint::SalesValue => weight(part) * sales(),
        Joint::NetRealizable => weight(part) * (sales() - further()).max(whole(0)),
    }
}

impl Costs<'_> {
    /// Money for what went in as purchased.
    fn input_cost(&self, test: &Breakdown) -> Known<Fraction> {
        let grams = test.weight_in();
        let per_gram = match test.input {
            Input::Bought(item) => {
                let kitchen = &self.kitchen.items[item];
                if kitchen.sold == Sold::Count {
                    let piece = self.ap_cost(item, Dim::Count)?.ok_or(Lack("no count"))?;
                    if test.runs.iter().all(|run| run.count.is_some()) {
                        let count: i64 = test.runs.iter().filter_map(|run| run.count).sum();
                        return Ok(piece * whole(count));
                    }
                    piece / self.piece_ap(item, "each")?.ok_or(Lack("no weight of a piece"))?
                } else {
                    self.ap_cost(item, Dim::Weight)?.ok_or(Lack("no weight"))?
                }
            }
            Input::Part(from, part) => self.part_per_gram(from, part)?,
            Input::Recipe(recipe) => self.recipe_unit_cost(recipe, Dim::Weight)?,
            Input::Unlisted => {
                // One item has one price: of those that tests of one day state the dearest.
                let tests = self.kitchen.breakdowns.iter().filter(|test| test.input == Input::Unlisted);
                let stated =
                    tests.filter_map(|test| Some(&test.price.as_ref()?.value / test.runs[0].weight.unit.size()));
                stated.max().ok_or(Lack("no price in a test"))?
            }
        };
        Ok(grams * per_gram)
    }

    /// Money for what was added.
    fn added_cost(&self, test: &Breakdown) -> Known<Fraction> {
        let mut cost = whole(0);
        for (what, amount) in test.runs.iter().filter_map(|run| run.added.as_ref()) {
            if let Added::Bought(item) = what {
                cost += amount.base() * self.ap_cost(*item, Dim::Weight)?.ok_or(Lack("no weight"))?;
            }
        }
        Ok(cost)
    }

    /// What a gram of a by-product is charged; none where it is a joint product.
    fn fixed(&self, part: &Part, input: &Fraction) -> Known<Option<Fraction>> {
        let missing = Lack("no value");
        Ok(match part.charge {
            Charge::Blank | Charge::Free => Some(whole(0)),
            Charge::Fraction => Some(&part.share.as_ref().ok_or(missing)?.value * input),
            Charge::Price => Some(per_gram(part, part.value.as_ref().ok_or(missing)?)),
            Charge::Market => {
                let (amount, item) = part.instead_of.as_ref().ok_or(missing)?;
                let saved = self.ap_cost(*item, amount.unit.dim)?.ok_or(missing)? * amount.base();
                Some(saved / part.unit().size())
            }
            Charge::Joint(_) => None,
        })
    }

    fn shares(&self, test: &Breakdown) -> Known<Shares> {
        let came = self.input_cost(test)?;
        let input = &came / test.weight_in();
        let all = came + self.added_cost(test)?;
        let method = method(test);
        let mut fixed: Vec<Option<Fraction>> = Vec::new();
        for part in &test.parts {
            fixed.push(match part.role {
                Role::Waste => Some(whole(0)),
                Role::Main => None,
                Role::ByProduct => self.fixed(part, &input)?.map(|rate| rate * weight(part)),
            });
        }
        let credits = fixed.iter().flatten().fold(whole(0), |sum, credit| sum + credit);
        if credits > all {
            return Err(Lack("credits above the cost"));
        }
        let remainder = &all - credits;
        let keys: Vec<Fraction> = test.parts.iter().map(|part| key(part, method)).collect();
        let joint = || (0..fixed.len()).filter(|at| fixed[*at].is_none());
        let sum = joint().fold(whole(0), |sum, at| sum + &keys[at]);
        if sum == whole(0) {
            return Err(Lack("nothing to share by"));
        }
        let share = |at: usize| &remainder * &keys[at] / &sum;
        let parts = (0..fixed.len()).map(|at| fixed[at].clone().unwrap_or_else(|| share(at))).collect();
        Ok(Shares { all, parts, input })
    }

    /// A test.
    pub(super) fn test(&self, at: usize) -> TestCost {
        let test = &self.kitchen.breakdowns[at];
        let added = test.runs.iter().filter_map(|run| run.added.as_ref());
        let added = added.fold(whole(0), |sum, (_, weight)| sum + weight.base());
        let out = test.parts.iter().fold(whole(0), |sum, part| sum + weight(part));
        let loss = test.weight_in() + added - out;
        let heavy = -&loss * whole(200) > test.weight_in();
        let cost = if heavy { Err(Lack("more came out than went in")) } else { self.shares(test) };
        TestCost { weight: test.weight_in(), loss, cost }
    }

    /// Money for a gram of a part.
    pub fn part_per_gram(&self, test: usize, part: usize) -> Known<Fraction> {
        let shares = self.tests[test].cost.as_ref().map_err(|lack| *lack)?;
        Ok(&shares.parts[part] / weight(&self.kitchen.breakdowns[test].parts[part]))
    }
}

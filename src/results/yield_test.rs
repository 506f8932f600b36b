//! Yield tests: what went in, what came out, and what each part costs.

use schemars::JsonSchema;
use serde::Serialize;

use super::value::{Figure, percent};
use super::word::Word;
use crate::analysis::charging_methods::charged;
use crate::costing::{Costing, Rate, TestCost};
use crate::kitchen::Kitchen;
use crate::kitchen::yield_test::{Charged, Role, Test};
use crate::number::exact;

/// A yield test, pooled over its runs.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Test")]
pub struct TestResult<'a> {
    /// Its name, as first spelled in the book.
    pub name: &'a str,
    /// What was broken down.
    pub item: String,
    /// How many runs it has.
    pub runs: usize,
    /// What went in as purchased, in grams, all runs together.
    pub weight_g: Option<Figure>,
    /// What that costs, with what was added; null where it could not be costed.
    pub cost: Option<Figure>,
    /// What is missing of the weight, what was added included: cutting or cooking loss, in grams.
    pub loss_g: Option<Figure>,
    /// What was taken up of what was added, water mostly, in grams: by how much what came out weighs more than what went in
    /// as purchased.
    pub taken_up_g: Option<Figure>,
    /// What came out, in book order.
    pub parts: Vec<PartResult<'a>>,
}

/// A part that came out of a yield test. The costs of all parts add up to that of the test.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Part")]
pub struct PartResult<'a> {
    /// Its name, as first spelled in the book.
    pub name: &'a str,
    /// What it is.
    pub role: Word<Role>,
    /// What it weighs, in grams.
    pub weight_g: Figure,
    /// Its weight in % of what went in.
    pub yield_percent: Option<Figure>,
    /// How it is charged; null for waste.
    pub charged_as: Option<Word<Charged>>,
    /// What it bears: a main's share, a by-product's credit, 0 for waste; null where the test could not be costed.
    pub cost: Option<Figure>,
    /// Money per gram for those who use it.
    pub cost_per_g: Option<Figure>,
    /// Its cost by weight over that of what went in.
    pub cost_factor: Option<Figure>,
}

impl<'a> TestResult<'a> {
    /// Every yield test of a kitchen, in book order.
    pub fn all(kitchen: &'a Kitchen, costing: &'a Costing) -> impl Iterator<Item = TestResult<'a>> {
        let tests = kitchen.tests.iter().zip(&costing.tests);
        tests.map(|(test, cost)| TestResult::of(kitchen, test, cost.as_ref()))
    }

    fn of(kitchen: &'a Kitchen, test: &'a Test, cost: Option<&TestCost>) -> Self {
        let first = test.runs.first().and_then(|run| kitchen.entries.tests.get(run.row));
        let weight = exact::sum(test.runs.iter().map(|run| run.grams)).ok();
        let parts = test.parts.iter().enumerate().map(|(index, part)| {
            let figures = cost.and_then(|cost| cost.parts.get(index));
            PartResult {
                name: &part.name,
                role: Word(part.role),
                weight_g: Figure(part.grams),
                yield_percent: figures.and_then(|part| percent(part.fraction)),
                charged_as: charged(part.role, &part.charge, test.joint).map(Word),
                cost: figures.map(|part| Figure(part.cost)),
                cost_per_g: figures.and_then(|part| part.rate).and_then(Rate::per_unit).map(Figure),
                cost_factor: figures.and_then(|part| part.cost_factor).map(Figure),
            }
        });
        TestResult {
            name: &test.name,
            item: first.map(|row| row.part.clone()).unwrap_or_default(),
            runs: test.runs.len(),
            weight_g: weight.map(Figure),
            cost: cost.map(|cost| Figure(cost.cost)),
            loss_g: cost.map(|cost| Figure(cost.loss_grams)),
            taken_up_g: cost.map(|cost| Figure(cost.taken_up_grams)),
            parts: parts.collect(),
        }
    }
}

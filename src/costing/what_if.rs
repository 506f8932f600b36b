//! A costing under trial: how things would stand if one test were charged otherwise or had one run alone.
//!
//! Takes a costing; costs anew only what the test reaches, shows it, and puts everything back. What it shows is what
//! [`cost`](super::cost()) gives under that scenario; only the allergens, which no charge changes, are not gone through.

use super::{Charging, Costing, DishCost, RecipeCost, Scenario, TestCost, dish, made};
use crate::costing::yield_test::cost;
use crate::kitchen::depends::Reached;
use crate::kitchen::{Kitchen, Node, TestId};
use crate::problem::Problem;

/// What is tried.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trying {
    /// By-products of the test are charged so.
    Charging(Charging),
    /// The test is costed from this one of its runs, as an index into them.
    OneRun(TestId, usize),
}

impl Trying {
    fn of(self, scenario: &Scenario) -> Scenario {
        match self {
            Trying::Charging(charging) => Scenario { charging, ..scenario.clone() },
            Trying::OneRun(test, run) => Scenario { one_run: Some((test, run)), ..scenario.clone() },
        }
    }
}

/// A kitchen's costing on which things are tried.
#[derive(Debug, Clone)]
pub struct Trial<'a> {
    kitchen: &'a Kitchen,
    costing: Costing,
}

impl<'a> Trial<'a> {
    /// A trial of `costing`, which is `kitchen`'s.
    pub fn of(kitchen: &'a Kitchen, costing: Costing) -> Self {
        Trial { kitchen, costing }
    }

    /// The kitchen.
    pub fn kitchen(&self) -> &'a Kitchen {
        self.kitchen
    }

    /// The costing as it stands when nothing is tried.
    pub fn costing(&self) -> &Costing {
        &self.costing
    }

    /// What `look` sees in the costing while `trying` holds. `reached` is what the test reaches that it changes. The
    /// problems that `look` sees are those of what was costed anew.
    pub(crate) fn under<T>(&mut self, trying: Trying, reached: &Reached, look: impl FnOnce(&Costing) -> T) -> T {
        let scenario = trying.of(&self.costing.scenario);
        let scenario = std::mem::replace(&mut self.costing.scenario, scenario);
        let problems: Vec<Problem> = std::mem::take(&mut self.costing.problems);
        let (kitchen, costing) = (self.kitchen, &mut self.costing);
        let (tests, recipes, dishes) = anew(kitchen, costing, reached);
        let seen = look(costing);
        put_back(&mut costing.tests, tests);
        put_back(&mut costing.recipes, recipes);
        put_back(&mut costing.dishes, dishes);
        costing.scenario = scenario;
        costing.problems = problems;
        seen
    }
}

/// `costing` under another scenario of the same day and runs: only what `reached` names is costed anew. Prices and allergens
/// are those of `costing`; the problems are those of what was costed anew.
pub fn again(kitchen: &Kitchen, costing: &Costing, scenario: Scenario, reached: &Reached) -> Costing {
    let mut again = Costing { scenario, problems: Vec::new(), ..costing.clone() };
    anew(kitchen, &mut again, reached);
    again
}

/// What stood in a list, by its index.
type Kept<T> = Vec<(usize, Option<T>)>;

/// Costs anew what is reached; gives what stood there.
fn anew(
    kitchen: &Kitchen,
    costing: &mut Costing,
    reached: &Reached,
) -> (Kept<TestCost>, Kept<RecipeCost>, Kept<DishCost>) {
    let (mut tests, mut recipes, mut dishes) = (Vec::new(), Vec::new(), Vec::new());
    for node in &reached.nodes {
        match node {
            Node::Item(_) => {}
            Node::Test(id) => {
                let cost = cost::cost(kitchen, costing, *id);
                put(&mut costing.tests, id.index(), cost, &mut tests);
            }
            Node::Recipe(id) => {
                let cost = made::cost(kitchen, costing, *id);
                put(&mut costing.recipes, id.index(), cost, &mut recipes);
            }
        }
    }
    for index in &reached.dishes {
        let cost = kitchen.dishes.get(*index).and_then(|dish| dish::cost(kitchen, costing, dish));
        put(&mut costing.dishes, *index, cost, &mut dishes);
    }
    (tests, recipes, dishes)
}

/// Puts `new` at `index` and keeps what stood there.
fn put<T>(list: &mut [Option<T>], index: usize, new: Option<T>, kept: &mut Kept<T>) {
    if let Some(slot) = list.get_mut(index) {
        kept.push((index, std::mem::replace(slot, new)));
    }
}

fn put_back<T>(list: &mut [Option<T>], kept: Kept<T>) {
    for (index, old) in kept {
        if let Some(slot) = list.get_mut(index) {
            *slot = old;
        }
    }
}

//! A costing under trial: how things would stand if one test were charged otherwise or had one run alone.
//!
//! Takes a costing; costs anew only what the test reaches, shows it, and puts everything back. What it shows is what
//! [`cost`](super::cost()) gives under that scenario; only the allergens, which no charge changes, are not gone through.

use std::borrow::Cow;

use super::{Charging, Costing, DishCost, Scenario, TestCost, dish, made};
use crate::costing::yield_test::cost;
use crate::kitchen::depends::Reached;
use crate::kitchen::{Kitchen, Node, RecipeId, TestId};

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
    costing: Cow<'a, Costing>,
    /// What is costed anew in turn, and put back.
    tried: Costing,
}

impl<'a> Trial<'a> {
    /// A trial of `costing`, which is `kitchen`'s.
    pub fn of(kitchen: &'a Kitchen, costing: Costing) -> Self {
        Trial::on(kitchen, Cow::Owned(costing))
    }

    /// A trial of a `costing`, which is `kitchen`'s, that somebody else may hold.
    pub(crate) fn on(kitchen: &'a Kitchen, costing: Cow<'a, Costing>) -> Self {
        let tried = costing.under(costing.scenario.clone());
        Trial { kitchen, costing, tried }
    }

    /// The kitchen.
    pub fn kitchen(&self) -> &'a Kitchen {
        self.kitchen
    }

    /// The costing as it stands when nothing is tried.
    pub fn costing(&self) -> &Costing {
        &self.costing
    }

    /// What `look` sees in the costing while `trying` holds: in that of [`again`]. `reached` is what the test reaches that
    /// it changes.
    pub(crate) fn under<T>(&mut self, trying: Trying, reached: &Reached, look: impl FnOnce(&Costing) -> T) -> T {
        let (kitchen, costing, tried) = (self.kitchen, &self.costing, &mut self.tried);
        tried.scenario = trying.of(&costing.scenario);
        let mut recipes = Vec::new();
        let (tests, dishes) = anew(kitchen, tried, reached, |tried, id| {
            let cost = made::cost_again(kitchen, tried, id, costing.recipe(id));
            put(&mut tried.recipes, id.index(), cost, &mut recipes);
        });
        let seen = look(tried);
        put_back(&mut tried.tests, tests);
        put_back(&mut tried.recipes, recipes);
        put_back(&mut tried.dishes, dishes);
        tried.problems.clear();
        seen
    }
}

/// `costing` under another scenario of the same day and runs: only what `reached` names is costed anew. Prices are those of
/// `costing`, as its allergens would be, which are left out; the problems are those of what was costed anew. Recipes are
/// without their lines, so that several such costings of a large book can be held.
pub fn again(kitchen: &Kitchen, costing: &Costing, scenario: Scenario, reached: &Reached) -> Costing {
    let mut again = costing.under(scenario);
    anew(kitchen, &mut again, reached, |again, id| {
        let cost = made::cost_again(kitchen, again, id, costing.recipe(id));
        if let Some(slot) = again.recipes.get_mut(id.index()) {
            *slot = cost;
        }
    });
    again
}

/// What stood in a list, by its index.
type StoodBefore<T> = Vec<(usize, Option<T>)>;

/// Costs anew what is reached, a recipe by `recipe`; gives what stood in the place of tests and dishes.
fn anew(
    kitchen: &Kitchen,
    costing: &mut Costing,
    reached: &Reached,
    mut recipe: impl FnMut(&mut Costing, RecipeId),
) -> (StoodBefore<TestCost>, StoodBefore<DishCost>) {
    let (mut tests, mut dishes) = (Vec::new(), Vec::new());
    for node in &reached.nodes {
        match node {
            Node::Item(_) => {}
            Node::Test(id) => {
                let cost = cost::cost(kitchen, costing, *id);
                put(&mut costing.tests, id.index(), cost, &mut tests);
            }
            Node::Recipe(id) => recipe(costing, *id),
        }
    }
    for index in &reached.dishes {
        let cost = kitchen.dishes.get(*index).and_then(|dish| dish::cost(kitchen, costing, dish));
        put(&mut costing.dishes, *index, cost, &mut dishes);
    }
    (tests, dishes)
}

/// Puts `new` at `index` and keeps what stood there.
fn put<T>(list: &mut [Option<T>], index: usize, new: Option<T>, kept: &mut StoodBefore<T>) {
    if let Some(slot) = list.get_mut(index) {
        kept.push((index, std::mem::replace(slot, new)));
    }
}

fn put_back<T>(list: &mut [Option<T>], kept: StoodBefore<T>) {
    for (index, old) in kept {
        if let Some(slot) = list.get_mut(index) {
            *slot = old;
        }
    }
}

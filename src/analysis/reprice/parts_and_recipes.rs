//! Parts and recipes at new prices: what parts of yield tests cost and are credited with, and what
//! recipes used by others cost.

use std::collections::HashSet;

use super::before_and_after::Pair;
use crate::costing::PartCost;
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::in_order::InOrder;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::Role;
use crate::kitchen::{Node, PartId, RecipeId, TestId, depends};
use crate::number::{Decimal, Overflow, exact};

/// A figure before and after.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CostChange {
    /// Before.
    pub was: Decimal,
    /// With the new prices.
    pub now: Decimal,
}

impl CostChange {
    /// By how much it moved.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit a decimal.
    pub fn by(self) -> Result<Decimal, Overflow> {
        exact::sub(self.now, self.was)
    }

    /// By which part of what it was it moved.
    ///
    /// # Errors
    /// [`Overflow`] when it was nothing, or the figure does not fit a decimal.
    pub fn fraction(self) -> Result<Decimal, Overflow> {
        exact::div(self.by()?, self.was)
    }

    /// Whether it moved at all.
    pub fn moved(self) -> bool {
        self.was != self.now
    }
}

/// What new prices do to a yield test.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TestEffect {
    /// The test.
    pub test: TestId,
    /// The cost of what went in.
    pub cost: CostChange,
    /// Its mains and by-products, in book order.
    pub parts: Vec<PartEffect>,
}

/// What new prices do to a part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PartEffect {
    /// The part.
    pub part: PartId,
    /// What it bears of the test's cost: a main's share, a by-product's credit.
    pub cost: CostChange,
    /// What it costs per gram; `None` when it weighs nothing or the figure does not fit.
    pub per_gram: Option<CostChange>,
    /// What it is charged at per gram, off the top; `None` for a share of what remains.
    pub charge: Option<CostChange>,
}

/// What new prices do to a recipe that others use.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecipeEffect {
    /// The recipe.
    pub recipe: RecipeId,
    /// The cost of a batch, Q and spice of its own card within.
    pub batch: CostChange,
    /// What one base unit of what it makes costs; `None` when that is not known.
    pub unit: Option<(BaseUnitKind, CostChange)>,
}

/// The yield tests whose parts moved, in book order.
pub(super) fn tests(pair: &Pair<'_>) -> Vec<TestEffect> {
    let tests = pair.new.test_ids().filter_map(|test| {
        let (was, now) = (pair.was.test(test)?, pair.now.test(test)?);
        let costs = was.parts.iter().zip(&now.parts);
        if costs.clone().all(|(was, now)| was.cost == now.cost) {
            return None;
        }
        let ids = pair.new.part_ids(test).zip(&pair.new.test(test)?.parts);
        let kept = ids.zip(costs).filter(|((_, part), _)| matches!(part.role, Role::Main | Role::ByProduct));
        let parts = kept.map(|((id, _), (was, now))| part(id, was, now)).collect();
        Some(TestEffect { test, cost: CostChange { was: was.cost, now: now.cost }, parts })
    });
    tests.collect()
}

fn part(part: PartId, was: &PartCost, now: &PartCost) -> PartEffect {
    let both = |of: fn(&PartCost) -> Option<Decimal>| Some(CostChange { was: of(was)?, now: of(now)? });
    PartEffect {
        part,
        cost: CostChange { was: was.cost, now: now.cost },
        per_gram: both(|part| part.rate?.per_unit()),
        charge: both(|part| part.charge?.per_unit()),
    }
}

/// The recipes that others use and whose batch moved, in book order.
pub(super) fn recipes(pair: &Pair<'_>) -> Vec<RecipeEffect> {
    let mut moved: Vec<RecipeEffect> = used(pair).into_iter().filter_map(|id| recipe(pair, id)).collect();
    moved.put_in_order_by_key(|effect| effect.recipe);
    moved
}

/// The recipes that other recipes or yield tests use.
fn used(pair: &Pair<'_>) -> HashSet<RecipeId> {
    let mut used = HashSet::new();
    let mut note = |source: IngredientSource| {
        if let IngredientSource::Made(id) = source {
            used.insert(id);
        }
    };
    for node in &pair.new.order {
        match node {
            Node::Item(_) => {}
            Node::Test(id) => pair.new.test(*id).into_iter().flat_map(depends::of_test).for_each(&mut note),
            Node::Recipe(id) => {
                let lines = pair.new.recipe(*id).into_iter().flat_map(|recipe| &recipe.lines);
                lines.for_each(|line| note(line.source));
            }
        }
    }
    used
}

fn recipe(pair: &Pair<'_>, id: RecipeId) -> Option<RecipeEffect> {
    let (was, now) = (pair.was.recipe(id)?, pair.now.recipe(id)?);
    let batch = CostChange { was: was.batch, now: now.batch };
    if !batch.moved() {
        return None;
    }
    let unit = match (was.unit_rate(), now.unit_rate()) {
        (Some((kind_was, was)), Some((kind, now))) if kind_was == kind => {
            let both = was.unit_cost().and_then(|was| Ok(CostChange { was, now: now.unit_cost()? }));
            both.ok().map(|change| (kind, change))
        }
        _ => None,
    };
    Some(RecipeEffect { recipe: id, batch, unit })
}

//! Flow of moved prices through yield tests and recipes: by how much each bought item moves the cost of every part and
//! of the food of every batch.
//!
//! Takes both sides; goes once through the kitchen in cost order. A cost is a sum of what was bought times constants: a line
//! is an amount times a rate, a fraction a share of the input, a joint part a fixed share of what credits leave. So what an
//! item moves flows by the same constants as money does. Where an item's own new row changes an amount too (its pack now
//! says what a piece weighs), that belongs to the item.

use super::before_and_after::Pair;
use crate::analysis::flow_constants::{batches, cost_of, joint_shares, taken};
use crate::analysis::moves_by_item::{Moves, Sum};
use crate::costing::rate::Amount;
use crate::costing::yield_test::charge::in_scenario;
use crate::costing::yield_test::input_cost::{priced, weight_cost};
use crate::costing::{LineCost, TestCost};
use crate::kitchen::recipe::{IngredientSource, Line};
use crate::kitchen::yield_test::{Charge, Test};
use crate::kitchen::{ItemId, Node, PartId, RecipeId, TestId};
use crate::number::{Decimal, exact};

/// What moves the cost of recipes and parts. Lists run beside the kitchen's.
pub(super) struct CostFlow<'a> {
    pair: &'a Pair<'a>,
    /// The food of a batch.
    recipes: Vec<Moves>,
    /// The parts of every test.
    parts: Vec<Vec<Moves>>,
    none: Moves,
}

impl<'a> CostFlow<'a> {
    /// Goes through the kitchen.
    pub(super) fn of(pair: &'a Pair<'a>) -> Self {
        let mut flow = CostFlow {
            pair,
            recipes: vec![Moves::default(); pair.new.recipes.len()],
            parts: vec![Vec::new(); pair.new.tests.len()],
            none: Moves::default(),
        };
        let mut sum = Sum::over(pair.new.items.len());
        for node in &pair.new.order {
            match node {
                Node::Item(_) => {}
                Node::Test(id) => {
                    let parts = flow.test(*id, &mut sum).unwrap_or_default();
                    if let Some(slot) = flow.parts.get_mut(id.index()) {
                        *slot = parts;
                    }
                }
                Node::Recipe(id) => {
                    flow.recipe(*id, &mut sum);
                    if let Some(slot) = flow.recipes.get_mut(id.index()) {
                        *slot = sum.finish();
                    }
                }
            }
        }
        flow
    }

    /// What moves the food of a batch of `id`.
    pub(super) fn food(&self, id: RecipeId) -> &Moves {
        self.recipes.get(id.index()).unwrap_or(&self.none)
    }

    fn part(&self, id: PartId) -> &Moves {
        self.parts.get(id.test.index()).and_then(|parts| parts.get(id.index())).unwrap_or(&self.none)
    }

    fn recipe(&self, id: RecipeId, sum: &mut Sum) {
        let Pair { old, was, new, now, .. } = *self.pair;
        let (Some(before), Some(after)) = (old.recipe(id), new.recipe(id)) else { return };
        let (Some(was), Some(now)) = (was.recipe(id), now.recipe(id)) else { return };
        let before = before.lines.iter().zip(&was.lines);
        for ((line_was, was), (line_now, now)) in before.zip(after.lines.iter().zip(&now.lines)) {
            self.line((line_was, was), (line_now, now), sum);
        }
    }

    fn line(&self, (line_was, was): (&Line, &LineCost), (line_now, now): (&Line, &LineCost), sum: &mut Sum) {
        let Pair { was: costed_was, now: costed_now, new, .. } = *self.pair;
        let item = bought(line_now.source).or_else(|| bought(self.pair.new_source(line_was.source)));
        let taken = |costing, line: &Line, cost: &LineCost| match cost {
            LineCost::Costed { trace, .. } => taken(costing, trace, line.used).ok().flatten(),
            LineCost::Uncosted => None,
        };
        match (taken(costed_was, line_was, was), taken(costed_now, line_now, now)) {
            (Some((from, by_was)), Some((of, by))) if from == of => {
                match of {
                    IngredientSource::Part(part) => sum.add_times(self.part(part), by),
                    IngredientSource::Made(id) => {
                        sum.add_times(self.food(id), batches(new, costed_now, id, by).unwrap_or(by))
                    }
                    IngredientSource::Bought(_) | IngredientSource::Unknown => {}
                }
                // More or less of it than before: what it cost before, times the new amount, less what the line cost.
                if by != by_was
                    && let (Some(item), Some(cost)) = (item, cost_of(costed_was, of))
                {
                    let other_amount = by.times(cost).and_then(Amount::value);
                    if let Ok(moved) = other_amount.and_then(|cost| exact::sub(cost, money(was))) {
                        sum.add(item, moved);
                    }
                }
            }
            _ => {
                if let (Some(item), Ok(moved)) = (item, exact::sub(money(now), money(was))) {
                    sum.add(item, moved);
                }
            }
        }
    }

    /// What moves the parts of a test. `None` when it is not costed on both sides.
    fn test(&self, id: TestId, sum: &mut Sum) -> Option<Vec<Moves>> {
        let (before, after) = (self.pair.old.test(id)?, self.pair.new.test(id)?);
        let (was, now) = (self.pair.was.test(id)?, self.pair.now.test(id)?);
        self.input((before, was), (after, now), sum);
        let input = sum.finish();
        sum.add_all(&input);
        self.added(before, after, sum);
        let all = sum.finish();
        let charging = self.pair.now.scenario.charging;
        let ids = self.pair.new.part_ids(id);
        let charges: Vec<Charge> =
            after.parts.iter().zip(ids).map(|(part, id)| in_scenario(charging, id, part)).collect();
        let mut parts = Vec::with_capacity(after.parts.len());
        for (index, (part, charge)) in after.parts.iter().zip(&charges).enumerate() {
            match charge {
                Charge::Fraction(fraction) => {
                    if let Ok(weight) = exact::mul(*fraction, part.grams) {
                        sum.add_times(&input, Amount { num: weight, den: now.grams });
                    }
                }
                Charge::Market(buy_in) => {
                    let cost = |test: &TestCost| test.parts.get(index).map_or(Decimal::ZERO, |part| part.cost);
                    if let Ok(moved) = exact::sub(cost(now), cost(was)) {
                        sum.add(buy_in.item, moved);
                    }
                }
                Charge::Free | Charge::Price { .. } | Charge::Joint { .. } => {}
            }
            parts.push(sum.finish());
        }
        sum.add_all(&all);
        parts.iter().for_each(|credit| sum.take_away(credit));
        let remainder = sum.finish();
        for (index, share) in joint_shares(after, &charges)? {
            sum.add_times(&remainder, share);
            if let Some(slot) = parts.get_mut(index) {
                *slot = sum.finish();
            }
        }
        Some(parts)
    }

    /// What moves the cost of the input of a test.
    fn input(&self, (before, was): (&Test, &TestCost), (after, now): (&Test, &TestCost), sum: &mut Sum) {
        if let Some(item) = bought(after.input).or_else(|| bought(self.pair.new_source(before.input))) {
            if let Ok(moved) = exact::sub(now.input_cost, was.input_cost) {
                sum.add(item, moved);
            }
            return;
        }
        for run in &after.runs {
            self.weight(after.input, run.grams, run.count, sum);
        }
    }

    /// What moves the cost of what was added to a test.
    fn added(&self, before: &Test, after: &Test, sum: &mut Sum) {
        let Pair { old, was, new, now, .. } = *self.pair;
        for (was_added, added) in before.added.iter().zip(&after.added) {
            let (Some(source_was), Some(source)) = (was_added.source, added.source) else { continue };
            let Some(item) = bought(source) else {
                self.weight(source, added.grams, added.count, sum);
                continue;
            };
            let cost_was = weight_cost(old, was, source_was, was_added.grams, was_added.count);
            let cost_now = weight_cost(new, now, source, added.grams, added.count);
            if let (Ok(cost_was), Ok(cost_now)) = (cost_was, cost_now)
                && let Ok(moved) = exact::sub(cost_now, cost_was)
            {
                sum.add(item, moved);
            }
        }
    }

    /// What moves the cost of so many grams of a part or a recipe.
    fn weight(&self, source: IngredientSource, grams: Decimal, count: Option<Decimal>, sum: &mut Sum) {
        let Pair { new, now, .. } = *self.pair;
        let Ok((amount, rate)) = priced(new, now, source, grams, count) else { return };
        let Ok(by) = amount.over(rate.per) else { return };
        match source {
            IngredientSource::Part(part) => sum.add_times(self.part(part), by),
            IngredientSource::Made(id) => sum.add_times(self.food(id), batches(new, now, id, by).unwrap_or(by)),
            IngredientSource::Bought(_) | IngredientSource::Unknown => {}
        }
    }
}

fn bought(source: IngredientSource) -> Option<ItemId> {
    match source {
        IngredientSource::Bought(id) => Some(id),
        _ => None,
    }
}

fn money(line: &LineCost) -> Decimal {
    match line {
        LineCost::Costed { cost, .. } => *cost,
        LineCost::Uncosted => Decimal::ZERO,
    }
}

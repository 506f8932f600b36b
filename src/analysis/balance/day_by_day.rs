//! The house while a plan runs through it, day by day: what is wanted flows from dishes to what stands before them.
//!
//! Takes what is served on each day in turn; gives what that day took, made and threw away. A day goes only through what
//! it wants, and through what is too old on it.

use std::collections::{BTreeMap, BTreeSet, HashMap};

use super::rest;
use super::{GoesIn, PartBalance};
use crate::analysis::balance::fifo_stock::Shelf;
use crate::analysis::batch_usage::{self, Draw};
use crate::analysis::stock_on_hand;
use crate::costing::Costing;
use crate::costing::rate::Amount;
use crate::kitchen::plan::Served;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::{Role, Test};
use crate::kitchen::{ItemId, Kitchen, Node, PartId, RecipeId, TestId};
use crate::number::{Decimal, Overflow, exact, round_up_steps};

/// What does not change while plans run.
pub(super) struct Rules<'a> {
    pub(super) kitchen: &'a Kitchen,
    pub(super) costing: &'a Costing,
    batches: Vec<Option<Vec<Draw>>>,
    /// Where every test and recipe stands in the order of costing.
    places: HashMap<Node, usize>,
}

impl<'a> Rules<'a> {
    pub(super) fn of(kitchen: &'a Kitchen, costing: &'a Costing) -> Result<Self, Overflow> {
        let ids = (0..kitchen.recipes.len()).map(RecipeId::new);
        Ok(Rules {
            kitchen,
            costing,
            batches: ids.map(|id| batch_usage::of_batch(kitchen, costing, id)).collect::<Result<_, _>>()?,
            places: kitchen.order.iter().enumerate().map(|(at, node)| (*node, at)).collect(),
        })
    }

    /// From which day on a part made on `day` is too old: the day of making is the first that it keeps (FDA Food Code
    /// 3-501.17), so that one which keeps 3 days is last used two days later. Whatever Keeps says, it serves on its own day.
    /// `None` where it is not stated, nothing says how far days lie apart, or the plan ends before.
    fn too_old_from(&self, id: PartId, day: usize) -> Option<usize> {
        let keeps = self.kitchen.part(id)?.reuse.keeps?.max(Decimal::ONE);
        let days = &self.kitchen.plan.days;
        let is_good = |later: usize| {
            let nth_day = days.between(day, later).and_then(|after| after.checked_add(1));
            nth_day.is_none_or(|nth| Decimal::from(nth) <= keeps)
        };
        // Days come in order: those on which it is good stand before the others.
        let (mut good, mut end) = (day, days.len());
        while good.checked_add(1)? < end {
            let middle = good.midpoint(end);
            if is_good(middle) { good = middle } else { end = middle }
        }
        Some(end).filter(|end| *end < days.len())
    }
}

/// What a day took, made and threw away: parts and tests that it touched, items that it drew.
#[derive(Debug, Clone, Default)]
pub(super) struct DayMoves {
    pub(super) parts: BTreeMap<PartId, PartBalance>,
    pub(super) tests: BTreeMap<TestId, GoesIn>,
    pub(super) items: BTreeMap<ItemId, Decimal>,
}

/// What is there.
#[derive(Clone)]
pub(super) struct House<'a> {
    rules: &'a Rules<'a>,
    pub(super) shelves: BTreeMap<PartId, Shelf>,
    /// The day on which parts are too old, and when these were made.
    expiring: BTreeMap<usize, Vec<(PartId, usize)>>,
    /// Batches of recipes.
    pub(super) recipes: BTreeMap<RecipeId, Decimal>,
}

/// What is on hand before the plan.
#[derive(Debug, Default)]
pub(super) struct Before {
    pub(super) parts: BTreeMap<PartId, Decimal>,
    pub(super) recipes: BTreeMap<RecipeId, Decimal>,
    pub(super) items: BTreeMap<ItemId, Decimal>,
    pub(super) not_counted: Vec<usize>,
}

impl Before {
    pub(super) fn of(kitchen: &Kitchen, costing: &Costing) -> Result<Self, Overflow> {
        let mut before = Before::default();
        for held in stock_on_hand::held(kitchen, costing) {
            match (held.source, held.amount) {
                (_, None) => before.not_counted.push(held.row),
                (IngredientSource::Bought(id), Some(amount)) => add(&mut before.items, id, amount)?,
                (IngredientSource::Made(id), Some(batches)) => add(&mut before.recipes, id, batches)?,
                // What comes of a test that is not costed serves nothing that is.
                (IngredientSource::Part(id), Some(grams)) if costing.test(id.test).is_some() => {
                    add(&mut before.parts, id, grams)?;
                }
                (IngredientSource::Part(_) | IngredientSource::Unknown, Some(_)) => {}
            }
        }
        Ok(before)
    }
}

/// What is wanted on one day: batches of recipes, grams of parts, and where in the order of costing all of it stands.
#[derive(Default)]
struct DayWants {
    recipes: BTreeMap<RecipeId, Decimal>,
    parts: BTreeMap<PartId, Decimal>,
    open: BTreeSet<usize>,
}

pub(super) fn add<K: Ord>(to: &mut BTreeMap<K, Decimal>, key: K, amount: Decimal) -> Result<(), Overflow> {
    add_to(to.entry(key).or_default(), amount)
}

pub(super) fn add_to(sum: &mut Decimal, amount: Decimal) -> Result<(), Overflow> {
    *sum = exact::add(*sum, amount)?;
    Ok(())
}

impl<'a> House<'a> {
    /// The house before the first day: what is on hand counts as made on it.
    pub(super) fn open(rules: &'a Rules<'a>, before: &Before) -> Result<Self, Overflow> {
        let mut house =
            House { rules, shelves: BTreeMap::new(), expiring: BTreeMap::new(), recipes: before.recipes.clone() };
        for (id, grams) in &before.parts {
            house.put(*id, 0, *grams)?;
            house.shelves.entry(*id).or_default().was_before(*grams)?;
        }
        Ok(house)
    }

    /// One day of the plan: portions of what is served.
    pub(super) fn day(&mut self, day: usize, served: &[(Served, Decimal)]) -> Result<DayMoves, Overflow> {
        let mut done = DayMoves::default();
        for (part, made) in self.expiring.remove(&day).unwrap_or_default() {
            self.throw_away(part, made, &mut done)?;
        }
        let mut wanted = DayWants::default();
        for (served, portions) in served {
            let share = batch_usage::share_of(self.rules.kitchen, self.rules.costing, *served);
            if let Some((recipe, share)) = share {
                self.want(&mut wanted, &mut done, IngredientSource::Made(recipe), share.times(*portions)?.value()?)?;
            }
        }
        // What is wanted last in the order of costing comes first: all that wants a node stands behind it.
        while let Some(at) = wanted.open.pop_last() {
            match self.rules.kitchen.order.get(at) {
                Some(Node::Recipe(id)) => self.cook(*id, &mut wanted, &mut done)?,
                Some(Node::Test(id)) => self.break_down(*id, day, &mut wanted, &mut done)?,
                Some(Node::Item(_)) | None => {}
            }
        }
        for (part, balance) in &mut done.parts {
            balance.left_over = self.left(*part)?;
            balance.left_of_made = self.left_of_made(*part)?;
        }
        Ok(done)
    }

    /// What there is of a part.
    pub(super) fn left(&self, id: PartId) -> Result<Decimal, Overflow> {
        self.shelves.get(&id).map_or(Ok(Decimal::ZERO), Shelf::left)
    }

    /// What there is of it that the plan made.
    pub(super) fn left_of_made(&self, id: PartId) -> Result<Decimal, Overflow> {
        self.shelves.get(&id).map_or(Ok(Decimal::ZERO), Shelf::left_of_made)
    }

    /// A part's balance of the day, which begins with what there is.
    fn part<'d>(&self, done: &'d mut DayMoves, id: PartId) -> Result<&'d mut PartBalance, Overflow> {
        let on_hand = self.left(id)?;
        Ok(done.parts.entry(id).or_insert(PartBalance { on_hand, ..PartBalance::default() }))
    }

    fn put(&mut self, id: PartId, day: usize, grams: Decimal) -> Result<(), Overflow> {
        if grams.is_zero() {
            return Ok(());
        }
        if let Some(due) = self.rules.too_old_from(id, day) {
            self.expiring.entry(due).or_default().push((id, day));
        }
        self.shelves.entry(id).or_default().put(day, grams)
    }

    /// What was made on a day that is too long ago is not there any more.
    fn throw_away(&mut self, id: PartId, made: usize, done: &mut DayMoves) -> Result<(), Overflow> {
        let (there, there_of_made) = (self.left(id)?, self.left_of_made(id)?);
        let gone = self.shelves.get_mut(&id).map_or(Ok(Decimal::ZERO), |shelf| shelf.throw_away(made))?;
        let of_made = rest(there_of_made, self.left_of_made(id)?)?;
        if gone.is_zero() {
            return Ok(());
        }
        let part = done.parts.entry(id).or_insert(PartBalance { on_hand: there, ..PartBalance::default() });
        add_to(&mut part.too_old_of_made, of_made)?;
        add_to(&mut part.too_old, gone)
    }

    /// Wants so much of `source`: of an item in base units of its price, of a part in grams, of a recipe in batches.
    fn want(
        &self,
        wanted: &mut DayWants,
        done: &mut DayMoves,
        source: IngredientSource,
        amount: Decimal,
    ) -> Result<(), Overflow> {
        let node = match source {
            IngredientSource::Bought(id) => return add(&mut done.items, id, amount),
            IngredientSource::Unknown => return Ok(()),
            IngredientSource::Part(id) => {
                add(&mut wanted.parts, id, amount)?;
                Node::Test(id.test)
            }
            IngredientSource::Made(id) => {
                add(&mut wanted.recipes, id, amount)?;
                Node::Recipe(id)
            }
        };
        wanted.open.extend(self.rules.places.get(&node));
        Ok(())
    }

    fn cook(&mut self, id: RecipeId, wanted: &mut DayWants, done: &mut DayMoves) -> Result<(), Overflow> {
        let Some(mut batches) = wanted.recipes.get(&id).copied() else { return Ok(()) };
        if let Some(now) = self.recipes.get_mut(&id) {
            let taken = batches.min(*now);
            *now = rest(*now, taken)?;
            batches = rest(batches, taken)?;
        }
        let draws = self.rules.batches.get(id.index()).into_iter().flatten().flatten();
        draws.into_iter().try_for_each(|draw| self.want(wanted, done, draw.of, exact::mul(draw.amount, batches)?))
    }

    fn break_down(
        &mut self,
        id: TestId,
        day: usize,
        wanted: &mut DayWants,
        done: &mut DayMoves,
    ) -> Result<(), Overflow> {
        let rules = self.rules;
        let (Some(test), Some(cost)) = (rules.kitchen.test(id), rules.costing.test(id)) else { return Ok(()) };
        let ids: Vec<PartId> = (0..test.parts.len()).map(|index| PartId::new(id, index)).collect();
        let asked: Vec<Decimal> = ids.iter().map(|id| wanted.parts.get(id).copied().unwrap_or_default()).collect();
        let mut missing = Vec::with_capacity(ids.len());
        for (part, asked) in ids.iter().zip(&asked) {
            self.part(done, *part)?;
            let taken = self.shelves.get_mut(part).map_or(Ok(Decimal::ZERO), |shelf| shelf.take(*asked))?;
            missing.push(rest(*asked, taken)?);
        }
        let mut goes_in = Decimal::ZERO;
        for (part, missing) in test.parts.iter().zip(&missing).filter(|(part, _)| part.role == Role::Main) {
            if !part.grams.is_zero() {
                goes_in = goes_in.max(exact::div(exact::mul(*missing, cost.grams)?, part.grams)?);
            }
        }
        let mut pieces = None;
        if let Some(count) = counted(test).filter(|_| !goes_in.is_zero()) {
            // As a spreadsheet would: what is a whole number but for its last digits stays one.
            let whole = round_up_steps(exact::div(exact::mul(goes_in, count)?, cost.grams)?);
            goes_in = exact::div(exact::mul(whole, cost.grams)?, count)?;
            pieces = Some(whole);
        }
        self.need(test, cost.grams, goes_in, wanted, done)?;
        for (index, (part, missing)) in ids.iter().zip(missing).enumerate() {
            let grams = test.parts.get(index).map_or(Decimal::ZERO, |part| part.grams);
            let made = exact::div(exact::mul(goes_in, grams)?, cost.grams)?;
            let used = made.min(missing);
            let (left, short) = (rest(made, used)?, rest(missing, used)?);
            let asked = asked.get(index).copied().unwrap_or_default();
            let balance = self.part(done, *part)?;
            add_to(&mut balance.made, made)?;
            add_to(&mut balance.wanted, asked)?;
            add_to(&mut balance.short, short)?;
            add_to(&mut balance.used, rest(asked, short)?)?;
            self.put(*part, day, left)?;
        }
        done.tests.insert(id, GoesIn { grams: goes_in, pieces });
        Ok(())
    }

    /// What `goes_in` grams of a test need, of which all runs together took `pooled`.
    fn need(
        &self,
        test: &Test,
        pooled: Decimal,
        goes_in: Decimal,
        wanted: &mut DayWants,
        done: &mut DayMoves,
    ) -> Result<(), Overflow> {
        if goes_in.is_zero() {
            return Ok(());
        }
        let by = Amount { num: goes_in, den: pooled };
        let draws = batch_usage::of_test(self.rules.kitchen, self.rules.costing, test, by)?;
        draws.into_iter().try_for_each(|draw| self.want(wanted, done, draw.of, draw.amount))
    }
}

/// How many pieces the runs of a test took in together, where each of them counts.
pub(super) fn counted(test: &Test) -> Option<Decimal> {
    let counts: Option<Vec<Decimal>> = test.runs.iter().map(|run| run.count).collect();
    exact::sum(counts?).ok().filter(|count| *count > Decimal::ZERO)
}

//! Enough for how many: the largest portions of a plan for which no trim is short that nothing is bought in for.
//!
//! Day by day in the plan's order: what an earlier day can serve it serves, and what it leaves is there on later ones as
//! long as it keeps. On one day the dishes that want the same trim are cut by one share, in whole portions; then, in the
//! plan's order and portion by portion, as many more are served as there is still enough for.

use std::collections::{BTreeMap, BTreeSet};

use super::purchases::stand_in;
use crate::analysis::balance::day_by_day::{Before, DayMoves, House, Rules};
use crate::analysis::portion_usage::{Usage, Uses};
use crate::analysis::where_used::Reach;
use crate::kitchen::plan::Served;
use crate::kitchen::{PartId, TestId};
use crate::number::{Decimal, Overflow, exact, half_up};

/// How many of a dish there is enough trim for on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Enough {
    /// The day, as an index into the plan's days.
    pub day: usize,
    /// What is served.
    pub served: Served,
    /// Portions planned.
    pub planned: Decimal,
    /// Portions for which there is enough.
    pub portions: Decimal,
}

/// How many portions there is enough trim for.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Promise {
    /// The trim: short in the plan, or once others are cut, with nothing to buy in its place.
    pub parts: Vec<PartId>,
    /// Every dish that wants any of it, day by day.
    pub portions: Vec<Enough>,
    /// Whether dishes had to share what there was on some day.
    pub is_shared: bool,
    /// Whether every day was worked out; a plan of very many days and portions is not.
    pub is_whole: bool,
}

impl Promise {
    /// All days together: what is served, planned, and enough for.
    ///
    /// # Errors
    /// [`Overflow`] when a sum does not fit.
    pub fn over_the_plan(&self) -> Result<Vec<(Served, Decimal, Decimal)>, Overflow> {
        let mut sums: indexmap::IndexMap<Served, (Decimal, Decimal)> = indexmap::IndexMap::new();
        for one in &self.portions {
            let (planned, portions) = sums.entry(one.served).or_default();
            *planned = exact::add(*planned, one.planned)?;
            *portions = exact::add(*portions, one.portions)?;
        }
        Ok(sums.into_iter().map(|(served, (planned, portions))| (served, planned, portions)).collect())
    }
}

/// How much may be gone through: parts held and served, over all trials. A plan of a restaurant takes some thousands.
const MOST: usize = 4_000_000;

/// The largest portions of a plan.
pub(super) fn promise(
    rules: &Rules<'_>,
    before: &Before,
    days: &[Vec<(Served, Decimal)>],
) -> Result<Promise, Overflow> {
    let mut search = Search {
        rules,
        uses: Uses::of(rules.kitchen, rules.costing)?,
        reaches: BTreeMap::new(),
        wanted_by_tests: wanted_by_tests(rules),
        left: MOST,
    };
    let mut house = House::open(rules, before)?;
    let mut parts: BTreeSet<PartId> = BTreeSet::new();
    let mut promised = Vec::new();
    let mut promise = Promise { is_whole: true, ..Promise::default() };
    for (day, planned) in days.iter().enumerate() {
        let Some(cut) = search.day(&house, day, planned)? else {
            promise.is_whole = false;
            break;
        };
        promise.is_shared |= cut.is_shared;
        parts.extend(cut.parts);
        house = cut.after;
        promised.push((planned, cut.portions));
    }
    for (day, (planned, portions)) in promised.into_iter().enumerate() {
        for ((served, planned), portions) in planned.iter().zip(portions) {
            if !planned.is_zero() && parts.iter().any(|part| search.takes(*served, *part)) {
                promise.portions.push(Enough { day, served: *served, planned: *planned, portions });
            }
        }
    }
    promise.parts = parts.into_iter().collect();
    Ok(promise)
}

/// Parts that go into a test, by which what a portion wants of them may move in steps.
fn wanted_by_tests(rules: &Rules<'_>) -> BTreeSet<PartId> {
    let tests = rules.kitchen.tests.iter();
    let sources =
        tests.flat_map(|test| std::iter::once(test.input).chain(test.added.iter().filter_map(|added| added.source)));
    sources
        .filter_map(
            |source| if let crate::kitchen::recipe::IngredientSource::Part(id) = source { Some(id) } else { None },
        )
        .collect()
}

struct Search<'a> {
    rules: &'a Rules<'a>,
    uses: Uses,
    reaches: BTreeMap<TestId, Reach>,
    wanted_by_tests: BTreeSet<PartId>,
    /// How much may still be gone through.
    left: usize,
}

/// A day with the portions that there is enough for.
struct CutDay<'a> {
    portions: Vec<Decimal>,
    /// The house after it.
    after: House<'a>,
    /// What was short with more.
    parts: BTreeSet<PartId>,
    is_shared: bool,
}

impl<'a> Search<'a> {
    /// Whether a part goes into what is served.
    fn takes(&mut self, served: Served, part: PartId) -> bool {
        let rules = self.rules;
        let new = || Reach::of(rules.kitchen, rules.costing, part.test);
        let reach = self.reaches.entry(part.test).or_insert_with(new);
        reach.served(rules.kitchen, served).contains(&part.index())
    }

    /// One day: the portions for which nothing is short. `None` when there is too much to go through.
    fn day(
        &mut self,
        house: &House<'a>,
        day: usize,
        planned: &[(Served, Decimal)],
    ) -> Result<Option<CutDay<'a>>, Overflow> {
        let mut served = planned.to_vec();
        let mut parts = BTreeSet::new();
        let mut cut: BTreeSet<usize> = BTreeSet::new();
        let mut is_shared = false;
        let mut after = loop {
            let Some((tried, after)) = self.trial(house, day, &served)? else { return Ok(None) };
            let Some((part, short)) = self.short(&tried) else { break after };
            parts.insert(part);
            let mut users = Vec::new();
            for (index, (dish, portions)) in served.iter().enumerate() {
                if !portions.is_zero() && self.takes(*dish, part) {
                    users.push(index);
                }
            }
            if users.is_empty() {
                // Nobody could do with less of it.
                break after;
            }
            is_shared |= users.len() > 1;
            cut.extend(users.iter().copied());
            self.fewer(planned, &mut served, &users, (part, short))?;
        };
        // What whole portions leave.
        let mut more = true;
        while std::mem::take(&mut more) {
            for index in &cut {
                let Some((_, portions)) = served.get(*index) else { continue };
                let most = planned.get(*index).map_or(Decimal::ZERO, |(_, most)| *most);
                let next = exact::add(*portions, Decimal::ONE)?.min(most);
                if next <= *portions {
                    continue;
                }
                let mut with = served.clone();
                with.get_mut(*index).into_iter().for_each(|(_, portions)| *portions = next);
                let Some((tried, then)) = self.trial(house, day, &with)? else { return Ok(None) };
                if self.short(&tried).is_none() {
                    (served, after, more) = (with, then, true);
                }
            }
        }
        Ok(Some(CutDay {
            portions: served.into_iter().map(|(_, portions)| portions).collect(),
            after,
            parts,
            is_shared,
        }))
    }

    /// What a day comes to with these portions. `None` when there is too much to go through.
    fn trial(
        &mut self,
        house: &House<'a>,
        day: usize,
        served: &[(Served, Decimal)],
    ) -> Result<Option<(DayMoves, House<'a>)>, Overflow> {
        let mut house = house.clone();
        let done = house.day(day, served)?;
        let gone_through = [house.shelves.len(), house.recipes.len(), done.parts.len(), served.len(), 1];
        let left = self.left.checked_sub(gone_through.into_iter().fold(0, usize::saturating_add));
        self.left = left.unwrap_or_default();
        Ok(left.map(|_| (done, house)))
    }

    /// The first part that is short and that nothing is bought in for.
    fn short(&self, day: &DayMoves) -> Option<(PartId, Decimal)> {
        let short = day.parts.iter().filter(|(_, part)| !part.short.is_zero());
        let mut unsaid = short.filter(|(id, _)| stand_in(self.rules.kitchen, self.rules.costing, **id).is_none());
        unsaid.next().map(|(id, part)| (*id, part.short))
    }

    /// Cuts `users` by one share to the most portions that could do with so much less of a part: never to fewer than are
    /// enough.
    fn fewer(
        &self,
        planned: &[(Served, Decimal)],
        served: &mut [(Served, Decimal)],
        users: &[usize],
        (part, short): (PartId, Decimal),
    ) -> Result<(), Overflow> {
        let of = |index: &usize, list: &[(Served, Decimal)]| list.get(*index).map_or(Decimal::ZERO, |(_, many)| *many);
        // The dish that has kept the largest share of its plan.
        let mut largest: Option<(Decimal, Decimal)> = None;
        for index in users {
            let (many, all) = (of(index, served), of(index, planned));
            let is_larger = |(most, of_all): (Decimal, Decimal)| Ok(exact::mul(many, of_all)? > exact::mul(most, all)?);
            if largest.map_or(Ok(true), is_larger)? {
                largest = Some((many, all));
            }
        }
        let Some((most, of_all)) = largest else { return Ok(()) };
        let before: Vec<Decimal> = users.iter().map(|index| of(index, served)).collect();
        if let Some(less) = self.share_less(planned, users, (part, short))? {
            let share = exact::sub(exact::div(most, of_all)?, less)?.max(Decimal::ZERO);
            for index in users {
                let fits = half_up(exact::mul(of(index, planned), share).unwrap_or_default(), 12).floor();
                served.get_mut(*index).into_iter().for_each(|(_, many)| *many = fits.min(*many));
            }
        }
        let same = users.iter().zip(&before).all(|(index, before)| of(index, served) == *before);
        if same {
            // One portion fewer of those that have kept the largest share.
            for index in users {
                let (many, all) = (of(index, served), of(index, planned));
                if exact::mul(many, of_all)? == exact::mul(most, all)? {
                    let fewer = exact::sub(many.ceil(), Decimal::ONE)?;
                    served.get_mut(*index).into_iter().for_each(|(_, many)| *many = fewer);
                }
            }
        }
        Ok(())
    }

    /// By how much the share must fall at the least. With a share lower by x a dish serves fewer by less than x × planned + 1,
    /// and so much less of the part can be wanted than a portion takes; what is made of it does not grow. `None` where what
    /// a portion takes is not that simple, or the share falls by less than says anything.
    fn share_less(
        &self,
        planned: &[(Served, Decimal)],
        users: &[usize],
        (part, short): (PartId, Decimal),
    ) -> Result<Option<Decimal>, Overflow> {
        if self.wanted_by_tests.contains(&part) {
            return Ok(None);
        }
        let (mut one_each, mut all) = (Decimal::ZERO, Decimal::ZERO);
        for (served, planned) in users.iter().filter_map(|index| planned.get(*index)) {
            let takes = self.portion(*served)?;
            let grams = takes.and_then(|takes| takes.parts.get(&part).copied()).unwrap_or_default();
            one_each = exact::add(one_each, grams)?;
            all = exact::add(all, exact::mul(grams, *planned)?)?;
        }
        let less = exact::sub(short, one_each)?;
        if less <= Decimal::ZERO || all.is_zero() {
            return Ok(None);
        }
        // What is less than a decimal holds says nothing either.
        Ok(exact::div(less, all).ok())
    }

    fn portion(&self, served: Served) -> Result<Option<Usage>, Overflow> {
        match served {
            Served::Dish(index) => Ok(self.uses.dishes.get(index).cloned().flatten()),
            Served::Recipe(_) => self.uses.portion(self.rules.kitchen, self.rules.costing, served),
        }
    }
}

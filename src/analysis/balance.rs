//! Trim balance: is there enough? What the plan takes of every part, what is made beside, what is short and what is
//! left.
//!
//! Takes a kitchen with a plan and its costing; gives weights in grams, bought items in base units of their price. Day by
//! day, demand flows from dishes through recipes to parts, what goes into each test is set by its mains, and what it needs
//! flows on to what stands before it. Money plays no part: what a day needs is the same however trim is charged.

mod day_by_day;
mod enough;
mod fifo_stock;
mod purchases;

use std::collections::BTreeMap;

use indexmap::IndexMap;

use crate::costing::Costing;
use crate::kitchen::plan::Served;
use crate::kitchen::{ItemId, Kitchen, PartId, RecipeId, TestId};
use crate::number::{Decimal, Overflow, exact};
use day_by_day::{Before, DayMoves, House, Rules, add_to, counted};
pub use enough::{Enough, Promise};
pub use purchases::{ItemBalance, Purchases, Sums, WholePacks};

/// The balance of a plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Balance {
    /// What is served, in order of first appearance in the plan.
    pub servings: Vec<Serving>,
    /// Every test, beside the kitchen's; `None` where it is not costed.
    pub tests: Vec<Option<TestBalance>>,
    /// Bought items, what stands in for short trim within.
    pub purchases: Purchases,
    /// The same in the kitchen that bins its trim and buys what it stands in for; both leave the same store room.
    pub purchases_binned: Purchases,
    /// Recipes on hand that the plan could draw on, with the batches before and after it.
    pub recipes: Vec<RecipeStock>,
    /// Rows of the stock list that could not be brought to a weight, as indices into the entries: they count as nothing.
    pub not_counted: Vec<usize>,
    /// How many portions trim is enough for that nothing is bought in for; `None` where no such trim is short.
    pub promise: Option<Promise>,
    /// The parts that each day touched.
    days: Vec<BTreeMap<PartId, PartBalance>>,
}

/// A dish of the plan, all days together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Serving {
    /// What is served.
    pub served: Served,
    /// Portions planned.
    pub portions: Decimal,
    /// Whether it is costed; what is not takes nothing here.
    pub costed: bool,
}

/// What goes into a test.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TestBalance {
    /// Grams that go in, all days together.
    pub goes_in: Decimal,
    /// Pieces, where every run of the test counts them: whole ones.
    pub pieces: Option<Decimal>,
    /// The parts, beside the test's own.
    pub parts: Vec<PartBalance>,
}

/// A part over the plan, in grams. On hand + made = used + left over + too old; wanted = used + short.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct PartBalance {
    /// On hand before the first day.
    pub on_hand: Decimal,
    /// Made.
    pub made: Decimal,
    /// Wanted.
    pub wanted: Decimal,
    /// Used of what there was.
    pub used: Decimal,
    /// Left when the plan is through.
    pub left_over: Decimal,
    /// Of what is left over, what the plan made.
    pub left_of_made: Decimal,
    /// Older than it may be kept before anyone wanted it.
    pub too_old: Decimal,
    /// Of what is too old, what the plan made.
    pub too_old_of_made: Decimal,
    /// Wanted and not there.
    pub short: Decimal,
}

/// What goes into a test on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
struct GoesIn {
    grams: Decimal,
    pieces: Option<Decimal>,
}

/// A recipe on hand, in batches.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RecipeStock {
    /// The recipe.
    pub recipe: RecipeId,
    /// Before the plan.
    pub on_hand: Decimal,
    /// After it.
    pub left_over: Decimal,
}

impl Balance {
    /// The balance of a kitchen's plan. `None` without a plan.
    ///
    /// # Errors
    /// [`Overflow`] when a quantity does not fit.
    pub fn of(kitchen: &Kitchen, costing: &Costing) -> Result<Option<Self>, Overflow> {
        if kitchen.plan.rows.is_empty() {
            return Ok(None);
        }
        let days = served_by_day(kitchen)?;
        let rules = Rules::of(kitchen, costing)?;
        let before = Before::of(kitchen, costing)?;
        let mut house = House::open(&rules, &before)?;
        let mut ledger = Ledger::open(kitchen, costing, &before)?;
        for (day, served) in days.iter().enumerate() {
            ledger.note(house.day(day, served)?)?;
        }
        let wants_promise = |id: &PartId| purchases::stand_in(kitchen, costing, *id).is_none();
        let short = ledger.short().filter(|(id, _)| wants_promise(id)).count() > 0;
        let promise = if short { Some(enough::promise(&rules, &before, &days)?) } else { None };
        ledger.close(&rules, before, &house, promise).map(Some)
    }

    /// A part's balance.
    pub fn part(&self, id: PartId) -> Option<&PartBalance> {
        self.tests.get(id.test.index())?.as_ref()?.parts.get(id.index())
    }

    /// Every bought item where trim is used, and where it is binned.
    pub fn all_items(&self) -> Vec<(ItemBalance, ItemBalance)> {
        let none = |like: &ItemBalance| ItemBalance {
            item: like.item,
            wanted: Decimal::ZERO,
            stands_in: Decimal::ZERO,
            on_hand: like.on_hand,
            from_stock: Decimal::ZERO,
            purchase: Decimal::ZERO,
            left_over: like.on_hand,
        };
        let mut all: BTreeMap<ItemId, (ItemBalance, ItemBalance)> = BTreeMap::new();
        for item in &self.purchases.items {
            all.insert(item.item, (*item, none(item)));
        }
        for item in &self.purchases_binned.items {
            all.entry(item.item).or_insert((none(item), *item)).1 = *item;
        }
        all.into_values().collect()
    }

    /// Grams of a part that each day makes: the days that make some, as indices into the plan's.
    pub fn made_by_day(&self, id: PartId) -> impl Iterator<Item = (usize, Decimal)> {
        let made = move |parts: &BTreeMap<PartId, PartBalance>| parts.get(&id).map(|part| part.made);
        let days = self.days.iter().enumerate().filter_map(move |(day, parts)| Some((day, made(parts)?)));
        days.filter(|(_, made)| !made.is_zero())
    }

    /// A part day by day, where what it was short of on one day and what was left of another would stand in one row: the
    /// days that touched it, as indices into the plan's. On hand and left over are then those of the day's ends.
    pub fn by_day(&self, id: PartId) -> Vec<(usize, PartBalance)> {
        let both = self
            .part(id)
            .is_some_and(|part| !(part.short.is_zero() || (part.left_over.is_zero() && part.too_old.is_zero())));
        let days = self.days.iter().enumerate().filter(|_| both);
        days.filter_map(|(day, parts)| Some((day, *parts.get(&id)?))).collect()
    }
}

/// What is served on each day, every dish once, in the order of the plan.
fn served_by_day(kitchen: &Kitchen) -> Result<Vec<Vec<(Served, Decimal)>>, Overflow> {
    let mut days = vec![IndexMap::new(); kitchen.plan.days.len()];
    for row in &kitchen.plan.rows {
        if let Some(day) = days.get_mut(row.day) {
            add_to(day.entry(row.served).or_default(), row.portions)?;
        }
    }
    Ok(days.into_iter().map(|day: IndexMap<Served, Decimal>| day.into_iter().collect()).collect())
}

/// What the days of a plan come to.
struct Ledger {
    tests: Vec<Option<TestBalance>>,
    items: BTreeMap<ItemId, Decimal>,
    days: Vec<BTreeMap<PartId, PartBalance>>,
}

impl Ledger {
    /// Before the first day.
    fn open(kitchen: &Kitchen, costing: &Costing, before: &Before) -> Result<Self, Overflow> {
        let tests = kitchen.tests.iter().zip(&costing.tests).map(|(test, cost)| {
            cost.as_ref().map(|_| TestBalance {
                goes_in: Decimal::ZERO,
                pieces: counted(test).map(|_| Decimal::ZERO),
                parts: vec![PartBalance::default(); test.parts.len()],
            })
        });
        let mut ledger = Ledger { tests: tests.collect(), items: BTreeMap::new(), days: Vec::new() };
        for (id, grams) in &before.parts {
            if let Some(part) = ledger.part(*id) {
                add_to(&mut part.on_hand, *grams)?;
            }
        }
        Ok(ledger)
    }

    fn part(&mut self, id: PartId) -> Option<&mut PartBalance> {
        self.tests.get_mut(id.test.index())?.as_mut()?.parts.get_mut(id.index())
    }

    /// Adds a day.
    fn note(&mut self, day: DayMoves) -> Result<(), Overflow> {
        for (id, of_day) in &day.parts {
            let Some(part) = self.part(*id) else { continue };
            add_to(&mut part.made, of_day.made)?;
            add_to(&mut part.wanted, of_day.wanted)?;
            add_to(&mut part.used, of_day.used)?;
            add_to(&mut part.too_old, of_day.too_old)?;
            add_to(&mut part.too_old_of_made, of_day.too_old_of_made)?;
            add_to(&mut part.short, of_day.short)?;
        }
        for (id, goes_in) in day.tests {
            let Some(Some(test)) = self.tests.get_mut(id.index()) else { continue };
            add_to(&mut test.goes_in, goes_in.grams)?;
            if let (Some(sum), Some(pieces)) = (&mut test.pieces, goes_in.pieces) {
                add_to(sum, pieces)?;
            }
        }
        for (id, amount) in day.items {
            day_by_day::add(&mut self.items, id, amount)?;
        }
        self.days.push(day.parts);
        Ok(())
    }

    /// Every part with what `of` it comes to, where that is anything.
    fn parts(&self, of: fn(&PartBalance) -> Decimal) -> impl Iterator<Item = (PartId, Decimal)> {
        let tests = self.tests.iter().enumerate().filter_map(|(at, test)| Some((TestId::new(at), test.as_ref()?)));
        let parts = tests.flat_map(|(test, balance)| {
            balance.parts.iter().enumerate().map(move |(at, part)| (PartId::new(test, at), part))
        });
        parts.map(move |(id, part)| (id, of(part))).filter(|(_, grams)| !grams.is_zero())
    }

    fn short(&self) -> impl Iterator<Item = (PartId, Decimal)> {
        self.parts(|part| part.short)
    }

    /// The balance, when the plan is through.
    fn close(
        mut self,
        rules: &Rules<'_>,
        before: Before,
        house: &House<'_>,
        promise: Option<Promise>,
    ) -> Result<Balance, Overflow> {
        let (kitchen, costing) = (rules.kitchen, rules.costing);
        for id in house.shelves.keys() {
            let (left, of_made) = (house.left(*id)?, house.left_of_made(*id)?);
            let is_sold = kitchen.part(*id).is_some_and(|part| part.reuse.sells_at().is_some());
            if let Some(part) = self.part(*id) {
                (part.left_over, part.left_of_made) = (left, of_made);
                if is_sold && part.wanted.is_zero() {
                    part.sold_when_made()?;
                }
            }
        }
        let items = purchases::Items { kitchen, costing, drawn: &self.items, on_hand: &before.items };
        let is_by_product =
            |id: PartId| kitchen.part(id).is_some_and(|part| part.role == crate::kitchen::yield_test::Role::ByProduct);
        let binned = self.parts(|part| part.wanted).filter(|(id, _)| is_by_product(*id));
        let purchases = items.with(self.short(), None)?;
        let purchases_binned = items.with(binned, Some(&purchases))?;
        let mut servings: IndexMap<Served, Serving> = IndexMap::new();
        for row in &kitchen.plan.rows {
            let costed = || crate::analysis::batch_usage::share_of(kitchen, costing, row.served).is_some();
            let new = || Serving { served: row.served, portions: Decimal::ZERO, costed: costed() };
            add_to(&mut servings.entry(row.served).or_insert_with(new).portions, row.portions)?;
        }
        let left = |id: &RecipeId| house.recipes.get(id).copied().unwrap_or_default();
        let recipes = before.recipes.iter();
        let recipes = recipes.map(|(id, on_hand)| RecipeStock { recipe: *id, on_hand: *on_hand, left_over: left(id) });
        Ok(Balance {
            servings: servings.into_values().collect(),
            recipes: recipes.collect(),
            tests: self.tests,
            purchases,
            purchases_binned,
            not_counted: before.not_counted,
            promise,
            days: self.days,
        })
    }
}

impl PartBalance {
    /// What nobody wants and is sold leaves on the day it is made, and is never too old.
    fn sold_when_made(&mut self) -> Result<(), Overflow> {
        let kept = std::mem::take(&mut self.too_old_of_made);
        self.too_old = exact::sub(self.too_old, kept)?;
        self.left_over = exact::add(self.left_over, kept)?;
        self.left_of_made = exact::add(self.left_of_made, kept)?;
        Ok(())
    }
}

/// What is left of `from` after `taken`; the last digit of a division does not count as something.
pub(in crate::analysis) fn rest(from: Decimal, taken: Decimal) -> Result<Decimal, Overflow> {
    let rest = exact::sub(from, taken)?;
    let least = exact::mul(from, Decimal::new(1, 20)).unwrap_or_default();
    Ok(if rest.abs() <= least { Decimal::ZERO } else { rest })
}

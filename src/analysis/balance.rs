//! Is there enough trim? What the plan takes of every part, what is made beside, what is short and what is left.
//!
//! Takes a kitchen with a plan and its costing; gives weights in grams, bought items in base units of their price. Day by
//! day, demand flows from dishes through recipes to parts, what goes into each test is set by its mains, and what it needs
//! flows on to what stands before it. Money plays no part: what a day needs is the same however trim is charged.

use std::collections::BTreeMap;

use super::draws::{self, Draw};
use super::stock;
use crate::costing::Costing;
use crate::costing::weighed::priced;
use crate::kitchen::plan::Served;
use crate::kitchen::recipe::Source;
use crate::kitchen::yield_test::{Role, Test};
use crate::kitchen::{ItemId, Kitchen, Node, PartId, RecipeId, TestId};
use crate::number::{Decimal, Overflow, exact, round_up_steps};

/// The balance of a plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Balance {
    /// What is served, in order of first appearance in the plan.
    pub servings: Vec<Serving>,
    /// Every test, beside the kitchen's; `None` where it is not costed.
    pub tests: Vec<Option<TestBalance>>,
    /// Bought items that the plan takes, in book order.
    pub items: Vec<ItemBalance>,
    /// Recipes on hand that the plan could draw on, with the batches before and after it.
    pub recipes: Vec<RecipeStock>,
    /// Rows of the stock list that could not be brought to a weight, as indices into the entries: they count as nothing.
    pub not_counted: Vec<usize>,
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
    /// Older than it may be kept before anyone wanted it.
    pub too_old: Decimal,
    /// Wanted and not there.
    pub short: Decimal,
}

/// A bought item over the plan, in base units of its price as purchased.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ItemBalance {
    /// The item.
    pub item: ItemId,
    /// Wanted, what stands in for short trim not within.
    pub wanted: Decimal,
    /// Taken from what is on hand.
    pub from_stock: Decimal,
    /// To purchase.
    pub purchase: Decimal,
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
        let mut house = House::open(kitchen, costing)?;
        for day in 0..kitchen.plan.days.len() {
            house.day(day)?;
        }
        house.close().map(Some)
    }

    /// A part's balance.
    pub fn part(&self, id: PartId) -> Option<&PartBalance> {
        self.tests.get(id.test.index())?.as_ref()?.parts.get(id.index())
    }
}

/// Some of a part, made on a day; before the plan where that is `None`.
#[derive(Debug, Clone, Copy)]
struct Lot {
    day: Option<usize>,
    grams: Decimal,
}

/// The house while the plan runs through it.
struct House<'a> {
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    batches: Vec<Option<Vec<Draw>>>,
    lots: BTreeMap<PartId, Vec<Lot>>,
    recipes: BTreeMap<RecipeId, (Decimal, Decimal)>,
    items: BTreeMap<ItemId, Decimal>,
    item_stock: BTreeMap<ItemId, Decimal>,
    tests: Vec<Option<TestBalance>>,
    not_counted: Vec<usize>,
}

/// What is wanted on one day.
#[derive(Default)]
struct Wanted {
    recipes: BTreeMap<RecipeId, Decimal>,
    parts: BTreeMap<PartId, Decimal>,
}

fn add<K: Ord>(to: &mut BTreeMap<K, Decimal>, key: K, amount: Decimal) -> Result<(), Overflow> {
    let sum = to.entry(key).or_default();
    *sum = exact::add(*sum, amount)?;
    Ok(())
}

fn add_to(sum: &mut Decimal, amount: Decimal) -> Result<(), Overflow> {
    *sum = exact::add(*sum, amount)?;
    Ok(())
}

/// What is left of `from` after `taken`; the last digit of a division does not count as something.
fn rest(from: Decimal, taken: Decimal) -> Result<Decimal, Overflow> {
    let rest = exact::sub(from, taken)?;
    let least = exact::mul(from, Decimal::new(1, 20)).unwrap_or_default();
    Ok(if rest.abs() <= least { Decimal::ZERO } else { rest })
}

impl<'a> House<'a> {
    fn open(kitchen: &'a Kitchen, costing: &'a Costing) -> Result<Self, Overflow> {
        let ids = (0..kitchen.recipes.len()).map(RecipeId::new);
        let tests = kitchen.tests.iter().zip(&costing.tests).map(|(test, cost)| {
            cost.as_ref().map(|_| TestBalance {
                goes_in: Decimal::ZERO,
                pieces: counted(test).map(|_| Decimal::ZERO),
                parts: vec![PartBalance::default(); test.parts.len()],
            })
        });
        let mut house = House {
            kitchen,
            costing,
            batches: ids.map(|id| draws::of_batch(kitchen, costing, id)).collect::<Result<_, _>>()?,
            lots: BTreeMap::new(),
            recipes: BTreeMap::new(),
            items: BTreeMap::new(),
            item_stock: BTreeMap::new(),
            tests: tests.collect(),
            not_counted: Vec::new(),
        };
        for held in stock::held(kitchen, costing) {
            match (held.source, held.amount) {
                (_, None) => house.not_counted.push(held.row),
                (Source::Bought(id), Some(amount)) => add(&mut house.item_stock, id, amount)?,
                (Source::Made(id), Some(batches)) => {
                    let (before, now) = house.recipes.entry(id).or_default();
                    add_to(before, batches)?;
                    add_to(now, batches)?;
                }
                (Source::Part(id), Some(grams)) => {
                    if let Some(part) = house.part(id) {
                        add_to(&mut part.on_hand, grams)?;
                        house.lots.entry(id).or_default().push(Lot { day: None, grams });
                    }
                }
                (Source::Unknown, Some(_)) => {}
            }
        }
        Ok(house)
    }

    fn part(&mut self, id: PartId) -> Option<&mut PartBalance> {
        self.tests.get_mut(id.test.index())?.as_mut()?.parts.get_mut(id.index())
    }

    fn day(&mut self, day: usize) -> Result<(), Overflow> {
        self.throw_away(day)?;
        let mut wanted = Wanted::default();
        for row in self.kitchen.plan.rows.iter().filter(|row| row.day == day) {
            if let Some((recipe, share)) = draws::share_of(self.kitchen, self.costing, row.served) {
                let batches = share.times(row.portions)?.value()?;
                add(&mut wanted.recipes, recipe, batches)?;
            }
        }
        let kitchen = self.kitchen;
        for node in kitchen.order.iter().rev() {
            match node {
                Node::Item(_) => {}
                Node::Recipe(id) => self.cook(*id, &mut wanted)?,
                Node::Test(id) => self.break_down(*id, day, &mut wanted)?,
            }
        }
        Ok(())
    }

    /// What is older than the house rule allows is not there any more. What was on hand before the plan has no age.
    fn throw_away(&mut self, day: usize) -> Result<(), Overflow> {
        let days = &self.kitchen.plan.days;
        let kitchen = self.kitchen;
        let mut gone = Vec::new();
        for (id, lots) in &mut self.lots {
            let Some(keeps) = kitchen.part(*id).and_then(|part| part.reuse.keeps) else { continue };
            let old = |lot: &Lot| {
                let age = lot.day.and_then(|made| days.between(made, day));
                age.is_some_and(|age| Decimal::from(age) > keeps)
            };
            gone.extend(lots.iter().filter(|lot| old(lot)).map(|lot| (*id, lot.grams)));
            lots.retain(|lot| !old(lot));
        }
        for (id, grams) in gone {
            if let Some(part) = self.part(id) {
                add_to(&mut part.too_old, grams)?;
            }
        }
        Ok(())
    }

    fn cook(&mut self, id: RecipeId, wanted: &mut Wanted) -> Result<(), Overflow> {
        let Some(mut batches) = wanted.recipes.get(&id).copied() else { return Ok(()) };
        if let Some((_, now)) = self.recipes.get_mut(&id) {
            let taken = batches.min(*now);
            *now = rest(*now, taken)?;
            batches = rest(batches, taken)?;
        }
        let Some(Some(draws)) = self.batches.get(id.index()) else { return Ok(()) };
        for draw in draws {
            let amount = exact::mul(draw.amount, batches)?;
            match draw.of {
                Source::Bought(item) => add(&mut self.items, item, amount)?,
                Source::Part(part) => add(&mut wanted.parts, part, amount)?,
                Source::Made(recipe) => add(&mut wanted.recipes, recipe, amount)?,
                Source::Unknown => {}
            }
        }
        Ok(())
    }

    fn break_down(&mut self, id: TestId, day: usize, wanted: &mut Wanted) -> Result<(), Overflow> {
        let (Some(test), Some(cost)) = (self.kitchen.test(id), self.costing.test(id)) else { return Ok(()) };
        let ids: Vec<PartId> = (0..test.parts.len()).map(|index| PartId::new(id, index)).collect();
        let asked: Vec<Decimal> = ids.iter().map(|id| wanted.parts.get(id).copied().unwrap_or_default()).collect();
        let mut missing = Vec::with_capacity(ids.len());
        for (part, asked) in ids.iter().zip(&asked) {
            let taken = self.take(*part, *asked)?;
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
        self.need(test, cost.grams, goes_in, wanted)?;
        for (index, (part, missing)) in ids.iter().zip(missing).enumerate() {
            let grams = test.parts.get(index).map_or(Decimal::ZERO, |part| part.grams);
            let made = exact::div(exact::mul(goes_in, grams)?, cost.grams)?;
            let used = made.min(missing);
            let (left, short) = (rest(made, used)?, rest(missing, used)?);
            if !left.is_zero() {
                self.lots.entry(*part).or_default().push(Lot { day: Some(day), grams: left });
            }
            let asked = asked.get(index).copied().unwrap_or_default();
            if let Some(balance) = self.part(*part) {
                add_to(&mut balance.made, made)?;
                add_to(&mut balance.wanted, asked)?;
                add_to(&mut balance.short, short)?;
                add_to(&mut balance.used, rest(asked, short)?)?;
            }
        }
        if let Some(Some(balance)) = self.tests.get_mut(id.index()) {
            add_to(&mut balance.goes_in, goes_in)?;
            if let (Some(sum), Some(pieces)) = (&mut balance.pieces, pieces) {
                add_to(sum, pieces)?;
            }
        }
        Ok(())
    }

    /// Takes up to `asked` grams of what is on hand, the oldest first; gives what was taken.
    fn take(&mut self, part: PartId, asked: Decimal) -> Result<Decimal, Overflow> {
        let Some(lots) = self.lots.get_mut(&part) else { return Ok(Decimal::ZERO) };
        let mut taken = Decimal::ZERO;
        for lot in lots.iter_mut() {
            let more = lot.grams.min(exact::sub(asked, taken)?);
            lot.grams = exact::sub(lot.grams, more)?;
            add_to(&mut taken, more)?;
        }
        lots.retain(|lot| !lot.grams.is_zero());
        Ok(taken)
    }

    /// What `goes_in` grams of a test need, of which all runs together took `pooled`.
    fn need(&mut self, test: &Test, pooled: Decimal, goes_in: Decimal, wanted: &mut Wanted) -> Result<(), Overflow> {
        if goes_in.is_zero() {
            return Ok(());
        }
        let runs = test.runs.iter().map(|run| (test.input, run.grams, run.count));
        let added = test.added.iter().filter_map(|added| Some((added.source?, added.grams, None)));
        for (source, grams, count) in runs.chain(added) {
            let Ok((amount, _)) = priced(self.kitchen, self.costing, source, grams, count) else { continue };
            let amount = amount.times(goes_in)?.over(pooled)?;
            match source {
                Source::Bought(item) => add(&mut self.items, item, amount.value()?)?,
                Source::Part(part) => add(&mut wanted.parts, part, amount.value()?)?,
                Source::Made(id) => {
                    let makes = self.costing.recipe(id).and_then(|cost| cost.makes.as_ref());
                    if let Some((_, makes)) = makes {
                        add(&mut wanted.recipes, id, amount.over(*makes)?.value()?)?;
                    }
                }
                Source::Unknown => {}
            }
        }
        Ok(())
    }

    fn close(mut self) -> Result<Balance, Overflow> {
        let lots = std::mem::take(&mut self.lots);
        for (id, lots) in lots {
            let left = exact::sum(lots.iter().map(|lot| lot.grams))?;
            if let Some(part) = self.part(id) {
                part.left_over = left;
            }
        }
        let mut items = Vec::new();
        for (item, wanted) in self.items {
            let from_stock = self.item_stock.get(&item).copied().unwrap_or_default().min(wanted);
            items.push(ItemBalance { item, wanted, from_stock, purchase: rest(wanted, from_stock)? });
        }
        let mut servings: Vec<Serving> = Vec::new();
        for row in &self.kitchen.plan.rows {
            match servings.iter_mut().find(|serving| serving.served == row.served) {
                Some(serving) => add_to(&mut serving.portions, row.portions)?,
                None => servings.push(Serving {
                    served: row.served,
                    portions: row.portions,
                    costed: draws::share_of(self.kitchen, self.costing, row.served).is_some(),
                }),
            }
        }
        let recipes = self.recipes.into_iter();
        Ok(Balance {
            servings,
            tests: self.tests,
            items,
            recipes: recipes.map(|(recipe, (on_hand, left_over))| RecipeStock { recipe, on_hand, left_over }).collect(),
            not_counted: self.not_counted,
        })
    }
}

/// How many pieces the runs of a test took in together, where each of them counts.
fn counted(test: &Test) -> Option<Decimal> {
    let counts: Option<Vec<Decimal>> = test.runs.iter().map(|run| run.count).collect();
    exact::sum(counts?).ok().filter(|count| *count > Decimal::ZERO)
}

//! The house while a plan runs through it, day by day: what is wanted flows from dishes to what stands before them.
//!
//! Takes the rows of each day in turn; gives the balance when the plan is through. A day goes only through what it wants.

use std::collections::{BTreeMap, BTreeSet, HashMap};

use indexmap::IndexMap;

use super::shelf::Shelf;
use super::{Balance, ItemBalance, PartBalance, RecipeStock, Serving, TestBalance, rest};
use crate::analysis::draws::{self, Draw};
use crate::analysis::stock;
use crate::costing::Costing;
use crate::costing::bought::PriceFrom;
use crate::costing::weighed::priced;
use crate::kitchen::plan::{Planned, Served};
use crate::kitchen::recipe::Source;
use crate::kitchen::yield_test::{Role, Test};
use crate::kitchen::{ItemId, Kitchen, Node, PartId, RecipeId, TestId};
use crate::number::{Decimal, Overflow, exact, round_up_steps};

/// The house.
pub(super) struct House<'a> {
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    batches: Vec<Option<Vec<Draw>>>,
    /// Where every test and recipe stands in the order of costing.
    places: HashMap<Node, usize>,
    shelves: BTreeMap<PartId, Shelf>,
    /// Batches of recipes before the plan and now.
    recipes: BTreeMap<RecipeId, (Decimal, Decimal)>,
    items: BTreeMap<ItemId, Decimal>,
    item_stock: BTreeMap<ItemId, Decimal>,
    tests: Vec<Option<TestBalance>>,
    not_counted: Vec<usize>,
}

/// What is wanted on one day: batches of recipes, grams of parts, and where in the order of costing all of it stands.
#[derive(Default)]
struct Wanted {
    recipes: BTreeMap<RecipeId, Decimal>,
    parts: BTreeMap<PartId, Decimal>,
    open: BTreeSet<usize>,
}

fn add<K: Ord>(to: &mut BTreeMap<K, Decimal>, key: K, amount: Decimal) -> Result<(), Overflow> {
    add_to(to.entry(key).or_default(), amount)
}

fn add_to(sum: &mut Decimal, amount: Decimal) -> Result<(), Overflow> {
    *sum = exact::add(*sum, amount)?;
    Ok(())
}

impl<'a> House<'a> {
    /// The house before the first day.
    pub(super) fn open(kitchen: &'a Kitchen, costing: &'a Costing) -> Result<Self, Overflow> {
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
            places: kitchen.order.iter().enumerate().map(|(at, node)| (*node, at)).collect(),
            shelves: BTreeMap::new(),
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
                        house.shelves.entry(id).or_default().hold(grams)?;
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

    /// One day of the plan.
    pub(super) fn day(&mut self, day: usize, rows: &[&Planned]) -> Result<(), Overflow> {
        let mut wanted = Wanted::default();
        for row in rows {
            let share = draws::share_of(self.kitchen, self.costing, row.served);
            if let Some((recipe, share)) = share {
                self.want(&mut wanted, Source::Made(recipe), share.times(row.portions)?.value()?)?;
            }
        }
        // What is wanted last in the order of costing comes first: all that wants a node stands behind it.
        while let Some(at) = wanted.open.pop_last() {
            match self.kitchen.order.get(at) {
                Some(Node::Recipe(id)) => self.cook(*id, &mut wanted)?,
                Some(Node::Test(id)) => self.break_down(*id, day, &mut wanted)?,
                Some(Node::Item(_)) | None => {}
            }
        }
        Ok(())
    }

    /// Wants so much of `source`: of an item in base units of its price, of a part in grams, of a recipe in batches.
    fn want(&mut self, wanted: &mut Wanted, source: Source, amount: Decimal) -> Result<(), Overflow> {
        let node = match source {
            Source::Bought(id) => return add(&mut self.items, id, amount),
            Source::Unknown => return Ok(()),
            Source::Part(id) => {
                add(&mut wanted.parts, id, amount)?;
                Node::Test(id.test)
            }
            Source::Made(id) => {
                add(&mut wanted.recipes, id, amount)?;
                Node::Recipe(id)
            }
        };
        wanted.open.extend(self.places.get(&node));
        Ok(())
    }

    fn cook(&mut self, id: RecipeId, wanted: &mut Wanted) -> Result<(), Overflow> {
        let Some(mut batches) = wanted.recipes.get(&id).copied() else { return Ok(()) };
        if let Some((_, now)) = self.recipes.get_mut(&id) {
            let taken = batches.min(*now);
            *now = rest(*now, taken)?;
            batches = rest(batches, taken)?;
        }
        let draws = self.batches.get(id.index()).into_iter().flatten().flatten();
        let drawn: Vec<(Source, Decimal)> =
            draws.map(|draw| Ok((draw.of, exact::mul(draw.amount, batches)?))).collect::<Result<_, Overflow>>()?;
        drawn.into_iter().try_for_each(|(of, amount)| self.want(wanted, of, amount))
    }

    fn break_down(&mut self, id: TestId, day: usize, wanted: &mut Wanted) -> Result<(), Overflow> {
        let (Some(test), Some(cost)) = (self.kitchen.test(id), self.costing.test(id)) else { return Ok(()) };
        let ids: Vec<PartId> = (0..test.parts.len()).map(|index| PartId::new(id, index)).collect();
        let asked: Vec<Decimal> = ids.iter().map(|id| wanted.parts.get(id).copied().unwrap_or_default()).collect();
        let mut missing = Vec::with_capacity(ids.len());
        for (part, asked) in ids.iter().zip(&asked) {
            self.throw_away(*part, day)?;
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
        self.need(test, cost.grams, goes_in, wanted)?;
        for (index, (part, missing)) in ids.iter().zip(missing).enumerate() {
            let grams = test.parts.get(index).map_or(Decimal::ZERO, |part| part.grams);
            let made = exact::div(exact::mul(goes_in, grams)?, cost.grams)?;
            let used = made.min(missing);
            let (left, short) = (rest(made, used)?, rest(missing, used)?);
            self.shelves.entry(*part).or_default().put(day, left);
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

    /// What is older on `day` than the house rule allows is not there any more.
    fn throw_away(&mut self, id: PartId, day: usize) -> Result<(), Overflow> {
        let Some(keeps) = self.kitchen.part(id).and_then(|part| part.reuse.keeps) else { return Ok(()) };
        let Some(shelf) = self.shelves.get_mut(&id) else { return Ok(()) };
        let days = &self.kitchen.plan.days;
        let too_old = |made: usize| days.between(made, day).is_some_and(|age| Decimal::from(age) > keeps);
        let gone = shelf.throw_away(too_old)?;
        self.part(id).map_or(Ok(()), |part| add_to(&mut part.too_old, gone))
    }

    /// What `goes_in` grams of a test need, of which all runs together took `pooled`.
    fn need(&mut self, test: &Test, pooled: Decimal, goes_in: Decimal, wanted: &mut Wanted) -> Result<(), Overflow> {
        if goes_in.is_zero() {
            return Ok(());
        }
        let runs = test.runs.iter().map(|run| (test.input, run.grams, run.count));
        let added = test.added.iter().filter_map(|added| Some((added.source?, added.grams, added.count)));
        for (source, grams, count) in runs.chain(added) {
            let Ok((amount, _)) = priced(self.kitchen, self.costing, source, grams, count) else { continue };
            let mut amount = amount.times(goes_in)?.over(pooled)?;
            if let Source::Made(id) = source {
                let makes = self.costing.recipe(id).and_then(|cost| cost.makes.as_ref());
                let Some((_, makes)) = makes else { continue };
                amount = amount.over(*makes)?;
            }
            self.want(wanted, source, amount.value()?)?;
        }
        Ok(())
    }

    /// The balance, when the plan is through.
    pub(super) fn close(mut self) -> Result<Balance, Overflow> {
        let last = self.kitchen.plan.days.len().saturating_sub(1);
        let parts: Vec<PartId> = self.shelves.keys().copied().collect();
        for id in parts {
            self.throw_away(id, last)?;
            let left = self.shelves.get(&id).map_or(Ok(Decimal::ZERO), Shelf::left)?;
            if let Some(part) = self.part(id) {
                part.left_over = left;
            }
        }
        let is_water = |id: ItemId| self.costing.item(id).is_some_and(|cost| cost.from == PriceFrom::Water);
        let mut items = Vec::new();
        for (item, wanted) in self.items.into_iter().filter(|(id, _)| !is_water(*id)) {
            let from_stock = self.item_stock.get(&item).copied().unwrap_or_default().min(wanted);
            items.push(ItemBalance { item, wanted, from_stock, purchase: rest(wanted, from_stock)? });
        }
        let mut servings: IndexMap<Served, Serving> = IndexMap::new();
        for row in &self.kitchen.plan.rows {
            let costed = || draws::share_of(self.kitchen, self.costing, row.served).is_some();
            let new = || Serving { served: row.served, portions: Decimal::ZERO, costed: costed() };
            add_to(&mut servings.entry(row.served).or_insert_with(new).portions, row.portions)?;
        }
        let recipes = self.recipes.into_iter();
        Ok(Balance {
            servings: servings.into_values().collect(),
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

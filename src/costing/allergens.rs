//! Allergens: what is in every recipe, what may be, and which ingredients state nothing, through parts and
//! sub-recipes, each with a shortest way by which it came in.

use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};
use std::sync::Arc;

use jiff::civil::Date;

use super::Costing;
use crate::costing::price::bought::PriceFrom;
use crate::costing::price::in_use::RowState;
use crate::food::{Allergen, StatedAllergens};
use crate::kitchen::price::PriceRow;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::{ItemId, Kitchen, NameKey, Node, RecipeId, TestId};

/// The allergens of one node.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct AllergenSet {
    /// What is in it, with how it came in.
    pub contains: BTreeMap<Allergen, Carried>,
    /// What may be in it, with how it came in.
    pub may_contain: BTreeMap<Allergen, Carried>,
    /// Ingredients that state nothing.
    pub not_stated: BTreeSet<Silent>,
}

/// An allergen that something carries.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Carried {
    /// How it came in.
    pub way: AllergenPath,
    /// Every word in which the items it is from state it, as typed.
    pub words: BTreeSet<Arc<str>>,
}

/// How an allergen came in: the next node on a shortest way to the item that states it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AllergenPath {
    /// Whether it is only in what is bought when there is not enough.
    pub stands_in: bool,
    /// Steps to the item.
    pub steps: u32,
    /// The next node; `None` at the item itself.
    pub next: Option<Node>,
}

/// An ingredient whose allergens are not stated.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Silent {
    /// A bought item.
    Item(ItemId),
    /// A line that names something not in the book, or something in a loop: the recipe and the line's index.
    Line(RecipeId, usize),
    /// What went into a yield test, where that is not known or in a loop.
    Input(TestId),
    /// What was added in a yield test and is not in the book; the test row, as an index into the entries.
    Added(usize),
}

impl AllergenSet {
    /// Whether nothing is in it, and nothing may be.
    pub fn is_empty(&self) -> bool {
        self.contains.is_empty() && self.may_contain.is_empty()
    }

    /// What it takes, in the room of an ingredient that states nothing.
    fn weight(&self) -> usize {
        let words = |carried: &BTreeMap<Allergen, Carried>| -> usize {
            carried.values().map(|carried| carried.words.len().saturating_mul(3).saturating_add(10)).sum()
        };
        words(&self.contains).saturating_add(words(&self.may_contain)).saturating_add(self.not_stated.len())
    }

    /// Takes in what is in `other`, one step further on. A way through what is really in it goes before one through what
    /// `stands_in` for it, then the shorter.
    fn absorb(&mut self, other: &AllergenSet, through: Node, stands_in: bool) {
        let merge = |into: &mut BTreeMap<Allergen, Carried>, from: &BTreeMap<Allergen, Carried>| {
            for (allergen, carried) in from {
                let stands_in = stands_in || carried.way.stands_in;
                let steps = carried.way.steps.saturating_add(1);
                let longer = AllergenPath { stands_in, steps, next: Some(through) };
                match into.get_mut(allergen) {
                    Some(known) => {
                        // Mostly the same words again.
                        let new = carried.words.iter().filter(|word| !known.words.contains(*word));
                        let new: Vec<Arc<str>> = new.cloned().collect();
                        known.words.extend(new);
                        if (longer.stands_in, longer.steps) < (known.way.stands_in, known.way.steps) {
                            known.way = longer;
                        }
                    }
                    None => {
                        into.insert(allergen.clone(), Carried { way: longer, words: carried.words.clone() });
                    }
                }
            }
        };
        merge(&mut self.contains, &other.contains);
        merge(&mut self.may_contain, &other.may_contain);
        self.not_stated.extend(other.not_stated.iter().copied());
    }
}

/// So much is held in all, a fifth of a gigabyte: a thousand ingredients that state nothing in each of ten thousand recipes.
/// In a chain of thousands each of which adds its own, what is held would grow with the square of the chain.
const MOST_HELD: usize = 10_000_000;

/// The allergen sets of all recipes, and of all yield tests.
pub(super) fn all(kitchen: &Kitchen, costing: &Costing) -> (Vec<AllergenSet>, Vec<AllergenSet>) {
    let buy_ins: HashMap<&NameKey, ItemId> =
        kitchen.items.iter().enumerate().map(|(index, item)| (&item.key, ItemId::new(index))).collect();
    let items: Vec<AllergenSet> = (0..kitchen.items.len()).map(|index| of_item(kitchen, costing, index)).collect();
    let mut tests: Vec<AllergenSet> = vec![AllergenSet::default(); kitchen.tests.len()];
    let mut recipes: Vec<AllergenSet> = vec![AllergenSet::default(); kitchen.recipes.len()];
    let mut known: HashSet<Node> = HashSet::new();
    let mut held = 0_usize;
    for node in &kitchen.order {
        let mut set = AllergenSet::default();
        // Beyond what can be held, what a part or recipe contains is not known: it says so where it is used.
        let full = held > MOST_HELD;
        // In a loop something comes before what it contains: what that holds is not known yet.
        let is_known = |source: IngredientSource| match source {
            IngredientSource::Bought(_) => true,
            IngredientSource::Part(part) => !full && known.contains(&Node::Test(part.test)),
            IngredientSource::Made(id) => !full && known.contains(&Node::Recipe(id)),
            IngredientSource::Unknown => false,
        };
        let mut take = |source: IngredientSource, tests: &[AllergenSet], recipes: &[AllergenSet]| {
            let (found, node) = match source {
                IngredientSource::Bought(id) => (items.get(id.index()), Node::Item(id)),
                IngredientSource::Part(part) => {
                    // What is bought in when there is not enough trim counts as well.
                    if let Some(id) = kitchen.part(part).and_then(|part| Some(part.buy_in.as_ref()?.item)) {
                        items.get(id.index()).into_iter().for_each(|other| set.absorb(other, Node::Item(id), true));
                    }
                    (tests.get(part.test.index()), Node::Test(part.test))
                }
                IngredientSource::Made(id) => {
                    if let Some(id) = kitchen.recipe(id).and_then(|recipe| buy_ins.get(&recipe.key)) {
                        items.get(id.index()).into_iter().for_each(|other| set.absorb(other, Node::Item(*id), true));
                    }
                    (recipes.get(id.index()), Node::Recipe(id))
                }
                IngredientSource::Unknown => return,
            };
            if !full || matches!(node, Node::Item(_)) {
                found.into_iter().for_each(|found| set.absorb(found, node, false));
            }
        };
        match node {
            Node::Item(_) => continue,
            Node::Test(id) => {
                let Some(test) = kitchen.test(*id) else { continue };
                take(test.input, &tests, &recipes);
                test.added.iter().filter_map(|added| added.source).for_each(|source| take(source, &tests, &recipes));
                let unknown = |source: Option<IngredientSource>| !source.is_some_and(is_known);
                set.not_stated.extend(unknown(Some(test.input)).then_some(Silent::Input(*id)));
                let added = test.added.iter().filter(|added| unknown(added.source));
                set.not_stated.extend(added.map(|added| Silent::Added(added.row)));
                held = held.saturating_add(set.weight());
                if let Some(slot) = tests.get_mut(id.index()) {
                    *slot = set;
                }
            }
            Node::Recipe(id) => {
                let Some(recipe) = kitchen.recipe(*id) else { continue };
                recipe.lines.iter().for_each(|line| take(line.source, &tests, &recipes));
                let unknown = recipe.lines.iter().enumerate().filter(|(_, line)| !is_known(line.source));
                set.not_stated.extend(unknown.map(|(index, _)| Silent::Line(*id, index)));
                held = held.saturating_add(set.weight());
                if let Some(slot) = recipes.get_mut(id.index()) {
                    *slot = set;
                }
            }
        }
        known.insert(*node);
    }
    (recipes, tests)
}

/// The union over all suppliers' current rows; a current row that states nothing defers to the older rows of its
/// supplier, and leaves the item not stated when none of them states anything either.
pub(crate) fn of_item(kitchen: &Kitchen, costing: &Costing, index: usize) -> AllergenSet {
    let mut set = AllergenSet::default();
    let Some(item) = kitchen.items.get(index) else { return set };
    if item.is_water {
        return set;
    }
    let here = AllergenPath { stands_in: false, steps: 0, next: None };
    let mut by_supplier: BTreeMap<NameKey, Vec<usize>> = BTreeMap::new();
    // Of one row alone it does not matter whose it is.
    let supplier = |entry: &PriceRow| NameKey::of(if item.rows.len() > 1 { &entry.supplier } else { "" });
    for row in &item.rows {
        let Some(entry) = kitchen.entries.prices.get(*row) else { continue };
        if entry.has_begun(costing.scenario.date) && !entry.has_ended(costing.scenario.date) {
            by_supplier.entry(supplier(entry)).or_default().push(*row);
        }
    }
    let mut silent = by_supplier.is_empty();
    for rows in by_supplier.into_values() {
        let (older, current): (Vec<usize>, Vec<usize>) =
            rows.into_iter().partition(|row| costing.row_states.get(*row) == Some(&RowState::Older));
        let contains = stated(kitchen, &current, &older, |entry| entry.allergens.as_ref());
        silent |= contains.is_empty();
        contains.into_iter().for_each(|stated| add(&mut set.contains, stated, here));
        let may_contain = stated(kitchen, &current, &older, |entry| entry.may_contain.as_ref());
        may_contain.into_iter().for_each(|stated| add(&mut set.may_contain, stated, here));
    }
    let is_water = matches!(costing.items.get(index), Some(Some(cost)) if cost.from == PriceFrom::Water);
    if silent && !is_water {
        set.not_stated.insert(Silent::Item(ItemId::new(index)));
    }
    set
}

/// What the current rows of one supplier state; where none does, what those of its newest older day do.
fn stated<'a>(
    kitchen: &'a Kitchen,
    current: &[usize],
    older: &[usize],
    of: impl Fn(&'a PriceRow) -> Option<&'a StatedAllergens>,
) -> Vec<&'a StatedAllergens> {
    let row = |index: &usize| {
        let row = kitchen.entries.prices.get(*index)?;
        Some((row.date.given().copied(), of(row)?))
    };
    let found: Vec<&StatedAllergens> = current.iter().filter_map(row).map(|(_, stated)| stated).collect();
    if !found.is_empty() {
        return found;
    }
    let older: Vec<(Option<Date>, &StatedAllergens)> = older.iter().filter_map(row).collect();
    let newest = older.iter().map(|(date, _)| *date).max();
    older.into_iter().filter(|(date, _)| Some(*date) == newest).map(|(_, stated)| stated).collect()
}

fn add(into: &mut BTreeMap<Allergen, Carried>, stated: &StatedAllergens, way: AllergenPath) {
    for (allergen, word) in &stated.named {
        let carried = into.entry(allergen.clone()).or_insert_with(|| Carried { way, words: BTreeSet::new() });
        carried.words.insert(Arc::clone(word));
    }
}

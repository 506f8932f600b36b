//! Prices of a list that would leave without a cost what has one: no dish is made uncostable by a list unasked.
//!
//! Takes both sides of a repricing; gives the items whose new rows are to blame, with what they stop. A row may do so though
//! its price compares well: it no longer says how many are in its pack, or is at the market's price without a last one.

use std::collections::{BTreeMap, HashMap, HashSet};

use super::{Held, NotTaken, PriceList};
use crate::costing::Costing;
use crate::in_order::InOrder;
use crate::kitchen::recipe::{IngredientSource, Recipe, RecipeEntry};
use crate::kitchen::{ItemId, Kitchen, Node, RecipeId, depends};
use crate::problem::{Advice, Choice, Code, Fault, Place, Problem};
use crate::schema::Column;

/// The book before and with the new rows, both costed for one day.
#[derive(Clone, Copy)]
pub struct BothCostings<'a> {
    /// The book before.
    pub old: &'a Kitchen,
    /// What it costs.
    pub was: &'a Costing,
    /// The book with the new rows; recipes and tests have the same ids.
    pub new: &'a Kitchen,
    /// What that costs.
    pub now: &'a Costing,
}

/// The items, as the book before knows them, whose rows in `list` stop what was costed, each with the name of the first
/// thing that it stops.
pub fn culprits(sides: BothCostings<'_>, list: &PriceList) -> BTreeMap<ItemId, String> {
    let by_key: HashMap<_, _> = sides.new.items.iter().map(|item| &item.key).zip((0..).map(ItemId::new)).collect();
    let new_id = |old: ItemId| by_key.get(&sides.old.item(old)?.key).copied();
    let taken: HashMap<ItemId, ItemId> =
        list.taken.iter().filter_map(|taken| Some((new_id(taken.moved.item)?, taken.moved.item))).collect();
    let errors: HashSet<&Place> =
        sides.now.problems.iter().filter(|one| one.is_error()).map(|one| &one.place).collect();
    let known: HashSet<&Place> = sides.was.problems.iter().filter(|one| one.is_error()).map(|one| &one.place).collect();
    let is_new = |place: &Place| errors.contains(place) && !known.contains(place);
    let mut culprits = BTreeMap::new();
    let mut stopped: HashSet<Node> = HashSet::new();
    for (new, old) in &taken {
        if let (Some(_), None, Some(item)) = (sides.was.item(*old), sides.now.item(*new), sides.old.item(*old)) {
            culprits.insert(*old, item.name.clone());
            stopped.insert(Node::Item(*new));
        }
    }
    for node in &sides.new.order {
        let (name, sources): (&str, Vec<IngredientSource>) = match node {
            Node::Item(_) => continue,
            Node::Test(id) if sides.was.test(*id).is_some() && sides.now.test(*id).is_none() => {
                let Some(test) = sides.new.test(*id) else { continue };
                (&test.name, depends::of_test(test).collect())
            }
            Node::Recipe(id) if sides.was.recipe(*id).is_some() && sides.now.recipe(*id).is_none() => {
                let Some((recipe, entry)) = recipe(sides.new, *id) else { continue };
                (&entry.name, lines_at_fault(recipe, entry, is_new))
            }
            Node::Test(_) | Node::Recipe(_) => continue,
        };
        stopped.insert(*node);
        let by_another = sources.iter().any(|source| match source {
            IngredientSource::Part(part) => stopped.contains(&Node::Test(part.test)),
            IngredientSource::Made(id) => stopped.contains(&Node::Recipe(*id)),
            IngredientSource::Bought(id) => stopped.contains(&Node::Item(*id)),
            IngredientSource::Unknown => false,
        });
        for source in sources {
            if let (IngredientSource::Bought(new), false) = (source, by_another)
                && let Some(old) = taken.get(&new)
            {
                culprits.entry(*old).or_insert_with(|| name.to_owned());
            }
        }
    }
    culprits
}

fn recipe(kitchen: &Kitchen, id: RecipeId) -> Option<(&Recipe, &RecipeEntry)> {
    let recipe = kitchen.recipe(id)?;
    Some((recipe, kitchen.entries.recipes.get(recipe.entry)?))
}

/// What the lines are of at which something is wrong now; of all of them where it is not at a line.
fn lines_at_fault(recipe: &Recipe, entry: &RecipeEntry, is_new: impl Fn(&Place) -> bool) -> Vec<IngredientSource> {
    let lines = || recipe.lines.iter().zip(&entry.lines);
    let at_line = lines().filter(|(_, typed)| {
        [Column::Qty, Column::Item, Column::Unit].into_iter().any(|column| is_new(&typed.input.place(column)))
    });
    let found: Vec<IngredientSource> = at_line.map(|(line, _)| line.source).collect();
    if found.is_empty() { lines().map(|(line, _)| line.source).collect() } else { found }
}

impl PriceList {
    /// Holds back the rows of `item`, which would stop `what`.
    pub fn hold(&mut self, kitchen: &Kitchen, item: ItemId, what: &str) {
        let name = kitchen.item(item).map_or("", |item| item.name.as_str());
        let of_item = |taken: &mut super::Taken| taken.moved.item == item;
        let held: Vec<super::Taken> = self.taken.extract_if(.., of_item).collect();
        for taken in held {
            let message = if what == name {
                format!("with this price “{name}” would have none that can be used, so it was held back")
            } else {
                format!("with this price of “{name}”, “{what}” could not be costed any more, so it was held back")
            };
            let help = Advice::from("See what the row lacks that the one before has; or take it")
                .choosing(Choice::Accept(name.to_owned()))
                .then(".");
            self.tell(Fault::new(Code::ListStops, message, help).at(taken.price.input.place(Column::Price)));
            self.held.push(Held { row: taken.row, item: Some(item), moved: Some(taken.moved), why: NotTaken::Stops });
        }
        self.held.put_in_order_by_key(|held| held.row);
    }

    /// Adds a problem behind those before it in its sheet.
    fn tell(&mut self, problem: Problem) {
        let before = |other: &Problem| {
            let same = other.place.file_name() == problem.place.file_name()
                && other.place.sheet_name() == problem.place.sheet_name();
            same && other.place.cell_ref() <= problem.place.cell_ref()
        };
        let at = self.problems.iter().rposition(before).map_or(self.problems.len(), |at| at.saturating_add(1));
        self.problems.insert(at, problem);
    }
}

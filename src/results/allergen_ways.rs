//! Ways of allergens: by which parts, recipes and items one came in, each step by its name.

use indexmap::IndexSet;

use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::Test;
use crate::kitchen::{Kitchen, Node, PartId};

/// The names of the steps of a `way` from `start`, as `Costing::way_of` gives it.
pub fn named(kitchen: &Kitchen, start: Node, way: &[Node]) -> Vec<String> {
    let before = std::iter::once(start).chain(way.iter().copied());
    before.zip(way).map(|(from, node)| step(kitchen, from, *node)).collect()
}

/// What a source is called.
pub fn name_of(kitchen: &Kitchen, source: IngredientSource) -> String {
    let name = match source {
        IngredientSource::Bought(id) => kitchen.item(id).map(|item| &item.name),
        IngredientSource::Part(id) => kitchen.part(id).map(|part| &part.name),
        IngredientSource::Made(id) => kitchen.recipe(id).map(|recipe| &recipe.name),
        IngredientSource::Unknown => None,
    };
    name.cloned().unwrap_or_default()
}

/// `a, b and c`.
pub fn in_words(words: &[String]) -> String {
    match words {
        [all @ .., last] if !all.is_empty() => format!("{} and {last}", all.join(", ")),
        _ => words.concat(),
    }
}

/// What a step of the way is called. Of a yield test it is the parts that were taken.
fn step(kitchen: &Kitchen, from: Node, node: Node) -> String {
    match node {
        Node::Item(id) => {
            let name = name_of(kitchen, IngredientSource::Bought(id));
            let taken = taken(kitchen, from);
            let is_it = |part: &PartId| {
                kitchen.part(*part).and_then(|part| part.buy_in.as_ref()).is_some_and(|buy_in| buy_in.item == id)
            };
            let parts = taken.iter().filter_map(|source| match source {
                IngredientSource::Part(part) => Some(*part),
                _ => None,
            });
            match parts.filter(is_it).map(|part| name_of(kitchen, IngredientSource::Part(part))).next() {
                Some(part) if !taken.contains(&IngredientSource::Bought(id)) => {
                    format!("{name}, bought for want of {part}")
                }
                _ => name,
            }
        }
        Node::Recipe(id) => name_of(kitchen, IngredientSource::Made(id)),
        Node::Test(test) => {
            let of_test =
                |source: &IngredientSource| matches!(source, IngredientSource::Part(part) if part.test == test);
            let taken: IndexSet<String> =
                taken(kitchen, from).into_iter().filter(of_test).map(|source| name_of(kitchen, source)).collect();
            in_words(&taken.into_iter().collect::<Vec<_>>())
        }
    }
}

/// What a yield test or a recipe takes.
fn taken(kitchen: &Kitchen, by: Node) -> Vec<IngredientSource> {
    match by {
        Node::Item(_) => Vec::new(),
        Node::Test(id) => {
            let takes = |test: &Test| {
                std::iter::once(test.input).chain(test.added.iter().filter_map(|added| added.source)).collect()
            };
            kitchen.test(id).map(takes).unwrap_or_default()
        }
        Node::Recipe(id) => {
            kitchen.recipe(id).into_iter().flat_map(|recipe| &recipe.lines).map(|line| line.source).collect()
        }
    }
}

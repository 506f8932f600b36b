//! Dependencies of costs: the sources that a yield test or a recipe takes, and everything that one test reaches.
//!
//! Takes resolved tests, recipes and items; gives sources, nodes and dishes. The cost order stands on the same list.

use std::collections::HashSet;

use super::price::{Item, TrimYield};
use super::recipe::{IngredientSource, Line, Recipe};
use super::yield_test::{Charge, Test};
use super::{Kitchen, Node, TestId};

/// What a test's cost depends on: what went in, what was added, and what its by-products stand in for.
pub fn of_test(test: &Test) -> impl Iterator<Item = IngredientSource> {
    let bought = test.parts.iter().filter_map(|part| match &part.charge {
        Charge::Market(buy_in) => Some(IngredientSource::Bought(buy_in.item)),
        _ => None,
    });
    std::iter::once(test.input).chain(test.added.iter().filter_map(|added| added.source)).chain(bought)
}

/// What a recipe's cost depends on: what its lines do.
pub fn of_recipe<'a>(items: &'a [Item], recipe: &'a Recipe) -> impl Iterator<Item = IngredientSource> + 'a {
    recipe.lines.iter().flat_map(move |line| of_line(items, line))
}

/// What a line's cost depends on: its ingredient, and where that is broken down by a trim test with one main, that part.
pub fn of_line(items: &[Item], line: &Line) -> impl Iterator<Item = IngredientSource> + use<> {
    let item = match line.source {
        IngredientSource::Bought(item) => items.get(item.index()),
        _ => None,
    };
    let through = item.and_then(|item| match item.trim {
        // A yield of the line's own stands before the test, but not before what is left of a piece.
        TrimYield::Main(part) if line.own_yield.is_none() || item.bridge.has_edible_piece() => {
            Some(IngredientSource::Part(part))
        }
        _ => None,
    });
    std::iter::once(line.source).chain(through)
}

/// What a change in one thing can change.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reached {
    /// What is changed itself and every test and recipe that depends on it, in cost order.
    pub nodes: Vec<Node>,
    /// The dishes of those recipes, as indices into the kitchen's.
    pub dishes: Vec<usize>,
}

impl Reached {
    /// What `test` reaches.
    pub fn by(kitchen: &Kitchen, test: TestId) -> Self {
        Reached::by_any(kitchen, |node| node == Node::Test(test))
    }

    /// What any of the nodes reaches that `is_changed` names; they are within it.
    pub fn by_any(kitchen: &Kitchen, is_changed: impl Fn(Node) -> bool) -> Self {
        let mut nodes = Vec::new();
        let mut seen = HashSet::new();
        for node in &kitchen.order {
            let depends = match node {
                Node::Item(_) => false,
                Node::Test(id) => {
                    let sources = kitchen.test(*id).into_iter().flat_map(of_test);
                    is_changed(*node) || takes(sources, &seen)
                }
                Node::Recipe(id) => {
                    let sources = kitchen.recipe(*id).into_iter().flat_map(|recipe| of_recipe(&kitchen.items, recipe));
                    is_changed(*node) || takes(sources, &seen)
                }
            };
            if depends {
                seen.insert(*node);
                nodes.push(*node);
            }
        }
        let sells = |dish: &super::menu::Dish| dish.recipe.is_some_and(|id| seen.contains(&Node::Recipe(id)));
        let dishes = kitchen.dishes.iter().enumerate().filter(|(_, dish)| sells(dish)).map(|(index, _)| index);
        Reached { dishes: dishes.collect(), nodes }
    }
}

/// Whether any of `sources` is among `nodes`.
fn takes(sources: impl IntoIterator<Item = IngredientSource>, nodes: &HashSet<Node>) -> bool {
    sources.into_iter().any(|source| match source {
        IngredientSource::Bought(_) | IngredientSource::Unknown => false,
        IngredientSource::Part(part) => nodes.contains(&Node::Test(part.test)),
        IngredientSource::Made(id) => nodes.contains(&Node::Recipe(id)),
    })
}

//! Cautions about trim that is used: what it carries into dishes, by which way it came, and how long it may be kept.

use indexmap::{IndexMap, IndexSet};

use super::Page;
use super::flow::name_of;
use crate::analysis::Trim;
use crate::analysis::where_used::Reach;
use crate::costing::allergens::Carried;
use crate::food::Allergen;
use crate::kitchen::recipe::Source;
use crate::kitchen::yield_test::Test;
use crate::kitchen::{Kitchen, Node, PartId};
use crate::number::{Decimal, plain};
use crate::problem::suggest;
use crate::results::allergen_words;

/// A line for every by-product that something uses.
pub(super) fn kept(page: &Page<'_>, trim: &Trim) -> String {
    let mut out = String::new();
    for id in trim.worth.iter().flat_map(|worth| &worth.parts).map(|part| part.part) {
        out.push_str(&page.point(&sentence(page, id)));
    }
    out
}

fn sentence(page: &Page<'_>, id: PartId) -> String {
    let Some(part) = page.kitchen.part(id) else { return String::new() };
    let mut text = match part.reuse.keeps {
        Some(days) => {
            let unit = if days == Decimal::ONE { "day" } else { "days" };
            format!(
                "{}: {} {unit} at the most, by your house rule; the day it is made is the first.",
                part.name,
                plain(days)
            )
        }
        None => format!("{}: Keeps does not say for how many days your house keeps it.", part.name),
    };
    let carried = [carried(page, id, false), carried(page, id, true)].concat();
    if !carried.is_empty() {
        text.push_str(&format!(" It carries {}", in_words(&carried)));
        let into = dishes(page, id);
        if !into.is_empty() {
            text.push_str(&format!(", into {}", suggest::quoted_list(&into, "and")));
        }
        text.push('.');
    }
    if page.costing.test_allergens.get(id.test.index()).is_some_and(|set| !set.not_stated.is_empty()) {
        text.push_str(" What else is in it is not stated: read the label.");
    }
    text
}

/// What a part carries, or may carry, each with the way by which it came: `crustacean and sulphite from White shrimp`.
fn carried(page: &Page<'_>, id: PartId, may: bool) -> Vec<String> {
    let Some(set) = page.costing.test_allergens.get(id.test.index()) else { return Vec::new() };
    let found = if may { &set.may_contain } else { &set.contains };
    let mut by_way: IndexMap<Vec<Node>, Vec<(&Allergen, &Carried)>> = IndexMap::new();
    for (allergen, carried) in found {
        by_way.entry(page.costing.way_of(Node::Test(id.test), allergen, may)).or_default().push((allergen, carried));
    }
    let groups = by_way.into_iter().map(|(way, allergens)| {
        let before = std::iter::once(Node::Test(id.test)).chain(way.iter().copied());
        let way: Vec<String> = before.zip(&way).map(|(from, node)| named(page.kitchen, from, *node)).collect();
        let from = if way.is_empty() { String::new() } else { format!(" from {}", way.join(", of ")) };
        let perhaps = if may { "perhaps " } else { "" };
        format!("{perhaps}{}{from}", in_words(&allergen_words::in_words(allergens.into_iter())))
    });
    groups.collect()
}

/// `a, b and c`.
fn in_words(words: &[String]) -> String {
    match words {
        [all @ .., last] if !all.is_empty() => format!("{} and {last}", all.join(", ")),
        _ => words.concat(),
    }
}

/// What a step of the way is called. Of a yield test it is the parts that were taken.
fn named(kitchen: &Kitchen, from: Node, node: Node) -> String {
    match node {
        Node::Item(id) => {
            let name = name_of(kitchen, Source::Bought(id));
            let taken = taken(kitchen, from);
            let is_it = |part: &PartId| {
                kitchen.part(*part).and_then(|part| part.buy_in.as_ref()).is_some_and(|buy_in| buy_in.item == id)
            };
            let parts = taken.iter().filter_map(|source| match source {
                Source::Part(part) => Some(*part),
                _ => None,
            });
            match parts.filter(is_it).map(|part| name_of(kitchen, Source::Part(part))).next() {
                Some(part) if !taken.contains(&Source::Bought(id)) => format!("{name}, bought where {part} is short"),
                _ => name,
            }
        }
        Node::Recipe(id) => name_of(kitchen, Source::Made(id)),
        Node::Test(test) => {
            let of_test = |source: &Source| matches!(source, Source::Part(part) if part.test == test);
            let taken: IndexSet<String> =
                taken(kitchen, from).into_iter().filter(of_test).map(|source| name_of(kitchen, source)).collect();
            in_words(&taken.into_iter().collect::<Vec<_>>())
        }
    }
}

/// What a yield test or a recipe takes.
fn taken(kitchen: &Kitchen, by: Node) -> Vec<Source> {
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

/// The dishes into which a part goes, by their recipes and through later tests.
fn dishes<'a>(page: &'a Page<'_>, id: PartId) -> Vec<&'a str> {
    let reach = Reach::of_food(page.kitchen, page.costing, id.test);
    let dishes = page.kitchen.dishes.iter().filter(|dish| reach.dish(dish).contains(&id.index()));
    dishes.map(|dish| dish.name.as_str()).collect()
}

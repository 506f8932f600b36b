//! What the trim that is used carries into dishes, by which way it came, and how long it may be kept.

use indexmap::IndexMap;

use super::Page;
use super::flow::name_of;
use crate::analysis::Trim;
use crate::food::Allergen;
use crate::kitchen::recipe::Source;
use crate::kitchen::{Kitchen, Node, PartId};
use crate::number::{Decimal, plain};
use crate::problem::suggest;
use crate::report::json::listed;

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
    let allergens = if may { &set.may_contain } else { &set.contains };
    let mut by_way: IndexMap<Vec<Node>, Vec<&Allergen>> = IndexMap::new();
    for allergen in allergens.keys() {
        by_way.entry(page.costing.way_of(Node::Test(id.test), allergen, may)).or_default().push(allergen);
    }
    let groups = by_way.into_iter().map(|(way, allergens)| {
        let way: Vec<String> = way.iter().map(|node| named(page.kitchen, *node)).collect();
        let from = if way.is_empty() { String::new() } else { format!(" from {}", way.join(", of ")) };
        let perhaps = if may { "perhaps " } else { "" };
        format!("{perhaps}{}{from}", in_words(&listed(allergens.into_iter())))
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

fn named(kitchen: &Kitchen, node: Node) -> String {
    match node {
        Node::Item(id) => name_of(kitchen, Source::Bought(id)),
        Node::Recipe(id) => name_of(kitchen, Source::Made(id)),
        Node::Test(id) => kitchen.test(id).map(|test| test.name.clone()).unwrap_or_default(),
    }
}

/// The dishes into which a part goes by their recipes.
fn dishes<'a>(page: &'a Page<'_>, id: PartId) -> Vec<&'a str> {
    let reach = crate::analysis::reach::Reach::of(page.kitchen, page.costing, id.test);
    let dishes = page.kitchen.dishes.iter().filter(|dish| reach.dish(dish).contains(&id.index()));
    dishes.map(|dish| dish.name.as_str()).collect()
}

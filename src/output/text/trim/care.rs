//! Cautions about trim that is used: what it carries into dishes, by which way it came, and how long it may be kept.

use indexmap::IndexMap;

use super::TrimPage;
use crate::analysis::Trim;
use crate::analysis::where_used::Reach;
use crate::costing::allergens::Carried;
use crate::food::Allergen;
use crate::kitchen::{Node, PartId};
use crate::number::{Decimal, plain};
use crate::problem::suggest;
use crate::results::allergen_ways::in_words;
use crate::results::{allergen_ways, allergen_words};

/// A line for every by-product that something uses.
pub(super) fn kept(page: &TrimPage<'_>, trim: &Trim) -> String {
    let mut out = String::new();
    for id in trim.worth.iter().flat_map(|worth| &worth.parts).map(|part| part.part) {
        out.push_str(&page.point(&sentence(page, id)));
    }
    out
}

fn sentence(page: &TrimPage<'_>, id: PartId) -> String {
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
fn carried(page: &TrimPage<'_>, id: PartId, may: bool) -> Vec<String> {
    let Some(set) = page.costing.test_allergens.get(id.test.index()) else { return Vec::new() };
    let found = if may { &set.may_contain } else { &set.contains };
    let mut by_way: IndexMap<Vec<Node>, Vec<(&Allergen, &Carried)>> = IndexMap::new();
    for (allergen, carried) in found {
        by_way.entry(page.costing.way_of(Node::Test(id.test), allergen, may)).or_default().push((allergen, carried));
    }
    let groups = by_way.into_iter().map(|(way, allergens)| {
        let way = allergen_ways::named(page.kitchen, Node::Test(id.test), &way);
        let from = if way.is_empty() { String::new() } else { format!(" from {}", way.join(", of ")) };
        let perhaps = if may { "perhaps " } else { "" };
        format!("{perhaps}{}{from}", in_words(&allergen_words::in_words(allergens.into_iter())))
    });
    groups.collect()
}

/// The dishes into which a part goes, by their recipes and through later tests.
fn dishes<'a>(page: &'a TrimPage<'_>, id: PartId) -> Vec<&'a str> {
    let reach = Reach::of_food(page.kitchen, page.costing, id.test);
    let dishes = page.kitchen.dishes.iter().filter(|dish| reach.dish(dish).contains(&id.index()));
    dishes.map(|dish| dish.name.as_str()).collect()
}

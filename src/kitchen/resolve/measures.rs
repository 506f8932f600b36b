//! Measure rows, hung on the food they are for: a bought item, a part, or a recipe.

mod compared;

use std::collections::{HashMap, HashSet};

use super::lookups::Lookups;
use crate::kitchen::Entries;
use crate::kitchen::bridge::{Basis, Bridge, Measure, MeasureRow};
use crate::kitchen::price::Item;
use crate::kitchen::recipe::Recipe;
use crate::kitchen::yield_test::Test;
use crate::kitchen::{Field, NameKey, PartId, TestId};
use crate::measure::{Dimension, Volumes};
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;
use compared::ComparedMeasures;

/// Attaches every measure row to its food.
pub(super) fn attach(
    entries: &Entries,
    lookups: &Lookups,
    items: &mut [Item],
    tests: &mut [Test],
    recipes: &mut [Recipe],
    volumes: Volumes,
    problems: &mut Vec<Problem>,
) {
    let mut parts: HashMap<NameKey, Vec<PartId>> = HashMap::new();
    for (at, test) in tests.iter().enumerate() {
        for (index, part) in test.parts.iter().enumerate() {
            let id = PartId::new(TestId::new(at), index);
            for key in [part.key.clone(), NameKey::of_pair(&test.name, &part.name)] {
                parts.entry(key).or_default().push(id);
            }
        }
    }
    for (index, row) in entries.measures.iter().enumerate() {
        let mut bridges: Vec<&mut Bridge> = Vec::new();
        if let Some(id) = lookups.bought(&row.item) {
            bridges.extend(items.get_mut(id.index()).map(|item| &mut item.bridge));
        }
        if let Some(id) = lookups.recipe_named(&row.item) {
            bridges.extend(recipes.get_mut(id.index()).map(|recipe| &mut recipe.bridge));
        }
        let named = parts.get(&NameKey::of(&row.item)).map(Vec::as_slice).unwrap_or_default();
        for id in named {
            let part = tests.get_mut(id.test.index()).and_then(|test| test.parts.get_mut(id.index()));
            part.into_iter().for_each(|part| add(&mut part.bridge, index, row));
        }
        if bridges.is_empty() && named.is_empty() {
            let help = match lookups.suggestion(&row.item) {
                Some(near) => format!("{near} If not, delete the row: it is not used."),
                None => "Correct the name, or delete the row: it is not used.".to_owned(),
            };
            problems.push(
                Fault::new(Code::MeasureUnused, format!("nothing in the book is called “{}”", row.item), help)
                    .at(row.input.place(Column::Item)),
            );
        }
        for bridge in bridges {
            add(bridge, index, row);
        }
    }
    let mut compared = ComparedMeasures { entries, volumes, problems, told: HashSet::new() };
    let mut complete = |name: &str, bridge: &mut Bridge| {
        compared.all(name, bridge);
        bridge.index(volumes);
    };
    items.iter_mut().for_each(|item| complete(&item.name, &mut item.bridge));
    recipes.iter_mut().for_each(|recipe| complete(&recipe.name, &mut recipe.bridge));
    tests.iter_mut().flat_map(|test| &mut test.parts).for_each(|part| complete(&part.name, &mut part.bridge));
}

fn add(bridge: &mut Bridge, index: usize, row: &MeasureRow) {
    let Field::Given((unit, prep)) = &row.measure else {
        bridge.broken = true;
        return;
    };
    let bases: &[Basis] = match (&row.basis, unit.is_count_like()) {
        (Field::Given(Basis::Ap), _) | (Field::Blank, true) => &[Basis::Ap],
        (Field::Given(Basis::Ep), _) | (Field::Blank, false) => &[Basis::Ep],
        // Whichever it was to be, it is not known.
        (Field::Broken, _) => &[Basis::Ap, Basis::Ep],
    };
    let stated = |column| !row.input.typed(column).is_blank();
    let says = match (stated(Column::Weighs), stated(Column::Holds)) {
        (true, false) => Some(Dimension::Mass),
        (false, true) => Some(Dimension::Volume),
        _ => None,
    };
    bridge.measures.extend(bases.iter().map(|basis| Measure {
        unit: unit.clone(),
        prep: prep.as_ref().map(|prep| NameKey::of(prep)),
        prep_text: prep.clone().unwrap_or_default(),
        equals: row.equals.given().filter(|_| !row.basis.is_broken()).cloned(),
        says,
        basis: *basis,
        row: index,
    }));
}

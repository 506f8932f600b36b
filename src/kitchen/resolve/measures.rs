//! Measure rows, hung on the food they are for: a bought item, a part, or a recipe.

use super::lookups::Lookups;
use crate::kitchen::Entries;
use crate::kitchen::bridge::{Basis, Bridge, Measure, MeasureRow};
use crate::kitchen::price::Item;
use crate::kitchen::recipe::Recipe;
use crate::kitchen::yield_test::Test;
use crate::kitchen::{Field, NameKey};
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// Attaches every measure row to its food.
pub(super) fn attach(
    entries: &Entries,
    lookups: &Lookups,
    items: &mut [Item],
    tests: &mut [Test],
    recipes: &mut [Recipe],
    problems: &mut Vec<Problem>,
) {
    for (index, row) in entries.measures.iter().enumerate() {
        let mut bridges: Vec<&mut Bridge> = Vec::new();
        if let Some(id) = lookups.bought(&row.item) {
            bridges.extend(items.get_mut(id.index()).map(|item| &mut item.bridge));
        }
        if let Some(id) = lookups.recipe_named(&row.item) {
            bridges.extend(recipes.get_mut(id.index()).map(|recipe| &mut recipe.bridge));
        }
        let wanted = NameKey::of(&row.item);
        for test in tests.iter_mut() {
            let test_key = test.name.clone();
            let parts = test.parts.iter_mut();
            bridges.extend(
                parts
                    .filter(|part| part.key == wanted || NameKey::of_pair(&test_key, &part.name) == wanted)
                    .map(|part| &mut part.bridge),
            );
        }
        if bridges.is_empty() {
            let help = lookups
                .suggestion(&row.item)
                .unwrap_or_else(|| "Correct the name, or delete the row: it is not used.".to_owned());
            problems.push(
                Fault::new(Code::MeasureUnused, format!("nothing in the book is called “{}”", row.item), help)
                    .at(row.input.place(Column::Item)),
            );
        }
        for bridge in bridges {
            add(bridge, index, row);
        }
    }
}

fn add(bridge: &mut Bridge, index: usize, row: &MeasureRow) {
    let (Field::Given((unit, prep)), false) = (&row.measure, row.basis.is_broken()) else {
        bridge.broken = true;
        return;
    };
    let equals = row.equals.given().cloned();
    let counted = unit.is_count_like();
    bridge.measures.push(Measure {
        unit: unit.clone(),
        prep: prep.as_ref().map(|prep| NameKey::of(prep)),
        prep_text: prep.clone().unwrap_or_default(),
        equals,
        basis: row.basis.given().copied().unwrap_or(if counted { Basis::Ap } else { Basis::Ep }),
        row: index,
    });
}

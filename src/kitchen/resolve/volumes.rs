//! Volumes that stop when the setting Volumes cannot be read: all that is measured by cup, pint, fluid ounce or spoon,
//! and nothing else.

use crate::kitchen::bridge::Bridge;
use crate::kitchen::menu::Dish;
use crate::kitchen::price::Item;
use crate::kitchen::recipe::{LineQuantity, Recipe};
use crate::kitchen::yield_test::Test;
use crate::measure::Measured;

/// Marks what depends on the setting as broken. Price rows ask for themselves.
pub(super) fn stop(items: &mut [Item], tests: &mut [Test], recipes: &mut [Recipe], dishes: &mut [Dish]) {
    items.iter_mut().for_each(|item| stop_bridge(&mut item.bridge));
    tests.iter_mut().flat_map(|test| &mut test.parts).for_each(|part| stop_bridge(&mut part.bridge));
    for dish in &mut *dishes {
        dish.broken |= dish.portion.as_ref().is_some_and(varies);
    }
    for recipe in recipes {
        stop_bridge(&mut recipe.bridge);
        for line in &mut recipe.lines {
            let (LineQuantity::Measured(measured) | LineQuantity::Unmeasured { measured: Some(measured), .. }) =
                &line.quantity
            else {
                continue;
            };
            let dish = line.dish.and_then(|dish| dishes.get(dish.index())?.portion.as_ref());
            line.broken |= varies(measured) || dish.is_some_and(varies);
        }
        recipe.broken |= recipe.lines.iter().any(|line| line.broken)
            || recipe.makes.iter().any(varies)
            || recipe.portion.as_ref().is_some_and(varies);
    }
}

fn varies(measured: &Measured) -> bool {
    measured.unit.varies()
}

fn stop_bridge(bridge: &mut Bridge) {
    bridge.broken |= bridge
        .measures
        .iter()
        .any(|measure| measure.unit.varies() || measure.equals.as_ref().is_some_and(|equals| equals.unit.varies()));
}

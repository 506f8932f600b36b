//! Dishes in the three kitchens, and which of them are made of trim.

use std::collections::HashSet;

use super::DishWorth;
use crate::analysis::balance::Balance;
use crate::costing::trace::CostedAs;
use crate::costing::{Costing, LineCost};
use crate::kitchen::Kitchen;
use crate::kitchen::plan::Served;
use crate::kitchen::recipe::Source;
use crate::kitchen::yield_test::Role;
use crate::number::Decimal;

/// Every dish, then what else the plan serves.
pub(super) fn dishes(
    kitchen: &Kitchen,
    kitchens: &[Costing; 3],
    planned: &Costing,
    balance: Option<&Balance>,
) -> Vec<DishWorth> {
    let servings = || balance.into_iter().flat_map(|balance| &balance.servings);
    let others = servings().map(|serving| serving.served).filter(|served| matches!(served, Served::Recipe(_)));
    let served = (0..kitchen.dishes.len()).map(Served::Dish).chain(others);
    served
        .map(|served| DishWorth {
            served,
            portions: servings().find(|serving| serving.served == served).map(|serving| serving.portions),
            food: [0, 1, 2].map(|index| kitchens.get(index).and_then(|costing| food_of(costing, served))),
            planned: match served {
                Served::Dish(index) => planned.dishes.get(index).and_then(Option::as_ref).map(|dish| dish.portion_cost),
                Served::Recipe(id) => planned.recipe(id).and_then(|recipe| recipe.portion_cost),
            },
            of_trim: is_of_trim(kitchen, planned, served),
            margin: match served {
                Served::Dish(index) => planned.dishes.get(index).and_then(Option::as_ref).and_then(|dish| dish.margin),
                Served::Recipe(_) => None,
            },
        })
        .collect()
}

/// Food cost of a portion; `None` where it is not known.
pub(super) fn food_of(costing: &Costing, served: Served) -> Option<Decimal> {
    match served {
        Served::Dish(index) => Some(costing.dishes.get(index)?.as_ref()?.food),
        // Without Q and spice a portion is food alone.
        Served::Recipe(id) => costing.recipe(id)?.portion_cost,
    }
}

/// Whether a by-product goes into what is served, through whatever chain of recipes and tests.
fn is_of_trim(kitchen: &Kitchen, costing: &Costing, served: Served) -> bool {
    let start = match served {
        Served::Dish(index) => kitchen.dishes.get(index).and_then(|dish| dish.recipe),
        Served::Recipe(id) => Some(id),
    };
    let mut open: Vec<Source> = start.into_iter().map(Source::Made).collect();
    let mut seen: HashSet<Source> = open.iter().copied().collect();
    while let Some(source) = open.pop() {
        let mut found = Vec::new();
        match source {
            Source::Part(id) => {
                if kitchen.part(id).is_some_and(|part| part.role == Role::ByProduct) {
                    return true;
                }
                found.extend(kitchen.test(id.test).map(|test| test.input));
            }
            Source::Made(id) => {
                let lines = kitchen.recipe(id).into_iter().flat_map(|recipe| &recipe.lines);
                let costs = costing.recipe(id).into_iter().flat_map(|cost| &cost.lines);
                found.extend(lines.zip(costs).filter_map(|(line, cost)| match cost {
                    LineCost::Costed { trace, .. } => Some(match trace.costed_as {
                        CostedAs::ThroughTest(part) => Source::Part(part),
                        _ => line.source,
                    }),
                    LineCost::Uncosted => None,
                }));
            }
            Source::Bought(_) | Source::Unknown => {}
        }
        open.extend(found.into_iter().filter(|source| seen.insert(*source)));
    }
    false
}

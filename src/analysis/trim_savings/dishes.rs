//! Dishes in the three kitchens.

use std::collections::HashMap;

use super::{DishWorth, FoodOfTrim};
use crate::analysis::balance::Balance;
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::kitchen::plan::Served;
use crate::number::{Decimal, Overflow};

/// Every dish, then what else the plan serves. `trim` says whether any goes into it, and how much of its food it is.
pub(super) fn dishes(
    kitchen: &Kitchen,
    kitchens: &[Costing; 3],
    planned: &Costing,
    balance: Option<&Balance>,
    trim: impl Fn(Served) -> Result<(bool, Option<FoodOfTrim>), Overflow>,
) -> Result<Vec<DishWorth>, Overflow> {
    let servings = || balance.into_iter().flat_map(|balance| &balance.servings);
    let others = servings().map(|serving| serving.served).filter(|served| matches!(served, Served::Recipe(_)));
    let portions: HashMap<Served, Decimal> = servings().map(|serving| (serving.served, serving.portions)).collect();
    let served = (0..kitchen.dishes.len()).map(Served::Dish).chain(others);
    let worth = served.map(|served| {
        let (of_trim, trim) = trim(served)?;
        Ok(DishWorth {
            served,
            portions: portions.get(&served).copied(),
            food: [0, 1, 2].map(|index| kitchens.get(index).and_then(|costing| food_of(costing, served))),
            planned: portion_cost(planned, served),
            of_trim,
            trim,
            margin: match served {
                Served::Dish(index) => planned.dishes.get(index).and_then(Option::as_ref).and_then(|dish| dish.margin),
                Served::Recipe(_) => None,
            },
        })
    });
    worth.collect()
}

/// What a portion costs, Q and spice within; `None` where it is not known.
pub fn portion_cost(costing: &Costing, served: Served) -> Option<Decimal> {
    match served {
        Served::Dish(index) => Some(costing.dishes.get(index)?.as_ref()?.portion_cost),
        Served::Recipe(id) => costing.recipe(id)?.portion_cost,
    }
}

/// Food cost of a portion; `None` where it is not known.
pub(super) fn food_of(costing: &Costing, served: Served) -> Option<Decimal> {
    match served {
        Served::Dish(index) => Some(costing.dishes.get(index)?.as_ref()?.food),
        // Without Q and spice a portion is food alone.
        Served::Recipe(id) => costing.recipe(id)?.portion_cost,
    }
}

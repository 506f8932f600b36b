//! Dearest dish, and where its money goes: the lines of its recipe that cost most, as shares of its food.

use super::line::share;
use crate::costing::{Costing, LineCost};
use crate::in_order::InOrder;
use crate::kitchen::menu::Dish;
use crate::kitchen::{Kitchen, RecipeId};
use crate::number::{Decimal, exact};

/// The dish with the highest portion cost; of several the first in the book.
#[derive(Debug, Clone)]
pub struct Dearest<'a> {
    /// The dish.
    pub dish: &'a Dish,
    /// Its recipe.
    pub recipe: RecipeId,
    /// The lines of that which cost most, by index, with name and share, the dearest first.
    pub lines: Vec<(usize, &'a str, Option<Decimal>)>,
    /// What all others come to, as a share; `None` where they cost nothing.
    pub others: Option<Decimal>,
}

impl<'a> Dearest<'a> {
    /// It, with so many lines at the most; `None` where there is nothing to compare.
    pub fn of(kitchen: &'a Kitchen, costing: &Costing, most: usize) -> Option<Self> {
        let dishes = kitchen.dishes.iter().zip(&costing.dishes);
        let costed = dishes.filter_map(|(dish, cost)| Some((dish, cost.as_ref()?.portion_cost)));
        let (dish, _) = costed.reduce(|dearest, dish| if dish.1 > dearest.1 { dish } else { dearest })?;
        let id = dish.recipe?;
        let entry = kitchen.entries.recipes.get(kitchen.recipe(id)?.entry)?;
        let cost = costing.recipe(id).filter(|cost| !cost.food.is_zero())?;
        let mut lines: Vec<(usize, &str, Decimal)> = Vec::new();
        for (index, (line, entry)) in cost.lines.iter().zip(&entry.lines).enumerate() {
            if let LineCost::Costed { cost, .. } = line {
                lines.push((index, entry.item.as_str(), *cost));
            }
        }
        if lines.len() < 2 {
            return None;
        }
        lines.put_in_order_by(|a, b| b.2.cmp(&a.2).then(a.0.cmp(&b.0)));
        let others = exact::sum(lines.iter().skip(most).map(|(.., cost)| *cost)).ok()?;
        let of_food = |money: Decimal| share(cost, money);
        let lines = lines.into_iter().take(most).map(|(index, name, cost)| (index, name, of_food(cost)));
        let others = Some(others).filter(|others| !others.is_zero()).and_then(of_food);
        Some(Dearest { dish, recipe: id, lines: lines.collect(), others })
    }
}

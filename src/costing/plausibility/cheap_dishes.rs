//! Dishes that sell for far more than they cost. A price that has lost its point is a hundred times too high.

use super::dear_dishes::price_of;
use crate::costing::DishCost;
use crate::kitchen::Kitchen;
use crate::kitchen::menu::Dish;
use crate::kitchen::recipe::Recipe;
use crate::measure::currency;
use crate::number::{Decimal, exact};
use crate::problem::{Code, Fault, Problem};

/// The food cost below which a price is doubted, as a fraction. Dishes are sold at 15 to 45 % (common practice, no source),
/// so a lost point makes 0.15 to 0.45 % of it; what is sold at the highest margin, as tea and fountain drinks are, stays
/// above 2 %.
const LEAST: Decimal = Decimal::from_parts(2, 0, 0, false, 2);

/// The doubt of a dish that costs next to nothing of what it sells for, at its menu price.
pub(super) fn of_dish(kitchen: &Kitchen, dish: &Dish, recipe: &Recipe, cost: &DishCost) -> Option<Problem> {
    // What costs nothing, as water does, says nothing of its price.
    cost.food_cost.filter(|food_cost| *food_cost < LEAST && !cost.portion_cost.is_zero())?;
    let price = dish.menu_price?;
    let shown = |amount: Decimal| currency::shown(&kitchen.settings.currency, amount);
    let told = format!(
        "“{}” costs {} a portion and sells for {}, more than fifty times as much",
        dish.name,
        shown(cost.portion_cost),
        shown(price)
    );
    let hundredth = exact::div(price, Decimal::ONE_HUNDRED).ok()?;
    let help = if hundredth > cost.portion_cost {
        format!(
            "If the point is missing, type {}. Else check the numbers and units of its lines, and what it makes.",
            shown(hundredth)
        )
    } else {
        "Check this price, the numbers and units of the dish's lines, and what it makes.".to_owned()
    };
    let entry = kitchen.entries.recipes.get(recipe.entry)?;
    Some(Fault::new(Code::PriceFarOverCost, told, help).at(price_of(kitchen, dish, entry)))
}

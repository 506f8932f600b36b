//! Dishes: what a portion costs, what it is sold for, and what it would have to be sold for.

use super::super::fraction::{Fraction, Num, rounded, whole};
use super::super::kitchen::Kitchen;
use super::super::kitchen::menu::{Dish, Rounding, Served};
use super::super::kitchen::recipes::{Q, Recipe};
use super::super::unit::Amount;
use super::made::served;
use super::{Costs, Known, Lack};

/// A dish.
pub struct DishCost {
    pub name: String,
    pub portion_cost: Known<Fraction>,
    /// As typed.
    pub menu_price: Option<Fraction>,
    pub food_cost_percent: Option<Fraction>,
    pub target_percent: Option<Fraction>,
    pub price_at_target: Option<Fraction>,
    pub margin: Option<Fraction>,
}

/// The rows of the menu, then every recipe with a menu price that the menu does not name.
pub fn dishes(kitchen: &Kitchen) -> Vec<Dish> {
    let mut dishes = kitchen.dishes.clone();
    for (at, recipe) in kitchen.recipes.iter().enumerate() {
        let named = kitchen.dishes.iter().any(|dish| dish.recipe == at);
        if recipe.menu_price.is_some() && !named {
            let (menu_price, target) = (None, None);
            dishes.push(Dish {
                name: recipe.name.clone(),
                recipe: at,
                served: Served::Own,
                menu_price,
                target,
                tax: None,
            });
        }
    }
    dishes
}

/// Up to the next step, or to the next amount with this ending; what stands on one, to nine decimals, stays.
fn stepped(price: Fraction, rounding: &Rounding) -> Fraction {
    let up = |x: Fraction| rounded(&x, 9).ceil();
    match rounding {
        Rounding::None => price,
        Rounding::Step(step) => up(price / &step.value) * &step.value,
        Rounding::Ending(ending) => up(price - &ending.value).max(whole(0)) + &ending.value,
    }
}

/// Whether a dish is the card's portion, named or not.
fn is_own(served: &Served, recipe: &Recipe) -> bool {
    match (served, &recipe.portion) {
        (Served::Own, _) => true,
        (Served::Portions(num), _) => num.value == whole(1),
        (Served::Amount(amount), Some(card)) => amount.unit.dim == card.unit.dim && amount.base() == card.base(),
        _ => false,
    }
}

impl Costs<'_> {
    /// Which share of the batch a dish is, and how many whole portions it counts as.
    pub(super) fn portion(&self, dish: &Dish) -> Known<(Fraction, Fraction)> {
        let (recipe, made) = (&self.kitchen.recipes[dish.recipe], &self.recipes[dish.recipe]);
        let portions = made.portions.clone().ok_or(Lack("no portions"));
        match &dish.served {
            Served::Own => Ok((portions?.recip(), whole(1))),
            Served::Portions(num) => Ok((&num.value / portions?, num.value.ceil())),
            Served::Batches(num) => Ok((num.value.clone(), portions.map_or_else(|_| whole(0), |n| n * &num.value))),
            Served::Amount(amount) => Ok((self.share(recipe, dish.recipe, amount)?, whole(1))),
        }
    }

    /// The share of an amount: beside the card's portion, else of what is left to serve.
    fn share(&self, recipe: &Recipe, at: usize, amount: &Amount) -> Known<Fraction> {
        let made = &self.recipes[at];
        if let (Some(portion), Some(portions)) = (&recipe.portion, &made.portions) {
            if portion.unit.dim == amount.unit.dim {
                return Ok(amount.base() / portion.base() / portions);
            }
            // Two measures of one batch say how the one compares with the other.
            let of = |dim| made.makes.iter().find(|(is, _)| *is == dim).map(|(_, made)| made.clone());
            if let (Some(mine), Some(cards)) = (of(amount.unit.dim), of(portion.unit.dim)) {
                return Ok(amount.base() / mine * cards / portion.base() / portions);
            }
        }
        let of = made.makes.iter().find(|(dim, _)| *dim == amount.unit.dim).ok_or(Lack("not made in this unit"))?;
        Ok(amount.base() / (&of.1 * served(recipe)))
    }

    fn portion_cost(&self, dish: &Dish) -> Known<Fraction> {
        let recipe = &self.kitchen.recipes[dish.recipe];
        let (share, portions) = self.portion(dish)?;
        let food = self.recipes[dish.recipe].food.clone()? * share;
        let settings = &self.kitchen.settings;
        let q = match recipe.q.as_ref().or(settings.q.as_ref()) {
            None => whole(0),
            Some(Q::Percent(percent)) => &food * &percent.value,
            Some(Q::Money(money)) => &money.value * portions,
        };
        let spice =
            recipe.spice.as_ref().or(settings.spice.as_ref()).map_or_else(|| whole(0), |spice| spice.value.clone());
        let spice = spice * if self.spice_covers_q() { &food + &q } else { food.clone() };
        Ok(food + q + spice)
    }

    /// A dish.
    pub(super) fn dish(&self, dish: &Dish) -> DishCost {
        let recipe = &self.kitchen.recipes[dish.recipe];
        let settings = &self.kitchen.settings;
        let value = |num: &Option<Num>| num.as_ref().map(|num| num.value.clone());
        let portion_cost = self.portion_cost(dish);
        let cards = if is_own(&dish.served, recipe) { value(&recipe.menu_price) } else { None };
        let menu_price = value(&dish.menu_price).or(cards);
        let target = value(&dish.target).or_else(|| value(&recipe.target)).or_else(|| value(&settings.target));
        let gross = whole(1) + value(&dish.tax).or_else(|| value(&settings.menu_tax)).unwrap_or_else(|| whole(0));
        let net = menu_price.as_ref().map(|price| price / &gross);
        let cost = portion_cost.as_ref().ok();
        DishCost {
            name: dish.name.clone(),
            food_cost_percent: cost.zip(net.as_ref()).map(|(cost, net)| cost / net * whole(100)),
            price_at_target: cost
                .zip(target.as_ref())
                .map(|(cost, target)| stepped(cost / target * &gross, &settings.rounding)),
            margin: cost.zip(net.as_ref()).map(|(cost, net)| net - cost),
            target_percent: target.map(|target| target * whole(100)),
            menu_price,
            portion_cost,
        }
    }
}

//! Drivers of a dish's cost, by bought item: contributions that add up to the change exactly.

use super::before_and_after::Pair;
use super::cost_flow::CostFlow;
use crate::costing::DishCost;
use crate::costing::q_and_spice::QAndSpice;
use crate::in_order::InOrder;
use crate::kitchen::ItemId;
use crate::kitchen::menu::Dish;
use crate::number::{Decimal, Overflow, exact, share};

/// What of a portion's cost is the rounding of the last digits of its sums: 10⁻¹⁸ of it.
const ROUNDING: Decimal = Decimal::from_parts(1, 0, 0, false, 18);

/// What moved the portion cost of a dish: `items`, `together` and `other` add up to the change exactly.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Drivers {
    /// The items, the largest move of either direction first.
    pub items: Vec<Driver>,
    /// What the smallest come to where more than [`super::FOLLOWED`] items moved a recipe or part on the way; those of them
    /// that are listed as well may have a little within.
    pub together: Decimal,
    /// What belongs to no one item.
    pub other: Decimal,
}

/// What one item moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Driver {
    /// The item, by its id in the kitchen with the new prices.
    pub item: ItemId,
    /// By how much it moved the portion cost.
    pub change: Decimal,
}

impl Drivers {
    /// What moved `dish`, which cost `was` and costs `now`; `change` is the difference.
    pub(super) fn of(
        pair: &Pair<'_>,
        flow: &CostFlow<'_>,
        dish: &Dish,
        (was, now): (&DishCost, &DishCost),
        change: Decimal,
    ) -> Result<Self, Overflow> {
        let (mut items, mut together) = (Vec::new(), Decimal::ZERO);
        let recipe = dish.recipe.and_then(|id| Some((id, pair.new.recipe(id)?)));
        if let Some((id, recipe)) = recipe.filter(|_| was.share == now.share) {
            let by = now.share.times(QAndSpice::of_dish(pair.new, recipe).factor()?)?;
            // What is too small for a decimal is nothing here.
            let portion = |amount: Decimal| by.times(amount).and_then(|amount| amount.value()).unwrap_or_default();
            let food = flow.food(id);
            items.extend(food.items.iter().map(|(item, amount)| Driver { item: *item, change: portion(*amount) }));
            together = portion(food.together);
        }
        settle(items, together, (was.portion_cost, now.portion_cost), change)
    }

    /// What the items after the first so many come to, and what was told together; `None` where that does not fit.
    pub fn beyond(&self, first: usize) -> Option<Decimal> {
        let others = self.items.iter().skip(first).map(|driver| driver.change);
        exact::sum(others.chain([self.together])).ok()
    }

    /// What they add up to.
    ///
    /// # Errors
    /// [`Overflow`] when the sum does not fit a decimal.
    pub fn sum(&self) -> Result<Decimal, Overflow> {
        exact::sum(self.items.iter().map(|driver| driver.change).chain([self.together, self.other]))
    }
}

/// Rounds the drivers so that they add up: the largest takes the rounding; what is more than that is told as other.
fn settle(
    mut items: Vec<Driver>,
    together: Decimal,
    (was, now): (Decimal, Decimal),
    change: Decimal,
) -> Result<Drivers, Overflow> {
    let most = was.abs().max(now.abs());
    let all = exact::sum(items.iter().map(|driver| driver.change.abs()).chain([together.abs()]))?;
    let whole = most.max(all);
    items.iter_mut().for_each(|driver| driver.change = share::rounded(driver.change, whole));
    items.retain(|driver| !driver.change.is_zero());
    items.put_in_order_by_key(|driver| (std::cmp::Reverse(driver.change.abs()), driver.item));
    let mut drivers = Drivers { items, together: share::rounded(together, whole), other: Decimal::ZERO };
    let rest = exact::sub(change, drivers.sum()?)?;
    let is_rounding = exact::mul(most, ROUNDING).is_ok_and(|rounding| rest.abs() <= rounding);
    match drivers.items.first_mut() {
        Some(largest) if is_rounding => largest.change = exact::add(largest.change, rest)?,
        _ => drivers.other = rest,
    }
    // A digit that the largest cannot hold.
    let rest = exact::sub(change, drivers.sum()?)?;
    drivers.other = exact::add(drivers.other, rest)?;
    if drivers.sum()? == change { Ok(drivers) } else { Err(Overflow) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn driver(index: usize, change: Decimal) -> Driver {
        Driver { item: ItemId::new(index), change }
    }

    #[test]
    fn the_largest_takes_the_last_digit() {
        // 1 ÷ 3 twice is 0.66…6 to 27 decimals; the change of 0.66…67 is one digit more, which the first of equals takes.
        let third = exact::div(Decimal::ONE, Decimal::from(3)).unwrap();
        let change = exact::div(Decimal::TWO, Decimal::from(3)).unwrap();
        let items = vec![driver(1, third), driver(0, third)];
        let drivers = settle(items, Decimal::ZERO, (Decimal::ONE, Decimal::TWO), change).unwrap();
        assert_eq!(drivers.sum(), Ok(change));
        assert_eq!(drivers.other, Decimal::ZERO);
        assert_eq!(drivers.items.iter().map(|driver| driver.item.index()).collect::<Vec<_>>(), [0, 1]);
        assert_eq!(drivers.items[1].change, share::rounded(third, Decimal::ONE));
    }

    #[test]
    fn more_than_rounding_is_no_items() {
        let items = vec![driver(0, Decimal::ONE)];
        let drivers = settle(items, Decimal::ZERO, (Decimal::ONE, Decimal::TEN), Decimal::from(9)).unwrap();
        assert_eq!((drivers.items[0].change, drivers.other), (Decimal::ONE, Decimal::from(8)));
    }
}

//! Menu prices taken apart: what of each is food, what of that is trim, Q, spice, tax, and what is earned. The parts add
//! up to the price.

use crate::analysis::Worth;
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::kitchen::plan::Served;
use crate::number::{Decimal, exact};

/// The most dishes that are taken apart.
const MOST: usize = 60;

/// A menu price in its parts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Apart {
    /// The dish, as an index into the menu.
    pub dish: usize,
    /// Food that is no trim.
    pub food: Decimal,
    /// Trim, at what it is charged.
    pub trim: Decimal,
    /// Q.
    pub q: Decimal,
    /// Spice.
    pub spice: Decimal,
    /// Tax within the price.
    pub tax: Decimal,
    /// What is earned; below zero what is paid on top.
    pub margin: Decimal,
    /// The menu price.
    pub price: Decimal,
}

impl Apart {
    /// The dishes that are costed and have a price, in menu order; `worth` knows what of their food is trim.
    pub(crate) fn all(kitchen: &Kitchen, costing: &Costing, worth: Option<&Worth>) -> Vec<Apart> {
        let all = (0..kitchen.dishes.len()).filter_map(|index| Apart::of(kitchen, costing, worth, index));
        all.take(MOST).collect()
    }

    /// Whether there is any.
    pub(crate) fn any(kitchen: &Kitchen, costing: &Costing) -> bool {
        (0..kitchen.dishes.len()).any(|index| Apart::of(kitchen, costing, None, index).is_some())
    }

    fn of(kitchen: &Kitchen, costing: &Costing, worth: Option<&Worth>, index: usize) -> Option<Apart> {
        let price = kitchen.dishes.get(index)?.menu_price?;
        let cost = costing.dishes.get(index)?.as_ref()?;
        let charged = worth.and_then(|worth| worth.within.charged(kitchen, costing, Served::Dish(index)));
        let trim = charged.unwrap_or_default().min(cost.food);
        Some(Apart {
            dish: index,
            food: exact::sub(cost.food, trim).ok()?,
            trim,
            q: cost.q,
            spice: cost.spice,
            tax: exact::sub(price, cost.ex_tax?).ok()?,
            margin: cost.margin?,
            price,
        })
    }

    /// The `nth` part as they are shown, the first being food.
    pub(crate) fn part(&self, nth: u16) -> Option<Decimal> {
        let parts = [self.food, self.trim, self.q, self.spice, self.tax, self.margin];
        parts.get(usize::from(nth.checked_sub(1)?)).copied()
    }

    /// The least part that a picture of `all` has room to name: about a fifteenth of the longest bar.
    pub(crate) fn least_labelled(all: &[Apart]) -> Decimal {
        let longest = all.iter().map(|apart| apart.price).max().unwrap_or_default();
        exact::div(longest, Decimal::from(15)).unwrap_or_default()
    }
}

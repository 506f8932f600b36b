//! Repricing, what new prices do: to every dish and what drove it, to parts and recipes on the way, to the basket as a
//! whole, and which other price would be cheaper.
//!
//! Takes a kitchen and its costing before new price rows and after, both for one day and otherwise the same book: the rows
//! of the first price list come first in the second, and recipes, tests, menu and plan are the same. Gives plain figures,
//! money and fractions of one, for reports to lay out. Items go by their ids in the kitchen with the new prices.

mod basket;
mod before_and_after;
mod compare;
mod cost_flow;
mod dishes;
mod drivers;
mod index;
mod movers;
mod parts_and_recipes;
mod switch;

pub use basket::{Basket, BasketKind};
pub use compare::LeftOut;
pub use dishes::{DishEffect, DishFigures, UncostedDish};
pub use drivers::{Driver, Drivers};
pub use index::Index;
pub use movers::{InUse, Mover, Unpriced};
pub use parts_and_recipes::{CostChange, PartEffect, RecipeEffect, TestEffect};
pub use switch::Switch;

pub use super::moves_by_item::FOLLOWED;

use super::Lack;
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use before_and_after::Pair;
use cost_flow::CostFlow;
use dishes::Dishes;

/// On which side something has no cost or price.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotPriced {
    /// Before: there is one only with the new prices.
    Before,
    /// With the new prices: there is none any more.
    Now,
    /// On both sides.
    Both,
}

impl NotPriced {
    /// Of what is there before, and now; `None` when it is there on both sides.
    fn of(before: bool, now: bool) -> Option<Self> {
        match (before, now) {
            (true, true) => None,
            (false, true) => Some(NotPriced::Before),
            (true, false) => Some(NotPriced::Now),
            (false, false) => Some(NotPriced::Both),
        }
    }
}

/// What new prices do.
#[derive(Debug, Clone)]
#[non_exhaustive]
pub struct Effects {
    /// The dishes whose portion cost moved, by worth: the largest rise first, of equals in book order, what is not known last.
    pub dishes: Vec<DishEffect>,
    /// The dishes that cost what they did, as indices into the kitchen's.
    pub unmoved: Vec<usize>,
    /// The dishes without a cost before, now or at all, in book order.
    pub uncosted: Vec<UncostedDish>,
    /// The yield tests whose parts moved, in book order.
    pub tests: Vec<TestEffect>,
    /// The recipes that others use and whose batch moved, in book order.
    pub recipes: Vec<RecipeEffect>,
    /// The items whose price in use moved, by worth over the basket: the largest rise first, what is not known last.
    pub movers: Vec<Mover>,
    /// The items with a price on one side alone, in book order.
    pub unpriced: Vec<Unpriced>,
    /// What prices are weighed with.
    pub basket: Result<Basket, Lack>,
    /// How much dearer the basket is.
    pub index: Result<Index, Lack>,
    /// Where another current price is cheaper, by worth over the basket.
    pub switches: Vec<Switch>,
}

impl Effects {
    /// What the rows that `new` has more than `old` do; `was` and `now` are their costings.
    pub fn of(old: &Kitchen, was: &Costing, new: &Kitchen, now: &Costing) -> Self {
        let pair = Pair::of(old, was, new, now);
        let dishes = Dishes::of(&pair, &CostFlow::of(&pair));
        let basket = Basket::of(&pair);
        let index = basket.as_ref().map_err(Clone::clone).and_then(|basket| Index::of(&pair, basket));
        let (movers, unpriced) = movers::movers(&pair, &basket);
        Effects {
            dishes: dishes.moved,
            unmoved: dishes.unmoved,
            uncosted: dishes.uncosted,
            tests: parts_and_recipes::tests(&pair),
            recipes: parts_and_recipes::recipes(&pair),
            movers,
            unpriced,
            index,
            switches: switch::switches(&pair, &basket),
            basket,
        }
    }
}

//! Target status of a dish: decided here once, said in words by every report.

use std::fmt;

use crate::costing::DishCost;
use crate::kitchen::menu::Dish;
use crate::number::Decimal;

/// How a dish stands against its target.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum TargetStatus {
    /// Its food cost is above its target.
    OverTarget,
    /// Its food cost is at its target or below.
    WithinTarget,
    /// It is costed but has no menu price to compare with.
    NoMenuPrice,
    /// It is costed and priced but has no target.
    NoTarget,
    /// A problem stops its cost.
    NotCosted,
}

impl TargetStatus {
    /// Every standing.
    pub const ALL: &'static [TargetStatus] =
        &[Self::OverTarget, Self::WithinTarget, Self::NoMenuPrice, Self::NoTarget, Self::NotCosted];

    /// The standing of `dish`, given its cost where it has one. Over is what
    /// `costing::menu_price::over` says; a dish without menu price and target lacks the price first.
    pub fn of(dish: &Dish, cost: Option<&DishCost>) -> Self {
        match cost {
            None => Self::NotCosted,
            Some(_) if dish.menu_price.is_none() => Self::NoMenuPrice,
            Some(DishCost { over: None, .. }) => Self::NoTarget,
            Some(DishCost { over: Some(over), .. }) if *over > Decimal::ZERO => Self::OverTarget,
            Some(_) => Self::WithinTarget,
        }
    }

    /// What reports say.
    pub fn words(self) -> &'static str {
        match self {
            Self::OverTarget => "over target",
            Self::WithinTarget => "within target",
            Self::NoMenuPrice => "no menu price",
            Self::NoTarget => "no target",
            Self::NotCosted => "not costed",
        }
    }
}

impl fmt::Display for TargetStatus {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.words())
    }
}

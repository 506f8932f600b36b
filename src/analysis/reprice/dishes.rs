//! Dishes at new prices: its cost, where it stands against its target, what that is worth and what drove it.

use std::cmp::Reverse;
use std::collections::HashMap;

use super::NotPriced;
use super::before_and_after::Pair;
use super::cost_flow::CostFlow;
use super::drivers::Drivers;
use crate::analysis::Lack;
use crate::costing::DishCost;
use crate::in_order::InOrder;
use crate::kitchen::Kitchen;
use crate::kitchen::plan::Served;
use crate::number::{Decimal, Overflow, exact};

/// A dish on one side.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DishFigures {
    /// What a portion costs.
    pub portion_cost: Decimal,
    /// Portion cost over the price without tax, as a fraction.
    pub food_cost: Option<Decimal>,
    /// Price without tax less portion cost.
    pub margin: Option<Decimal>,
    /// By how much the food cost is over target, as a fraction; zero when it is not.
    pub over: Option<Decimal>,
    /// The menu price that meets the target.
    pub price_at_target: Option<Decimal>,
}

impl DishFigures {
    fn of(cost: &DishCost) -> Self {
        DishFigures {
            portion_cost: cost.portion_cost,
            food_cost: cost.food_cost,
            margin: cost.margin,
            over: cost.over,
            price_at_target: cost.price_at_target,
        }
    }

    /// Whether it is over its target.
    pub fn is_over(&self) -> bool {
        self.over.is_some_and(|over| over > Decimal::ZERO)
    }
}

/// What new prices do to a dish.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DishEffect {
    /// The dish, as an index into the kitchen's.
    pub dish: usize,
    /// Before.
    pub was: DishFigures,
    /// With the new prices.
    pub now: DishFigures,
    /// By how much the portion cost moved.
    pub change: Decimal,
    /// Portions planned; `None` without a plan.
    pub portions: Option<Decimal>,
    /// What the change is worth: over the portions planned, where there is a plan; else for one portion.
    pub worth: Result<Decimal, Lack>,
    /// What drove it.
    pub drivers: Result<Drivers, Lack>,
}

impl DishEffect {
    /// Whether the new prices put it over its target.
    pub fn is_newly_over(&self) -> bool {
        self.now.is_over() && !self.was.is_over()
    }

    /// Whether the new prices put it within its target.
    pub fn is_no_longer_over(&self) -> bool {
        self.was.is_over() && !self.now.is_over()
    }
}

/// A dish without a cost on one side or both.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct UncostedDish {
    /// The dish, as an index into the kitchen's.
    pub dish: usize,
    /// When it has none.
    pub when: NotPriced,
}

/// The dishes, sorted out.
#[derive(Debug, Clone, Default)]
pub(super) struct Dishes {
    pub(super) moved: Vec<DishEffect>,
    pub(super) unmoved: Vec<usize>,
    pub(super) uncosted: Vec<UncostedDish>,
}

impl Dishes {
    pub(super) fn of(pair: &Pair<'_>, flow: &CostFlow<'_>) -> Self {
        let mut dishes = Dishes::default();
        let planned = planned(pair.new);
        let costs = pair.was.dishes.iter().zip(&pair.now.dishes);
        for (index, (dish, (was, now))) in pair.new.dishes.iter().zip(costs).enumerate() {
            let (was, now) = match (was, now) {
                (Some(was), Some(now)) => (was, now),
                (was, now) => {
                    let when = NotPriced::of(was.is_some(), now.is_some());
                    dishes.uncosted.extend(when.map(|when| UncostedDish { dish: index, when }));
                    continue;
                }
            };
            // Of two sums that a decimal holds, the difference of equal signs fits as well.
            let Ok(change) = exact::sub(now.portion_cost, was.portion_cost) else { continue };
            if change.is_zero() {
                dishes.unmoved.push(index);
                continue;
            }
            let portions = planned.as_ref().map(|planned| planned.get(&index).copied().unwrap_or(Ok(Decimal::ZERO)));
            let worth = match portions {
                None => Ok(change),
                Some(portions) => portions.and_then(|portions| exact::mul(change, portions)),
            };
            dishes.moved.push(DishEffect {
                dish: index,
                was: DishFigures::of(was),
                now: DishFigures::of(now),
                change,
                portions: portions.and_then(Result::ok),
                worth: worth.map_err(|_| Lack::Outside),
                drivers: Drivers::of(pair, flow, dish, (was, now), change).map_err(|_| Lack::Outside),
            });
        }
        dishes.moved.put_in_order_by_key(|effect| (effect.worth.is_err(), Reverse(effect.worth.clone().ok())));
        dishes
    }
}

/// The portions of every dish in the plan, all days together; `None` without a plan.
fn planned(kitchen: &Kitchen) -> Option<HashMap<usize, Result<Decimal, Overflow>>> {
    if kitchen.plan.rows.is_empty() {
        return None;
    }
    let mut planned: HashMap<usize, Result<Decimal, Overflow>> = HashMap::new();
    for row in &kitchen.plan.rows {
        if let Served::Dish(index) = row.served {
            let sum = planned.entry(index).or_insert(Ok(Decimal::ZERO));
            *sum = sum.and_then(|sum| exact::add(sum, row.portions));
        }
    }
    Some(planned)
}

//! Is there enough trim? What the plan takes of every part, what is made beside, what is short and what is left.
//!
//! Takes a kitchen with a plan and its costing; gives weights in grams, bought items in base units of their price. Day by
//! day, demand flows from dishes through recipes to parts, what goes into each test is set by its mains, and what it needs
//! flows on to what stands before it. Money plays no part: what a day needs is the same however trim is charged.

mod house;
mod shelf;

use crate::costing::Costing;
use crate::kitchen::plan::Served;
use crate::kitchen::{ItemId, Kitchen, PartId, RecipeId};
use crate::number::{Decimal, Overflow, exact};
use house::House;

/// The balance of a plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Balance {
    /// What is served, in order of first appearance in the plan.
    pub servings: Vec<Serving>,
    /// Every test, beside the kitchen's; `None` where it is not costed.
    pub tests: Vec<Option<TestBalance>>,
    /// Bought items that the plan takes, in book order; water that nobody prices is none.
    pub items: Vec<ItemBalance>,
    /// Recipes on hand that the plan could draw on, with the batches before and after it.
    pub recipes: Vec<RecipeStock>,
    /// Rows of the stock list that could not be brought to a weight, as indices into the entries: they count as nothing.
    pub not_counted: Vec<usize>,
}

/// A dish of the plan, all days together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Serving {
    /// What is served.
    pub served: Served,
    /// Portions planned.
    pub portions: Decimal,
    /// Whether it is costed; what is not takes nothing here.
    pub costed: bool,
}

/// What goes into a test.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TestBalance {
    /// Grams that go in, all days together.
    pub goes_in: Decimal,
    /// Pieces, where every run of the test counts them: whole ones.
    pub pieces: Option<Decimal>,
    /// The parts, beside the test's own.
    pub parts: Vec<PartBalance>,
}

/// A part over the plan, in grams. On hand + made = used + left over + too old; wanted = used + short.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct PartBalance {
    /// On hand before the first day.
    pub on_hand: Decimal,
    /// Made.
    pub made: Decimal,
    /// Wanted.
    pub wanted: Decimal,
    /// Used of what there was.
    pub used: Decimal,
    /// Left when the plan is through.
    pub left_over: Decimal,
    /// Older than it may be kept before anyone wanted it.
    pub too_old: Decimal,
    /// Wanted and not there.
    pub short: Decimal,
}

/// A bought item over the plan, in base units of its price as purchased.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ItemBalance {
    /// The item.
    pub item: ItemId,
    /// Wanted, what stands in for short trim not within.
    pub wanted: Decimal,
    /// Taken from what is on hand.
    pub from_stock: Decimal,
    /// To purchase.
    pub purchase: Decimal,
}

/// A recipe on hand, in batches.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RecipeStock {
    /// The recipe.
    pub recipe: RecipeId,
    /// Before the plan.
    pub on_hand: Decimal,
    /// After it.
    pub left_over: Decimal,
}

impl Balance {
    /// The balance of a kitchen's plan. `None` without a plan.
    ///
    /// # Errors
    /// [`Overflow`] when a quantity does not fit.
    pub fn of(kitchen: &Kitchen, costing: &Costing) -> Result<Option<Self>, Overflow> {
        if kitchen.plan.rows.is_empty() {
            return Ok(None);
        }
        let mut days = vec![Vec::new(); kitchen.plan.days.len()];
        for row in &kitchen.plan.rows {
            days.get_mut(row.day).into_iter().for_each(|rows: &mut Vec<_>| rows.push(row));
        }
        let mut house = House::open(kitchen, costing)?;
        for (day, rows) in days.into_iter().enumerate() {
            house.day(day, &rows)?;
        }
        house.close().map(Some)
    }

    /// A part's balance.
    pub fn part(&self, id: PartId) -> Option<&PartBalance> {
        self.tests.get(id.test.index())?.as_ref()?.parts.get(id.index())
    }
}

/// What is left of `from` after `taken`; the last digit of a division does not count as something.
fn rest(from: Decimal, taken: Decimal) -> Result<Decimal, Overflow> {
    let rest = exact::sub(from, taken)?;
    let least = exact::mul(from, Decimal::new(1, 20)).unwrap_or_default();
    Ok(if rest.abs() <= least { Decimal::ZERO } else { rest })
}

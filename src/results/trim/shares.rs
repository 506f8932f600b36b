//! Shares of a yield test: what becomes of the weight that went in, and who bears its money.

use schemars::JsonSchema;
use serde::Serialize;

use super::super::value::{Figure, percent};
use crate::analysis::Trim;
use crate::costing::Costing;
use crate::kitchen::{Kitchen, TestId};
use crate::results::weight_flow::{Becomes, FlowShares};

/// What becomes of all that went into a test, in % of its weight with what was added; and who bears its money, in % of its cost.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "SharesOfTest")]
pub struct TestShares {
    /// Mains.
    pub mains_percent: Option<Figure>,
    /// By-products that the plan uses; all of them without a plan.
    pub trim_used_percent: Option<Figure>,
    /// By-products that the plan leaves over.
    pub trim_left_over_percent: Option<Figure>,
    /// Waste.
    pub waste_percent: Option<Figure>,
    /// What is missing; 0 where more came out than went in.
    pub loss_percent: Option<Figure>,
    /// What the mains bear of the money; null where it cost nothing.
    pub mains_bear_percent: Option<Figure>,
    /// What the by-products bear of it.
    pub by_products_bear_percent: Option<Figure>,
}

impl TestShares {
    /// Those of a test; `None` where it is not costed.
    pub(super) fn of(kitchen: &Kitchen, costing: &Costing, trim: &Trim, id: TestId) -> Option<Self> {
        let (test, cost) = (kitchen.test(id)?, costing.test(id)?);
        let becomes = Becomes::of(kitchen, id, test, cost, trim.balance.as_ref())?;
        let [mains, used, left, waste] = becomes.shares.map(percent);
        let money = FlowShares::of(kitchen, id, test, cost).map(|shares| shares.money);
        let [by_mains, by_trim] = money.map_or([None, None], |money| money.map(percent));
        Some(TestShares {
            mains_percent: mains,
            trim_used_percent: used,
            trim_left_over_percent: left,
            waste_percent: waste,
            loss_percent: becomes.lost.and_then(percent),
            mains_bear_percent: by_mains,
            by_products_bear_percent: by_trim,
        })
    }
}

//! Missing inputs, for want of which a test cannot be charged some way.

use crate::costing::yield_test::split::Unsplit;
use crate::kitchen::{ItemId, Kitchen, PartId};
use crate::number::{Decimal, half_up};

/// Why a test cannot be charged some way.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum Lack {
    /// Nothing says what the part sells for.
    Value(PartId),
    /// Nothing says what buying the part, or what it stands in for, would cost.
    BuyIn(PartId),
    /// What the part stands in for has no price on the day, or none by a measure that leads to it.
    BuyInCost {
        /// The part.
        part: PartId,
        /// What would be bought.
        item: ItemId,
    },
    /// By-products would take more than went in.
    CreditsOverCost {
        /// What they would take, in money.
        credits: Decimal,
        /// What went in, in money.
        cost: Decimal,
    },
    /// Nothing that shares the joint cost has a weight and a value above zero.
    NothingToShareBy,
    /// A figure is outside what can be computed exactly.
    Outside,
}

impl Lack {
    /// Why a `cost` could not be split.
    pub(super) fn of(unsplit: Unsplit, cost: Decimal) -> Self {
        match unsplit {
            Unsplit::CreditsOverCost { credits } => Lack::CreditsOverCost { credits, cost },
            Unsplit::NothingToShareBy => Lack::NothingToShareBy,
            Unsplit::Overflow => Lack::Outside,
        }
    }

    /// Said for a cook, in lower case and without a full stop. Money is shown to the cent.
    pub fn words(&self, kitchen: &Kitchen) -> String {
        let named = |part: PartId| kitchen.part(part).map(|part| part.name.as_str()).unwrap_or_default();
        match self {
            Lack::Value(part) => format!("“{}” has no Value in money", named(*part)),
            Lack::BuyIn(part) => format!("nothing says what “{}” would cost to buy", named(*part)),
            Lack::BuyInCost { part, item } => {
                let item = kitchen.item(*item).map(|item| item.name.as_str()).unwrap_or_default();
                if item == named(*part) {
                    format!("what “{item}” would cost to buy is not known")
                } else {
                    format!("what “{item}” costs is not known, which “{}” stands in for", named(*part))
                }
            }
            Lack::CreditsOverCost { credits, cost } => {
                let (credits, cost) = (half_up(*credits, 2), half_up(*cost, 2));
                format!("by-products would take {credits:.2} of a cost of {cost:.2}")
            }
            Lack::NothingToShareBy => "nothing that shares the cost has a weight and a value above zero".to_owned(),
            Lack::Outside => "a figure is too large or too small to be computed exactly".to_owned(),
        }
    }
}

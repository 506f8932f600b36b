//! Scenario: what may vary without reading the book again.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::rate::{Amount, Rate};
use crate::kitchen::{Kitchen, PartId, TestId};
use crate::number::{Decimal, Overflow, exact};

/// The day of costing, how by-products are charged, and which runs of the tests count.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Scenario {
    /// The day: the newest price on or before it counts.
    pub date: Date,
    /// How by-products are charged.
    pub charging: Charging,
    /// A test to be costed from one of its runs alone, as an index into its runs, instead of from all of them pooled.
    pub one_run: Option<(TestId, usize)>,
    /// Parts that are bought in, wholly or for what there is not enough of: what those who use them pay.
    pub bought_in: BTreeMap<PartId, BoughtIn>,
    /// Whether food alone counts: no recipe adds the Q and spice of its own card.
    pub food_alone: bool,
    /// By-products of which some is left: their mains bear the credit that it has not earned.
    pub unused: BTreeMap<PartId, Unused>,
}

/// A by-product of which nobody used some. The credit for it is unearned where it stays; where it is sold, what of the
/// credit the price does not make good.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Unused {
    /// Grams made.
    pub made: Decimal,
    /// Grams of them that stay, or are too old.
    pub stays: Decimal,
    /// Grams of them that are sold.
    pub sold: Decimal,
    /// What it sells for.
    pub at: Option<Rate>,
}

impl Unused {
    /// The unearned of a `credit` that `grams` of it were given.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit, or none was made.
    pub fn unearned(self, credit: Decimal, grams: Decimal) -> Result<Decimal, Overflow> {
        let rate = Rate { money: credit, per: self.made };
        let sold = exact::div(exact::mul(grams, self.sold)?, self.made)?;
        let fetched = self.at.map_or(Ok(Decimal::ZERO), |at| at.cost_of(Amount::of(sold)))?;
        let of_sold = exact::sub(rate.cost_of(Amount::of(self.sold))?, fetched)?;
        exact::add(rate.cost_of(Amount::of(self.stays))?, of_sold.max(Decimal::ZERO))
    }
}

/// A part of which some is bought in. Its users share what that costs in proportion to what they want.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BoughtIn {
    /// Grams that there are.
    pub there: Decimal,
    /// Grams that are bought.
    pub bought: Decimal,
    /// What buying costs, in money for so many grams of the part; `None` when nobody says.
    pub at: Option<Rate>,
}

impl BoughtIn {
    /// What users pay by weight, where what is there costs `own`. `None` when that is not known.
    pub(super) fn rate(self, own: Option<Rate>) -> Result<Option<Rate>, Overflow> {
        if self.bought.is_zero() {
            return Ok(own);
        }
        let Some(at) = self.at else { return Ok(None) };
        if self.there.is_zero() {
            return Ok(Some(at));
        }
        let Some(own) = own else { return Ok(None) };
        let money = exact::add(own.cost_of(Amount::of(self.there))?, at.cost_of(Amount::of(self.bought))?)?;
        Ok(Some(Rate { money, per: exact::add(self.there, self.bought)? }))
    }
}

/// How by-products are charged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Charging {
    /// As the book says.
    #[default]
    AsTheBookSays,
    /// All of them at nothing.
    Free,
    /// None of them carries a credit, joint ones neither; what would be sold brings in what it fetches.
    Binned,
    /// One of them at a fraction of the AP price per weight, the others as the book says.
    OneAt {
        /// The by-product.
        part: PartId,
        /// The fraction.
        fraction: Decimal,
    },
}

impl Scenario {
    /// The book as it stands, on its own costing date.
    pub fn of(kitchen: &Kitchen) -> Self {
        Scenario {
            date: kitchen.settings.costing_date,
            charging: Charging::AsTheBookSays,
            one_run: None,
            bought_in: BTreeMap::new(),
            food_alone: false,
            unused: BTreeMap::new(),
        }
    }
}

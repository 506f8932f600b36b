//! What may vary without reading the book again.

use jiff::civil::Date;

use crate::kitchen::{Kitchen, PartId, TestId};
use crate::number::Decimal;

/// The day of costing, how by-products are charged, and which runs of the tests count.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Scenario {
    /// The day: the newest price on or before it counts.
    pub date: Date,
    /// How by-products are charged.
    pub charging: Charging,
    /// A test to be costed from one of its runs alone, as an index into its runs, instead of from all of them pooled.
    pub one_run: Option<(TestId, usize)>,
}

/// How by-products are charged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Charging {
    /// As the book says.
    #[default]
    AsTheBookSays,
    /// All of them at nothing.
    Free,
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
        Scenario { date: kitchen.settings.costing_date, charging: Charging::AsTheBookSays, one_run: None }
    }
}

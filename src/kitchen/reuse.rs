//! Reuse of a part: what it stands in for, what making it usable costs, how long it keeps, where it goes when it is not
//! used. Resolved from the rows of its yield test; the trim report uses it, the costing only what a part stands in for.

use super::ItemId;
use crate::measure::Measured;
use crate::number::Decimal;

/// Money per weight.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PerWeight {
    /// Money.
    pub money: Decimal,
    /// For so many grams; above zero.
    pub grams: Decimal,
}

/// What is bought when there is not enough of a part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BuyIn {
    /// The item.
    pub item: ItemId,
    /// How much of it, as purchased. The item of the part's own name stands in for it gram for gram.
    pub amount: Measured,
    /// For so many grams of the part; above zero.
    pub grams: Decimal,
}

/// What happens to a by-product that is not used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Otherwise {
    /// It goes in the bin.
    #[default]
    Binned,
    /// It is sold.
    Sold(PerWeight),
}

/// What the rows of a part say about reusing it. Where runs say different things, the newest run that says anything
/// counts: a blank date is the oldest, of one day the lower row is the newer.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Reuse {
    /// Labour, fuel, packing to make it usable or saleable. `None` where nothing is stated: no cost.
    pub further_cost: Option<PerWeight>,
    /// What happens to it when it is not used.
    pub otherwise: Otherwise,
    /// The share of its weight that leaves on plates when it is reused, as a fraction; 0 when not stated.
    pub eaten: Decimal,
    /// Days it may be kept, of which that of its making is the first; `None` where nothing is stated: it is not judged.
    pub keeps: Option<Decimal>,
    /// Whether a cell of these, or what it stands in for, could not be read: what reusing it is worth is then not known.
    pub unread: bool,
}

impl Reuse {
    /// What it sells for where nobody uses it; `None` where it goes in the bin.
    pub fn sells_at(&self) -> Option<PerWeight> {
        match self.otherwise {
            Otherwise::Sold(at) => Some(at),
            Otherwise::Binned => None,
        }
    }
}

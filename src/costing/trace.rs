//! Trace of a line's figure: compact provenance, from which formulas, JSON and explanations are made.

use crate::costing::conversion::base_unit::Kind;
use crate::costing::conversion::convert::Crossing;
use crate::costing::conversion::equivalence::MeasureFrom;
use crate::costing::rate::{Amount, Rate};
use crate::kitchen::bridge::Basis;
use crate::kitchen::recipe::Source;
use crate::kitchen::{PartId, Reference};
use crate::number::{Decimal, Overflow};

/// How a line was costed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineTrace {
    /// Where the ingredient comes from. An EP line of an item with a trim test is costed through the part.
    pub costed_as: CostedAs,
    /// The typed quantity in base units, before any yield.
    pub amount: Amount,
    /// The kind of base unit.
    pub kind: Kind,
    /// The basis on which `amount` stands when it has crossed and meets the rate.
    pub basis: Basis,
    /// How the amount crosses the yield before it meets the rate.
    pub crossing: Crossing,
    /// The measures passed through, in order; empty when quantity and price are of one kind.
    pub measures: Vec<MeasureFrom>,
    /// The yield between AP and EP, and where it comes from.
    pub trim_yield: Decimal,
    /// Where the yield comes from.
    pub yield_from: YieldFrom,
    /// Money per base unit on the basis of `amount`.
    pub rate: Rate,
}

impl LineTrace {
    /// The quantity in base units as it meets the rate.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit.
    pub fn crossed(&self) -> Result<Amount, Overflow> {
        self.crossing.cross(self.amount, self.trim_yield)
    }

    /// Whether the cost hangs on the yield.
    pub fn is_yielded(&self) -> bool {
        self.crossing != Crossing::None || self.basis == Basis::Ep
    }
}

/// What a line's money comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CostedAs {
    /// The source named.
    Named(Source),
    /// A bought item through the main of its trim test.
    ThroughTest(PartId),
    /// A recipe by the portion.
    Portions(crate::kitchen::RecipeId),
    /// A recipe by the batch.
    Batches(crate::kitchen::RecipeId),
}

/// Where a yield comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum YieldFrom {
    /// The line itself.
    Line,
    /// The main of a trim test.
    Test(PartId),
    /// A price row, as an index into the entries.
    PriceRow(usize),
    /// The EP weight of a piece, beside its AP weight or, for what is priced by the piece, by itself; its measure row, as an
    /// index into the entries.
    Piece(usize),
    /// The built-in food that a price row names.
    Reference(Reference),
    /// Nothing states one: 100 %.
    None,
}

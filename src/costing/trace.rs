//! Trace of a line's figure: compact provenance, from which formulas, JSON and explanations are made.

use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::convert::Crossing;
use crate::costing::conversion::equivalence::MeasureFrom;
use crate::costing::rate::{Amount, Rate};
use crate::kitchen::bridge::Basis;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::{DishId, PartId, RecipeId, Reference};
use crate::number::{Decimal, Overflow};

/// How a line was costed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineTrace {
    /// Where the ingredient comes from. An EP line of an item with a trim test is costed through the part.
    pub costed_as: CostedAs,
    /// The typed quantity in base units, before any yield: see [`LineTrace::as_asked`].
    pub(crate) amount: Amount,
    /// The kind of base unit.
    pub kind: BaseUnitKind,
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
    /// The line as asked: the typed quantity in base units, on the line's own basis.
    pub fn as_asked(&self) -> Amount {
        self.amount
    }

    /// The line as costed: the quantity in base units as it meets the rate.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit.
    pub fn as_costed(&self) -> Result<Amount, Overflow> {
        self.crossing.cross(self.amount, self.trim_yield)
    }

    /// The line as purchased: how much of what it is costed as it draws, a bought item as it is purchased, a part or what a
    /// recipe makes before the line's own yield.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit.
    pub fn as_purchased(&self) -> Result<Amount, Overflow> {
        let costed = self.as_costed()?;
        if self.is_rate_yielded() { costed.over(self.trim_yield) } else { Ok(costed) }
    }

    /// Whether the rate is that of the source divided by the yield: of a bought item on the EP basis, of a part or a recipe by
    /// a yield of the line's own. A part that a trim test gives costs what it costs there.
    pub fn is_rate_yielded(&self) -> bool {
        match self.costed_as {
            CostedAs::Named(IngredientSource::Bought(_)) => self.basis == Basis::Ep,
            _ => self.yield_from == YieldFrom::Line,
        }
    }

    /// Whether the cost hangs on the yield.
    pub fn is_yielded(&self) -> bool {
        self.crossing != Crossing::None || self.basis == Basis::Ep
    }
}

impl CostedAs {
    /// What bears the cost: the part where a bought item goes through its trim test.
    pub fn source(self) -> IngredientSource {
        match self {
            CostedAs::Named(source) => source,
            CostedAs::ThroughTest(part) => IngredientSource::Part(part),
            CostedAs::Portions(id) | CostedAs::Batches(id) | CostedAs::Plates(id, _) => IngredientSource::Made(id),
        }
    }
}

/// What a line's money comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CostedAs {
    /// The source named.
    Named(IngredientSource),
    /// A bought item through the main of its trim test.
    ThroughTest(PartId),
    /// A recipe by the portion.
    Portions(RecipeId),
    /// A recipe by the batch.
    Batches(RecipeId),
    /// A recipe by plates of a dish of the menu.
    Plates(RecipeId, DishId),
}

/// Where a yield comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
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

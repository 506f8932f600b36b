//! Bridges, one food's own conversions: what a cup, a bunch or a piece of it weighs or holds.

use super::{Field, InputRow, NameKey};
use crate::measure::{Dimension, Measured, Unit};

/// As purchased or edible portion.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Basis {
    /// As purchased.
    Ap,
    /// Edible portion.
    Ep,
}

impl Basis {
    /// `AP` or `EP`.
    pub fn name(self) -> &'static str {
        match self {
            Basis::Ap => "AP",
            Basis::Ep => "EP",
        }
    }
}

/// A row of the measures table.
#[derive(Debug, Clone)]
pub struct MeasureRow {
    /// The cells.
    pub input: InputRow,
    /// The food's name as spelled here.
    pub item: String,
    /// The measure: its unit and, behind a comma, the preparation as spelled.
    pub measure: Field<(Unit, Option<String>)>,
    /// What one of it weighs or holds.
    pub equals: Field<Measured>,
    /// Its basis, when stated.
    pub basis: Field<Basis>,
}

/// One of a measure is so much of another kind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Measure {
    /// The measure.
    pub unit: Unit,
    /// The preparation it is for; `None` serves any.
    pub prep: Option<NameKey>,
    /// The preparation as spelled.
    pub prep_text: String,
    /// What one of it weighs or holds; `None` when that could not be read, or when two rows say different things of it.
    pub equals: Option<Measured>,
    /// Whether it weighs or holds; `None` when that could not be read either.
    pub says: Option<Dimension>,
    /// Whether the weight is of the food as purchased or of its edible portion.
    pub basis: Basis,
    /// The measure row, as an index into the entries.
    pub row: usize,
}

/// The conversions of one food.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Bridge {
    /// Its measures, in book order.
    pub measures: Vec<Measure>,
    /// Whether a measure of it could not be read at all, so that none can be chosen for sure.
    pub broken: bool,
}

impl Bridge {
    /// Whether a measure says what is left of a piece, a can, a head.
    pub fn has_edible_piece(&self) -> bool {
        self.measures.iter().any(|measure| measure.basis == Basis::Ep && measure.unit.is_count_like())
    }
}

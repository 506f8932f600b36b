//! Bridges, one food's own conversions: what a cup, a bunch or a piece of it weighs or holds.

use std::sync::Arc;

use super::measure_index::{FEW, MeasureIndex, Measures};
use super::{Field, InputRow, NameKey};
use crate::measure::{Dimension, Measured, Unit, Volumes};

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
    /// Where they are; `None` where there are few.
    index: Option<Arc<MeasureIndex>>,
}

impl Bridge {
    /// Whether a measure says what is left of a piece, a can, a head.
    pub fn has_edible_piece(&self) -> bool {
        let says = |measure: &Measure| measure.basis == Basis::Ep && measure.unit.is_count_like();
        self.index.as_ref().map_or_else(|| self.measures.iter().any(says), |index| index.has_edible_piece)
    }

    /// Makes ready for looking things up, once its measures are complete.
    pub(super) fn index(&mut self, volumes: Volumes) {
        let index = || Arc::new(MeasureIndex::of(&self.measures, volumes));
        self.index = (self.measures.len() > FEW).then(index);
    }

    /// The measures that a quantity in one of `units` may go through on its way to the other, in book order.
    pub(crate) fn asked(&self, units: [&Unit; 2], prep: Option<&NameKey>, volumes: Volumes) -> Vec<&Measure> {
        match &self.index {
            Some(index) => {
                index.asked(units, prep, volumes).into_iter().filter_map(|at| self.measures.get(at)).collect()
            }
            None => self.measures.iter().collect(),
        }
    }

    /// How many preparations are known of what is measured in `unit` and weighs or holds something; `None` where
    /// [`Bridge::asked`] gives all of them.
    pub(crate) fn preps(&self, unit: &Unit, says: Option<Dimension>) -> Option<usize> {
        self.index.as_ref().map(|index| index.preps(unit, says))
    }

    /// Whether a measure of this very unit is known.
    pub(crate) fn knows(&self, unit: &Unit) -> bool {
        let is = |measure: &Measure| measure.unit == *unit;
        self.index.as_ref().map_or_else(|| self.measures.iter().any(is), |index| index.knows(unit))
    }

    /// Whether the edible weight of what converts into `unit` is known.
    pub(crate) fn is_edible(&self, unit: &Unit) -> bool {
        let is = |measure: &Measure| {
            measure.basis == Basis::Ep && measure.says.is_some() && Measures::by(&measure.unit) == Measures::by(unit)
        };
        self.index.as_ref().map_or_else(|| self.measures.iter().any(is), |index| index.is_edible(unit))
    }
}

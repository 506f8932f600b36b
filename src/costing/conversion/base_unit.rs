//! The kinds of base unit that a price may be in: weight, volume, pieces and named counts.

use crate::measure::{Base, Dimension, Unit, Volumes};
use crate::number::Decimal;

/// A kind of base unit.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum BaseUnitKind {
    /// Grams.
    Mass,
    /// Millilitres.
    Volume,
    /// Pieces.
    Each,
    /// A named count: bunches, heads, cans.
    Own(Box<str>),
}

impl BaseUnitKind {
    /// The kind of a unit, and base units in one of it.
    pub fn of(unit: &Unit, volumes: Volumes) -> (BaseUnitKind, Decimal) {
        match unit {
            Unit::Standard(standard) => {
                let kind = match standard.dimension() {
                    Dimension::Mass => BaseUnitKind::Mass,
                    Dimension::Volume => BaseUnitKind::Volume,
                    Dimension::Count => BaseUnitKind::Each,
                };
                (kind, standard.to_base(volumes))
            }
            Unit::Own(name) => (BaseUnitKind::Own(name.clone()), Decimal::ONE),
        }
    }

    /// The base unit as a unit.
    pub fn unit(&self) -> Unit {
        match self {
            BaseUnitKind::Mass => Base::Gram.unit(),
            BaseUnitKind::Volume => Base::Millilitre.unit(),
            BaseUnitKind::Each => Base::Each.unit(),
            BaseUnitKind::Own(name) => Unit::Own(name.clone()),
        }
    }

    /// `g`, `ml` or `each`.
    pub fn symbol(&self) -> &'static str {
        match self {
            BaseUnitKind::Mass => "g",
            BaseUnitKind::Volume => "ml",
            BaseUnitKind::Each | BaseUnitKind::Own(_) => "each",
        }
    }

    /// How a cook would call it: `weight`, `volume`, `pieces`, `bunch`.
    pub fn word(&self) -> &str {
        match self {
            BaseUnitKind::Mass => "weight",
            BaseUnitKind::Volume => "volume",
            BaseUnitKind::Each => "piece",
            BaseUnitKind::Own(name) => name,
        }
    }

    /// Whether it counts pieces.
    pub(crate) fn is_counted(&self) -> bool {
        matches!(self, BaseUnitKind::Each | BaseUnitKind::Own(_))
    }
}

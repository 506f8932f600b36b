//! The kinds of base unit that a price may be in: weight, volume, pieces and named counts.

use crate::measure::{Base, Dimension, Unit, Volumes};
use crate::number::Decimal;

/// A kind of base unit.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Kind {
    /// Grams.
    Mass,
    /// Millilitres.
    Volume,
    /// Pieces.
    Each,
    /// A named count: bunches, heads, cans.
    Own(Box<str>),
}

impl Kind {
    /// The kind of a unit, and base units in one of it.
    pub fn of(unit: &Unit, volumes: Volumes) -> (Kind, Decimal) {
        match unit {
            Unit::Standard(standard) => {
                let kind = match standard.dimension() {
                    Dimension::Mass => Kind::Mass,
                    Dimension::Volume => Kind::Volume,
                    Dimension::Count => Kind::Each,
                };
                (kind, standard.to_base(volumes))
            }
            Unit::Own(name) => (Kind::Own(name.clone()), Decimal::ONE),
        }
    }

    /// The base unit as a unit.
    pub fn unit(&self) -> Unit {
        match self {
            Kind::Mass => Base::Gram.unit(),
            Kind::Volume => Base::Millilitre.unit(),
            Kind::Each => Base::Each.unit(),
            Kind::Own(name) => Unit::Own(name.clone()),
        }
    }

    /// `g`, `ml` or `each`.
    pub fn symbol(&self) -> &'static str {
        match self {
            Kind::Mass => "g",
            Kind::Volume => "ml",
            Kind::Each | Kind::Own(_) => "each",
        }
    }

    /// How a cook would call it: `weight`, `volume`, `pieces`, `bunch`.
    pub fn word(&self) -> &str {
        match self {
            Kind::Mass => "weight",
            Kind::Volume => "volume",
            Kind::Each => "piece",
            Kind::Own(name) => name,
        }
    }

    /// Whether it counts pieces.
    pub(crate) fn is_counted(&self) -> bool {
        matches!(self, Kind::Each | Kind::Own(_))
    }
}

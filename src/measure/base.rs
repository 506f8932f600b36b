//! Base units that quantities are held in: grams, millilitres or pieces; and the setting that says which cup and pint
//! is meant.

use std::fmt;

use super::standard::StandardUnit;
use super::unit::Unit;

/// The three kinds of quantity.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Dimension {
    /// Weight.
    Mass,
    /// Volume.
    Volume,
    /// Pieces, and whatever else is counted.
    Count,
}

impl Dimension {
    /// The base that this kind is held in.
    pub fn base(self) -> Base {
        match self {
            Dimension::Mass => Base::Gram,
            Dimension::Volume => Base::Millilitre,
            Dimension::Count => Base::Each,
        }
    }
}

impl fmt::Display for Dimension {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Dimension::Mass => "weight",
            Dimension::Volume => "volume",
            Dimension::Count => "count",
        })
    }
}

/// The unit that an item's cost is kept per.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Base {
    /// A gram.
    Gram,
    /// A millilitre.
    Millilitre,
    /// One piece.
    Each,
}

impl Base {
    /// `g`, `ml` or `each`, as JSON and messages say it.
    pub fn text(self) -> &'static str {
        match self {
            Base::Gram => "g",
            Base::Millilitre => "ml",
            Base::Each => "each",
        }
    }

    /// The kind of quantity it measures.
    pub fn dimension(self) -> Dimension {
        match self {
            Base::Gram => Dimension::Mass,
            Base::Millilitre => Dimension::Volume,
            Base::Each => Dimension::Count,
        }
    }

    /// It as a unit.
    pub fn unit(self) -> Unit {
        Unit::Standard(match self {
            Base::Gram => StandardUnit::GRAM,
            Base::Millilitre => StandardUnit::MILLILITRE,
            Base::Each => StandardUnit::EACH,
        })
    }
}

impl fmt::Display for Base {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.text())
    }
}

/// The setting *Volumes*: what cup, pint, quart, gallon, fl oz, tbsp and tsp mean where they do not say. Weights
/// are the same everywhere: a bare `cwt` is 100 lb, a bare `ton` 2000 lb, and the long ones are written `long`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, PartialOrd, Ord)]
pub enum Volumes {
    /// US customary.
    #[default]
    Us,
    /// Imperial pints and fluid ounces; spoons of 5 and 15 ml.
    Imperial,
    /// Metric cups and spoons (250, 15, 5 ml); pints, quarts, gallons and fluid ounces as imperial.
    Metric,
}

impl Volumes {
    /// The setting's value as a book writes it, without regard to case.
    pub fn parse(text: &str) -> Option<Volumes> {
        match text.trim().to_lowercase().as_str() {
            "us" | "u.s." | "american" => Some(Volumes::Us),
            "imperial" | "imp" | "uk" | "british" => Some(Volumes::Imperial),
            "metric" => Some(Volumes::Metric),
            _ => None,
        }
    }
}

impl fmt::Display for Volumes {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Volumes::Us => "US",
            Volumes::Imperial => "imperial",
            Volumes::Metric => "metric",
        })
    }
}

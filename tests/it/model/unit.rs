//! Units, from NIST Handbook 44 (2024), Appendix C: the pound is 453.592 37 g, the US gallon 231 cubic inches of 16.387 064 ml.

use super::dice::Dice;
use super::fraction::{Fraction, Num, decimal};

/// What a quantity is a quantity of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dim {
    /// Grams.
    Weight,
    /// Millilitres.
    Volume,
    /// Pieces.
    Count,
}

impl Dim {
    /// Its base unit, as the results name it.
    pub fn base(self) -> &'static str {
        match self {
            Dim::Weight => "g",
            Dim::Volume => "ml",
            Dim::Count => "each",
        }
    }
}

/// A unit, as typed, with its size in base units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    pub name: &'static str,
    pub dim: Dim,
    size: &'static str,
}

impl Unit {
    pub fn size(&self) -> Fraction {
        decimal(self.size)
    }
}

const fn unit(name: &'static str, dim: Dim, size: &'static str) -> Unit {
    Unit { name, dim, size }
}

pub const G: Unit = unit("g", Dim::Weight, "1");
pub const KG: Unit = unit("kg", Dim::Weight, "1000");
pub const OZ: Unit = unit("oz", Dim::Weight, "28.349523125");
pub const OZ_WT: Unit = unit("oz wt", Dim::Weight, "28.349523125");
pub const LB: Unit = unit("lb", Dim::Weight, "453.59237");
pub const CWT: Unit = unit("cwt", Dim::Weight, "45359.237");
pub const ML: Unit = unit("ml", Dim::Volume, "1");
pub const LITRE: Unit = unit("L", Dim::Volume, "1000");
pub const TSP: Unit = unit("tsp", Dim::Volume, "4.92892159375");
pub const TBSP: Unit = unit("tbsp", Dim::Volume, "14.78676478125");
pub const FL_OZ: Unit = unit("fl oz", Dim::Volume, "29.5735295625");
pub const CUP: Unit = unit("cup", Dim::Volume, "236.5882365");
pub const PT: Unit = unit("pt", Dim::Volume, "473.176473");
pub const QT: Unit = unit("qt", Dim::Volume, "946.352946");
pub const GAL: Unit = unit("gal", Dim::Volume, "3785.411784");
pub const EACH: Unit = unit("each", Dim::Count, "1");
pub const DOZEN: Unit = unit("dz", Dim::Count, "12");

/// Units of weight in which lines are written.
pub const WEIGHTS: [Unit; 4] = [LB, G, KG, OZ_WT];
/// Units of volume in which lines are written.
pub const VOLUMES: [Unit; 8] = [CUP, ML, TBSP, QT, FL_OZ, TSP, PT, LITRE];

/// A quantity with its unit, perhaps of two parts: `1 lb 4 oz`.
#[derive(Debug, Clone)]
pub struct Amount {
    pub num: Num,
    pub unit: Unit,
    pub and: Option<(Num, Unit)>,
}

impl Amount {
    pub fn new(num: Num, unit: Unit) -> Self {
        Amount { num, unit, and: None }
    }

    /// In base units.
    pub fn base(&self) -> Fraction {
        let more = self.and.as_ref().map(|(num, unit)| &num.value * unit.size());
        &self.num.value * self.unit.size() + more.unwrap_or_else(|| super::fraction::whole(0))
    }

    /// All in one cell.
    pub fn text(&self) -> String {
        let first = format!("{} {}", self.num.text, self.unit.name);
        match &self.and {
            Some((num, unit)) => format!("{first} {} {}", num.text, unit.name),
            None => first,
        }
    }
}

/// A number of hundredths, quarters or wholes.
pub fn number(dice: &mut Dice<'_>, most: i64) -> Num {
    match dice.below(4) {
        0 => Num::whole(dice.between(1, most)),
        1 => Num::hundredths(dice.between(5, most * 100)),
        2 => Num::mixed(dice.between(0, most), dice.between(1, 3), 4),
        _ => Num::mixed(dice.between(0, most), dice.between(1, 2), 3),
    }
}

//! Cans of numbered sizes by published figures, for want of a label weight.
//!
//! Takes a unit such as `#10 can`; gives a weight and a volume, each with the least and the most that are published: a can
//! has no single weight, so whoever uses a figure says so.

use std::fmt;

use super::base::{Base, Dimension};
use super::catalogue::{CanRow, catalogue};
use super::standard::StandardUnit;
use super::unit::Unit;
use super::words::can_size;
use crate::number::exact::mul;
use crate::number::{Decimal, plain, rounding};

/// A published weight or volume of a can's contents, packing liquid included.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct CanFigure {
    index: usize,
    is_weight: bool,
}

/// The published weight and volume of a `#10 can`; nothing for what is no can of a published size.
pub fn published(unit: &Unit) -> impl Iterator<Item = CanFigure> + use<> {
    let size = match unit {
        Unit::Own(name) => can_size(name),
        Unit::Standard(_) => None,
    };
    let index = size.and_then(|size| catalogue().cans.iter().position(|can| can.size == size));
    let figures = index.map(|index| [true, false].map(|is_weight| CanFigure { index, is_weight }));
    figures.into_iter().flatten().filter(|figure| figure.spread().is_some())
}

impl CanFigure {
    fn row(self) -> Option<&'static CanRow> {
        catalogue().cans.get(self.index)
    }

    /// The least, the one taken and the most, in ounces or US fluid ounces.
    pub fn spread(self) -> Option<[Decimal; 3]> {
        let row = self.row()?;
        if self.is_weight { row.oz } else { row.fl_oz }
    }

    /// Whether it is a weight or a volume.
    pub fn dimension(self) -> Dimension {
        if self.is_weight { Dimension::Mass } else { Dimension::Volume }
    }

    /// The can: `#10 can`.
    pub fn can(self) -> Unit {
        Unit::own(&format!("#{} can", self.row().map_or("", |row| &row.size)))
    }

    /// What one can holds, in grams or millilitres, exactly as published.
    pub fn in_base(self) -> Option<(Base, Decimal)> {
        let [_, taken, _] = self.spread()?;
        let ounce = StandardUnit::us(if self.is_weight { "oz" } else { "floz" })?;
        Some((self.dimension().base(), mul(taken, ounce.to_base(super::Volumes::Us)).ok()?))
    }

    /// `105 oz (2977 g), where figures run from 96 to 117 oz`.
    pub fn text(self) -> String {
        let unit = if self.is_weight { "oz" } else { "US fl oz" };
        let Some(([least, taken, most], (base, size))) = self.spread().zip(self.in_base()) else {
            return String::new();
        };
        let said = format!("{} {unit} ({} {base})", plain(taken), plain(rounding::half_up(size, 0)));
        if least == most {
            return said;
        }
        format!("{said}, where figures run from {} to {} {unit}", plain(least), plain(most))
    }
}

impl fmt::Display for CanFigure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(can: &str) -> Vec<String> {
        published(&Unit::read(can)).map(CanFigure::text).collect()
    }

    #[test]
    fn figures_are_said_with_their_spread() {
        // 105 × 28.349523125 = 2976.699928125; 96 × 29.5735295625 = 2839.058838.
        assert_eq!(
            said("No. 10 cans"),
            [
                "105 oz (2977 g), where figures run from 96 to 117 oz",
                "96 US fl oz (2839 ml), where figures run from 96 to 105 US fl oz"
            ]
        );
        // 56 × 29.5735295625 = 1656.1176555.
        assert_eq!(said("#5 can"), ["56 US fl oz (1656 ml)"]);
        assert_eq!(published(&Unit::read("A10")).map(|figure| figure.can().name()).next().as_deref(), Some("#10 can"));
        for other in ["can", "tin", "#7 can", "lb", "#16 scoop"] {
            assert!(said(other).is_empty(), "{other}");
        }
    }
}

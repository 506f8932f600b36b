//! Units of the catalogue: lb, cup, dozen, and scoops and ladles of any number.
//!
//! Takes a name as cooks write it; gives the [`StandardUnit`], its kind and its exact size in grams, millilitres or pieces.

use super::base::{Dimension, Volumes};
use super::catalogue::{Rule, UnitEntry, catalogue};
use super::numbered::numbered;
use crate::number::{Decimal, exact, plain};

/// A unit of the catalogue; cheap to copy.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct StandardUnit {
    index: usize,
    /// Set where the name said it: a US cup is one whatever the setting.
    fixed: Option<Volumes>,
    /// The number of a scoop, the ounces of a ladle.
    number: Option<Decimal>,
}

/// First words that fix a unit whatever the setting *Volumes* says.
const SYSTEMS: &[(&str, Volumes)] = &[
    ("us ", Volumes::Us),
    ("american ", Volumes::Us),
    ("imp ", Volumes::Imperial),
    ("imperial ", Volumes::Imperial),
    ("uk ", Volumes::Imperial),
    ("british ", Volumes::Imperial),
    ("metric ", Volumes::Metric),
    ("australian ", Volumes::Metric),
    ("australia ", Volumes::Metric),
    ("aust ", Volumes::Metric),
    ("aus ", Volumes::Metric),
    ("au ", Volumes::Metric),
];

impl StandardUnit {
    /// The gram.
    pub const GRAM: StandardUnit = StandardUnit::plain(0);
    /// The millilitre.
    pub const MILLILITRE: StandardUnit = StandardUnit::plain(1);
    /// One piece.
    pub const EACH: StandardUnit = StandardUnit::plain(2);

    /// The unit with this id in the catalogue (`lb`, `floz`, `dozen`).
    pub fn by_id(id: &str) -> Option<StandardUnit> {
        StandardUnit::all().find(|unit| unit.id() == id)
    }

    /// Every unit of the catalogue, in its order; scoops and ladles, which are none without a number, left out.
    pub fn all() -> impl Iterator<Item = StandardUnit> {
        let plain = catalogue().units.iter().enumerate().filter(|(_, entry)| entry.rule.is_none());
        plain.map(|(index, _)| StandardUnit::plain(index))
    }

    /// The US unit with this id, whatever the setting *Volumes*.
    pub(super) fn us(id: &str) -> Option<StandardUnit> {
        StandardUnit::by_id(id).map(|unit| StandardUnit { fixed: unit.varies().then_some(Volumes::Us), ..unit })
    }

    /// The unit with this id as it is meant beside this one: in the same system, where this one names it.
    pub(super) fn beside(self, id: &str) -> Option<StandardUnit> {
        let unit = StandardUnit::by_id(id)?;
        Some(StandardUnit { fixed: self.fixed.filter(|_| unit.varies()), ..unit })
    }

    /// The system that says what it holds: the one that it names, else `volumes`.
    pub(super) fn system(self, volumes: Volumes) -> Volumes {
        self.fixed.unwrap_or(volumes)
    }

    /// Whether its name says a number, as that of a scoop or ladle does.
    pub(super) fn is_numbered(self) -> bool {
        self.number.is_some()
    }

    const fn plain(index: usize) -> StandardUnit {
        StandardUnit { index, fixed: None, number: None }
    }

    /// The unit that goes by `name`: `imp pt`, `cup (metric)` and `#16 scoop` included.
    pub(super) fn named(name: &str) -> Option<StandardUnit> {
        if let Some(index) = catalogue().unit(name) {
            return Some(StandardUnit::plain(index));
        }
        if let Some((index, number)) = numbered(catalogue(), name) {
            return Some(StandardUnit { number: Some(number), ..StandardUnit::plain(index) });
        }
        let plain = name.to_lowercase().replace('.', "").replace("u s ", "us ");
        let plain = match plain.strip_suffix(')').and_then(|name| name.split_once('(')) {
            Some((unit, system)) => format!("{} {}", system.trim(), unit.trim()),
            None => plain,
        };
        if plain != name
            && let Some(index) = catalogue().unit(&plain)
        {
            return Some(StandardUnit::plain(index));
        }
        let (rest, fixed) = SYSTEMS.iter().find_map(|(word, system)| Some((plain.strip_prefix(word)?, *system)))?;
        let index = catalogue().unit(rest)?;
        let entry = catalogue().units.get(index)?;
        let is_one = entry.varies && (fixed != Volumes::Metric || entry.is_metric);
        is_one.then_some(StandardUnit { fixed: Some(fixed), ..StandardUnit::plain(index) })
    }

    fn entry(self) -> Option<&'static UnitEntry> {
        catalogue().units.get(self.index)
    }

    /// Its stable id in the catalogue.
    pub fn id(self) -> &'static str {
        self.entry().map_or("each", |entry| &entry.id)
    }

    /// Weight, volume or count.
    pub fn dimension(self) -> Dimension {
        self.entry().map_or(Dimension::Count, |entry| entry.dimension)
    }

    /// Its size in g, ml or each: exact, save that of a scoop such as No. 18, which no decimal ends. That one is rounded
    /// to 28 digits.
    pub fn to_base(self, volumes: Volumes) -> Decimal {
        let Some(entry) = self.entry() else { return Decimal::ONE };
        let size = entry.size(self.system(volumes));
        let sized = match (entry.rule, self.number) {
            (Some(Rule::Divides), Some(number)) => exact::div(size, number),
            (Some(Rule::Multiplies), Some(number)) => exact::mul(size, number),
            _ => Ok(size),
        };
        // Numbers run from a part of one to a hundred, so no size is out of range.
        sized.unwrap_or(size)
    }

    /// Whether its size depends on the setting *Volumes*.
    pub fn varies(self) -> bool {
        self.fixed.is_none() && self.entry().is_some_and(|entry| entry.varies)
    }

    /// Whether it is a weight or volume of the metric system by its name: g, kg, ml, l, metric cup.
    pub fn is_metric(self) -> bool {
        const METRIC: &[&str] = &["g", "kg", "mg", "ug", "dag", "etto", "t", "ml", "cl", "dl", "l", "hl"];
        METRIC.contains(&self.id()) || self.fixed == Some(Volumes::Metric)
    }

    /// Its name: `lb`, `fl oz`, `imperial pt`, `#16 scoop`, `4 oz ladle`.
    pub fn name(self) -> String {
        let name = self.entry().map_or("each", |entry| &entry.name);
        match (self.fixed, self.number) {
            (Some(system), _) => format!("{system} {name}"),
            (None, Some(number)) if number == Decimal::ONE && name.starts_with("N ") => name.replacen("N ", "", 1),
            (None, Some(number)) => name.replacen('N', &plain(number), 1),
            (None, None) => name.to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Unit;

    #[test]
    fn a_unit_reads_back_from_its_name() {
        for unit in StandardUnit::all() {
            assert_eq!(Unit::parse(&unit.name()), Some(Unit::Standard(unit)));
            for fixed in [Volumes::Us, Volumes::Imperial].into_iter().filter(|_| unit.varies()) {
                let unit = StandardUnit { fixed: Some(fixed), ..unit };
                assert_eq!(Unit::parse(&unit.name()), Some(Unit::Standard(unit)));
            }
        }
        for name in ["#16 scoop", "#100 scoop", "4 oz ladle", "1.5 oz ladle", "oz ladle"] {
            assert_eq!(Unit::parse(name).map(|unit| unit.name()).as_deref(), Some(name));
        }
    }
}

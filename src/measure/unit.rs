//! Units: those of the catalogue, which have a size, and a kitchen's own, which only an item's measures can size.
//!
//! Takes names as cooks write them; gives a [`Unit`], its kind and its exact size in grams, millilitres or pieces.

use std::fmt;

use super::base::{Base, Dimension, Volumes};
use super::catalogue::{Entry, WordKind, catalogue};
use super::words::{can_size, own_name};
use crate::number::Decimal;
use crate::number::text::clean;

/// A unit of the catalogue; cheap to copy.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct StandardUnit {
    index: usize,
    /// Set where the name said it: a US cup is one whatever the setting.
    fixed: Option<Volumes>,
}

/// A unit as a quantity names it.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Unit {
    /// A unit with a size: lb, cup, dozen.
    Standard(StandardUnit),
    /// A named count without a size of its own: `bunch`, `#10 can`, `2" hotel pan`; lower case, singular.
    Own(Box<str>),
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
];

impl StandardUnit {
    /// The gram.
    pub const GRAM: StandardUnit = StandardUnit { index: 0, fixed: None };
    /// The millilitre.
    pub const MILLILITRE: StandardUnit = StandardUnit { index: 1, fixed: None };
    /// One piece.
    pub const EACH: StandardUnit = StandardUnit { index: 2, fixed: None };

    /// The unit with this id in the catalogue (`lb`, `floz`, `dozen`).
    pub fn by_id(id: &str) -> Option<StandardUnit> {
        catalogue().units.iter().position(|entry| entry.id == id).map(|index| StandardUnit { index, fixed: None })
    }

    /// Every unit of the catalogue, in its order.
    pub fn all() -> impl Iterator<Item = StandardUnit> {
        (0..catalogue().units.len()).map(|index| StandardUnit { index, fixed: None })
    }

    /// The unit that goes by `name`, `imp pt` and `metric cup` included.
    fn named(name: &str) -> Option<StandardUnit> {
        if let Some(index) = catalogue().unit(name) {
            return Some(StandardUnit { index, fixed: None });
        }
        let name = name.to_lowercase().replace("u.s.", "us").replace("imp.", "imp").replace("u.k.", "uk");
        let (rest, fixed) = SYSTEMS.iter().find_map(|(word, system)| Some((name.strip_prefix(word)?, *system)))?;
        let index = catalogue().unit(rest)?;
        let entry = catalogue().units.get(index)?;
        let is_one = entry.varies && (fixed != Volumes::Metric || entry.is_metric);
        is_one.then_some(StandardUnit { index, fixed: Some(fixed) })
    }

    fn entry(self) -> Option<&'static Entry> {
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

    /// Its exact size in g, ml or each.
    pub fn to_base(self, volumes: Volumes) -> Decimal {
        self.entry().map_or(Decimal::ONE, |entry| entry.size(self.fixed.unwrap_or(volumes)))
    }

    /// Whether its size depends on the setting *Volumes*.
    pub fn varies(self) -> bool {
        self.fixed.is_none() && self.entry().is_some_and(|entry| entry.varies)
    }

    /// Its name: `lb`, `fl oz`, `imperial pt`.
    pub fn name(self) -> String {
        let name = self.entry().map_or("each", |entry| &entry.name);
        self.fixed.map_or_else(|| name.to_owned(), |system| format!("{system} {name}"))
    }
}

impl Unit {
    /// The catalogue unit, count word (`bunch`, `case`) or can size (`#10`) that `text` names; `None` for anything else.
    pub fn parse(text: &str) -> Option<Unit> {
        let text = clean(text);
        if let Some(unit) = StandardUnit::named(&text) {
            return Some(Unit::Standard(unit));
        }
        if let Some(word) = catalogue().word(&text) {
            return Some(Unit::Own(word.name.as_str().into()));
        }
        can_size(&text.to_lowercase()).map(|size| Unit::Own(format!("#{size} can").into()))
    }

    /// A kitchen's own measure of this name: lower case, singular.
    pub fn own(text: &str) -> Unit {
        Unit::Own(match catalogue().word(&clean(text)) {
            Some(word) => word.name.as_str().into(),
            None => own_name(text).into(),
        })
    }

    /// [`Unit::parse`], or else [`Unit::own`].
    pub fn read(text: &str) -> Unit {
        Unit::parse(text).unwrap_or_else(|| Unit::own(text))
    }

    /// Whether its size depends on the setting *Volumes*.
    pub fn varies(&self) -> bool {
        matches!(self, Unit::Standard(standard) if standard.varies())
    }

    /// The gram.
    pub fn gram() -> Unit {
        Unit::Standard(StandardUnit::GRAM)
    }

    /// The millilitre.
    pub fn millilitre() -> Unit {
        Unit::Standard(StandardUnit::MILLILITRE)
    }

    /// One piece.
    pub fn each() -> Unit {
        Unit::Standard(StandardUnit::EACH)
    }

    /// The fluid ounce of the setting *Volumes*.
    pub fn fluid_ounce() -> Unit {
        Unit::read("fl oz")
    }

    /// Weight, volume or count; a kitchen's own measure counts.
    pub fn dimension(&self) -> Dimension {
        match self {
            Unit::Standard(unit) => unit.dimension(),
            Unit::Own(_) => Dimension::Count,
        }
    }

    /// Its exact size and what it is a size of; `None` for a kitchen's own measure.
    pub fn to_base(&self, volumes: Volumes) -> Option<(Base, Decimal)> {
        match self {
            Unit::Standard(unit) => Some((unit.dimension().base(), unit.to_base(volumes))),
            Unit::Own(_) => None,
        }
    }

    /// Its exact size in grams when it is a weight. Weights do not depend on the setting *Volumes*.
    pub fn grams(&self) -> Option<Decimal> {
        match self.to_base(Volumes::Us) {
            Some((Base::Gram, size)) => Some(size),
            _ => None,
        }
    }

    /// Whether it is a portion of a recipe.
    pub fn is_portion(&self) -> bool {
        matches!(self, Unit::Own(name) if &**name == "portion")
    }

    /// Whether it is a whole batch of a recipe.
    pub fn is_batch(&self) -> bool {
        matches!(self, Unit::Own(name) if &**name == "batch")
    }

    /// Whether it counts things: each, dozen, bunch, case.
    pub fn is_count_like(&self) -> bool {
        self.dimension() == Dimension::Count
    }

    /// Whether it is a pinch, handful or the like, which stay uncosted unless a measure gives them a weight.
    pub fn is_unmeasured(&self) -> bool {
        self.word_kind() == Some(WordKind::Unmeasured)
    }

    /// Whether it is an avoirdupois ounce, which cooks also write for the fluid one.
    pub fn is_bare_ounce(&self) -> bool {
        matches!(self, Unit::Standard(unit) if unit.id() == "oz")
    }

    /// What kind of count word it is; a can of a numbered size is a vessel.
    pub(super) fn word_kind(&self) -> Option<WordKind> {
        match self {
            Unit::Standard(_) => None,
            Unit::Own(name) if can_size(name).is_some() => Some(WordKind::Vessel),
            Unit::Own(name) => catalogue().word(name).map(|word| word.kind),
        }
    }

    /// Its name as messages and sheets show it.
    pub fn name(&self) -> String {
        match self {
            Unit::Standard(unit) => unit.name(),
            Unit::Own(name) => name.to_string(),
        }
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.name())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::number::{Marks, decimal, exact};

    fn number(text: &str) -> Decimal {
        decimal::parse(text, Marks::PointDecimal).unwrap()
    }

    fn size(text: &str, volumes: Volumes) -> Decimal {
        Unit::parse(text).and_then(|unit| unit.to_base(volumes)).unwrap_or_else(|| panic!("{text} is no unit")).1
    }

    #[test]
    fn names_as_cooks_write_them() {
        for (id, names) in [
            ("lb", "lb LB Lbs lbs. # pound pounds"),
            ("oz", "oz OZ oz. ounce ounces"),
            ("g", "g G g. gr gm gram grams grammes"),
            ("kg", "kg KG kgs kilo kilos kilograms"),
            ("ml", "ml mL ML cc millilitres milliliter"),
            ("l", "l L lt ltr litre liters Litres"),
            ("tsp", "t tsp tsp. Tsp tsps teaspoon teaspoons"),
            ("tbsp", "T T. tbsp Tbsp tbs Tbs TB tablespoon Tablespoons"),
            ("cup", "c C cup cups Cup"),
            ("pt", "pt pts pint pints"),
            ("qt", "qt qts quart quarts"),
            ("gal", "gal gals gallon gallons"),
            ("floz", "floz fl.oz. fl.oz"),
            ("each", "each ea EA ct count pc pcs piece pieces units"),
            ("dozen", "dz doz dozen dozens Dz."),
            ("gross", "gross grs"),
        ] {
            for name in names.split(' ') {
                assert_eq!(Unit::parse(name), StandardUnit::by_id(id).map(Unit::Standard), "{name}");
            }
        }
        for name in ["fl oz", "fl. oz.", "Fl. Oz", "fluid ounces", "FLUID OUNCE"] {
            assert_eq!(Unit::parse(name), StandardUnit::by_id("floz").map(Unit::Standard), "{name}");
        }
        assert_eq!(Unit::parse("oz wt"), Unit::parse("oz"));
        assert_eq!(Unit::parse("oz. wt."), Unit::parse("oz"));
        for name in ["", "dollop", "bu", "st", "hotel pan", "of"] {
            assert_eq!(Unit::parse(name), None, "{name}");
        }
    }

    #[test]
    fn count_words_and_own_measures_have_one_name() {
        for (text, name) in [
            ("Bunches", "bunch"),
            ("bn", "bunch"),
            ("hd", "head"),
            ("leaves", "leaf"),
            ("CS", "case"),
            ("btls", "bottle"),
            ("No. 10 can", "#10 can"),
            ("#10", "#10 can"),
            ("pk", "pack"),
        ] {
            assert_eq!(Unit::parse(text), Some(Unit::Own(name.into())), "{text}");
            assert_eq!(Unit::own(text), Unit::Own(name.into()), "{text}");
        }
        assert_eq!(Unit::own(" Dollops "), Unit::Own("dollop".into()));
        assert_eq!(Unit::read("2″ Hotel Pans"), Unit::Own("2\" hotel pan".into()));
        assert!(Unit::own("pinches").is_unmeasured());
        assert!(Unit::own("bunch").is_count_like());
    }

    #[test]
    fn the_setting_decides_cups_and_a_named_system_does_not_ask_it() {
        assert_eq!(size("cup", Volumes::Us), number("236.5882365"));
        assert_eq!(size("cup", Volumes::Imperial), number("284.130625"));
        assert_eq!(size("cup", Volumes::Metric), number("250"));
        assert_eq!(size("pint", Volumes::Metric), number("568.26125"));
        for volumes in [Volumes::Us, Volumes::Imperial, Volumes::Metric] {
            assert_eq!(size("US cup", volumes), number("236.5882365"));
            assert_eq!(size("U.S. fl oz", volumes), number("29.5735295625"));
            assert_eq!(size("imp. pt", volumes), number("568.26125"));
            assert_eq!(size("imperial gallons", volumes), number("4546.09"));
            assert_eq!(size("metric cup", volumes), number("250"));
            assert_eq!(size("long cwt", volumes), number("50802.34544"));
            assert_eq!(size("metric ton", volumes), number("1000000"));
        }
        assert_eq!(Unit::parse("metric pint"), None);
        assert_eq!(Unit::parse("us lb"), None);
        // Weights are the same under every setting, which `grams` relies on.
        assert!(StandardUnit::all().all(|unit| unit.dimension() != Dimension::Mass || !unit.varies()));
        assert_eq!(Unit::read("lb").grams(), Some(number("453.59237")));
        assert_eq!(Unit::fluid_ounce().grams(), None);
        assert_eq!(Unit::fluid_ounce().to_base(Volumes::Us), Some((Base::Millilitre, number("29.5735295625"))));
        assert!(Unit::read("Portions").is_portion() && Unit::read("batches").is_batch());
    }

    #[test]
    fn a_unit_reads_back_from_its_name() {
        for unit in StandardUnit::all() {
            assert_eq!(Unit::parse(&unit.name()), Some(Unit::Standard(unit)));
            for fixed in [Volumes::Us, Volumes::Imperial].into_iter().filter(|_| unit.varies()) {
                let unit = StandardUnit { fixed: Some(fixed), ..unit };
                assert_eq!(Unit::parse(&unit.name()), Some(Unit::Standard(unit)));
            }
        }
    }

    #[test]
    fn sizes_are_the_published_ones() {
        // Fractions and sources as listed in the catalogue: SI; NIST Handbook 44, Appendix C; NIST SP 811, Appendix B;
        // Weights and Measures Act 1985 (UK), Schedule 1; NSW Health (metric cups and spoons); GNU units 2.22. Each
        // is numerator ÷ denominator in g, ml or each, in lowest terms.
        for (name, n, d) in [
            ("mcg", "1", "1000000"),
            ("mg", "1", "1000"),
            ("g", "1", "1"),
            ("dag", "10", "1"),
            ("hg", "100", "1"),
            ("kg", "1000", "1"),
            ("tonne", "1000000", "1"),
            ("grain", "6479891", "100000000"),
            ("dram", "45359237", "25600000"),
            ("oz", "45359237", "1600000"),
            ("lb", "45359237", "100000"),
            ("stone", "317514659", "50000"),
            ("us cwt", "45359237", "1000"),
            ("long cwt", "317514659", "6250"),
            ("short ton", "45359237", "50"),
            ("long ton", "635029318", "625"),
            ("ml", "1", "1"),
            ("cl", "10", "1"),
            ("dl", "100", "1"),
            ("l", "1000", "1"),
            ("hl", "100000", "1"),
            ("metric tsp", "5", "1"),
            ("dessertspoon", "10", "1"),
            ("metric tbsp", "15", "1"),
            ("au tbsp", "20", "1"),
            ("metric cup", "250", "1"),
            ("us fl oz", "473176473", "16000000"),
            ("us tsp", "157725491", "32000000"),
            ("us tbsp", "473176473", "32000000"),
            ("us cup", "473176473", "2000000"),
            ("us gill", "473176473", "4000000"),
            ("us pt", "473176473", "1000000"),
            ("us qt", "473176473", "500000"),
            ("us gal", "473176473", "125000"),
            ("dry pt", "220244188543", "400000000"),
            ("dry qt", "220244188543", "200000000"),
            ("peck", "220244188543", "25000000"),
            ("bushel", "220244188543", "6250000"),
            ("imp fl oz", "454609", "16000"),
            ("imp gill", "454609", "3200"),
            ("imp cup", "454609", "1600"),
            ("imp pt", "454609", "800"),
            ("imp qt", "454609", "400"),
            ("imp gal", "454609", "100"),
            ("each", "1", "1"),
            ("pair", "2", "1"),
            ("dozen", "12", "1"),
            ("bakers dozen", "13", "1"),
            ("score", "20", "1"),
            ("gross", "144", "1"),
            ("great gross", "1728", "1"),
            ("egg tray", "30", "1"),
            ("egg case", "360", "1"),
        ] {
            assert_eq!(exact::mul(size(name, Volumes::Us), number(d)), Ok(number(n)), "{name}");
        }
    }
}

//! Units: those of the catalogue, which have a size, and a kitchen's own, which only an item's measures can size.
//!
//! Takes names as cooks write them; gives a [`Unit`], its kind and its exact size in grams, millilitres or pieces.

use std::fmt;

use super::base::{Base, Dimension, Volumes};
use super::catalogue::{WordKind, catalogue};
use super::standard::StandardUnit;
use super::words::{can_size, own_name};
use crate::number::Decimal;
use crate::number::text::clean;

/// A unit as a quantity names it.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Unit {
    /// A unit with a size: lb, cup, dozen.
    Standard(StandardUnit),
    /// A named count without a size of its own: `bunch`, `#10 can`, `2" hotel pan`; lower case, singular.
    Own(Box<str>),
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
            None => {
                let typed = clean(text).to_lowercase();
                // A slip of the pen is told as it was typed: the s of `tbps` is none of a plural.
                if catalogue().slip(&typed).is_some() { typed.into() } else { own_name(text).into() }
            }
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

    /// Its exact size in pieces when it counts those: one of each, twelve of a dozen.
    pub fn pieces(&self) -> Option<Decimal> {
        match self.to_base(Volumes::Us) {
            Some((Base::Each, size)) => Some(size),
            _ => None,
        }
    }

    /// Whether it is a weight or volume of the metric system by its name: g, kg, ml, l.
    pub fn is_metric(&self) -> bool {
        matches!(self, Unit::Standard(unit) if unit.is_metric())
    }

    /// Whether it is a portion of a recipe.
    pub fn is_portion(&self) -> bool {
        matches!(self, Unit::Own(name) if &**name == "portion")
    }

    /// Whether it is a whole batch of a recipe.
    pub fn is_batch(&self) -> bool {
        matches!(self, Unit::Own(name) if &**name == "batch")
    }

    /// Whether it is a percentage, which in a recipe is one of its flour.
    pub fn is_percent(&self) -> bool {
        matches!(self, Unit::Own(name) if ["%", "percent"].contains(&name.as_ref()))
    }

    /// The percentage.
    pub fn percent() -> Unit {
        Unit::Own("%".into())
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

    /// Whether it is the pound.
    pub fn is_pound(&self) -> bool {
        matches!(self, Unit::Standard(unit) if unit.id() == "lb")
    }

    /// Whether it is a can of a numbered size, `#10 can`.
    pub fn is_numbered_can(&self) -> bool {
        matches!(self, Unit::Own(name) if can_size(name).is_some())
    }

    /// Whether it is a can or tin of no particular size.
    pub fn is_plain_can(&self) -> bool {
        matches!(self, Unit::Own(name) if ["can", "tin"].contains(&name.as_ref()))
    }

    /// Whether it is a package that goods come in: a bag, a jar, a case.
    pub fn is_package(&self) -> bool {
        !self.is_numbered_can() && matches!(self.word_kind(), Some(WordKind::Vessel | WordKind::Outer))
    }

    /// Whether it is a package that always means the whole of what is sold: case, box, carton, flat.
    pub fn is_whole_pack(&self) -> bool {
        matches!(self, Unit::Own(name) if ["case", "box", "carton", "flat"].contains(&name.as_ref()))
    }

    /// What kind of count word it is; a can of a numbered size is a vessel.
    pub(super) fn word_kind(&self) -> Option<WordKind> {
        match self {
            Unit::Standard(_) => None,
            Unit::Own(name) if can_size(name).is_some() => Some(WordKind::Vessel),
            Unit::Own(name) => catalogue().word(name).map(|word| word.kind),
        }
    }

    /// The unit that was meant, where this one is no unit but a slip of the pen away from one: `pound` of `pund`.
    pub fn slip_of(&self) -> Option<&'static str> {
        match self {
            Unit::Own(name) => catalogue().slip(name),
            Unit::Standard(_) => None,
        }
    }

    /// Its name as messages and sheets show it.
    pub fn name(&self) -> String {
        match self {
            Unit::Standard(unit) => unit.name(),
            Unit::Own(name) => name.to_string(),
        }
    }

    /// One of it, as money for it is said: `an oz`, `a lb`.
    pub fn one(&self) -> String {
        let name = self.name();
        let article = if name.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
        format!("{article} {name}")
    }
}

/// `Did you mean pound? ` where a word is no unit but a slip of the pen away from one; else nothing.
pub(crate) fn did_you_mean(word: &str) -> String {
    Unit::read(word).slip_of().map(|slip| format!("Did you mean {slip}? ")).unwrap_or_default()
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.name())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::number::{Marks, decimal};

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
}

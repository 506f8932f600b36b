//! Kitchen units: an amount told as a cook would measure it, in spoons, cups, quarts, pounds and kilos by its size, and in
//! fractions that a kitchen has.
//!
//! Takes an exact amount in the unit in which it was typed; gives one measure or two, and what they come to exactly. Which
//! measures there are stands in the ladders of `catalogue.toml`.

mod counted;
mod poured;
mod weighed;

use super::base::Volumes;
use super::catalogue::catalogue;
use super::ladder::Ladder;
use super::quantity::Measured;
use super::standard::StandardUnit;
use super::unit::Unit;
use super::words::plural;
use crate::number::{Decimal, Overflow, exact, plain, settled};

/// Which way an amount goes to what a kitchen can measure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Rounding {
    /// To the nearest.
    #[default]
    Nearest,
    /// Never above: there is no more of it.
    Down,
}

/// An amount as a kitchen measures it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InKitchenUnits {
    /// One measure, or a larger and a smaller one that add up.
    pub parts: Vec<KitchenPart>,
    /// Whether there is less of it than a kitchen measures: it is told in decimals, to two digits.
    pub is_too_little: bool,
}

/// So many of one measure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KitchenPart {
    /// How many of which unit; a third to 28 digits.
    pub measured: Measured,
    /// How many, as a cook writes it: `1 1/3`.
    pub written: String,
}

impl KitchenPart {
    fn decimal(amount: Decimal, unit: Unit) -> Self {
        KitchenPart { written: plain(amount), measured: Measured::new(amount.normalize(), unit) }
    }

    /// Its unit in words: `cups` of more than one.
    pub fn unit_words(&self) -> String {
        let name = self.measured.unit.name();
        if self.measured.amount <= Decimal::ONE {
            return name;
        }
        // An abbreviation stays as it is, and so does what would not be read back.
        let many = plural(&name);
        if Unit::parse(&many) == Some(self.measured.unit.clone()) && !is_abbreviation(&name) { many } else { name }
    }
}

/// Whether a unit's name is short for a longer one, and has no plural.
fn is_abbreviation(name: &str) -> bool {
    const WORDS: [&str; 12] = ["cup", "can", "ear", "rib", "pod", "bag", "box", "jar", "jug", "keg", "lug", "tub"];
    const NO_PLURAL: [&str; 5] = ["each", "tbsp", "dozen", "gross", "score"];
    let last = name.rsplit(' ').next().unwrap_or(name);
    NO_PLURAL.contains(&last) || (last.len() < 4 && !WORDS.contains(&last))
}

impl InKitchenUnits {
    fn one(part: KitchenPart) -> Self {
        InKitchenUnits { parts: vec![part], is_too_little: false }
    }

    /// What the parts come to in units of the first one, and that unit.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit.
    pub fn in_base(&self, volumes: Volumes) -> Result<Decimal, Overflow> {
        let size = |unit: &Unit| unit.to_base(volumes).map_or(Decimal::ONE, |(_, size)| size);
        exact::sum(
            self.parts
                .iter()
                .map(|part| exact::mul(part.measured.amount, size(&part.measured.unit)))
                .collect::<Result<Vec<_>, _>>()?,
        )
    }

    /// Whether it is a count that a cook would take out of the store for `wanted` of a package, of which the recipe was written
    /// with `typed`: near enough, and whole ones where the recipe takes whole ones.
    pub fn is_count_of(&self, wanted: Decimal, typed: Decimal) -> bool {
        let [part] = self.parts.as_slice() else { return false };
        let count = part.measured.amount;
        let is_whole = count.is_integer() || !typed.is_integer();
        is_whole && !self.is_too_little && poured::is_near(count, wanted, poured::NEAR)
    }

    /// In words: `1 1/3 cups`, `4 lb 5 1/2 oz`, `6`.
    pub fn words(&self) -> String {
        let each = Unit::each();
        let words = self.parts.iter().map(|part| match &part.measured.unit {
            // Six eggs, not six each of eggs.
            unit if *unit == each => part.written.clone(),
            _ => format!("{} {}", part.written, part.unit_words()),
        });
        words.collect::<Vec<_>>().join(" ")
    }
}

/// `amount` as a kitchen measures it; `typed` is how many of its unit the recipe was written with, which says whether
/// pieces are counted whole or in halves.
///
/// # Errors
/// [`Overflow`] when a number on the way does not fit.
pub fn in_kitchen_units(
    amount: &Measured,
    typed: Decimal,
    rounding: Rounding,
    volumes: Volumes,
) -> Result<InKitchenUnits, Overflow> {
    if amount.amount.is_zero() {
        return Ok(InKitchenUnits::one(KitchenPart::decimal(Decimal::ZERO, amount.unit.clone())));
    }
    let found = match &amount.unit {
        Unit::Standard(unit) => match ladder(*unit, volumes) {
            Some(ladder) => {
                let way = LadderWay { ladder, like: *unit, volumes, rounding };
                let base = exact::mul(amount.amount, unit.to_base(volumes))?;
                if ladder.finest.is_some() { weighed::weighed(&way, base)? } else { poured::poured(&way, base)? }
            }
            None if unit.dimension() == super::Dimension::Count && !unit.is_numbered() => {
                counted::many(amount.amount, *unit, typed, rounding, volumes)?
            }
            None if unit.is_numbered() => counted::pieces(amount.amount, &amount.unit, typed, rounding)?,
            None => counted::in_parts(amount.amount, &amount.unit, rounding)?,
        },
        Unit::Own(_) => counted::pieces(amount.amount, &amount.unit, typed, rounding)?,
    };
    Ok(found.unwrap_or_else(|| InKitchenUnits {
        parts: vec![KitchenPart::decimal(two_digits(amount.amount), amount.unit.clone())],
        is_too_little: true,
    }))
}

/// The way up and down a ladder.
#[derive(Clone, Copy)]
struct LadderWay<'a> {
    ladder: &'a Ladder,
    like: StandardUnit,
    volumes: Volumes,
    rounding: Rounding,
}

impl LadderWay<'_> {
    /// The unit of a rung, in the system of the line.
    fn unit(&self, id: &str) -> StandardUnit {
        self.like.beside(id).unwrap_or(self.like)
    }

    fn size(&self, id: &str) -> Decimal {
        self.unit(id).to_base(self.volumes)
    }
}

fn ladder(unit: StandardUnit, volumes: Volumes) -> Option<&'static Ladder> {
    let system = unit.system(volumes);
    let serves = |ladder: &&Ladder| {
        ladder.serves.iter().any(|id| id == unit.id())
            && (ladder.volumes.is_empty() || ladder.volumes.contains(&system))
    };
    catalogue().ladders.iter().find(serves)
}

/// Two significant digits, down.
fn two_digits(amount: Decimal) -> Decimal {
    amount.round_sf_with_strategy(2, rust_decimal::RoundingStrategy::ToZero).unwrap_or(amount).normalize()
}

/// How many steps `amount` takes, whole: the nearest, a half up; or no more than there is.
fn steps(amount: Decimal, step: Decimal, rounding: Rounding) -> Result<Decimal, Overflow> {
    let many = exact::div(amount, step)?;
    Ok(match rounding {
        Rounding::Nearest => crate::number::half_up(many, 0),
        Rounding::Down => settled(many).trunc(),
    })
}

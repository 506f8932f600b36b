//! Ladders of the catalogue: which measures a kitchen reaches for, from the largest down, and how finely each is filled.
//!
//! Takes the rows of `catalogue.toml`; gives exact steps.

use serde::Deserialize;

use super::base::Volumes;
use crate::number::{Decimal, Marks, decimal};

/// The measures for lines typed in some units.
#[derive(Debug)]
pub(super) struct Ladder {
    /// The ids of the units that it serves.
    pub serves: Vec<String>,
    /// Under which meaning of cup and pint; any where there are none.
    pub volumes: Vec<Volumes>,
    /// The measures, the largest first.
    pub rungs: Vec<Rung>,
    /// How finely a scale weighs out, in units of the last rung: below so much, in such steps.
    pub grid: Vec<(Decimal, Decimal)>,
    /// The step above all of them; `None` with spoons and jugs.
    pub finest: Option<Decimal>,
}

/// A measure of a ladder.
#[derive(Debug)]
pub(super) struct Rung {
    /// The id of its unit.
    pub unit: String,
    /// So many of it and it leads.
    pub from: Decimal,
    /// From so many of it on it does not stand alone; `None` of the largest.
    pub below: Option<Decimal>,
    /// What it is filled to beside whole ones.
    pub parts: Vec<Fraction>,
    /// What it is filled to below one, where that is more than its parts.
    pub small: Vec<Fraction>,
    /// The step, where that is not one.
    pub every: Decimal,
    /// Whether it is told in decimals rather than fractions.
    pub decimal: bool,
    /// Whether it leads filled in part: three quarters of a cup and two spoons.
    pub leads: bool,
}

/// A vulgar fraction below one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Fraction {
    /// As it is written: `1/3`.
    pub text: String,
    /// What it comes to, to 28 digits.
    pub value: Decimal,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LadderText {
    serves: Vec<String>,
    #[serde(default)]
    volumes: Vec<String>,
    rung: Vec<RungText>,
    #[serde(default)]
    grid: Vec<[String; 2]>,
    finest: Option<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RungText {
    unit: String,
    from: String,
    below: Option<String>,
    #[serde(default)]
    parts: Vec<String>,
    #[serde(default)]
    small: Vec<String>,
    every: Option<String>,
    #[serde(default)]
    decimal: bool,
    #[serde(default)]
    leads: bool,
}

fn number(text: &str) -> Option<Decimal> {
    decimal::parse(text, Marks::PointDecimal).ok()
}

fn optional(text: Option<&str>) -> Option<Option<Decimal>> {
    match text {
        Some(text) => number(text).map(Some),
        None => Some(None),
    }
}

fn fractions(texts: Vec<String>) -> Option<Vec<Fraction>> {
    texts.into_iter().map(|text| Some(Fraction { value: number(&text)?, text })).collect()
}

impl LadderText {
    /// The ladder; `None` when the file is not sound, which the tests rule out.
    pub(super) fn read(self) -> Option<Ladder> {
        let rung = |text: RungText| {
            Some(Rung {
                from: number(&text.from)?,
                below: optional(text.below.as_deref())?,
                parts: fractions(text.parts)?,
                small: fractions(text.small)?,
                every: optional(text.every.as_deref())?.unwrap_or(Decimal::ONE),
                decimal: text.decimal,
                leads: text.leads,
                unit: text.unit,
            })
        };
        let step = |[below, step]: [String; 2]| Some((number(&below)?, number(&step)?));
        Some(Ladder {
            serves: self.serves,
            volumes: self.volumes.iter().map(|text| Volumes::parse(text)).collect::<Option<_>>()?,
            rungs: self.rung.into_iter().map(rung).collect::<Option<_>>()?,
            grid: self.grid.into_iter().map(step).collect::<Option<_>>()?,
            finest: optional(self.finest.as_deref())?,
        })
    }
}

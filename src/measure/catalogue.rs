//! The catalogue of units and count words, read once from `catalogue.toml`.
//!
//! Takes a name as a cook writes it; gives the unit or word it stands for. Sizes are exact decimals.

use std::borrow::Cow;
use std::collections::HashMap;
use std::sync::LazyLock;

use serde::Deserialize;

use super::base::{Dimension, Volumes};
use super::ladder::{Ladder, LadderText};
use super::slip;
use super::words::singular;
use crate::number::{Decimal, Marks, decimal};

/// A unit of the catalogue.
pub(super) struct UnitEntry {
    pub id: String,
    pub name: String,
    pub dimension: Dimension,
    /// The size in g, ml or each under US, imperial and metric volumes.
    pub sizes: [Decimal; 3],
    /// Whether the setting *Volumes* matters.
    pub varies: bool,
    /// Whether it may be called metric: the metric cup, but not the metric pint.
    pub is_metric: bool,
    /// How its size follows from the number in its name; `None` for a unit without one.
    pub rule: Option<Rule>,
}

/// How the size of a scoop or ladle follows from its number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Rule {
    /// So many of it make the size given: scoops in a quart.
    Divides,
    /// It holds so many times the size given: the ounces of a ladle.
    Multiplies,
}

impl UnitEntry {
    /// The size in g, ml or each.
    pub fn size(&self, volumes: Volumes) -> Decimal {
        let [us, imperial, metric] = self.sizes;
        match volumes {
            Volumes::Us => us,
            Volumes::Imperial => imperial,
            Volumes::Metric => metric,
        }
    }
}

/// What kind of thing a count word counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum WordKind {
    /// Things as they grow or are cut: bunch, head, slice.
    Piece,
    /// What a pack holds several of: can, jar, bottle.
    Vessel,
    /// What a pack comes in: case, box, bag.
    Outer,
    /// Too small or loose to weigh: pinch, handful.
    Unmeasured,
}

/// A word that counts.
pub(super) struct CatalogueWord {
    pub name: String,
    pub kind: WordKind,
}

/// What a can of a numbered size is published to hold: the least, the one taken, the most.
pub(super) struct CanRow {
    /// `10`, `2-1/2`, `3 cylinder`.
    pub size: String,
    /// Ounces of weight.
    pub oz: Option<[Decimal; 3]>,
    /// US fluid ounces.
    pub fl_oz: Option<[Decimal; 3]>,
}

/// All units, words, cans and ladders, with their names.
#[derive(Default)]
pub(super) struct Catalogue {
    pub units: Vec<UnitEntry>,
    pub cans: Vec<CanRow>,
    pub ladders: Vec<Ladder>,
    words: Vec<CatalogueWord>,
    tool_names: HashMap<String, usize>,
    unit_names: HashMap<String, usize>,
    exact_names: HashMap<String, usize>,
    word_names: HashMap<String, usize>,
}

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(|| read(include_str!("catalogue.toml")).unwrap_or_default());

/// The catalogue.
pub(super) fn catalogue() -> &'static Catalogue {
    &CATALOGUE
}

impl Catalogue {
    /// The index of the unit that goes by `name`, plural endings aside.
    pub fn unit(&self, name: &str) -> Option<usize> {
        let key = key(name);
        let exact = self.exact_names.get(name.trim().trim_end_matches('.'));
        exact.or_else(|| self.unit_names.get(&*key)).or_else(|| self.unit_names.get(&singular(&key))).copied()
    }

    /// The index and rule of the scoop or ladle that goes by `name`, its number aside.
    pub fn tool(&self, name: &str) -> Option<(usize, Rule)> {
        let index = *self.tool_names.get(name)?;
        Some((index, self.units.get(index)?.rule?))
    }

    /// The unit or count word that was meant by `text`, where that is neither but a slip of the pen away from one.
    pub fn slip(&self, text: &str) -> Option<&str> {
        let text = key(text);
        if self.word(&text).is_some() {
            return None;
        }
        slip::slip(&text, self.unit_names.keys().map(String::as_str), self.word_names.keys().map(String::as_str))
    }

    /// The count word that goes by `name`, plural endings aside.
    pub fn word(&self, name: &str) -> Option<&CatalogueWord> {
        let key = key(name);
        let index = self.word_names.get(&*key).or_else(|| self.word_names.get(&singular(&key)))?;
        self.words.get(*index)
    }
}

/// A name without case and points, its spaces single.
fn key(name: &str) -> Cow<'_, str> {
    // Most are one word in small letters.
    if name.bytes().all(|byte| byte.is_ascii_graphic() && !byte.is_ascii_uppercase() && byte != b'.') {
        return Cow::Borrowed(name);
    }
    let plain: String = name.to_lowercase().replace("fl.oz", "fl oz").chars().filter(|c| *c != '.').collect();
    Cow::Owned(plain.split_whitespace().collect::<Vec<_>>().join(" "))
}

#[derive(Deserialize)]
struct File {
    unit: Vec<UnitRow>,
    numbered: Vec<NumberedRow>,
    ladder: Vec<LadderText>,
    can: Vec<CanText>,
    word: Vec<WordRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct UnitRow {
    id: String,
    name: String,
    dimension: Dimension,
    base: Option<String>,
    us: Option<String>,
    imperial: Option<String>,
    metric: Option<String>,
    names: Vec<String>,
    #[serde(default)]
    exact_names: Vec<String>,
    #[serde(rename = "source")]
    _source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct NumberedRow {
    id: String,
    name: String,
    dimension: Dimension,
    base: String,
    rule: Rule,
    names: Vec<String>,
    #[serde(rename = "source")]
    _source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CanText {
    size: String,
    oz: Option<[String; 3]>,
    fl_oz: Option<[String; 3]>,
    #[serde(rename = "source")]
    _source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WordRow {
    name: String,
    kind: WordKind,
    #[serde(default)]
    names: Vec<String>,
}

/// The catalogue in `text`; `None` when the file is not sound, which the tests rule out.
fn read(text: &str) -> Option<Catalogue> {
    let file: File = toml::from_str(text).ok()?;
    let mut catalogue = Catalogue::default();
    for row in file.unit {
        let index = catalogue.units.len();
        for name in row.names.iter().chain([&row.name]) {
            fresh(&mut catalogue.unit_names, key(name).into_owned(), index)?;
        }
        for name in &row.exact_names {
            fresh(&mut catalogue.exact_names, name.clone(), index)?;
        }
        let size =
            |text: &Option<String>| text.as_ref().and_then(|text| decimal::parse(text, Marks::PointDecimal).ok());
        let sizes = match size(&row.base) {
            Some(base) => [base; 3],
            None => {
                let imperial = size(&row.imperial)?;
                [size(&row.us)?, imperial, size(&row.metric).unwrap_or(imperial)]
            }
        };
        catalogue.units.push(UnitEntry {
            id: row.id,
            name: row.name,
            dimension: row.dimension,
            sizes,
            varies: row.base.is_none(),
            is_metric: row.metric.is_some(),
            rule: None,
        });
    }
    for row in file.numbered {
        let index = catalogue.units.len();
        for name in row.names {
            fresh(&mut catalogue.tool_names, name, index)?;
        }
        let base = decimal::parse(&row.base, Marks::PointDecimal).ok()?;
        catalogue.units.push(UnitEntry {
            id: row.id,
            name: row.name,
            dimension: row.dimension,
            sizes: [base; 3],
            varies: false,
            is_metric: false,
            rule: Some(row.rule),
        });
    }
    for text in file.ladder {
        catalogue.ladders.push(text.read()?);
    }
    for row in file.can {
        let spread = |texts: Option<[String; 3]>| match texts {
            Some(texts) => {
                let [least, taken, most] = texts.map(|text| decimal::parse(&text, Marks::PointDecimal).ok());
                Some(Some([least?, taken?, most?]))
            }
            None => Some(None),
        };
        catalogue.cans.push(CanRow { size: row.size, oz: spread(row.oz)?, fl_oz: spread(row.fl_oz)? });
    }
    for row in file.word {
        let index = catalogue.words.len();
        for name in row.names.iter().chain([&row.name]) {
            fresh(&mut catalogue.word_names, key(name).into_owned(), index)?;
        }
        catalogue.words.push(CatalogueWord { name: row.name, kind: row.kind });
    }
    Some(catalogue)
}

/// Adds a name that must be new.
fn fresh(names: &mut HashMap<String, usize>, name: String, index: usize) -> Option<()> {
    names.insert(name, index).is_none().then_some(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_file_is_sound() {
        let catalogue = read(include_str!("catalogue.toml")).expect("catalogue.toml parses, no name stands twice");
        assert_eq!(
            catalogue.units.iter().take(3).map(|unit| unit.id.as_str()).collect::<Vec<_>>(),
            ["g", "ml", "each"]
        );
        for name in catalogue.word_names.keys() {
            assert!(!catalogue.unit_names.contains_key(name), "{name} is a unit and a word");
        }
    }
}

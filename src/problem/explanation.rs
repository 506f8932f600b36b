//! Explanations of problem codes: what each means to a cook, why it matters, a small book that meets it, and the same
//! book mended.
//!
//! The words stand in `explanations`, one file a group of codes, and are read once; a test sees to it that every code has
//! its words, that every book meets what it is said to meet in the very words shown, and that mending helps.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde::Deserialize;

use super::{Advice, CellRef, Choice, Code, Fault, Place, Problem};
use crate::in_order::InOrder;

/// The groups in the order of the codes, each with its entries: a table a code, named as the code is.
const GROUPS: [(&str, &str); 10] = [
    ("Tables and sheets", include_str!("explanations/tables.toml")),
    ("Cells", include_str!("explanations/cells.toml")),
    ("Packs and measures", include_str!("explanations/packs.toml")),
    ("Prices", include_str!("explanations/prices.toml")),
    ("Suppliers' lists", include_str!("explanations/lists.toml")),
    ("Names", include_str!("explanations/names.toml")),
    ("Yield tests", include_str!("explanations/yield_tests.toml")),
    ("Recipes", include_str!("explanations/recipes.toml")),
    ("Menu and settings", include_str!("explanations/menu.toml")),
    ("Care", include_str!("explanations/care.toml")),
];

/// What one code means.
#[derive(Debug, Clone)]
#[non_exhaustive]
pub struct Explanation {
    /// The code.
    pub code: Code,
    /// What it is about, shared with other codes: `Prices`.
    pub group: &'static str,
    /// What it means, in a few sentences.
    pub means: String,
    /// What would go wrong in the cost.
    pub matters: String,
    /// The rows of a book that meets it, as csv text.
    pub example: String,
    /// The cells of the example that csv text cannot hold as a workbook does, by their names (`B2`): a date as
    /// `d:2026-05-06`, a formula saved without its result as `f:` and its text. The example shows what a cook sees there.
    pub typed: BTreeMap<String, String>,
    /// The supplier's list beside the book in which it is met, as csv text, for what concerns lists.
    pub list: Option<String>,
    /// The problem as it is met in the example, at its cell.
    pub problem: Problem,
    /// The example mended, as csv text.
    pub instead: String,
    /// The list mended, as csv text.
    pub list_instead: Option<String>,
    /// What to do when in doubt, where there is something to say.
    pub not_sure: Option<String>,
}

impl Explanation {
    /// The explanation with the caller's `words` for the choice that its problem's help offers.
    #[must_use]
    pub fn saying(&self, words: impl Fn(&Choice) -> String) -> Explanation {
        Explanation { problem: self.problem.saying(words), ..self.clone() }
    }
}

/// An entry as it is written.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenEntry {
    means: String,
    matters: String,
    example: String,
    #[serde(default)]
    typed: BTreeMap<String, String>,
    list: Option<String>,
    /// The cell of the example where the code is met: `B2`; of the list, where there is one.
    at: String,
    /// The message met there.
    says: String,
    /// The help met there; `{}` stands for the choice in it.
    help: String,
    /// The choice that the help offers.
    choice: Option<WrittenChoice>,
    instead: String,
    list_instead: Option<String>,
    not_sure: Option<String>,
}

/// A choice as an entry writes it.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum WrittenChoice {
    Accept(String),
    Supplier,
    AsOf,
}

impl From<WrittenChoice> for Choice {
    fn from(written: WrittenChoice) -> Self {
        match written {
            WrittenChoice::Accept(item) => Choice::Accept(item),
            WrittenChoice::Supplier => Choice::Supplier,
            WrittenChoice::AsOf => Choice::AsOf,
        }
    }
}

static EXPLANATIONS: LazyLock<Vec<Explanation>> = LazyLock::new(|| {
    let mut all: Vec<Explanation> = GROUPS.iter().flat_map(|(group, text)| group_of(group, text)).collect();
    all.put_in_order_by_key(|explanation| explanation.code);
    all
});

/// The explanation of every code, in the order of the codes.
pub fn explanations() -> &'static [Explanation] {
    &EXPLANATIONS
}

/// The explanation of the code that `word` names, whatever its case, bare or in brackets as it is printed beside a
/// problem.
pub fn named(word: &str) -> Option<&'static Explanation> {
    let name = bare(word);
    explanations().iter().find(|explanation| explanation.code.name() == name)
}

/// `[Price-Old]` as codes are named: `price-old`.
pub(crate) fn bare(word: &str) -> String {
    word.trim().trim_start_matches('[').trim_end_matches(']').trim().to_lowercase()
}

fn group_of(group: &'static str, text: &str) -> Vec<Explanation> {
    let entries: BTreeMap<String, WrittenEntry> = toml::from_str(text).unwrap_or_default();
    entries.into_iter().filter_map(|(name, written)| entry(group, &name, written)).collect()
}

fn entry(group: &'static str, name: &str, written: WrittenEntry) -> Option<Explanation> {
    let code = Code::ALL.iter().copied().find(|code| code.name() == name)?;
    // What csv text cannot hold stands in a workbook.
    let sheet = match (&written.list, written.typed.is_empty()) {
        (Some(_), _) => Place::sheet("list.csv", ""),
        (None, true) => Place::sheet("book.csv", ""),
        (None, false) => Place::sheet("book.xlsx", "Sheet1"),
    };
    let place = sheet.cell(CellRef::named(&written.at)?);
    let help = match (written.help.split_once("{}"), written.choice) {
        (Some((before, after)), Some(choice)) => Advice::from(before).choosing(choice.into()).then(after),
        _ => Advice::from(written.help),
    };
    Some(Explanation {
        code,
        group,
        means: one_line(&written.means),
        matters: one_line(&written.matters),
        example: written.example,
        typed: written.typed,
        list: written.list,
        problem: Fault::new(code, written.says, help).at(place),
        instead: written.instead,
        list_instead: written.list_instead,
        not_sure: written.not_sure.as_deref().map(one_line),
    })
}

/// Text without the line breaks of its file.
fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_entry_is_read_and_has_a_code_and_every_code_an_entry() {
        let mut written = 0;
        for (group, text) in GROUPS {
            let entries: BTreeMap<String, WrittenEntry> =
                toml::from_str(text).unwrap_or_else(|error| panic!("{group}: {error}"));
            for name in entries.keys() {
                assert!(Code::ALL.iter().any(|code| code.name() == name), "{group} explains {name}, which is no code");
            }
            written += entries.len();
        }
        let explained: Vec<Code> = explanations().iter().map(|explanation| explanation.code).collect();
        assert_eq!(explained, Code::ALL, "each code once");
        assert_eq!(written, Code::ALL.len());
    }

    #[test]
    fn a_group_stands_together_and_in_the_order_of_the_codes() {
        let mut groups: Vec<&str> = explanations().iter().map(|explanation| explanation.group).collect();
        groups.dedup();
        assert_eq!(groups, GROUPS.map(|(group, _)| group));
    }

    #[test]
    fn a_code_is_known_as_it_is_printed() {
        for word in ["price-old", "[price-old]", "Price-OLD", " [PRICE-OLD] "] {
            assert_eq!(named(word).map(|found| found.code), Some(Code::PriceOld), "{word}");
        }
        for word in ["", "[]", "price", "price old"] {
            assert!(named(word).is_none(), "{word}");
        }
    }
}

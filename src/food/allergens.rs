//! The listed allergens and the words kitchens use for them.
//!
//! The list is the fourteen entries of Regulation (EU) No 1169/2011, Annex II, with cereals split into wheat and the
//! rest, so that the nine major food allergens of US law can be told from one column as well.

use std::collections::HashSet;
use std::sync::{Arc, LazyLock};

/// The table as published, one row a code.
const TABLE: &str = include_str!("allergens.tsv");

/// An allergen: a code of the list, or the kitchen's own words where they are none of it.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Allergen(String);

impl Allergen {
    /// The code, `crustacean`, or the kitchen's own words.
    pub fn code(&self) -> &str {
        &self.0
    }

    /// Whether it is one of the listed codes.
    pub fn is_listed(&self) -> bool {
        codes().iter().any(|code| *code == self.0)
    }
}

/// What a cell states about allergens.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct StatedAllergens {
    /// The allergens named, each with the word for it, as typed; empty when the cell says `none`. One word may name
    /// several, and several words one.
    pub named: Vec<(Allergen, Arc<str>)>,
    /// Words that are not on the list; each is carried as it was written.
    pub unknown: Vec<String>,
    /// Whether `shellfish` alone was read as crustaceans and molluscs.
    pub shellfish: bool,
}

/// The codes of the list, in its order.
pub fn codes() -> &'static [&'static str] {
    static CODES: LazyLock<Vec<&'static str>> =
        LazyLock::new(|| TABLE.lines().skip(1).filter_map(|line| line.split('\t').next()).collect());
    &CODES
}

/// Where an allergen stands in the order of the list; the kitchen's own words stand last.
pub(crate) fn place(allergen: &Allergen) -> usize {
    codes().iter().position(|known| *known == allergen.0).unwrap_or(usize::MAX)
}

/// Words for each code, in the singular and lower case; common kitchen usage, no source.
const WORDS: &[(&str, &[&str])] = &[
    ("milk", &["milk", "dairy", "lactose", "cream", "butter", "cheese"]),
    ("egg", &["egg"]),
    ("fish", &["fish", "finfish"]),
    (
        "crustacean",
        &["crustacean", "crustacea", "crustacean shellfish", "shrimp", "prawn", "crab", "lobster", "crayfish"],
    ),
    (
        "mollusc",
        &["mollusc", "mollusk", "molluscan shellfish", "clam", "oyster", "mussel", "scallop", "squid", "snail"],
    ),
    (
        "tree_nut",
        &["tree nut", "nut", "almond", "hazelnut", "walnut", "cashew", "pecan", "brazil nut", "pistachio", "macadamia"],
    ),
    ("peanut", &["peanut"]),
    ("wheat", &["wheat", "spelt", "khorasan wheat"]),
    ("gluten_other", &["gluten other", "other gluten", "rye", "barley", "oat"]),
    ("soy", &["soy", "soya", "soybean", "soya bean"]),
    ("sesame", &["sesame", "sesame seed"]),
    ("celery", &["celery", "celeriac"]),
    ("mustard", &["mustard"]),
    ("sulphite", &["sulphite", "sulfite", "sulphur dioxide", "sulfur dioxide", "so2"]),
    ("lupin", &["lupin", "lupine"]),
];

/// Reads a cell such as `milk; crustaceans` or `none`. `None` for a blank one: nothing is stated.
pub fn read(text: &str) -> Option<StatedAllergens> {
    let mut stated = StatedAllergens::default();
    let mut any = false;
    for word in text.split([',', ';']).map(str::trim).filter(|word| !word.is_empty()) {
        any = true;
        let folded = singular(&word.to_lowercase().replace('_', " "));
        let found: &[&str] = match folded.as_str() {
            "none" | "no" | "nil" => continue,
            "shellfish" => {
                stated.shellfish = true;
                &["crustacean", "mollusc"]
            }
            "gluten" | "cereal containing gluten" => &["wheat", "gluten_other"],
            folded => match WORDS.iter().find(|(_, words)| words.contains(&folded)) {
                Some((code, _)) => std::slice::from_ref(code),
                None => {
                    stated.unknown.push(word.to_owned());
                    stated.named.push((Allergen(word.to_owned()), Arc::from(word)));
                    continue;
                }
            },
        };
        // Nobody writes `tree_nut` to be read by a cook.
        let word: Arc<str> = Arc::from(word.replace('_', " "));
        stated.named.extend(found.iter().map(|code| (Allergen((*code).to_owned()), Arc::clone(&word))));
    }
    any.then_some(stated)
}

/// The words of a list of allergens as a cook writes it: in the order given, one word once, however it is spelled.
pub(crate) fn words_once<'w>(words: impl Iterator<Item = &'w str>) -> Vec<String> {
    let mut met: HashSet<String> = HashSet::new();
    words.filter(|word| met.insert(singular(&word.to_lowercase()))).map(str::to_owned).collect()
}

fn singular(word: &str) -> String {
    match word {
        "molluscs" | "mollusks" | "sulphites" | "sulfites" => word.trim_end_matches('s').to_owned(),
        _ if word.ends_with('s') && !word.ends_with("ss") => word.trim_end_matches('s').to_owned(),
        _ => word.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn codes_of(text: &str) -> Vec<String> {
        read(text).unwrap().named.iter().map(|(allergen, _)| allergen.code().to_owned()).collect()
    }

    #[test]
    fn the_list_is_the_fourteen_with_cereals_split() {
        // Regulation (EU) No 1169/2011, Annex II: 14 entries; cereals stand here as two rows.
        assert_eq!(codes().len(), 15);
        assert!(WORDS.iter().all(|(code, _)| codes().contains(code)));
    }

    #[test]
    fn a_list_has_every_word_once_and_no_code() {
        let words = |text| words_once(read(text).unwrap().named.iter().map(|(_, word)| &**word));
        assert_eq!(words("Shellfish; tree_nuts, Prawns, prawn"), ["Shellfish", "tree nuts", "Prawns"]);
        assert_eq!(words("gluten"), ["gluten"]);
    }

    #[test]
    fn words_are_read_and_nothing_is_lost() {
        assert_eq!(codes_of("Milk, eggs; Sulphites"), ["milk", "egg", "sulphite"]);
        assert!(read("none").unwrap().named.is_empty());
        assert_eq!(read("  "), None);
        let shellfish = read("shellfish").unwrap();
        assert!(shellfish.shellfish);
        assert_eq!(codes_of("shellfish"), ["crustacean", "mollusc"]);
        let kiwi = read("kiwi").unwrap();
        assert_eq!(kiwi.unknown, ["kiwi"]);
        assert!(!kiwi.named[0].0.is_listed());
    }
}

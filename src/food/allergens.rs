//! The listed allergens and the words kitchens use for them.
//!
//! The list is the fourteen entries of Regulation (EU) No 1169/2011, Annex II, with cereals split into wheat and the
//! rest, so that the nine major food allergens of US law can be told from one column as well.

use std::sync::LazyLock;

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
pub struct Stated {
    /// The allergens named; empty when the cell says `none`.
    pub allergens: Vec<Allergen>,
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
pub fn read(text: &str) -> Option<Stated> {
    let mut stated = Stated::default();
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
                    add(&mut stated.allergens, word);
                    continue;
                }
            },
        };
        for code in found {
            add(&mut stated.allergens, code);
        }
    }
    any.then_some(stated)
}

fn add(list: &mut Vec<Allergen>, code: &str) {
    if !list.iter().any(|known| known.0 == code) {
        list.push(Allergen(code.to_owned()));
    }
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
        read(text).unwrap().allergens.iter().map(|a| a.code().to_owned()).collect()
    }

    #[test]
    fn the_list_is_the_fourteen_with_cereals_split() {
        // Regulation (EU) No 1169/2011, Annex II: 14 entries; cereals stand here as two rows.
        assert_eq!(codes().len(), 15);
        assert!(WORDS.iter().all(|(code, _)| codes().contains(code)));
    }

    #[test]
    fn words_are_read_and_nothing_is_lost() {
        assert_eq!(codes_of("Milk, eggs; Sulphites"), ["milk", "egg", "sulphite"]);
        assert!(read("none").unwrap().allergens.is_empty());
        assert_eq!(read("  "), None);
        let shellfish = read("shellfish").unwrap();
        assert!(shellfish.shellfish);
        assert_eq!(codes_of("shellfish"), ["crustacean", "mollusc"]);
        let kiwi = read("kiwi").unwrap();
        assert_eq!(kiwi.unknown, ["kiwi"]);
        assert!(!kiwi.allergens[0].is_listed());
    }
}

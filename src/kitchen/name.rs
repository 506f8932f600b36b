//! When two spellings are one name: case, spacing, accents and plural endings do not count.

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// A name as it is compared.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct NameKey(Box<str>);

impl NameKey {
    /// The key of `name`.
    pub fn of(name: &str) -> Self {
        let plain: String = name.nfkd().filter(|c| !is_combining_mark(*c)).collect::<String>().to_lowercase();
        // `Test: Part` is two names: each loses its own plural ending.
        let apart = plain.replace(':', " : ");
        let words = apart.split(|c: char| c.is_whitespace() || c == '-' || c == '_').map(singular);
        NameKey(words.collect::<String>().into())
    }

    /// The key of `test: part`, a part named together with its test.
    pub fn of_pair(first: &str, second: &str) -> Self {
        NameKey::of(&format!("{first}:{second}"))
    }

    /// Whether there is nothing to compare.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

/// `word` without a plain English plural ending.
fn singular(word: &str) -> String {
    let (stem, tail) = word.find([',', ';', '(', ')']).map_or((word, ""), |at| word.split_at(at));
    let cut = |by: usize| stem.get(..stem.len().saturating_sub(by)).unwrap_or(stem);
    let long = stem.chars().count() > 3;
    let single = match stem {
        _ if !long || stem.ends_with("ss") || stem.ends_with("us") || stem.ends_with("is") => stem.to_owned(),
        _ if stem.ends_with("ies") => format!("{}y", cut(3)),
        _ if stem.ends_with("leaves")
            || stem.ends_with("loaves")
            || stem.ends_with("calves")
            || stem.ends_with("halves") =>
        {
            format!("{}f", cut(3))
        }
        _ if ["oes", "shes", "ches", "xes", "sses", "zes"].iter().any(|end| stem.ends_with(end)) => cut(2).to_owned(),
        _ if stem.ends_with('s') => cut(1).to_owned(),
        _ => stem.to_owned(),
    };
    // A plural does not tell whether its one has an e: quiches and peaches, cookies and berries. So none has.
    let bare = |by: usize| single.get(..single.len().saturating_sub(by)).unwrap_or(&single);
    let single = match single.as_str() {
        one if one.chars().count() < 3 => single,
        one if one.ends_with("ie") => format!("{}y", bare(2)),
        one if ["oe", "she", "che", "xe", "sse", "ze"].iter().any(|end| one.ends_with(end)) => bare(1).to_owned(),
        _ => single,
    };
    format!("{single}{tail}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spellings_of_one_name_are_one_key() {
        for (a, b) in [
            ("Onions, yellow", "onion,  Yellow"),
            ("Crème fraîche", "creme fraiche"),
            ("Tomatoes", "tomato"),
            ("Berries", "berry"),
            ("Bay leaves", "bay leaf"),
            ("Radishes", "radish"),
            ("olive oil", "Olive  Oil"),
            ("All-purpose flour", "all purpose flour"),
            ("Prawns", "PRAWN"),
            ("Cookies", "Cookie"),
            ("Pies", "Pie"),
            ("Quiches", "Quiche"),
            ("Mousses", "Mousse"),
            ("Cod roes", "Cod roe"),
            ("Peeling prawns: Shells", "peeling prawn:shell"),
        ] {
            assert_eq!(NameKey::of(a), NameKey::of(b), "{a} / {b}");
        }
    }

    #[test]
    fn different_names_stay_different() {
        for (a, b) in
            [("Bass", "Bas"), ("Peas", "Pears"), ("Asparagus", "Asparagu"), ("Couscous", "Couscou"), ("Gas", "Ga")]
        {
            assert_ne!(NameKey::of(a), NameKey::of(b), "{a} / {b}");
        }
    }
}

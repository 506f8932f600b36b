//! Flour of a dough, by its name.

/// What begins the name of what is milled and is still no flour of a dough.
const NUTS: [&str; 8] = ["almond", "cashew", "coconut", "hazelnut", "nut", "pecan", "pistachio", "walnut"];

/// Whether a name says that it is the flour of a dough.
pub(crate) fn is_flour(name: &str) -> bool {
    let name = name.to_lowercase();
    let words = || name.split(|letter: char| !letter.is_alphanumeric()).map(|word| word.trim_end_matches('s'));
    words().any(|word| ["flour", "semolina"].contains(&word)) && !words().any(|word| NUTS.contains(&word))
}

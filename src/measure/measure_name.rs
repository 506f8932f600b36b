//! The name of a measure with its preparation: `cup, diced`, `cup (diced)`, `cup diced` and `diced cup` are one.
//!
//! Takes what a cook calls a measure; gives its unit and its preparation, or nothing where it says no measure.

use super::unit::Unit;
use crate::number::text::{clean, is_too_long};

/// Sizes in which pieces are told apart.
const SIZES: &[&str] = &["small", "medium", "large", "extra", "jumbo"];

/// The unit and the preparation that `text` names; `None` where it names no one measure, such as `2 cups` or `?`.
pub fn measure_name(text: &str) -> Option<(Unit, Option<String>)> {
    if is_too_long(text) {
        return None;
    }
    let text = clean(text);
    // `1 cup` says the same as `cup`.
    let text = text.strip_prefix("1 ").map_or(text.as_str(), str::trim);
    if !text.chars().any(char::is_alphanumeric) {
        return None;
    }
    if let Some(unit) = Unit::parse(text) {
        return Some((unit, None));
    }
    if is_amount(text) {
        return None;
    }
    let (name, said) = parted(text)?;
    let (unit, within) = by_words(name).unwrap_or_else(|| (Unit::read(name), None));
    let preps: Vec<&str> = [within, said].into_iter().flatten().collect();
    Some((unit, (!preps.is_empty()).then(|| preps.join(", "))))
}

/// What stands before a comma or bracket, and what stands behind or within it; of `diced, cup` the other way about.
fn parted(text: &str) -> Option<(&str, Option<&str>)> {
    let (name, said) = match text.strip_suffix(')').and_then(|open| open.split_once('(')) {
        Some((name, said)) => (name.trim().trim_end_matches(',').trim_end(), said.trim()),
        None => match text.split_once(',') {
            Some((name, said)) => (name.trim(), said.trim()),
            None => (text, ""),
        },
    };
    let is_unit = |text: &str| Unit::parse(text).is_some();
    match (name.is_empty(), said.is_empty()) {
        (true, _) => None,
        (false, true) => Some((name, None)),
        (false, false) if !is_unit(name) && is_unit(said) => Some((said, Some(name))),
        (false, false) => Some((name, Some(said))),
    }
}

/// `cup diced`, `diced cup`, `large head`: a unit with a preparation before or behind it. A name of two things (`sheet
/// pan`, `pint basket`) is one measure of the kitchen's own.
fn by_words(text: &str) -> Option<(Unit, Option<&str>)> {
    let spaces: Vec<usize> = text.match_indices(' ').map(|(at, _)| at).collect();
    let cut = |at: &usize| text.split_at_checked(*at).map(|(before, behind)| (before.trim(), behind.trim()));
    let read = |unit: &str, prep| joined(unit, prep).map(|unit| (unit, Some(prep)));
    let first = spaces.iter().rev().filter_map(cut).find_map(|(unit, prep)| read(unit, prep));
    first.or_else(|| spaces.iter().filter_map(cut).find_map(|(prep, unit)| read(unit, prep)))
}

/// The unit of that name, where the other words can be its preparation.
fn joined(name: &str, prep: &str) -> Option<Unit> {
    let unit = Unit::parse(name)?;
    let is_word = |word: &str| SIZES.contains(&word.to_lowercase().as_str()) || word.to_lowercase().ends_with("ed");
    let fits = match unit {
        // A single letter may begin a name: a T bone.
        Unit::Standard(_) => name.chars().count() > 1,
        Unit::Own(_) => prep.split(' ').all(is_word),
    };
    (fits && Unit::parse(prep).is_none() && !is_amount(prep)).then_some(unit)
}

/// Whether it is so many of a unit, or a bare number.
fn is_amount(text: &str) -> bool {
    let behind = text.trim_start_matches(|c: char| c.is_numeric() || " .,/-½¼¾⅓⅔".contains(c));
    behind.len() < text.len() && (behind.is_empty() || Unit::parse(behind).is_some())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Option<(String, String)> {
        measure_name(text).map(|(unit, prep)| (unit.name(), prep.unwrap_or_default()))
    }

    #[test]
    fn one_measure_has_many_spellings() {
        let one = |unit: &str, prep: &str| Some((unit.to_owned(), prep.to_owned()));
        for text in ["cup, diced", "cup diced", "diced cup", "cup (diced)", "Cups, diced", "1 cup diced", "diced, cup"]
        {
            assert_eq!(read(text), one("cup", "diced"), "{text}");
        }
        for (text, unit, prep) in [
            ("cup diced, 1/4 inch", "cup", "diced, 1/4 inch"),
            ("cup packed brown", "cup", "packed brown"),
            ("fl oz", "fl oz", ""),
            ("fl oz strained", "fl oz", "strained"),
            ("each, large", "each", "large"),
            ("large head", "head", "large"),
            ("#10 can drained", "#10 can", "drained"),
            ("#1 (picnic)", "#1 picnic can", ""),
            ("sheet pan", "sheet pan", ""),
            ("pint basket", "pint basket", ""),
            ("T bone steak", "t bone steak", ""),
            ("2\" hotel pan", "2\" hotel pan", ""),
            ("12 oz can", "12 oz can", ""),
        ] {
            assert_eq!(read(text), one(unit, prep), "{text}");
        }
    }

    #[test]
    fn what_says_no_measure_is_none() {
        for text in ["", "?", "2 cups", "1/2 cup", "15 oz", "12", "(diced)", ", diced"] {
            assert_eq!(read(text), None, "{text}");
        }
    }
}

//! Yield of a recipe as a line of text: `Serves 12`, `Makes 2 gal`, `Yield: 24 portions @ 6 oz`, `2 kg / 4 loaves`.

use super::Conventions;
use super::amount::about;
use super::number::{Number, number};
use super::unit_at::unit_at;
use crate::measure::words::singular;
use crate::measure::{Measured, Unit};
use crate::number::Decimal;
use crate::number::text::clean;

/// What a line says of a batch.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct YieldText {
    /// What it makes, in one measure or two.
    pub makes: Vec<Measured>,
    /// How many portions it gives.
    pub portions: Option<Decimal>,
    /// What one portion is.
    pub portion: Option<Measured>,
    /// Whether a word such as *about* stands before the amount, or a sign such as `+/-` behind it.
    pub is_about: bool,
    /// What else is said: `cooked`.
    pub rest: String,
    /// Whether a word says that it is a yield: `serves`, `makes`, `portions`.
    pub is_stated: bool,
}

/// Words before what a batch makes.
const MAKES: &[&str] = &["yields", "yield", "makes", "make", "gives", "batch size", "batch", "for"];
/// Words before how many it serves.
const SERVES: &[&str] = &["serves", "serve", "feeds", "servings", "portions", "covers"];
/// Words behind how many it serves.
const SERVED: &[&str] = &[
    "portions", "portion", "servings", "serving", "pers", "persons", "person", "people", "covers", "guests", "ptns",
    "ppl", "pax", "plates", "plate",
];
/// What a batch comes in that no catalogue counts. Common kitchen usage, no source.
const MADE: &[&str] = &[
    "cake",
    "tray",
    "tart",
    "pie",
    "loaf",
    "bowl",
    "order",
    "slice",
    "pan",
    "hotel pan",
    "half hotel pan",
    "half pan",
    "sheet pan",
    "half sheet",
    "sheet",
    "pizza",
    "roll",
    "bun",
    "cookie",
    "muffin",
    "taco",
    "sandwich",
    "jar",
    "bottle",
    "terrine",
    "shell",
    "log",
    "batch",
    "brick",
    "ball",
    "wrap",
    "burrito",
    "biscuit",
    "scone",
    "bar",
    "dish",
    "serve",
];

/// Reads a line that says what a batch makes; `None` for any other line.
pub fn parse_yield(text: &str, how: Conventions) -> Option<YieldText> {
    let text = clean(text);
    let mut said = YieldText::default();
    let mut rest = text.as_str();
    let mut serves = false;
    if let Some(behind) = after_word(rest, SERVES) {
        (rest, serves, said.is_stated) = (behind, true, true);
    } else if let Some(behind) = after_word(rest, MAKES) {
        (rest, said.is_stated) = (behind, true);
        if let Some(behind) = after_word(rest, SERVES) {
            (rest, serves) = (behind, true);
        }
    }
    let exact = about(rest);
    said.is_about = exact.len() != rest.len();
    let (Number::Exact(many), behind) = number(exact, how.marks)? else { return None };
    if many <= Decimal::ZERO {
        return None;
    }
    let behind = behind.trim_start();
    if serves {
        said.portions = Some(many);
        rest = behind;
        if let Some((portion, after)) = portion_in(behind, how) {
            said.portion = Some(portion);
            rest = after;
        }
        said.rest = tidy(rest);
        return Some(said);
    }
    if let Some(after) = after_word(behind, SERVED) {
        said.portions = Some(many);
        said.is_stated = true;
        let (portion, after) = portion_in(after, how).map_or((None, after), |(portion, after)| (Some(portion), after));
        said.portion = portion;
        said.rest = tidy(after);
        return Some(said);
    }
    for joint in ["@ ", "@", "à ", "x ", "× "] {
        if let Some((portion, after)) = behind.strip_prefix(joint).and_then(|size| measure(size, how)) {
            said.portions = Some(many);
            said.portion = Some(portion);
            said.is_stated = true;
            said.rest = tidy(after);
            return Some(said);
        }
    }
    // `100 half cup servings`.
    if let Some((portion, after)) = measure(behind, how)
        && let Some(after) = after_word(after.trim_start(), SERVED)
    {
        said.portions = Some(many);
        said.portion = Some(portion);
        said.is_stated = true;
        said.rest = tidy(after);
        return Some(said);
    }
    if behind.is_empty() {
        said.portions = said.is_stated.then_some(many);
        return said.is_stated.then_some(said);
    }
    let (unit, after) = made_unit(behind)?;
    said.makes.push(Measured::new(many, unit));
    let mut left = Vec::new();
    for (index, part) in after.split([',', '(', ')', '/', '=']).enumerate() {
        if index == 0 || !also(&mut said, part.trim(), how) {
            left.push(part.trim());
        }
    }
    left.retain(|part| !part.is_empty());
    said.rest = tidy(&left.join(", "));
    let plain = said.rest.is_empty() || said.rest.starts_with(|c: char| !c.is_alphabetic()) || is_state(&said.rest);
    if ["+", "+/-", "-ish", "or so"].contains(&said.rest.as_str()) {
        said.is_about = true;
    }
    (said.is_stated || plain).then_some(said)
}

/// Words behind a bare amount that a line of ingredients would not have alone.
fn is_state(rest: &str) -> bool {
    let first = rest.split([' ', ',', '(']).next().unwrap_or("");
    [
        "cooked", "raw", "bowl", "baked", "finished", "usable", "total", "approx", "about", "ish", "or", "cut", "cuts",
        "each",
    ]
    .contains(&first)
}

/// What stands behind one of `words` and the colon that may follow it.
fn after_word<'t>(text: &'t str, words: &[&str]) -> Option<&'t str> {
    let lower = text.to_ascii_lowercase();
    let word = words.iter().find(|word| {
        lower.strip_prefix(**word).is_some_and(|rest| rest.is_empty() || rest.starts_with([' ', ':', '.', ',', ')']))
    })?;
    Some(text.get(word.len()..)?.trim_start_matches([' ', ':', '.']))
}

/// What one portion is: `@ 8 oz`, `à 300 ml`, `, 1/2 C ea`.
fn portion_in(text: &str, how: Conventions) -> Option<(Measured, &str)> {
    let text = text.trim_start_matches([' ', ',', '(']);
    let joint = ["@", "à", "at", "of", "x"].iter().find_map(|joint| text.strip_prefix(joint));
    let (portion, rest) = measure(joint.unwrap_or(text).trim_start(), how)?;
    let each = after_word(rest.trim_start(), &["ea", "each", "apiece"]);
    if joint.is_none() && each.is_none() {
        return None;
    }
    Some((portion, each.unwrap_or(rest)))
}

/// A number with a unit of the catalogue.
fn measure(text: &str, how: Conventions) -> Option<(Measured, &str)> {
    let (Number::Exact(many), rest) = number(text, how.marks)? else { return None };
    let (unit, rest) = unit_at(rest)?;
    Some((Measured::new(many, unit), rest))
}

/// A unit, or what a batch comes in.
fn made_unit(text: &str) -> Option<(Unit, &str)> {
    let end = text.find(|c: char| !(c.is_alphabetic() || c == ' ')).unwrap_or(text.len());
    let words = text.get(..end)?;
    let ends = words.match_indices(' ').map(|(at, _)| at).chain([words.len()]);
    let named = ends.filter(|at| {
        let one = singular(words.get(..*at).unwrap_or("").trim());
        MADE.contains(&one.to_lowercase().as_str())
    });
    match named.max() {
        Some(at) => Some((Unit::own(text.get(..at)?), text.get(at..)?)),
        None => unit_at(text),
    }
}

/// Takes a second measure, or a number of portions: `4 loaves @ 500 g`, `4 shells`, `cuts 8`. Whether it was one.
fn also(said: &mut YieldText, part: &str, how: Conventions) -> bool {
    let cut = after_word(part, &["cuts", "cut into", "cut in"]).or_else(|| after_word(part, SERVES));
    if let Some((Number::Exact(many), after)) = cut.and_then(|cut| number(cut, how.marks)) {
        let is_all = !after.trim_start().starts_with("each");
        if is_all {
            said.portions = Some(many);
        }
        return is_all;
    }
    let Some((Number::Exact(many), after)) = number(part, how.marks) else { return false };
    if after_word(after.trim_start(), SERVED).is_some() {
        said.portions = Some(many);
        return true;
    }
    let Some((unit, after)) = made_unit(after.trim_start()) else { return false };
    // A length is no measure of it, and two of one kind are not two measures.
    let is_other = said.makes.iter().all(|first| first.unit.dimension() != unit.dimension());
    if is_other && !after.trim_start().starts_with("each") {
        said.makes.push(Measured::new(many, unit));
        return true;
    }
    false
}

fn tidy(rest: &str) -> String {
    rest.trim().trim_matches(['(', ')', ',', ';', ' ']).to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Volumes;
    use crate::number::{Marks, plain};

    fn said(text: &str) -> String {
        let how = Conventions { marks: Marks::Unknown, volumes: Volumes::Us };
        let Some(said) = parse_yield(text, how) else { return "none".to_owned() };
        let makes: Vec<String> = said.makes.iter().map(Measured::to_string).collect();
        let portions = said.portions.map(|many| format!("{} portions", plain(many)));
        let portion = said.portion.map(|one| format!("of {one}"));
        makes.into_iter().chain(portions).chain(portion).collect::<Vec<_>>().join("; ")
    }

    #[test]
    fn yields_as_kitchens_write_them() {
        for (text, makes) in [
            ("Serves 12", "12 portions"),
            ("Makes 2 gal", "2 gal"),
            ("Yield: 24 portions @ 6 oz", "24 portions; of 6 oz"),
            ("Serves 50, 1/2 C ea", "50 portions; of 0.5 cup"),
            ("20 portions à 300 ml", "20 portions; of 300 ml"),
            ("60 @ 4 oz", "60 portions; of 4 oz"),
            ("4 x 350 ml", "4 portions; of 350 ml"),
            ("100 half cup servings", "100 portions; of 0.5 cup"),
            ("2 kg / 4 loaves @ 500 g", "2 kg; 4 loaf"),
            ("1 tart, 23 cm, cuts 8", "1 tart; 8 portions"),
            ("abt 1 lb", "1 lb"),
            ("~1.6 kg", "1.6 kg"),
            ("8 # cooked", "8 lb"),
            ("2 half hotel pans", "2 half hotel pan"),
            ("8 pers.", "8 portions"),
            ("Yield: 12", "12 portions"),
            ("12", "none"),
            ("2 cups mayo", "none"),
            ("3 onions", "none"),
            ("Onion soup", "none"),
            ("Makes 2-3 qt", "none"),
        ] {
            assert_eq!(said(text), makes, "{text}");
        }
    }
}

//! Amount at the start of a text: number and unit, packages of a size, `juice of 2`.

use super::found::FoundAmount;
use super::joined::joined;
use super::number::{Number, number};
use super::unit_at::unit_at;
use super::vocabulary::{HOLDERS, LEVELS, LOOSE, SIZES};
use super::{AmountText, Conventions};
use crate::measure::catalogue::WordKind;
use crate::measure::{Measured, Unit, Volumes};
use crate::number::{Decimal, plain};

/// What is taken of a fruit, before `of`.
const TAKEN: &[(&str, &str)] = &[
    ("juice & zest of ", "juice and zest"),
    ("juice and zest of ", "juice and zest"),
    ("juice + zest of ", "juice and zest"),
    ("zest & juice of ", "zest and juice"),
    ("zest and juice of ", "zest and juice"),
    ("zest + juice of ", "zest and juice"),
    ("juice of ", "juice"),
    ("juice from ", "juice"),
    ("zest of ", "zest"),
    ("peel of ", "peel"),
];

/// The amount that `text` begins with, and what follows it.
pub(super) fn at_start(text: &str, how: Conventions) -> Option<(FoundAmount, &str)> {
    let lower = text.to_ascii_lowercase();
    for (words, prep) in TAKEN {
        if lower.starts_with(words) {
            let rest = text.get(words.len()..)?;
            let (mut found, rest) = counted(rest, how)?;
            found.prep.push((*prep).to_owned());
            return Some((found, rest));
        }
    }
    loose(text, &lower).or_else(|| counted(text, how))
}

/// `a splash of`, `pinch`, `some`, `to taste`.
fn loose<'t>(text: &'t str, lower: &str) -> Option<(FoundAmount, &'t str)> {
    if super::vocabulary::AT_WILL.contains(&lower) {
        return Some((FoundAmount::of(AmountText::Unmeasured(lower.to_owned())), ""));
    }
    let article = if lower.starts_with("a ") { 2 } else { 0 };
    let bare = text.get(article..)?;
    let unit = unit_at(bare).filter(|(unit, _)| unit.is_unmeasured());
    let (word, rest) = match unit {
        Some((unit, rest)) => (unit.name(), rest),
        None => {
            let word = LOOSE
                .iter()
                .filter(|word| lower.starts_with(&format!("{word} ")) || lower == **word)
                .max_by_key(|word| word.len())?;
            (word.trim_start_matches("a ").to_owned(), text.get(word.len()..)?)
        }
    };
    let mut rest = rest.trim_start();
    let mut found = FoundAmount::of(AmountText::Unmeasured(word));
    if let Some(after) = rest.strip_prefix("or two ") {
        found.notes.push("one was taken of “or two”".to_owned());
        rest = after;
    }
    Some((found, without_of(rest)))
}

fn without_of(rest: &str) -> &str {
    rest.strip_prefix("of ").unwrap_or(rest)
}

/// An amount that begins with a number.
fn counted(text: &str, how: Conventions) -> Option<(FoundAmount, &str)> {
    let (many, rest) = number(text, how.marks)?;
    if rest.starts_with('"') || rest.trim_start().starts_with('%') {
        return None;
    }
    let count = match many {
        Number::Exact(count) => count,
        Number::Range(_) => {
            let rest = unit_at(rest).map_or(rest, |(_, rest)| rest);
            return Some((
                FoundAmount::asking("which of the two is to be costed?".to_owned()),
                without_of(rest.trim_start()),
            ));
        }
        Number::Odd(typed) => {
            return Some((FoundAmount::asking(format!("{typed} may mean several things; how much is it?")), rest));
        }
    };
    let after = rest.trim_start();
    if let Some(times) = ["x ", "X ", "× ", "x", "×"].iter().find_map(|x| after.strip_prefix(x))
        && !times.starts_with(|c: char| c.is_alphabetic())
        && let Some((found, rest)) = packages(count, times.trim_start(), how)
    {
        return Some(in_container(found, rest));
    }
    if let Some(times) = ["x ", "× "].iter().find_map(|x| rest.strip_prefix(x)) {
        return Some((FoundAmount::asking(format!("{} times what: how much is one?", plain(count))), times));
    }
    if let Some(inner) = after.strip_prefix('(')
        && let Some((inside, behind)) = inner.split_once(')')
        && let Some((found, left)) = packages(count, inside.trim(), how)
        && left.trim().is_empty()
    {
        return Some(in_container(found, behind));
    }
    if let Some(found) = packages(count, after, how) {
        let (found, rest) = found;
        if found.question.is_some() || found.name.iter().any(|said| said.contains('"')) {
            return Some((found, rest));
        }
        let is_clear = |found: &FoundAmount| matches!(&found.amount, AmountText::Packages { of: Some(_), .. });
        let (found, rest) = in_container(found, rest);
        // `2 400 g`: parted thousands, or 2 of 400 g?
        let is_thousands = rest.trim().is_empty() && text.starts_with(|c: char| c.is_ascii_digit());
        if !is_clear(&found) && is_thousands {
            return Some((FoundAmount::asking("it has two numbers before its unit; how much is it?".to_owned()), rest));
        }
        return Some((found, rest));
    }
    measured(count, after, how)
}

/// So many of what has a size of its own, at the start of `text`.
fn packages(count: Decimal, text: &str, how: Conventions) -> Option<(FoundAmount, &str)> {
    if !text.starts_with(|c: char| c.is_ascii_digit() || c == '.' || crate::number::text::vulgar(c).is_some()) {
        return None;
    }
    let (size, rest) = number(text, how.marks)?;
    let size = match size {
        Number::Exact(size) => size,
        Number::Range(typed) => {
            let rest = unit_at(rest).map_or(rest, |(_, rest)| rest);
            return Some((FoundAmount::asking(format!("does one weigh {typed}, and which of the two?")), rest));
        }
        Number::Odd(_) => return None,
    };
    if let Some(after) = rest.strip_prefix('"').or_else(|| rest.strip_prefix("-inch")) {
        let mut found = FoundAmount::of(AmountText::Bare(count));
        found.name.push(format!("{}\"", plain(size)));
        found.notes.push("what one of this length weighs must be known".to_owned());
        let after = after.trim_start();
        let after =
            ["piece of ", "piece ", "pieces "].iter().find_map(|word| after.strip_prefix(word)).unwrap_or(after);
        return Some((found, after));
    }
    let (unit, rest) = unit_at(rest)?;
    if !is_size(&unit) {
        return None;
    }
    Some((FoundAmount::of(AmountText::Packages { count, of: None, size: Measured::new(size, unit) }), rest))
}

/// Whether a unit says how large a package is.
fn is_size(unit: &Unit) -> bool {
    unit.to_base(Volumes::Us).is_some() && (!unit.is_count_like() || unit.name() == "dozen")
}

/// The container that packages of a size come in, when it is named; else the size is that of each piece.
fn in_container(mut found: FoundAmount, rest: &str) -> (FoundAmount, &str) {
    let AmountText::Packages { count, of: None, size } = &found.amount else { return (found, rest) };
    let (count, size) = (*count, size.clone());
    if let Some((unit, after)) = unit_at(rest).filter(|(unit, _)| is_container(unit)) {
        found.amount = AmountText::Packages { count, of: Some(unit), size };
        return (found, without_of(after.trim_start()));
    }
    if !rest.trim().is_empty() {
        found.amount = AmountText::Bare(count);
        found.name.push(size.to_string());
    }
    (found, rest)
}

/// Whether a unit is what a weighed amount is packed in: `25 lb bag`, but not the roll or slab it makes.
fn is_package(unit: &Unit) -> bool {
    matches!(unit.word_kind(), Some(WordKind::Vessel | WordKind::Outer))
        && !unit.is_numbered_can()
        && unit.name() != "roll"
}

/// Whether a unit is something that holds, not something that grows.
pub(super) fn is_container(unit: &Unit) -> bool {
    matches!(unit, Unit::Own(name) if HOLDERS.contains(&&**name))
}

/// A number and its unit, with what is added to it.
fn measured(count: Decimal, after: &str, how: Conventions) -> Option<(FoundAmount, &str)> {
    let (mut found, mut text) = (FoundAmount::nothing(), after);
    // `1 heaping tsp`, `1 med. head`: a word between the number and its unit.
    let end = after.find(' ').unwrap_or(after.len());
    let (word, behind) = after.split_at_checked(end)?;
    let plain_word = word.trim_end_matches(['.', ',']).to_lowercase();
    let (is_size, is_level) = (SIZES.contains(&plain_word.as_str()), LEVELS.contains(&plain_word.as_str()));
    if is_size && behind.trim().is_empty() {
        found.name.push(word.to_owned());
        text = "";
    } else if (is_size || is_level) && unit_at(behind).is_some_and(|(unit, _)| unit != Unit::each()) {
        if is_level {
            found.prep.push(word.to_owned());
            found.notes.push(format!("“{word}” was not weighed"));
        } else {
            found.name.push(word.to_owned());
        }
        text = behind.trim_start();
    }
    let word = text.split(' ').next().unwrap_or("").trim_end_matches('.');
    if word.eq_ignore_ascii_case("bu") {
        found.ask("is “bu” a bunch or a bushel?".to_owned());
        return Some((found, text.get(word.len()..)?.trim_start_matches(['.', ' '])));
    }
    let Some((unit, rest)) = unit_at(text) else {
        // `7-up`, `5-spice powder`.
        if text.starts_with('-') && found.name.is_empty() {
            return None;
        }
        found.amount = AmountText::Bare(count);
        let name = without_of(text.trim_start());
        return Some((found, name.strip_prefix("an ").or_else(|| name.strip_prefix("a ")).unwrap_or(name)));
    };
    let one = Measured::new(count, unit);
    if after.starts_with('-') {
        found.notes.push(format!("{one} was taken for how much there is, not for the size of one"));
    }
    let other =
        rest.strip_prefix('/').filter(|after| after.starts_with(char::is_alphabetic) && unit_at(after).is_some());
    if let Some(after) = other {
        let end = after.find(' ').unwrap_or(after.len());
        found.ask(format!("is it {} or {}?", one.unit, after.get(..end).unwrap_or("")));
        return Some((found, after.get(end..).unwrap_or("").trim_start()));
    }
    if let Some((inside, behind)) = rest.trim_start().strip_prefix('(').and_then(|inner| inner.split_once(')'))
        && is_container(&one.unit)
        && let Some(size) = plain_measure(inside, how)
    {
        if count.fract().is_zero() {
            found.amount = AmountText::Packages { count, of: Some(one.unit), size };
        } else {
            found.ask(format!("is {size} the whole {}, or what is taken of it?", one.unit));
        }
        return Some((found, without_of(behind.trim_start())));
    }
    if !one.unit.is_count_like()
        && let Some((unit, after)) = unit_at(rest).filter(|(unit, _)| is_package(unit))
    {
        found.amount = AmountText::Packages { count: Decimal::ONE, of: Some(unit), size: one };
        return Some((found, without_of(after.trim_start())));
    }
    let rest = joined(&mut found, one, rest, how);
    Some((found, without_of(rest.trim_start())))
}

/// A text that is one number and its unit, `about` aside: `14 oz`, `about 6 oz`, `abt 1/2 lb`.
pub(super) fn plain_measure(text: &str, how: Conventions) -> Option<Measured> {
    let text = about(text.trim());
    let (Number::Exact(amount), rest) = number(text, how.marks)? else { return None };
    let (unit, rest) = unit_at(rest)?;
    rest.trim().is_empty().then(|| Measured::new(amount, unit))
}

/// `text` without a word for *about* at its start.
pub(super) fn about(text: &str) -> &str {
    let lower = text.to_ascii_lowercase();
    let word = ["about ", "abt. ", "abt ", "approx. ", "approx ", "ca. ", "ca ", "circa ", "roughly ", "~ ", "~"];
    let word = word.iter().find(|word| lower.starts_with(**word));
    word.and_then(|word| text.get(word.len()..)).unwrap_or(text).trim_start()
}

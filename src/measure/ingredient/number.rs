//! Number at the start of a line: `1 1/2`, `½`, `two`, `a dozen`, `half a`, `one & 1/2`; a range and an odd
//! fraction are told apart.

use super::vocabulary::NUMBERS;
use crate::number::leading::{leading, plain_run};
use crate::number::text::vulgar;
use crate::number::{Decimal, Marks, decimal};

/// What stands where a number is wanted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Number {
    /// One number.
    Exact(Decimal),
    /// Two numbers to choose from, as typed: `3-4`, `two or three`.
    Range(String),
    /// Digits that may mean several things, as typed: `12/2`, `1,234`.
    Odd(String),
}

/// The number that `text`, which went through `clean`, begins with, and what follows it.
pub(super) fn number(text: &str, marks: Marks) -> Option<(Number, &str)> {
    let (first, rest) = one(text, marks)?;
    let joint = rest.trim_start();
    let joints = ["-", "~", "to ", "or "];
    let other = joints.iter().find_map(|mark| joint.strip_prefix(mark)).map(str::trim_start);
    if let Some((second, after)) = other.and_then(|other| one(other, marks))
        && !matches!(second, Number::Odd(_))
        && !after.starts_with('"')
        && !starts_with_article(other.unwrap_or(""))
    {
        let typed = text.get(..text.len().saturating_sub(after.len())).unwrap_or(text);
        return Some((Number::Range(typed.trim().to_owned()), after));
    }
    Some((first, rest))
}

/// `1 lb or a handful`: no second number.
fn starts_with_article(text: &str) -> bool {
    text.starts_with("a ") || text.starts_with("an ")
}

fn one(text: &str, marks: Marks) -> Option<(Number, &str)> {
    if text.starts_with(|c: char| c.is_ascii_digit() || c == '.' || vulgar(c).is_some()) {
        digits(text, marks)
    } else {
        words(text)
    }
}

fn digits(text: &str, marks: Marks) -> Option<(Number, &str)> {
    let (mut typed, mut rest) = leading(text)?;
    let is_fraction = |text: &str| text.contains('/') || text.chars().any(|c| vulgar(c).is_some());
    if typed.contains(' ') && !is_fraction(typed) {
        // `6 750 ml bottles`: the space parts two numbers.
        typed = plain_run(text);
        rest = text.get(typed.len()..)?;
    }
    if rest.starts_with('/') || rest.starts_with('%') {
        return None;
    }
    let below = typed.rsplit([' ', '-', '&', '+']).next().unwrap_or(typed);
    // 16/20 is how large shrimp are, and 00 is a flour.
    let two_digits = |(upper, lower): (&str, &str)| upper.len() > 1 && lower.len() > 1;
    let is_grade = typed == below && below.split_once('/').is_some_and(two_digits);
    let is_kind = typed.len() > 1 && typed.starts_with('0') && !typed.starts_with("0.") && !typed.starts_with("0,");
    if is_grade || is_kind {
        return None;
    }
    if let Some((upper, lower)) = below.split_once('/') {
        let numbers = (upper.parse::<u32>().ok(), lower.parse::<u32>().ok());
        let is_kitchen = matches!(numbers, (Some(n), Some(d)) if n < d && (2..=16).contains(&d));
        if !is_kitchen {
            return Some((Number::Odd(typed.to_owned()), rest));
        }
    }
    let number = match decimal::parse(typed, marks) {
        Ok(number) if number > Decimal::ZERO => Number::Exact(number),
        _ => Number::Odd(typed.to_owned()),
    };
    Some((number, rest))
}

/// A number in words, with the half that may follow it.
fn words(text: &str) -> Option<(Number, &str)> {
    let lower = text.to_ascii_lowercase();
    let after = |words: &str| -> Option<usize> {
        let next = lower.strip_prefix(words)?;
        (next.is_empty() || next.starts_with([' ', ',', '-'])).then_some(words.len())
    };
    let half = Decimal::new(5, 1);
    let at = |end: usize| text.get(end..).unwrap_or("");
    // Half & half is a cream.
    if after("half").is_some()
        && !["half &", "half and half", "half +", "half-", "half moon"].iter().any(|no| lower.starts_with(no))
    {
        let end = ["half of an", "half of a", "half an", "half a", "half"].iter().find_map(|words| after(words))?;
        return Some((Number::Exact(half), at(end)));
    }
    for (words, value) in [
        ("a half", half),
        ("a quarter", Decimal::new(25, 2)),
        ("a couple of", Decimal::TWO),
        ("a couple", Decimal::TWO),
    ] {
        if let Some(end) = after(words) {
            return Some((Number::Exact(value), at(end)));
        }
    }
    if let Some(end) = after("a dozen").or_else(|| after("dozen")) {
        return Some((Number::Exact(Decimal::ONE), at(end - "dozen".len())));
    }
    if [
        "a little",
        "a bit",
        "a few",
        "a la",
        "a knob",
        "a pinch",
        "a splash",
        "a handful",
        "a drizzle",
        "a glug",
        "a dash",
    ]
    .iter()
    .any(|no| after(no).is_some())
    {
        return None;
    }
    if let Some(end) = after("a").or_else(|| after("an")) {
        return Some((Number::Exact(Decimal::ONE), at(end)));
    }
    let (word, value) = NUMBERS.iter().find(|(word, _)| after(word).is_some())?;
    let whole = Decimal::from(*value);
    let rest = at(word.len());
    for (joint, part) in [(" and a half", half), (" & a half", half), (" and a quarter", Decimal::new(25, 2))] {
        if let Some(end) = after(&format!("{word}{joint}")) {
            return Some((Number::Exact(whole.checked_add(part)?), at(end)));
        }
    }
    for joint in [" & ", " and ", " "] {
        let Some((Number::Exact(part), after)) = rest.strip_prefix(joint).and_then(|part| digits(part, Marks::Unknown))
        else {
            continue;
        };
        let typed = rest.get(joint.len()..rest.len().saturating_sub(after.len())).unwrap_or("");
        if part < Decimal::ONE && (typed.contains('/') || typed.chars().any(|c| vulgar(c).is_some())) {
            return Some((Number::Exact(whole.checked_add(part)?), after));
        }
    }
    Some((Number::Exact(whole), rest))
}

//! Unit at the start of what follows a number: `lbs.`, `fl oz`, `#10 cans`, `med. head`, and the kitchen's own.

use super::vocabulary::OWN_UNITS;
use crate::in_order::InOrder;
use crate::measure::Unit;
use crate::measure::words::{can_number, singular};

/// Names of one piece that are part of a food's name behind a number: `2 whole eggs`.
const NO_UNITS: &[&str] =
    &["whole", "no", "nos", "unit", "units", "score", "stone", "gross", "pair", "cover", "covers", "gas"];

/// The unit that `text` begins with, and what follows it.
pub(super) fn unit_at(text: &str) -> Option<(Unit, &str)> {
    let text = text.trim_start_matches([' ', '-']);
    if let Some(behind) = text.strip_prefix('#') {
        return signed(behind);
    }
    let mut ends: Vec<usize> = Vec::new();
    let mut before = ' ';
    for (at, c) in text.char_indices() {
        let ends_word = c == ' ' || (before == '.' && c.is_alphabetic());
        if ends_word && before != ' ' {
            ends.push(at);
        }
        if !(c.is_alphabetic() || c == ' ' || c == '.' || c == '\'') {
            if before != ' ' {
                ends.push(at);
            }
            break;
        }
        before = c;
        if ends.len() >= 3 {
            break;
        }
    }
    if ends.len() < 3 && text.chars().all(|c| c.is_alphabetic() || c == ' ' || c == '.' || c == '\'') {
        ends.push(text.len());
    }
    ends.put_in_order();
    ends.dedup();
    for end in ends.into_iter().take(3).rev() {
        let (words, rest) = text.split_at_checked(end)?;
        let word = words.trim().trim_end_matches('.');
        let is_end = !rest.starts_with(|c: char| c.is_alphanumeric()) || words.ends_with('.');
        if word.is_empty() || !is_end || NO_UNITS.contains(&word.to_lowercase().as_str()) {
            continue;
        }
        // A stick of butter is a stick, and butter is what it is of.
        let first = word.split_once(' ').and_then(|(first, _)| Unit::parse(first));
        if matches!(first, Some(Unit::Own(_))) {
            continue;
        }
        if let Some(unit) = Unit::parse(word).filter(|unit| !unit.name().contains('#')) {
            return Some((unit, rest));
        }
        let one = singular(&word.to_lowercase());
        if OWN_UNITS.contains(&one.as_str()) {
            let one = if one == "cap" { "capful" } else { &one };
            return Some((Unit::own(one), rest));
        }
    }
    None
}

/// `#10 cans`, `# onions`; `behind` is what follows the sign.
fn signed(behind: &str) -> Option<(Unit, &str)> {
    let Some((size, length)) = can_number(behind.trim_start()) else {
        return Some((Unit::parse("lb")?, behind));
    };
    let rest = behind.trim_start().get(length..)?;
    let named = rest.trim_start();
    let word = named.split([' ', ',', '.']).next().unwrap_or("");
    let (kind, is_named) = match word.to_lowercase().as_str() {
        "scoop" | "scoops" | "disher" | "dipper" => ("scoop", true),
        "can" | "cans" | "tin" | "tins" | "cn" => ("can", true),
        _ => ("can", false),
    };
    let unit = Unit::parse(&format!("#{size} {kind}"))?;
    Some((unit, if is_named { named.get(word.len()..)? } else { rest }))
}

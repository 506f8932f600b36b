//! Slips of the pen in units: the unit or count word that was meant by a word which is neither.
//!
//! Takes a word in small letters and the names that are known; gives one of these. What slips make of short words and of most
//! count words are words of their own (a cap is no cup, a cake no case), so of those little is proposed.

use crate::in_order::InOrder;

/// The fewest letters of a word that may be a slip.
const FEWEST: usize = 3;
/// No name that is known is longer.
const MOST: usize = 40;
/// The fewest letters of a count word that bears another letter: `potion` is a portion.
const FEWEST_OF_COUNTS: usize = 7;
/// The fewest letters of a count word of which two may be changed about: `bacth`.
const FEWEST_SWAPPED: usize = 5;

/// The name that was meant by `text`: begun alike, and one letter more, less or another away, or two neighbours changed
/// about. Of several one with the same letters, then the first in the alphabet.
pub(super) fn slip<'a>(
    text: &str,
    units: impl Iterator<Item = &'a str>,
    counts: impl Iterator<Item = &'a str>,
) -> Option<&'a str> {
    if !is_word(text, FEWEST) {
        return None;
    }
    let units = units.filter(|name| is_near(text, name) && (is_unit_slip(text, name) || is_struck_twice(text, name)));
    let counts = counts.filter(|name| is_near(text, name) && is_count_slip(text, name));
    units.chain(counts).min_by_key(|name| (letters(name) != letters(text), *name))
}

fn is_near(text: &str, name: &str) -> bool {
    is_word(name, 2) && name.chars().next() == text.chars().next() && strsim::osa_distance(name, text) == 1
}

fn is_word(name: &str, fewest: usize) -> bool {
    (fewest..=MOST).contains(&name.chars().take(MOST.saturating_add(1)).count())
        && name.chars().all(char::is_alphabetic)
}

/// Of three letters another one makes another word: `cap` is no `cup`.
fn is_unit_slip(text: &str, name: &str) -> bool {
    match name.chars().count() {
        few if few < FEWEST => false,
        FEWEST => letters(name) == letters(text),
        _ => true,
    }
}

fn is_count_slip(text: &str, name: &str) -> bool {
    let count = name.chars().count();
    count >= FEWEST_OF_COUNTS || (count >= FEWEST_SWAPPED && letters(name) == letters(text))
}

/// `lbb`: a key struck twice, which makes no other word.
fn is_struck_twice(text: &str, name: &str) -> bool {
    let once = |text: &str| {
        let mut letters: Vec<char> = text.chars().collect();
        letters.dedup();
        letters
    };
    text.chars().count() > name.chars().count() && once(text) == once(name)
}

fn letters(text: &str) -> Vec<char> {
    let mut letters: Vec<char> = text.chars().collect();
    letters.put_in_order();
    letters
}

//! Words that are near each other, spelled alike but for slips of the pen; and an index of those of a book, so that a name
//! is compared with few of many.

use std::cell::RefCell;
use std::collections::{BTreeMap, HashMap};
use std::ops::RangeInclusive;

use super::edits::edits_within;
use crate::in_order::InOrder;

/// Letters, ready to be compared with others.
#[derive(Debug, Clone)]
pub(super) struct Letters {
    text: Box<[char]>,
    /// A bit for every letter that occurs: an edit changes two of them at most.
    mask: u64,
}

impl Letters {
    /// Those of a text.
    pub fn of(text: &str) -> Self {
        let mask = text.chars().fold(0, |mask, c| mask | (1_u64 << (u32::from(c) % 64)));
        Letters { text: text.chars().collect(), mask }
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.text.len()
    }

    /// How many letters a text may have that is near one of so many.
    pub fn lengths_near(letters: usize) -> RangeInclusive<usize> {
        let most = slips_allowed(usize::MAX);
        letters.saturating_sub(most)..=letters.saturating_add(most)
    }

    /// The most edits to `other` that a slip may be; none when there are more, as can be told at a glance.
    fn most_slips(&self, other: &Letters) -> Option<usize> {
        let (a, b) = (self.text.len(), other.text.len());
        let allowed = if self.lacks_one_of(other) { 1 } else { slips_allowed(a.min(b)) };
        let apart = (self.mask ^ other.mask).count_ones() as usize;
        (a.abs_diff(b) <= allowed && apart <= allowed.saturating_mul(2)).then_some(allowed)
    }

    /// Whether it is worth looking for the edits to `other`.
    pub fn may_be(&self, other: &Letters) -> bool {
        self.most_slips(other).is_some()
    }

    /// The edits to `other`, if they are few enough for a slip.
    pub fn slips(&self, other: &Letters) -> Option<usize> {
        let most = self.most_slips(other)?;
        #[cfg(test)]
        tests::COMPARED.set(tests::COMPARED.get() + 1);
        edits_within(&self.text, &other.text, most)
    }

    /// Whether one is the other without a letter from its middle: “Leks”, which has lost its plural, and “Leeks”.
    fn lacks_one_of(&self, other: &Letters) -> bool {
        let ends = |letters: &Letters| (letters.text.first().copied(), letters.text.last().copied());
        let (short, long) = if self.text.len() < other.text.len() { (self, other) } else { (other, self) };
        short.text.len() == 3 && long.text.len() == 4 && ends(short) == ends(long)
    }
}

/// Slips that a text of so many letters may hold and still be meant.
pub(super) fn slips_allowed(letters: usize) -> usize {
    match letters {
        0..=3 => 0,
        4..=6 => 1,
        7..=11 => 2,
        _ => 3,
    }
}

/// The words of a book that are near one, by their numbers, in order.
#[derive(Debug, Clone, Default)]
pub(super) struct Near(Vec<usize>);

impl Near {
    /// Whether the word of this number is among them.
    pub fn has(&self, word: usize) -> bool {
        self.0.binary_search(&word).is_ok()
    }
}

/// The words of the names of a book, each once.
#[derive(Debug, Default)]
pub(super) struct Words {
    words: Vec<Entry>,
    numbers: HashMap<Box<str>, usize>,
    by_length: BTreeMap<usize, Vec<usize>>,
    /// What was looked for, until another word is noted.
    found: RefCell<HashMap<Box<str>, Near>>,
}

#[derive(Debug)]
struct Entry {
    letters: Letters,
    /// The names that have it, in order.
    names: Vec<usize>,
}

impl Words {
    /// The number of a word of the name `name`.
    pub fn note(&mut self, word: &str, name: usize) -> usize {
        let number = match self.numbers.get(word) {
            Some(number) => *number,
            None => {
                let (number, letters) = (self.words.len(), Letters::of(word));
                self.by_length.entry(letters.len()).or_default().push(number);
                self.words.push(Entry { letters, names: Vec::new() });
                self.numbers.insert(word.into(), number);
                self.found.get_mut().clear();
                number
            }
        };
        if let Some(entry) = self.words.get_mut(number)
            && entry.names.last() != Some(&name)
        {
            entry.names.push(name);
        }
        number
    }

    /// The words near `word`.
    pub fn near(&self, word: &str) -> Near {
        if let Some(near) = self.found.borrow().get(word) {
            return near.clone();
        }
        let letters = Letters::of(word);
        let alike = self.by_length.range(Letters::lengths_near(letters.len())).flat_map(|(_, words)| words);
        let is_near =
            |number: &usize| self.words.get(*number).is_some_and(|entry| entry.letters.slips(&letters).is_some());
        let mut near: Vec<usize> = alike.copied().filter(is_near).collect();
        near.put_in_order();
        self.found.borrow_mut().insert(word.into(), Near(near.clone()));
        Near(near)
    }

    /// The names that have one of these words.
    pub fn bearers(&self, near: &Near) -> impl Iterator<Item = usize> {
        near.0.iter().filter_map(|number| self.words.get(*number)).flat_map(|entry| entry.names.iter().copied())
    }
}

#[cfg(test)]
mod tests {
    use std::cell::Cell;

    use super::*;

    thread_local! {
        /// How often two spellings were compared letter by letter.
        pub static COMPARED: Cell<usize> = const { Cell::new(0) };
    }

    /// Words as unlike as those of kitchens.
    fn word(n: usize) -> String {
        let syllables =
            ["ba", "ke", "di", "fo", "gu", "la", "me", "ni", "po", "ru", "sa", "te", "vi", "zo", "cha", "qua"];
        (0..4).map(|place| syllables[(n / [1, 16, 256, 4_096][place] + n * place) % 16]).collect()
    }

    #[test]
    fn a_name_is_compared_with_few_of_many() {
        let mut words = Words::default();
        for n in 0..2_000 {
            words.note(&word(n), n);
        }
        COMPARED.set(0);
        for n in 2_000..2_100 {
            words.near(&word(n));
        }
        // 100 × 2,000 pairs, of which fewer than one in ten have the same letters but for a few.
        assert!(COMPARED.get() < 20_000, "{}", COMPARED.get());
        // The same words again are not looked for again.
        COMPARED.set(0);
        for n in 2_000..2_100 {
            words.near(&word(n));
        }
        assert_eq!(COMPARED.get(), 0);
    }

    #[test]
    fn words_near_one_are_found_with_whoever_has_them() {
        let mut words = Words::default();
        for (name, word) in ["leek", "leak", "onion", "leek"].into_iter().enumerate() {
            words.note(word, name);
        }
        assert_eq!(words.bearers(&words.near("leck")).collect::<Vec<_>>(), [0, 3, 1]);
        assert_eq!(words.bearers(&words.near("saffron")).count(), 0);
    }
}

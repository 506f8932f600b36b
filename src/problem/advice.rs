//! Advice on a problem: what to type in the book, and the choices that only the caller of the library can offer.
//!
//! A book is mended in its cells. Some choices are no cell of it: to take a price that was held back, to name the supplier
//! of a list. How one is made (a flag, a drop-down) the caller knows, so advice holds it as a value where the words for it
//! belong: [`Advice::saying`] puts the caller's words there. Without a caller's words the sentence is whole as well.

use std::fmt;
use std::ops::{Deref, Range};

use jiff::civil::Date;

/// A choice that is made where the library is called from, and not in the book.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum Choice {
    /// Takes the price of this item that was held back.
    Accept(String),
    /// Names the supplier whose list it is.
    Supplier,
    /// Dates the rows of a list that bear no date themselves; with the day that a title of the list offers.
    Dated(Option<Date>),
    /// Says under which of its headings a list has columns of ours: each column, as our header names it in small letters,
    /// with the headings that could be it, the likeliest first. None where nothing in the list looks like it.
    Columns(Vec<(String, Vec<String>)>),
    /// Costs with the prices of another day.
    AsOf,
}

impl Choice {
    /// What stands for it where the caller says nothing: of a day the day itself.
    fn plain(&self) -> String {
        match self {
            Choice::Dated(Some(day)) => day.to_string(),
            Choice::Accept(_) | Choice::Supplier | Choice::Dated(None) | Choice::Columns(_) | Choice::AsOf => {
                String::new()
            }
        }
    }
}

/// What to do about a problem, in whole sentences. Reads as text.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Advice {
    plain: String,
    /// The choices, each with what stands for it in the text.
    choices: Box<[(Range<usize>, Choice)]>,
}

impl Advice {
    /// This advice, going on with a choice: the caller's words for it stand here, right behind the text so far.
    #[must_use]
    pub fn choosing(mut self, choice: Choice) -> Self {
        let start = self.plain.len();
        self.plain.push_str(&choice.plain());
        let mut choices = self.choices.into_vec();
        choices.push((start..self.plain.len(), choice));
        self.choices = choices.into_boxed_slice();
        self
    }

    /// This advice, going on with `text`.
    #[must_use]
    pub fn then(mut self, text: &str) -> Self {
        self.plain.push_str(text);
        self
    }

    /// The choices in it, in the order of the text.
    pub fn choices(&self) -> impl Iterator<Item = &Choice> {
        self.choices.iter().map(|(_, choice)| choice)
    }

    /// The text with the caller's `words` for every choice, with the space or comma before them that they want.
    pub fn saying(&self, words: impl Fn(&Choice) -> String) -> String {
        let mut said = String::with_capacity(self.plain.len());
        let mut from = 0;
        for (range, choice) in &self.choices {
            said.push_str(self.plain.get(from..range.start).unwrap_or_default());
            said.push_str(&words(choice));
            from = range.end;
        }
        said.push_str(self.plain.get(from..).unwrap_or_default());
        said
    }
}

impl From<String> for Advice {
    fn from(plain: String) -> Self {
        Advice { plain, choices: Box::default() }
    }
}

impl From<&str> for Advice {
    fn from(plain: &str) -> Self {
        Advice::from(plain.to_owned())
    }
}

impl Deref for Advice {
    type Target = str;

    fn deref(&self) -> &str {
        &self.plain
    }
}

impl fmt::Display for Advice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.plain)
    }
}

impl PartialEq<&str> for Advice {
    fn eq(&self, other: &&str) -> bool {
        self.plain == *other
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_choice_is_said_where_it_stands_or_left_out() {
        let day = jiff::civil::date(2026, 11, 9);
        let advice = Advice::from("Take it")
            .choosing(Choice::Accept("Leeks".to_owned()))
            .then(", or say ")
            .choosing(Choice::Dated(Some(day)))
            .then(" (A1).");
        assert_eq!(advice, "Take it, or say 2026-11-09 (A1).");
        let words = |choice: &Choice| match choice {
            Choice::Accept(item) => format!(" by ticking {item}"),
            Choice::Dated(Some(day)) => format!("Day: {day}"),
            _ => String::new(),
        };
        assert_eq!(advice.saying(words), "Take it by ticking Leeks, or say Day: 2026-11-09 (A1).");
        assert_eq!(advice.choices().count(), 2);
        assert_eq!(Advice::from("Nothing to do.").saying(words), "Nothing to do.");
    }
}

//! Problems: what is wrong, doubtful or assumed in a user's book, and where: values that are collected while reading
//! goes on.
//!
//! A [`Problem`] is a [`Fault`] (what is wrong and what to type instead) at a [`Place`] (file, sheet, cell). Its
//! [`Code`] fixes its [`Severity`] and its explanation.

pub(crate) mod advice;
pub(crate) mod code;
mod edits;
pub mod explanation;
pub(crate) mod names;
mod near_words;
pub(crate) mod place;
pub(crate) mod short_names;
pub(crate) mod spelling;
pub(crate) mod suggest;
pub(crate) mod want;

pub use advice::{Advice, Choice};
pub use code::{Code, Severity};
pub use explanation::Explanation;
pub use place::{CellRef, Place, column_letters};
pub(crate) use want::Want;

/// What is wrong, not yet tied to a cell: the code, what was found, and the next move.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The kind of problem.
    pub code: Code,
    /// What is wrong, with the text that was found.
    pub message: String,
    /// What to type instead.
    pub help: Advice,
    /// Another place that the message speaks of, where [`THERE`] stands in it.
    pub there: Option<Place>,
    /// The row that would answer it.
    pub(crate) want: Option<Box<Want>>,
}

/// A message in which no text that it quotes is longer than a line or two.
fn shortened(message: String) -> String {
    /// The most letters that are quoted of a text.
    const MOST: usize = 160;
    if message.len() <= MOST {
        return message;
    }
    let mut short = String::with_capacity(message.len().min(4 * MOST));
    let mut quoted = 0;
    let mut within = false;
    for letter in message.chars() {
        match letter {
            '“' if !within => (within, quoted) = (true, 0),
            '”' => within = false,
            _ => quoted += usize::from(within),
        }
        if quoted <= MOST || !within {
            short.push(letter);
        } else if quoted == MOST + 1 {
            short.push('…');
        }
    }
    short
}

/// Stands in a message for the other place it speaks of, so that a report can name the place in its own terms.
pub const THERE: char = '\u{E000}';

impl Fault {
    /// A fault of `code` that says `message` and advises `help`.
    pub fn new(code: Code, message: impl Into<String>, help: impl Into<Advice>) -> Self {
        Fault { code, message: shortened(message.into()), help: help.into(), there: None, want: None }
    }

    /// This fault, its message speaking of `there` where [`THERE`] stands.
    pub fn speaking_of(self, there: Place) -> Self {
        Fault { there: Some(there), ..self }
    }

    /// This fault, which a row would answer.
    pub(crate) fn wanting(self, want: Want) -> Self {
        Fault { want: Some(Box::new(want)), ..self }
    }

    /// This fault at `place`.
    pub fn at(self, place: Place) -> Problem {
        Problem { code: self.code, place, text: self.message, help: self.help, there: self.there, want: self.want }
    }
}

/// A fault at its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// The kind of problem; fixes the severity.
    pub code: Code,
    /// Where it stands.
    pub place: Place,
    /// What is wrong; [`THERE`] stands for the other place.
    text: String,
    /// What to type instead.
    pub help: Advice,
    /// Another place that the message speaks of.
    pub there: Option<Place>,
    /// The row that would answer it.
    pub(crate) want: Option<Box<Want>>,
}

impl Problem {
    /// What is wrong, with the text that was found.
    pub fn message(&self) -> String {
        match &self.there {
            Some(there) => self.message_naming(&there.to_string()),
            None => self.text.clone(),
        }
    }

    /// The message with the other place named as `there`.
    pub fn message_naming(&self, there: &str) -> String {
        self.text.replace(THERE, there)
    }

    /// The problem with the caller's `words` for the choices that its help offers.
    #[must_use]
    pub fn saying(&self, words: impl Fn(&Choice) -> String) -> Problem {
        Problem { help: self.help.saying(words).into(), ..self.clone() }
    }

    /// How grave it is.
    pub fn severity(&self) -> Severity {
        self.code.severity()
    }

    /// Whether it stops what depends on it.
    pub fn is_error(&self) -> bool {
        self.severity() == Severity::Error
    }
}

#[cfg(test)]
mod tests {
    use super::shortened;

    #[test]
    fn long_texts_in_a_message_are_cut_and_nothing_else() {
        let (fits, long) = ("x".repeat(160), "y".repeat(30_000));
        let said = shortened(format!("“{fits}” and “{long}” are {long}"));
        assert_eq!(said, format!("“{fits}” and “{}…” are {long}", "y".repeat(160)));
        assert_eq!(shortened("“a” is short".to_owned()), "“a” is short");
    }
}

//! Ingredient as a cook types it in one text: `2 lb onions, yellow, diced`, `eggs x 6`, `1 can (14 oz) coconut milk`.
//!
//! Takes the text of a line, or of an amount that stands alone; gives how much, of what, and what is done to it.
//! What had to be taken for granted is a note; where two cooks would read two things there is a question and no
//! figure.

mod alternatives;
mod amount;
mod brackets;
mod found;
mod joined;
mod number;
mod percentage;
mod split;
#[cfg(test)]
mod tests;
mod trailing;
mod unit_at;
mod vocabulary;
mod yields;

use super::base::Volumes;
use super::quantity::Measured;
use crate::number::text::clean;
use crate::number::{Decimal, Marks, plain};
use found::FoundAmount;
pub(crate) use percentage::{NamedPercentage, named_percentage};
pub use yields::parse_yield;

/// How the numbers and volumes of a text are to be taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Conventions {
    /// What is known of decimal marks.
    pub marks: Marks,
    /// What cup, pint and tbsp mean, where they are added up.
    pub volumes: Volumes,
}

/// How much a text asks for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum AmountText {
    /// Nothing is said.
    Unsaid,
    /// A bare number: pieces, or a unit that was left out.
    Bare(Decimal),
    /// An amount with its unit.
    Measured(Measured),
    /// So many packages of one size: `2 cans (14 oz)`.
    Packages {
        /// How many.
        count: Decimal,
        /// What they are, where it is said: can, bag.
        of: Option<super::Unit>,
        /// What one holds.
        size: Measured,
    },
    /// Words that measure nothing: `to taste`, `some`, `a splash`.
    Unmeasured(String),
    /// It cannot be told: the question says why.
    Asked,
}

/// A line taken apart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct IngredientText {
    /// How much.
    pub amount: AmountText,
    /// Of what: as typed, without amount and preparation.
    pub name: String,
    /// What is done to it, in the order typed.
    pub prep: String,
    /// What was taken for granted, each a clause: `the weight was taken of two measures`.
    pub notes: Vec<String>,
    /// What must be known before it can be costed, as a question.
    pub question: Option<String>,
}

impl IngredientText {
    /// How much in one quantity: packages come to their contents. `None` where there is none, or it is out of range.
    pub fn total(&self) -> Option<Measured> {
        match &self.amount {
            AmountText::Measured(measured) => Some(measured.clone()),
            AmountText::Packages { count, size, .. } => {
                Some(Measured::new(count.checked_mul(size.amount)?.normalize(), size.unit.clone()))
            }
            _ => None,
        }
    }
}

/// Reads a whole line, name and amount in one text.
pub fn parse_line(text: &str, how: Conventions) -> IngredientText {
    let text = clean(text);
    let text = text.trim_start_matches(['-', '*', '•', '·', ' ']).trim_end_matches([' ', ',', ';']);
    let exact = amount::about(text);
    let is_about = exact.len() != text.len() && exact.starts_with(|c: char| c.is_ascii_digit());
    let text = if is_about { exact } else { text };
    let (mut found, before, after) = match amount::at_start(text, how) {
        Some((found, rest)) => (found, String::new(), rest.to_owned()),
        None => match trailing::find(text, how) {
            Some(trailing) => (trailing.found, trailing.before, trailing.after),
            None => (FoundAmount::nothing(), text.to_owned(), String::new()),
        },
    };
    if is_about {
        found.notes.push("about so much was taken as just so much".to_owned());
    }
    let is_first = before.is_empty();
    let rest = if is_first { after } else { trailing::joined(&before, &after) };
    let mut line = split::name_and_prep(found, &rest, how);
    if is_first {
        ask_for_unit(&mut line);
    }
    line
}

/// What is asked where an amount is wanted and words stand.
pub const NO_QUANTITY: &str = "how much is it?";

/// Reads an amount and a name that stand in two cells: `2 cans (51 oz)` and `clams, chopped`. The amount may say
/// what is done (`juice of 2`), the name what is wanted of it.
pub fn parse_parts(amount: &str, name: &str, how: Conventions) -> IngredientText {
    let amount = clean(amount);
    let (found, rest) = match amount::at_start(&amount, how) {
        Some((found, rest)) => (found, rest.to_owned()),
        None if amount.is_empty() => (FoundAmount::nothing(), String::new()),
        None => (FoundAmount::asking(NO_QUANTITY.to_owned()), String::new()),
    };
    let name = clean(name);
    let rest = rest.trim().trim_start_matches(',').trim();
    let whole = if rest.is_empty() { name } else { format!("{name}, {rest}") };
    let mut line = split::name_and_prep(found, &whole, how);
    if let AmountText::Bare(_) = line.amount {
        ask_for_mass(&mut line);
    }
    line
}

impl IngredientText {
    /// Takes what stands beside the line where it says what one of them holds: `100 g ea`. Whether it does.
    pub fn take_size(&mut self, text: &str, how: Conventions) -> bool {
        let mut found = FoundAmount::of(self.amount.clone());
        let is_size = brackets::size_of_each(&mut found, &clean(text), how) && found.name.is_empty();
        if is_size {
            self.amount = found.amount;
        }
        is_size
    }
}

/// A bare number before a name that cannot be counted, or that should stand in the plural, has lost its unit.
fn ask_for_unit(line: &mut IngredientText) {
    let AmountText::Bare(number) = line.amount else { return };
    let head = split::head_noun(&line.name);
    if number > Decimal::ONE && !vocabulary::is_plural(&head) && !line.name.contains('(') {
        ask(line, number);
    } else {
        ask_for_mass(line);
    }
}

/// A bare number of what is weighed or poured has lost its unit.
fn ask_for_mass(line: &mut IngredientText) {
    let AmountText::Bare(number) = line.amount else { return };
    let words: Vec<String> = line.name.split_whitespace().map(str::to_lowercase).collect();
    let is_whole = words.iter().any(|word| vocabulary::SIZES.contains(&word.trim_end_matches('.')) || word == "whole");
    if vocabulary::MASSES.contains(&split::head_noun(&line.name).as_str()) && !is_whole {
        ask(line, number);
    }
}

fn ask(line: &mut IngredientText, number: Decimal) {
    line.amount = AmountText::Asked;
    let number = plain(number);
    let name = &line.name;
    line.question = Some(format!("is “{name}” counted, so that {number} pieces are meant, or is a unit missing?"));
}

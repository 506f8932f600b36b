//! Comparison of cells as spreadsheet programs make it: numbers, dates among them, before words, and words without telling
//! small letters from capitals; a blank cell is nothing, whichever it is compared with.
//!
//! By it is counted, when a workbook is written, what its formulas count from then on.

use std::cmp::Ordering;

use jiff::civil::{Date, date};

use crate::number::Decimal;
use crate::schema::{Typed, Value};

/// What stands in a cell, to be compared.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Compared {
    /// Nothing.
    Blank,
    /// A number, or the number of a day.
    Number(Decimal),
    /// Words, in small letters.
    Words(String),
    /// TRUE or FALSE.
    Truth(bool),
}

impl Compared {
    /// What was typed, as its cell holds it.
    pub fn of(typed: &Typed) -> Self {
        match &typed.value {
            Value::Blank => Compared::Blank,
            Value::Number(number) => Compared::Number(*number),
            Value::Date(day) => Compared::of_day(*day),
            Value::Bool(truth) => Compared::Truth(*truth),
            Value::Text(words) | Value::Error(words) => Compared::Words(words.to_lowercase()),
            Value::Formula(text) => Compared::Words(format!("={text}").to_lowercase()),
        }
    }

    /// A day.
    pub fn of_day(day: Date) -> Self {
        /// Day 0 (ECMA-376 part 1, 18.17.4.1).
        const ZERO: Date = date(1899, 12, 30);
        Compared::Number(Decimal::from(day.duration_since(ZERO).as_hours().div_euclid(24)))
    }

    /// Whether it is before, after or the same as another.
    pub fn against(&self, other: &Compared) -> Ordering {
        match (self, other) {
            (Compared::Blank, Compared::Blank) => Ordering::Equal,
            (Compared::Blank, other) => other.nothing().in_order(other),
            (one, Compared::Blank) => one.in_order(&one.nothing()),
            (one, other) => one.in_order(other),
        }
    }

    /// Whether it says the same as another.
    pub fn says(&self, other: &Compared) -> bool {
        self.against(other).is_eq()
    }

    /// What a blank cell is beside one of its kind.
    fn nothing(&self) -> Compared {
        match self {
            Compared::Blank => Compared::Blank,
            Compared::Number(_) => Compared::Number(Decimal::ZERO),
            Compared::Words(_) => Compared::Words(String::new()),
            Compared::Truth(_) => Compared::Truth(false),
        }
    }

    fn in_order(&self, other: &Compared) -> Ordering {
        match (self, other) {
            (Compared::Number(one), Compared::Number(other)) => one.cmp(other),
            (Compared::Words(one), Compared::Words(other)) => one.cmp(other),
            (Compared::Truth(one), Compared::Truth(other)) => one.cmp(other),
            (one, other) => one.kind().cmp(&other.kind()),
        }
    }

    fn kind(&self) -> u8 {
        match self {
            Compared::Blank => 0,
            Compared::Number(_) => 1,
            Compared::Words(_) => 2,
            Compared::Truth(_) => 3,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_come_before_words_and_nothing_is_whatever_it_is_held_against() {
        let number = |number: i64| Compared::Number(Decimal::from(number));
        let words = |words: &str| Compared::of(&Typed::text(words));
        // 2026-11-20 is day 46346: 2026-11-23 is 46349 (see `book/dates.rs`).
        assert_eq!(Compared::of_day(date(2026, 11, 20)), number(46_346));
        assert!(number(99_999).against(&words("2026-11-20")).is_lt());
        assert!(words("Leeks").says(&words("LEEKS")) && !words("Leeks").says(&words("Leek")));
        assert!(Compared::Blank.says(&number(0)) && Compared::Blank.says(&words("")));
        assert!(Compared::Blank.says(&Compared::Blank) && Compared::Blank.against(&number(1)).is_lt());
        assert!(words("a").against(&Compared::Blank).is_gt());
    }
}

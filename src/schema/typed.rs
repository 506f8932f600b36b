//! Input cells as the user left them: read by `book`, carried by the kitchen, written back by `report`.

use jiff::civil::Date;

use crate::number::Decimal;

/// What stands in a cell.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum Value {
    /// Nothing.
    #[default]
    Blank,
    /// Text, trimmed of outer white space.
    Text(String),
    /// A number, of which 15 significant digits are the user's.
    Number(Decimal),
    /// A calendar date.
    Date(Date),
    /// TRUE or FALSE.
    Bool(bool),
    /// An error value such as `#REF!`.
    Error(String),
    /// A formula that was saved without a value, by its text and without the equals sign.
    Formula(String),
}

/// How the cell shows its number, as far as it changes what the number means.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum Shown {
    /// As a plain number, or in a format that says nothing about meaning.
    #[default]
    Plain,
    /// As a percentage: 0.28 is shown as 28 %.
    Percent,
    /// As money, with the sign or ISO 4217 code in the number format (`$`, `€`, `USD`); empty when it has none.
    Money(String),
    /// As a date.
    Date,
    /// As a vulgar fraction.
    Fraction,
}

/// The most characters that a cell of a workbook holds, in UTF-16 units as spreadsheet programs count them (their common
/// limit; ECMA-376 part 1, 18.18.93 names no other).
pub const MOST_CHARACTERS: usize = 32_767;

/// How many characters a text has, as spreadsheet programs count them.
pub fn characters(text: &str) -> usize {
    if text.is_ascii() { text.len() } else { text.encode_utf16().count() }
}

/// As much of a text from its beginning as a cell of a workbook holds, and no white space at a cut.
pub fn fitting(text: &str) -> &str {
    // No text has more UTF-16 units than bytes.
    if text.len() <= MOST_CHARACTERS || characters(text) <= MOST_CHARACTERS {
        return text;
    }
    let mut used = 0_usize;
    let beyond = text.char_indices().find(|(_, c)| {
        used = used.saturating_add(c.len_utf16());
        used > MOST_CHARACTERS
    });
    beyond.and_then(|(end, _)| text.get(..end)).unwrap_or(text).trim_end()
}

/// A cell's value and how it is shown.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Typed {
    /// What stands in it.
    pub value: Value,
    /// How it is shown.
    pub shown: Shown,
}

impl Typed {
    /// An empty cell.
    pub const BLANK: Typed = Typed { value: Value::Blank, shown: Shown::Plain };

    /// A cell of plain text.
    pub fn text(text: impl Into<String>) -> Self {
        Typed { value: Value::Text(text.into()), shown: Shown::Plain }
    }

    /// The words in it, as typed; `None` where another thing stands in it.
    pub fn words(&self) -> Option<&str> {
        if let Value::Text(words) = &self.value { Some(words) } else { None }
    }

    /// Text without its outer white space; blank when nothing else is in it.
    pub fn trimmed(text: &str) -> Self {
        let text = text.trim();
        if text.is_empty() { Typed::BLANK } else { Typed::text(text) }
    }

    /// A plain number.
    pub fn number(number: Decimal) -> Self {
        Typed { value: Value::Number(number), shown: Shown::Plain }
    }

    /// Whether nothing stands in it.
    pub fn is_blank(&self) -> bool {
        self.value == Value::Blank
    }

    /// The error that it shows: an error value, or the text of one. A broken cell is written back as its text, and must
    /// be known again as what it is.
    pub fn error(&self) -> Option<&str> {
        const ERRORS: &[&str] =
            &["#REF!", "#N/A", "#VALUE!", "#DIV/0!", "#NAME?", "#NUM!", "#NULL!", "#GETTING_DATA", "#SPILL!", "#CALC!"];
        match &self.value {
            Value::Error(error) => Some(error),
            Value::Text(text) => Some(text.trim()).filter(|text| ERRORS.contains(text)),
            _ => None,
        }
    }

    /// The formula that was saved without its result, with its equals sign: as such, or as text.
    pub fn lost_formula(&self) -> Option<String> {
        match &self.value {
            Value::Formula(formula) => Some(format!("={formula}")),
            Value::Text(text) => Some(text.clone()).filter(|text| text.starts_with('=') && text.len() > 1),
            _ => None,
        }
    }

    /// What a person sees in the cell, near enough for a message or a text field.
    pub fn seen(&self) -> String {
        match &self.value {
            Value::Blank => String::new(),
            Value::Text(text) => text.clone(),
            Value::Number(number) => match &self.shown {
                Shown::Percent => match number.checked_mul(Decimal::ONE_HUNDRED) {
                    Some(percent) => format!("{}%", percent.normalize()),
                    None => number.to_string(),
                },
                Shown::Money(sign) => format!("{sign}{}", number.normalize()),
                _ => number.normalize().to_string(),
            },
            Value::Date(date) => date.to_string(),
            Value::Bool(true) => "TRUE".to_owned(),
            Value::Bool(false) => "FALSE".to_owned(),
            Value::Error(error) => error.clone(),
            Value::Formula(formula) => format!("={formula}"),
        }
    }
}

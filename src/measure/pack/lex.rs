//! A pack's text cut into numbers, words and joints.
//!
//! Takes text that went through `clean`; gives [`Token`]s. What a row of tokens means is the reader's business.

use crate::measure::number_fault;
use crate::measure::quantity::marks_before;
use crate::measure::words::can_number;
use crate::number::leading::plain_run;
use crate::number::text::vulgar;
use crate::number::{Decimal, Marks, decimal};
use crate::problem::Fault;

use super::{refuse, sizes};

/// How a number was written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum NumberForm {
    /// Digits and marks: `12`, `2.5`.
    Plain,
    /// A whole number and, parted from it, a fraction: `2 1/2`, `2 ½`.
    Mixed,
    /// With a fraction that can be nothing else: `½`, `2½`, `half`.
    Vulgar,
}

/// A piece of a pack's text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Token {
    /// A number.
    Number(Decimal, NumberForm),
    /// `/`.
    Slash,
    /// `x`, `×`, `*`, `@`.
    Times,
    /// `-`.
    Dash,
    /// An opening bracket.
    Open,
    /// A closing bracket.
    Close,
    /// A comma or semicolon.
    Comma,
    /// A can of a numbered size, `10` of `#10`.
    Can(String),
    /// Letters, or `#` for pounds; as typed, for `T` is not `t`.
    Word(String),
}

impl Token {
    /// Whether it is this word, without regard to case.
    pub fn is(&self, word: &str) -> bool {
        matches!(self, Token::Word(found) if found.eq_ignore_ascii_case(word))
    }
}

/// Cuts `text`; `whole` is the cell's text for messages.
pub(super) fn lex(text: &str, marks: Marks) -> Result<Vec<Token>, Fault> {
    let mut tokens: Vec<Token> = Vec::new();
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        let after_number = matches!(tokens.last(), Some(Token::Number(..)));
        let (token, length) = match c {
            ' ' => (None, 1),
            '0'..='9' | '.' if !plain_run(rest).is_empty() => {
                let (number, length) = number(text, rest, marks)?;
                (Some(number), length)
            }
            '.' => (None, 1),
            c if vulgar(c).is_some() => {
                let value =
                    decimal::parse(c.encode_utf8(&mut [0; 4]), marks).map_err(|fault| number_fault(text, fault))?;
                (Some(Token::Number(value, NumberForm::Vulgar)), c.len_utf8())
            }
            '#' => match numbered(rest.get(1..).unwrap_or(""), after_number) {
                Some((size, length)) => (Some(Token::Can(size)), 1 + length),
                None => (Some(Token::Word("#".to_owned())), 1),
            },
            '/' => (Some(Token::Slash), 1),
            '×' | '*' | '@' => (Some(Token::Times), c.len_utf8()),
            '-' => (Some(Token::Dash), 1),
            '(' | '[' => (Some(Token::Open), 1),
            ')' | ']' => (Some(Token::Close), 1),
            ',' | ';' => (Some(Token::Comma), 1),
            '\'' if after_number && is_plural(rest.get(1..).unwrap_or("")) => (Some(Token::Word("s".to_owned())), 2),
            '+' if rest == "+" => (Some(Token::Word("up".to_owned())), 1),
            '&' | '+' => (Some(Token::Word("&".to_owned())), 1),
            '~' | '±' | '≈' => (Some(Token::Word("about".to_owned())), c.len_utf8()),
            'x' | 'X' if is_times(rest, tokens.last()) => (Some(Token::Times), 1),
            c if c.is_alphabetic() => word(rest),
            _ => return Err(refuse::not_understood(text)),
        };
        if let Some(Token::Can(size)) = &token
            && !sizes::is_can_size(size)
        {
            return Err(refuse::no_such_can(text, size));
        }
        match token {
            // `12 half pints`: twelve of a half.
            Some(Token::Word(half)) if half.eq_ignore_ascii_case("half") => {
                if after_number {
                    tokens.push(Token::Times);
                }
                tokens.push(Token::Number(Decimal::new(5, 1), NumberForm::Vulgar));
            }
            Some(token) => tokens.push(token),
            None => {}
        }
        rest = rest.get(length..).unwrap_or("");
    }
    Ok(without_hyphens(tokens))
}

/// `24-ct` and `bag-in-box` lose their hyphens: one before a word joins, and says nothing.
fn without_hyphens(tokens: Vec<Token>) -> Vec<Token> {
    let next_is_word: Vec<bool> = tokens.iter().skip(1).map(|next| matches!(next, Token::Word(_))).collect();
    let joins = next_is_word.into_iter().chain([false]);
    tokens
        .into_iter()
        .zip(joins)
        .filter(|(token, joins)| !(*token == Token::Dash && *joins))
        .map(|(token, _)| token)
        .collect()
}

/// The number at the start of `rest`, with a fraction behind it, and its length.
fn number(text: &str, rest: &str, marks: Marks) -> Result<(Token, usize), Fault> {
    let after = rest.get(plain_run(rest).len()..).unwrap_or("");
    let marks = marks_before(after, marks);
    let read = |number: &str| decimal::parse(number, marks).map_err(|fault| number_fault(text, fault));
    let run = plain_run(rest);
    if run.bytes().all(|b| b.is_ascii_digit()) {
        let part = after.strip_prefix([' ', '-']).unwrap_or(after);
        let parted = after.len() - part.len();
        if let Some(c) = part.chars().next().filter(|c| vulgar(*c).is_some()) {
            let length = run.len() + parted + c.len_utf8();
            let form = if parted > 0 { NumberForm::Mixed } else { NumberForm::Vulgar };
            return Ok((Token::Number(read(rest.get(..length).unwrap_or(run))?, form), length));
        }
        if let Some(fraction) = fraction(part).filter(|_| parted > 0) {
            let length = run.len() + parted + fraction;
            return Ok((Token::Number(read(rest.get(..length).unwrap_or(run))?, NumberForm::Mixed), length));
        }
    }
    Ok((Token::Number(read(run)?, NumberForm::Plain), run.len()))
}

/// The length of a fraction below one in lowest terms, to sixteenths, that no further slash follows.
fn fraction(text: &str) -> Option<usize> {
    let (upper, after) = text.split_once('/')?;
    let lower_length = after.bytes().take_while(u8::is_ascii_digit).count();
    let (lower, tail) = after.split_at_checked(lower_length)?;
    let (n, d): (u32, u32) = (upper.parse().ok()?, lower.parse().ok()?);
    let is_one = n < d && d <= 16 && sizes::in_lowest_terms(n, d) && !tail.trim_start().starts_with('/');
    is_one.then_some(upper.len() + 1 + lower_length)
}

/// The can size behind a number sign; a space between them only where the sign cannot be pounds.
fn numbered(rest: &str, after_number: bool) -> Option<(String, usize)> {
    let number = rest.strip_prefix(' ').filter(|_| !after_number).unwrap_or(rest);
    can_number(number).map(|(size, length)| (size, rest.len() - number.len() + length))
}

/// Whether an `s` stands alone at the start: `88's`.
fn is_plural(rest: &str) -> bool {
    rest.strip_prefix(['s', 'S']).is_some_and(|behind| !behind.starts_with(char::is_alphanumeric))
}

/// Whether an `x` multiplies. After a number it does with nothing alphabetic behind it but `A10`; elsewhere a number
/// must follow, as in `400 g x 12`.
fn is_times(rest: &str, before: Option<&Token>) -> bool {
    let behind = rest.get(1..).unwrap_or("");
    let mut chars = behind.chars();
    match (before, chars.next()) {
        (Some(Token::Number(..)), Some('a' | 'A')) => chars.next().is_some_and(|c| c.is_ascii_digit()),
        (Some(Token::Number(..)), Some(c)) => !c.is_alphabetic(),
        (Some(Token::Number(..)), None) => true,
        (Some(_), _) => behind.trim_start().starts_with(|c: char| c.is_ascii_digit()),
        (None, _) => false,
    }
}

/// The word at the start of `rest`, or the can that `A10` and `No. 10` name; and its length.
fn word(rest: &str) -> (Option<Token>, usize) {
    let length = rest.find(|c: char| !(c.is_alphabetic() || c == '\'')).unwrap_or(rest.len());
    let (word, after) = rest.split_at_checked(length).unwrap_or((rest, ""));
    let named = match word.to_lowercase().as_str() {
        "a" => can_number(after).map(|(size, more)| (size, length + more)),
        "no" | "nr" => {
            let number = after.trim_start_matches(['.', ' ']);
            can_number(number).map(|(size, more)| (size, rest.len() - number.len() + more))
        }
        _ => None,
    };
    match named {
        Some((size, length)) => (Some(Token::Can(size)), length),
        None => (Some(Token::Word(word.to_owned())), length),
    }
}

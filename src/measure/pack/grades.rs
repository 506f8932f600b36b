//! Count grades and sizes of fruit, which say how big pieces are and not how much is in the pack.
//!
//! Takes tokens; refuses `U-10`, `16/20 ct`, `16/20`, `88s`.

use super::group::is_count_word;
use super::lex::Token;
use super::{refuse, sizes};
use crate::problem::Fault;

/// `U-10`, `16/20 ct`, `16/20`, `88s`.
pub(super) fn refuse_grades(text: &str, tokens: &[Token]) -> Result<(), Fault> {
    let number = |at: usize| match tokens.get(at) {
        Some(Token::Number(value, _)) => Some(*value),
        _ => None,
    };
    for (at, token) in tokens.iter().enumerate() {
        let joined = matches!(tokens.get(at + 1), Some(Token::Dash | Token::Slash));
        let next = at + 1 + usize::from(joined);
        if (token.is("u") || token.is("under")) && number(next).is_some() {
            return Err(refuse::grade(text));
        }
        if number(at).is_some() && tokens.get(at + 1).is_some_and(|word| word.is("s")) {
            return Err(refuse::fruit_size(text));
        }
        let (Some(low), true, Some(high)) = (number(at), joined, number(next)) else {
            continue;
        };
        let behind = tokens.get(next + 1);
        let slashed = tokens.get(at + 1) == Some(&Token::Slash);
        let is_counted = slashed && behind.is_some_and(is_count_word) && sizes::is_grade(low, high);
        let in_a_row = matches!(at.checked_sub(1).and_then(|at| tokens.get(at)), Some(Token::Slash | Token::Times));
        let is_alone = !in_a_row && matches!(behind, None | Some(Token::Number(..) | Token::Open | Token::Comma));
        if is_counted || (is_alone && sizes::is_surely_grade(low, high)) {
            return Err(refuse::grade(text));
        }
    }
    Ok(())
}

//! What stands around a pack's amounts: words that say it is nominal, and brackets.
//!
//! Takes tokens; gives them parted, in their order.

use super::lex::Token;
use super::refuse;
use crate::problem::Fault;

/// Words that say the weight is nominal.
const NOMINAL: &[&str] = &[
    "avg",
    "average",
    "ave",
    "aver",
    "approx",
    "approximately",
    "about",
    "cw",
    "catchweight",
    "rw",
    "random",
    "up",
    "down",
    "dn",
];

/// The tokens without the words that say *nominal*, and whether there were any.
pub(super) fn without_nominal(tokens: Vec<Token>) -> (Vec<Token>, bool) {
    let mut kept: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut nominal = false;
    let mut tokens = tokens.into_iter().peekable();
    while let Some(token) = tokens.next() {
        let is_weight = |next: &Token| ["wt", "weight", "wgt"].iter().any(|word| next.is(word));
        if NOMINAL.iter().any(|word| token.is(word)) {
            if token.is("up") || token.is("down") || token.is("dn") {
                while kept
                    .last()
                    .is_some_and(|last| *last == Token::Slash || ["&", "and", "or"].iter().any(|word| last.is(word)))
                {
                    kept.pop();
                }
            }
            let _ = tokens.next_if(is_weight);
            nominal = true;
        } else if token.is("catch") && tokens.peek().is_some_and(is_weight) {
            tokens.next();
            nominal = true;
        } else if token.is("w") && kept.last() == Some(&Token::Slash) && is_catch(&kept) {
            kept.truncate(kept.len().saturating_sub(2));
            nominal = true;
        } else {
            kept.push(token);
        }
    }
    (kept, nominal)
}

/// Whether the tokens end in the `c/` of `c/w` or the `r/` of `r/w`.
fn is_catch(tokens: &[Token]) -> bool {
    matches!(tokens, [.., letter, Token::Slash] if letter.is("c") || letter.is("r"))
}

/// The tokens outside and inside one pair of brackets.
pub(super) fn brackets(text: &str, tokens: Vec<Token>) -> Result<(Vec<Token>, Option<Vec<Token>>), Fault> {
    let mut outside = Vec::new();
    let mut inside: Option<Vec<Token>> = None;
    let mut open = false;
    for token in tokens {
        match token {
            Token::Open if inside.is_none() => {
                inside = Some(Vec::new());
                open = true;
            }
            Token::Close if open => open = false,
            Token::Open | Token::Close => return Err(refuse::not_understood(text)),
            token => match inside.as_mut() {
                Some(inside) if open => inside.push(token),
                Some(_) => return Err(refuse::because(text, "goes on behind its bracket")),
                None => outside.push(token),
            },
        }
    }
    if open || inside.as_ref().is_some_and(Vec::is_empty) {
        Err(refuse::not_understood(text))
    } else {
        Ok((outside, inside))
    }
}

//! Remarks around a pack's amounts: words that say it is nominal or whose weight it is, and brackets.
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
    "ca",
    "circa",
    "abt",
    "approximately",
    "about",
    "cw",
    "catchweight",
    "rw",
    "random",
    "up",
    "down",
    "dn",
    "nominal",
    "nom",
];

/// Whether a token is *weight*.
fn is_weight(token: &Token) -> bool {
    ["wt", "weight", "wgt"].iter().any(|word| token.is(word))
}

/// The tokens without *net weight*, which is the weight; a drained or gross weight is refused.
pub(super) fn without_net(text: &str, tokens: Vec<Token>) -> Result<Vec<Token>, Fault> {
    let mut kept: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut tokens = tokens.into_iter().peekable();
    while let Some(token) = tokens.next() {
        let before_weight = tokens.peek().is_some_and(is_weight);
        let is_drained = ["drained", "drwt", "dw"].iter().any(|word| token.is(word));
        let behind_unit = matches!(kept.last(), Some(Token::Word(word)) if !word.eq_ignore_ascii_case("great"));
        if is_drained || (before_weight && ["dr", "drain"].iter().any(|word| token.is(word))) {
            return Err(refuse::drained(text));
        } else if token.is("gross") && (before_weight || behind_unit) {
            return Err(refuse::gross(text));
        } else if token.is("net") || token.is("nett") {
            let _ = tokens.next_if(is_weight);
        } else {
            kept.push(token);
        }
    }
    Ok(kept)
}

/// The tokens without the words that say *nominal*, and whether there were any.
pub(super) fn without_nominal(tokens: Vec<Token>) -> (Vec<Token>, bool) {
    let mut kept: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut nominal = false;
    let mut tokens = tokens.into_iter().peekable();
    while let Some(token) = tokens.next() {
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

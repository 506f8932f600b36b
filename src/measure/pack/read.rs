//! What the groups of a pack say together: count and weight, container and contents, label weight, brackets.
//!
//! Takes tokens; gives a [`Pack`]. Where a weight may belong to one piece or to all, it refuses.

use super::draft::{Draft, counted_and_weighed, labelled, with_bracket};
use super::group::{Cursor, Group, group, is_count_word};
use super::lex::Token;
use super::remarks::{brackets, without_nominal};
use super::{Pack, refuse};
use crate::measure::catalogue::WordKind;
use crate::measure::quantity::Measured;
use crate::measure::unit::Unit;
use crate::number::exact::mul;
use crate::number::{Decimal, plain};
use crate::problem::Fault;

/// Reads `tokens` of the cell `text`.
pub(super) fn read(text: &str, tokens: Vec<Token>) -> Result<Pack, Fault> {
    refuse_grades(text, &tokens)?;
    let (tokens, nominal) = without_nominal(tokens);
    let (outside, inside) = brackets(text, tokens)?;
    let mut pack = match (outside.is_empty(), inside) {
        (false, None) => sequence(text, &outside, nominal)?,
        (true, Some(inside)) => sequence(text, &inside, nominal)?,
        (false, Some(inside)) => {
            let main = sequence(text, &outside, nominal).or_else(|fault| bushel_alone(text, &outside).ok_or(fault))?;
            with_bracket(text, main, sequence(text, &inside, nominal)?)?
        }
        (true, None) if nominal => Draft::default(),
        (true, None) => return Err(refuse::not_understood(text)),
    };
    if nominal {
        pack.said = if pack.said.is_empty() { "nominal".to_owned() } else { format!("{} (nominal)", pack.said) };
    }
    Ok(Pack {
        text: text.to_owned(),
        containers: pack.containers,
        pieces: pack.pieces,
        content: pack.content,
        nominal,
        read_as: pack.said,
    })
}

/// `U-10`, `16/20 ct`.
fn refuse_grades(text: &str, tokens: &[Token]) -> Result<(), Fault> {
    let under = tokens.iter().enumerate().any(|(at, token)| {
        let joined = matches!(tokens.get(at + 1), Some(Token::Dash | Token::Slash));
        token.is("u") && matches!(tokens.get(at + 1 + usize::from(joined)), Some(Token::Number(..)))
    });
    let ranged = tokens.windows(4).any(|four| match four {
        [Token::Number(a, _), Token::Slash, Token::Number(b, _), word] => {
            is_count_word(word) && refuse::is_grade(*a, *b)
        }
        _ => false,
    });
    if under || ranged { Err(refuse::grade(text)) } else { Ok(()) }
}

/// Reads a row of groups without brackets.
fn sequence(text: &str, tokens: &[Token], nominal: bool) -> Result<Draft, Fault> {
    let mut cursor = Cursor::new(text, tokens);
    let first = group(&mut cursor, nominal)?;
    let of = !first.factors.is_empty() || first.unit.is_some();
    let of = of && cursor.take_word("of");
    if let Some(container) = container(&first).filter(|_| !cursor.is_done() && !is_per(&cursor)) {
        return contained(text, &first, container, of, &mut cursor, nominal);
    }
    if of {
        return Err(refuse::not_understood(text));
    }
    if cursor.is_done() {
        return alone(text, &first, nominal);
    }
    if let Some(draft) = suffixed(text, &first, &mut cursor, nominal)? {
        return if cursor.is_done() { Ok(draft) } else { Err(refuse::not_understood(text)) };
    }
    if let ([number], None, Some(Token::Number(next, _))) = (first.factors.as_slice(), &first.unit, cursor.peek(0)) {
        return Err(refuse::two_numbers(text, *number, *next));
    }
    let joined = matches!(cursor.peek(0), Some(Token::Comma | Token::Slash))
        || cursor.peek(0).is_some_and(|token| token.is("&"));
    if joined {
        cursor.skip(1);
    }
    let second = group(&mut cursor, nominal)?;
    let draft = both(text, &first, &second, nominal)?;
    // `88 ct 40 lb case` says nothing new.
    let _ = cursor
        .unit_ahead(0)
        .filter(|(unit, _)| unit.word_kind() == Some(WordKind::Outer))
        .map(|(_, words)| cursor.skip(words));
    if cursor.is_done() { Ok(draft) } else { Err(refuse::not_understood(text)) }
}

/// A group that is the whole pack.
fn alone(text: &str, group: &Group, nominal: bool) -> Result<Draft, Fault> {
    let Some(unit) = &group.unit else {
        return match group.factors.as_slice() {
            _ if nominal => Ok(Draft::default()),
            [one] => Err(refuse::unit_missing(text, *one)),
            [] => Err(refuse::not_understood(text)),
            _ => Err(refuse::ratio(text)),
        };
    };
    if group.is_bushel() {
        return Err(refuse::bushel(text));
    }
    let whole = group.measured(text)?;
    if unit.is_count_like() {
        return Ok(Draft { pieces: Some(whole), said: group.said(text)?, ..Draft::default() });
    }
    // `8/10 lb avg` may be eight of ten pounds, or eight to ten pounds: nominal either way.
    if let ([low, high], true, true) = (group.factors.as_slice(), nominal, group.slashed)
        && low < high
        && mul(*low, Decimal::TWO).is_ok_and(|twice| *high <= twice)
    {
        return Ok(Draft::default());
    }
    Ok(Draft { containers: group.inner(text)?, content: Some(whole), said: group.said(text)?, pieces: None })
}

/// The case, bag or bottle that a group counts.
fn container(group: &Group) -> Option<(Unit, WordKind)> {
    let unit = group.unit.as_ref()?;
    match unit.word_kind()? {
        kind @ (WordKind::Outer | WordKind::Vessel) => Some((unit.clone(), kind)),
        _ => None,
    }
}

fn is_per(cursor: &Cursor<'_>) -> bool {
    cursor.peek(0).is_some_and(|token| token.is("per"))
}

/// `case of 24`, `bag 50 lb`, `6 bottles 750 ml`, `6/#10 6 lb 9 oz`.
fn contained(
    text: &str,
    outer: &Group,
    (unit, kind): (Unit, WordKind),
    of: bool,
    cursor: &mut Cursor<'_>,
    nominal: bool,
) -> Result<Draft, Fault> {
    let count = if outer.factors.is_empty() { Decimal::ONE } else { outer.total(text)? };
    let mut inner = group(cursor, nominal)?;
    if !cursor.is_done() {
        // `case 88 ct 40 lb`.
        let second = group(cursor, nominal)?;
        return match (count == Decimal::ONE, cursor.is_done()) {
            (true, true) => both(text, &inner, &second, nominal),
            _ => Err(refuse::not_understood(text)),
        };
    }
    if inner.unit.is_none() && of {
        inner.unit = Some(Unit::each());
    }
    let inside = alone(text, &inner, nominal)?;
    if count == Decimal::ONE && kind == WordKind::Outer {
        let pieces = match inside.pieces {
            Some(pieces) => Some(pieces),
            None if inside.containers.is_none() => Some(Measured::new(Decimal::ONE, unit)),
            None => None,
        };
        return Ok(Draft { pieces, ..inside });
    }
    if kind == WordKind::Outer && !of {
        let (n, size) = (plain(count), inner.measured(text)?);
        return Err(refuse::because(
            text,
            &format!("does not say whether {size} is in one or in all: write {n}/{size} or {size}"),
        ));
    }
    labelled(text, count, unit, &inside)
}

/// `50 lb bag`, `24 ct/cs`, `500/cs`, `24/bunch`, `6/5 lb per case`; `None` when no container follows.
fn suffixed(text: &str, group: &Group, cursor: &mut Cursor<'_>, nominal: bool) -> Result<Option<Draft>, Fault> {
    let per = matches!(cursor.peek(0), Some(Token::Slash)) || is_per(cursor);
    let Some((unit, words)) = cursor.unit_ahead(usize::from(per)) else {
        return Ok(None);
    };
    let kind = unit.word_kind();
    if group.unit.is_none() {
        if !per {
            return Ok(None);
        }
        cursor.skip(1 + words);
        let counted = match (kind, &unit) {
            (Some(WordKind::Outer), _) => Unit::each(),
            (Some(WordKind::Piece), _) => unit,
            (None, Unit::Standard(_)) if unit.is_count_like() => unit,
            (Some(WordKind::Vessel), _) => {
                return Err(refuse::because(
                    text,
                    &format!("may be so many to a {unit}, or so many of them: write 24 ct or 24 x 12 oz {unit}"),
                ));
            }
            _ => {
                return Err(refuse::because(
                    text,
                    &format!("says how many make one {unit}, not how much is in the pack"),
                ));
            }
        };
        return alone(text, &Group { unit: Some(counted), ..group.clone() }, nominal).map(Some);
    }
    let is_each = unit == Unit::each() && group.is_measured();
    if !is_each && !matches!(kind, Some(WordKind::Outer | WordKind::Vessel)) {
        return Ok(None);
    }
    cursor.skip(usize::from(per) + words);
    let draft = alone(text, group, nominal)?;
    if !group.is_measured() || is_each || draft.content.is_none() {
        return Ok(Some(draft));
    }
    let count = draft.containers.unwrap_or(Decimal::ONE);
    let is_whole = count > Decimal::ONE && (per || is_whole_pack(&unit));
    let pieces = (!is_whole).then(|| Measured::new(count, unit));
    Ok(Some(Draft { pieces, ..draft }))
}

/// Words that usually name the whole pack rather than what is in it.
fn is_whole_pack(unit: &Unit) -> bool {
    matches!(unit, Unit::Own(name) if ["case", "carton", "crate", "box"].contains(&name.as_ref()))
}

/// Two groups: count and weight in either order, or a bushel and its weight.
fn both(text: &str, first: &Group, second: &Group, nominal: bool) -> Result<Draft, Fault> {
    if first.is_bushel() && second.is_measured() {
        return alone(text, second, nominal);
    }
    let (count, weight) = match (first.is_measured(), second.is_measured()) {
        (false, true) => (first, second),
        (true, false) => (second, first),
        _ => return Err(refuse::not_understood(text)),
    };
    let (pieces, content) = (count.measured(text)?, weight.measured(text)?);
    if let Some((unit, _)) = container(count) {
        let (n, one) = (pieces.amount, alone(text, weight, nominal)?);
        return labelled(text, n, unit, &one);
    }
    if count.each && pieces.amount != Decimal::ONE {
        return Err(refuse::whose_weight(text, &plain(pieces.amount), &content.to_string()));
    }
    counted_and_weighed(text, &pieces, &content)
}

/// `bushel` before a bracket.
fn bushel_alone(text: &str, tokens: &[Token]) -> Option<Draft> {
    let mut cursor = Cursor::new(text, tokens);
    let only = group(&mut cursor, false).ok()?;
    (only.is_bushel() && cursor.is_done()).then(Draft::default)
}

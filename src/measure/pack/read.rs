//! Pack meaning, by what its groups say together: count and weight, container and contents, label weight, brackets.
//!
//! Takes tokens; gives a [`Pack`]. Where a weight may belong to one piece or to all, it refuses.

use super::amounts::{alone, both, container, ratio, refuse_numberless};
use super::draft::{Draft, WhoseWeight, labelled, with_bracket};
use super::grades::refuse_grades;
use super::group::{Cursor, NumberGroup, group};
use super::lex::Token;
use super::remarks::{brackets, without_net, without_nominal};
use super::{Pack, refuse};
use crate::measure::catalogue::WordKind;
use crate::measure::quantity::Measured;
use crate::measure::unit::Unit;
use crate::number::{Decimal, plain};
use crate::problem::Fault;

/// Reads `tokens` of the cell `text`.
pub(super) fn read(text: &str, tokens: Vec<Token>) -> Result<Pack, Fault> {
    refuse_grades(text, &tokens)?;
    let (tokens, nominal) = without_nominal(without_net(text, tokens)?);
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

/// `per kg`, `/lb`: the price is for one.
fn one_of_unit(text: &str, tokens: &[Token]) -> Option<Result<Draft, Fault>> {
    let mut cursor = Cursor::new(text, tokens);
    let per = is_per(&cursor) || cursor.peek(0) == Some(&Token::Slash);
    let (unit, words) = cursor.unit_ahead(1).filter(|_| per)?;
    cursor.skip(1 + words);
    let one = NumberGroup::of_one(unit);
    cursor.is_done().then(|| alone(text, &one, false))
}

/// Reads a row of groups without brackets.
fn sequence(text: &str, tokens: &[Token], nominal: bool) -> Result<Draft, Fault> {
    if let Some(one) = one_of_unit(text, tokens) {
        return one;
    }
    let mut cursor = Cursor::new(text, tokens);
    let mut first = group(&mut cursor, nominal)?;
    size_first(&mut cursor, &mut first);
    if !cursor.is_done() {
        refuse_numberless(text, &first)?;
    }
    let of = !first.factors.is_empty() || first.unit.is_some();
    let of = of && cursor.take_word("of");
    if let Some(container) = container(&first).filter(|_| !cursor.is_done() && !is_per(&cursor)) {
        return contained(text, &first, container, of, &mut cursor, nominal);
    }
    if of {
        return Err(refuse::not_understood(text));
    }
    let whose = whose(&mut cursor, false);
    if cursor.is_done() {
        return alone(text, &first, nominal).map(|draft| Draft { whose, ..draft });
    }
    if let Some(draft) = suffixed(text, &first, &mut cursor, nominal)? {
        return if cursor.is_done() { Ok(draft) } else { Err(refuse::not_understood(text)) };
    }
    if let (None, Some(Token::Number(next, _))) = (&first.unit, cursor.peek(0)) {
        return Err(match first.factors.as_slice() {
            [number] => refuse::two_numbers(text, *number, *next),
            factors => ratio(text, factors),
        });
    }
    let joined = matches!(cursor.peek(0), Some(Token::Comma | Token::Slash))
        || cursor.peek(0).is_some_and(|token| token.is("&"));
    if joined {
        cursor.skip(1);
    }
    let second = group(&mut cursor, nominal)?;
    let whose = if whose == WhoseWeight::Unsaid { self::whose(&mut cursor, true) } else { whose };
    let draft = both(text, &first, &second, whose, nominal)?;
    // `88 ct 40 lb case` says nothing new.
    let _ = cursor
        .unit_ahead(0)
        .filter(|(unit, _)| unit.word_kind() == Some(WordKind::Outer))
        .map(|(_, words)| cursor.skip(words));
    if cursor.is_done() { Ok(draft) } else { Err(refuse::not_understood(text)) }
}

/// `400 g x 12`, `A10 x 6`: the number behind is so many of what stands before.
fn size_first(cursor: &mut Cursor<'_>, group: &mut NumberGroup) {
    if group.unit.is_some()
        && let (Some(Token::Times), Some(Token::Number(count, _))) = (cursor.peek(0), cursor.peek(1))
    {
        group.factors.insert(0, *count);
        cursor.skip(2);
    }
}

/// `in all`, `total`, and where `each` can be no unit, `each`.
fn whose(cursor: &mut Cursor<'_>, or_each: bool) -> WhoseWeight {
    let _ = cursor.peek(1).is_some_and(|token| token.is("all")) && cursor.take_word("in");
    if cursor.take_word("all") || cursor.take_word("total") {
        WhoseWeight::All
    } else if or_each && (cursor.take_word("each") || cursor.take_word("ea")) {
        WhoseWeight::Each
    } else {
        WhoseWeight::Unsaid
    }
}

fn is_per(cursor: &Cursor<'_>) -> bool {
    cursor.peek(0).is_some_and(|token| token.is("per"))
}

/// `case of 24`, `bag 50 lb`, `6 bottles 750 ml`, `6/#10 6 lb 9 oz`.
fn contained(
    text: &str,
    outer: &NumberGroup,
    (unit, kind): (Unit, WordKind),
    of: bool,
    cursor: &mut Cursor<'_>,
    nominal: bool,
) -> Result<Draft, Fault> {
    let count = if outer.factors.is_empty() { Decimal::ONE } else { outer.total(text)? };
    // `case/24`.
    let slashed = outer.factors.is_empty()
        && kind == WordKind::Outer
        && matches!((cursor.peek(0), cursor.peek(1)), (Some(Token::Slash), Some(Token::Number(..))));
    cursor.skip(usize::from(slashed));
    let of = of || slashed;
    let mut inner = group(cursor, nominal)?;
    if !cursor.is_done() {
        // `case 88 ct 40 lb`.
        let second = group(cursor, nominal)?;
        return match (count == Decimal::ONE, cursor.is_done()) {
            (true, true) => both(text, &inner, &second, WhoseWeight::Unsaid, nominal),
            _ => Err(refuse::not_understood(text)),
        };
    }
    if inner.unit.is_none() && of {
        if inner.factors.len() > 1 {
            return Err(ratio(text, &inner.factors));
        }
        inner.unit = Some(Unit::each());
    }
    let is_named = inner.unit.as_ref().is_some_and(|unit| unit.is_numbered_can());
    if inner.factors.is_empty() && !is_named {
        return Err(refuse::not_understood(text));
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
fn suffixed(text: &str, group: &NumberGroup, cursor: &mut Cursor<'_>, nominal: bool) -> Result<Option<Draft>, Fault> {
    let per = matches!(cursor.peek(0), Some(Token::Slash)) || is_per(cursor);
    let Some((unit, words)) = cursor.unit_ahead(usize::from(per)) else {
        return Ok(None);
    };
    let kind = unit.word_kind();
    if group.unit.is_none() {
        if !per {
            return Ok(None);
        }
        if is_per(cursor) && matches!(kind, None | Some(WordKind::Piece)) {
            return Err(refuse::because(text, &format!("says how many make one {unit}, not how much is in the pack")));
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
        return alone(text, &NumberGroup { unit: Some(counted), ..group.clone() }, nominal).map(Some);
    }
    let is_each = unit == Unit::each() && group.is_measured();
    let is_piece = kind == Some(WordKind::Piece) && group.is_measured();
    if !is_each && !is_piece && !matches!(kind, Some(WordKind::Outer | WordKind::Vessel)) {
        return Ok(None);
    }
    cursor.skip(usize::from(per) + words);
    let draft = alone(text, group, nominal)?;
    if is_each {
        return Ok(Some(Draft { whose: WhoseWeight::Each, ..draft }));
    }
    if !group.is_measured() || draft.content.is_none() {
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

/// `bushel` before a bracket.
fn bushel_alone(text: &str, tokens: &[Token]) -> Option<Draft> {
    let mut cursor = Cursor::new(text, tokens);
    let only = group(&mut cursor, false).ok()?;
    (only.is_bushel() && cursor.is_done()).then(Draft::default)
}

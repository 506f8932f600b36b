//! What the groups of a pack say together: count and weight, container and contents, label weight, brackets.
//!
//! Takes tokens; gives a [`Pack`]. Where a weight may belong to one piece or to all, it refuses.

use super::draft::{Draft, Whose, counted_and_weighed, is_several, labelled, same, with_bracket};
use super::group::{Cursor, Group, group, is_count_word};
use super::lex::Token;
use super::remarks::{brackets, without_net, without_nominal};
use super::{Pack, refuse, sizes};
use crate::measure::catalogue::WordKind;
use crate::measure::quantity::Measured;
use crate::measure::unit::Unit;
use crate::number::exact::mul;
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

/// `U-10`, `16/20 ct`, `16/20`, `88s`.
fn refuse_grades(text: &str, tokens: &[Token]) -> Result<(), Fault> {
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

/// `per kg`, `/lb`: the price is for one.
fn one_of_unit(text: &str, tokens: &[Token]) -> Option<Result<Draft, Fault>> {
    let mut cursor = Cursor::new(text, tokens);
    let per = is_per(&cursor) || cursor.peek(0) == Some(&Token::Slash);
    let (unit, words) = cursor.unit_ahead(1).filter(|_| per)?;
    cursor.skip(1 + words);
    let one = Group::of_one(unit);
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
    let whose = if whose == Whose::Unsaid { self::whose(&mut cursor, true) } else { whose };
    let draft = both(text, &first, &second, whose, nominal)?;
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
            factors => Err(ratio(text, factors)),
        };
    };
    if group.is_bushel() {
        return Err(refuse::bushel(text));
    }
    // `6/5 case`: the case is the pack's, and five of what?
    if group.factors.len() > 1 && unit.word_kind() == Some(WordKind::Outer) {
        return Err(refuse::ratio_of(text, &unit.name()));
    }
    let whole = group.measured(text)?;
    if unit.is_count_like() {
        return Ok(Draft { pieces: Some(whole), said: group.said(text)?, ..Draft::default() });
    }
    // `8/10 lb avg` may be eight of ten pounds, or eight to ten pounds: nominal either way.
    if group.is_unclear {
        return Ok(Draft::default());
    }
    if let ([low, high], true, true) = (group.factors.as_slice(), nominal, group.slashed && !group.is_range)
        && low < high
        && mul(*low, Decimal::TWO).is_ok_and(|twice| *high <= twice)
    {
        return Ok(Draft::default());
    }
    Ok(Draft { containers: group.inner(text)?, content: Some(whole), said: group.said(text)?, ..Draft::default() })
}

/// Numbers without a unit.
fn ratio(text: &str, factors: &[Decimal]) -> Fault {
    refuse::ratio(text, matches!(factors, [a, b] if sizes::is_grade(*a, *b)))
}

/// `400 g x 12`, `A10 x 6`: the number behind is so many of what stands before.
fn size_first(cursor: &mut Cursor<'_>, group: &mut Group) {
    if group.unit.is_some()
        && let (Some(Token::Times), Some(Token::Number(count, _))) = (cursor.peek(0), cursor.peek(1))
    {
        group.factors.insert(0, *count);
        cursor.skip(2);
    }
}

/// `in all`, `total`, and where `each` can be no unit, `each`.
fn whose(cursor: &mut Cursor<'_>, or_each: bool) -> Whose {
    let _ = cursor.peek(1).is_some_and(|token| token.is("all")) && cursor.take_word("in");
    if cursor.take_word("all") || cursor.take_word("total") {
        Whose::All
    } else if or_each && (cursor.take_word("each") || cursor.take_word("ea")) {
        Whose::Each
    } else {
        Whose::Unsaid
    }
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
            (true, true) => both(text, &inner, &second, Whose::Unsaid, nominal),
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
        return alone(text, &Group { unit: Some(counted), ..group.clone() }, nominal).map(Some);
    }
    let is_each = unit == Unit::each() && group.is_measured();
    let is_piece = kind == Some(WordKind::Piece) && group.is_measured();
    if !is_each && !is_piece && !matches!(kind, Some(WordKind::Outer | WordKind::Vessel)) {
        return Ok(None);
    }
    cursor.skip(usize::from(per) + words);
    let draft = alone(text, group, nominal)?;
    if is_each {
        return Ok(Some(Draft { whose: Whose::Each, ..draft }));
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

/// Two groups: count and weight in either order, a bushel and its weight, or the same amount twice.
fn both(text: &str, first: &Group, second: &Group, whose: Whose, nominal: bool) -> Result<Draft, Fault> {
    if first.is_bushel() && second.is_measured() {
        return alone(text, second, nominal);
    }
    if first.is_unclear || second.is_unclear {
        return Err(refuse::not_understood(text));
    }
    let (count, weight) = match (first.is_measured(), second.is_measured()) {
        (false, true) => (first, second),
        (true, false) => (second, first),
        (true, true) => {
            return same(text, alone(text, first, nominal)?, &first.measured(text)?, &second.measured(text)?);
        }
        (false, false) => return Err(refuse::not_understood(text)),
    };
    let (pieces, content) = (count.measured(text)?, weight.measured(text)?);
    if let Some((unit, _)) = container(count) {
        let (n, one) = (pieces.amount, alone(text, weight, nominal)?);
        return labelled(text, n, unit, &one);
    }
    if !first.is_measured() || !count.factors.is_empty() {
        if is_several(count.inner(text)?) || is_several(weight.inner(text)?) {
            return Err(refuse::one_or_all(text, &second.measured(text)?.to_string()));
        }
        if count.each && whose == Whose::Unsaid && pieces.amount != Decimal::ONE {
            return Err(refuse::whose_weight(text, &plain(pieces.amount), &content.to_string()));
        }
        return counted_and_weighed(text, &pieces, &content, whose);
    }
    // A count word alone behind a weight: `40 lb dozen`.
    Err(refuse::not_understood(text))
}

/// `bushel` before a bracket.
fn bushel_alone(text: &str, tokens: &[Token]) -> Option<Draft> {
    let mut cursor = Cursor::new(text, tokens);
    let only = group(&mut cursor, false).ok()?;
    (only.is_bushel() && cursor.is_done()).then(Draft::default)
}

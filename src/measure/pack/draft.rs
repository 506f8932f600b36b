//! A pack in the making, and how two statements about it go together: label weight, count and weight, a bracket.
//!
//! Takes what each statement says; gives the [`Draft`] of both, or refuses where a weight may be one piece's or all's.

use super::refuse;
use crate::measure::catalogue::WordKind;
use crate::measure::quantity::Measured;
use crate::measure::unit::Unit;
use crate::measure::{Base, Volumes};
use crate::number::exact::mul;
use crate::number::{Decimal, plain};
use crate::problem::Fault;

/// In units of at least this many g or ml the weight of all pieces is stated; in smaller ones it may be one piece's.
const UNIT_OF_ALL: Decimal = Decimal::from_parts(400, 0, 0, false, 0);

/// A pack of more than this many g or ml is more than one carries: a weight that would come to it, were it each
/// piece's, is the weight of all.
const TOO_HEAVY: Decimal = Decimal::from_parts(50_000, 0, 0, false, 0);

/// The most g or ml that a can of a numbered size holds; a No. 10 holds some 3000.
const CAN: Decimal = Decimal::from_parts(5_000, 0, 0, false, 0);

/// Whose weight stands beside a count.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) enum WhoseWeight {
    /// The text does not say.
    #[default]
    Unsaid,
    /// Each piece's.
    Each,
    /// That of all pieces.
    All,
}

/// A pack in the making.
#[derive(Debug, Clone, Default)]
pub(super) struct Draft {
    pub containers: Option<Decimal>,
    pub pieces: Option<Measured>,
    pub content: Option<Measured>,
    /// Whose weight the content is, where the text says it.
    pub whose: WhoseWeight,
    pub said: String,
}

/// So many containers, each holding what `inside` says.
pub(super) fn labelled(text: &str, count: Decimal, unit: Unit, inside: &Draft) -> Result<Draft, Fault> {
    let times = |one: &Measured| {
        mul(count, one.amount)
            .map(|all| Measured::new(all.normalize(), one.unit.clone()))
            .map_err(|_| refuse::nothing(text))
    };
    let named = Measured::new(count, unit);
    let is_too_much = |one: &Measured| in_base(one).is_some_and(|(_, amount)| amount > CAN);
    if let Some(one) = inside.content.as_ref().filter(|one| named.unit.is_numbered_can() && is_too_much(one)) {
        return Err(refuse::grade_not_can(text, &named.unit.name(), &one.to_string()));
    }
    match (&inside.content, &inside.pieces) {
        (Some(one), None) => {
            let all = times(one)?;
            let said =
                if count == Decimal::ONE { format!("{named} of {all}") } else { format!("{named} of {one} = {all}") };
            Ok(Draft { pieces: Some(named), content: Some(all), said, ..Draft::default() })
        }
        (None, Some(one)) => {
            let all = times(one)?;
            let said = format!("{named} of {one} = {all}");
            Ok(Draft { containers: Some(count), pieces: Some(all), said, ..Draft::default() })
        }
        _ => Err(refuse::not_understood(text)),
    }
}

/// What a bracket adds to the pack before it.
pub(super) fn with_bracket(text: &str, main: Draft, inside: Draft) -> Result<Draft, Fault> {
    let one = |draft: &Draft| draft.content.clone().or_else(|| draft.pieces.clone());
    let (Some(outside), Some(added)) = (one(&main), one(&inside)) else {
        return Ok(inside);
    };
    match (&main.pieces, &main.content, &inside.pieces, &inside.content) {
        (Some(pieces), None, _, _) => match pieces.unit.word_kind() {
            Some(WordKind::Vessel) => labelled(text, pieces.amount, pieces.unit.clone(), &inside),
            Some(WordKind::Outer) if pieces.amount == Decimal::ONE => {
                let own = Some(pieces.clone()).filter(|_| inside.containers.is_none());
                Ok(Draft { pieces: inside.pieces.clone().or(own), ..inside })
            }
            Some(WordKind::Outer) => {
                Err(refuse::because(text, &format!("does not say whether {added} is in one or in all")))
            }
            _ if added.unit.is_count_like() => same(text, main.clone(), &outside, &added),
            _ if is_several(inside.containers) => Err(refuse::one_or_all(text, &pieces.to_string())),
            _ => counted_and_weighed(text, pieces, &added, inside.whose),
        },
        (_, Some(_), Some(pieces), None) if is_several(main.containers) => {
            Err(refuse::one_or_all(text, &pieces.to_string()))
        }
        (_, Some(content), Some(pieces), None) => counted_and_weighed(text, pieces, content, main.whose),
        _ => same(text, main.clone(), &outside, &added),
    }
}

/// Whether there is more than one inner pack, so that a count beside them may be one's or all's.
pub(super) fn is_several(containers: Option<Decimal>) -> bool {
    containers.is_some_and(|count| count != Decimal::ONE)
}

/// Count and weight, where it is plain whose weight it is.
pub(super) fn counted_and_weighed(
    text: &str,
    pieces: &Measured,
    content: &Measured,
    whose: WhoseWeight,
) -> Result<Draft, Fault> {
    let count = in_base(pieces).map_or(pieces.amount, |(_, count)| count);
    let all_if_each = |amount: Decimal| mul(count, amount).map_err(|_| refuse::nothing(text));
    if whose == WhoseWeight::Each {
        let all = Measured::new(all_if_each(content.amount)?.normalize(), content.unit.clone());
        let said = format!("{pieces} of {content} = {all}");
        return Ok(Draft { pieces: Some(pieces.clone()), content: Some(all), said, ..Draft::default() });
    }
    let is_of_all = match (content.unit.to_base(Volumes::Us), in_base(content)) {
        (Some((_, unit)), Some((_, amount))) => unit >= UNIT_OF_ALL && all_if_each(amount)? > TOO_HEAVY,
        _ => false,
    };
    if whose == WhoseWeight::Unsaid && !is_of_all && count != Decimal::ONE {
        return Err(refuse::whose_weight(text, &plain(count), &content.to_string()));
    }
    Ok(Draft {
        said: format!("{pieces}, {content} in all"),
        pieces: Some(pieces.clone()),
        content: Some(content.clone()),
        ..Draft::default()
    })
}

/// In g, ml or pieces; `None` for a count word, or for what does not fit.
fn in_base(measured: &Measured) -> Option<(Base, Decimal)> {
    measured.in_base(Volumes::Us).ok().flatten()
}

/// A statement that says the same amount again, in all or for one of several.
pub(super) fn same(text: &str, main: Draft, outside: &Measured, added: &Measured) -> Result<Draft, Fault> {
    let (Some((kind, all)), Some((other, said))) = (in_base(outside), in_base(added)) else {
        return Err(refuse::not_understood(text));
    };
    if kind != other {
        return Err(refuse::because(text, "gives weight and volume: keep one, and put the other in a Measures row"));
    }
    let one = main.containers.and_then(|count| all.checked_div(count));
    if [Some(all), one].into_iter().flatten().any(|amount| is_said_again(amount, outside, added, said)) {
        Ok(main)
    } else {
        Err(refuse::conflict(text, &outside.to_string(), &added.to_string()))
    }
}

/// Whether `said` is `amount`, or what a label shows for it in another unit: 5 lb is 2.26796185 kg and 2.27 on the
/// label, 1 gal is 3.785411784 l and 3.78. Within one of the last digit shown, and one in a hundred.
fn is_said_again(amount: Decimal, outside: &Measured, added: &Measured, said: Decimal) -> bool {
    let last_digit = added
        .unit
        .to_base(Volumes::Us)
        .and_then(|(_, unit)| mul(unit, Decimal::new(1, added.amount.normalize().scale())).ok());
    let apart = amount.checked_sub(said).map(|apart| apart.abs());
    let (Some(last_digit), Some(apart)) = (last_digit, apart) else {
        return false;
    };
    let hundredfold = apart.checked_mul(Decimal::ONE_HUNDRED).unwrap_or(Decimal::MAX);
    apart.is_zero() || (outside.unit != added.unit && apart < last_digit && hundredfold <= amount)
}

//! A pack in the making, and how two statements about it go together: label weight, count and weight, a bracket.
//!
//! Takes what each statement says; gives the [`Draft`] of both, or refuses where a weight may be one piece's or all's.

use super::refuse;
use crate::measure::Volumes;
use crate::measure::catalogue::WordKind;
use crate::measure::quantity::Measured;
use crate::measure::unit::Unit;
use crate::number::exact::mul;
use crate::number::{Decimal, plain};
use crate::problem::Fault;

/// A weight or volume at least this many g or ml is the weight of all pieces; a smaller one may be one piece's.
const SURELY_ALL: Decimal = Decimal::from_parts(400, 0, 0, false, 0);

/// A pack in the making.
#[derive(Debug, Clone, Default)]
pub(super) struct Draft {
    pub containers: Option<Decimal>,
    pub pieces: Option<Measured>,
    pub content: Option<Measured>,
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
    match (&inside.content, &inside.pieces) {
        (Some(one), None) => {
            let all = times(one)?;
            let said =
                if count == Decimal::ONE { format!("{named} of {all}") } else { format!("{named} of {one} = {all}") };
            Ok(Draft { containers: None, pieces: Some(named), content: Some(all), said })
        }
        (None, Some(one)) => {
            let all = times(one)?;
            let said = format!("{named} of {one} = {all}");
            Ok(Draft { containers: Some(count), pieces: Some(all), content: None, said })
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
            _ => counted_and_weighed(text, pieces, &added),
        },
        (_, Some(content), Some(pieces), None) => counted_and_weighed(text, pieces, content),
        _ => same(text, main.clone(), &outside, &added),
    }
}

pub(super) fn counted_and_weighed(text: &str, pieces: &Measured, content: &Measured) -> Result<Draft, Fault> {
    let is_of_all = content.unit.to_base(Volumes::Us).is_some_and(|(_, size)| size >= SURELY_ALL);
    if !is_of_all && pieces.amount != Decimal::ONE {
        return Err(refuse::whose_weight(text, &plain(pieces.amount), &content.to_string()));
    }
    Ok(Draft {
        containers: None,
        said: format!("{pieces}, {content} in all"),
        pieces: Some(pieces.clone()),
        content: Some(content.clone()),
    })
}

/// A bracket that says the same amount again, in all or for one of several.
fn same(text: &str, main: Draft, outside: &Measured, added: &Measured) -> Result<Draft, Fault> {
    let base = |measured: &Measured| measured.in_base(Volumes::Us).ok().flatten();
    let (Some((kind, all)), Some((other, said))) = (base(outside), base(added)) else {
        return Err(refuse::not_understood(text));
    };
    if kind != other {
        return Err(refuse::because(text, "gives weight and volume: keep one, and put the other in a Measures row"));
    }
    let of_one = main.containers.and_then(|count| mul(count, said).ok());
    if said == all || of_one == Some(all) {
        Ok(main)
    } else {
        Err(refuse::conflict(text, &outside.to_string(), &added.to_string()))
    }
}

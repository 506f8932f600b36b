//! Which of a food's measures serve a line: of several of one kind, by the preparation and the unit that are asked for.
//!
//! Takes [`Links`] and what is wanted; gives one link for every pair of kinds, or the problem of which is meant.

use super::convert::{Stop, Wanted};
use super::kind::Kind;
use super::link::{Link, Links};
use super::unjoined::{which, which_borrowed};
use crate::kitchen::NameKey;
use crate::measure::Volumes;
use crate::number::{Decimal, exact};

/// Borrowed measures that differ by no more than this part of the lesser are as good as one. Common practice, no source:
/// two cooks who fill the same cup differ by as much.
const ALIKE: Decimal = Decimal::from_parts(1, 0, 0, false, 1);

/// The links that serve the preparation asked for: its own before those without one, the kitchen's before borrowed ones.
///
/// # Errors
/// A [`Stop`] when there are several preparations and none of them is asked for.
pub(super) fn choose<'a>(links: &'a Links, wanted: Wanted<'_>) -> Result<Vec<&'a Link>, Stop> {
    let mut chosen: Vec<&Link> = Vec::new();
    let mut done: Vec<(&Kind, Option<&Kind>)> = Vec::new();
    for link in &links.links {
        let pair = (&link.one.0, link.other.as_ref().map(|other| &other.0));
        if done.contains(&pair) {
            continue;
        }
        done.push(pair);
        let same = |other: &&Link| other.one.0 == *pair.0 && other.other.as_ref().map(|end| &end.0) == pair.1;
        let mut group: Vec<&Link> = links.links.iter().filter(same).collect();
        if group.iter().any(|link| !link.is_borrowed()) {
            group.retain(|link| !link.is_borrowed());
        }
        let named = |key: Option<&NameKey>| -> Vec<&'a Link> {
            group.iter().copied().filter(|link| link.prep.as_ref().map(|(prep, _)| prep) == key).collect()
        };
        let asked = wanted.prep.map(|prep| named(Some(prep))).unwrap_or_default();
        let serving = if asked.is_empty() { named(None) } else { asked };
        if !serving.is_empty() {
            chosen.extend(best(&serving, wanted));
            continue;
        }
        let preps = by_preparation(&group, wanted);
        let is_borrowed = link.is_borrowed();
        match preps.as_slice() {
            [only] if is_borrowed || wanted.prep.is_none() => chosen.push(only),
            [first, ..] if is_borrowed && are_alike(&preps) => chosen.push(first),
            _ if !involves(wanted, link) => {}
            _ if is_borrowed => return Err(Stop::Fault(which_borrowed(wanted, &preps))),
            _ => return Err(Stop::Fault(which(wanted, &preps))),
        }
    }
    Ok(chosen)
}

/// The link in the very unit asked for, else the first.
fn best<'a>(serving: &[&'a Link], wanted: Wanted<'_>) -> Option<&'a Link> {
    let exact = serving.iter().copied().find(|link| link.unit.as_ref() == Some(&wanted.quantity.unit));
    exact.or_else(|| serving.first().copied())
}

/// The best link of each preparation, in order.
fn by_preparation<'a>(group: &[&'a Link], wanted: Wanted<'_>) -> Vec<&'a Link> {
    let mut preps: Vec<&NameKey> = Vec::new();
    for (prep, _) in group.iter().filter_map(|link| link.prep.as_ref()) {
        if !preps.contains(&prep) {
            preps.push(prep);
        }
    }
    let of = |prep: &NameKey| -> Vec<&'a Link> {
        group.iter().copied().filter(|link| link.prep.as_ref().is_some_and(|(key, _)| key == prep)).collect()
    };
    preps.into_iter().filter_map(|prep| best(&of(prep), wanted)).collect()
}

/// Whether none weighs much more than another.
fn are_alike(links: &[&Link]) -> bool {
    let size = |link: &&Link| exact::div(link.other.as_ref()?.1, link.one.1).ok();
    let Some(sizes) = links.iter().map(size).collect::<Option<Vec<Decimal>>>() else { return false };
    let (Some(least), Some(most)) = (sizes.iter().min(), sizes.iter().max()) else { return false };
    exact::sub(*most, *least).is_ok_and(|off| exact::mul(*least, ALIKE).is_ok_and(|allowed| off <= allowed))
}

/// Whether a link ends at the kind that is asked for.
fn involves(wanted: Wanted<'_>, link: &Link) -> bool {
    let (kind, _) = Kind::of(&wanted.quantity.unit, Volumes::Us);
    link.one.0 == kind || link.other.as_ref().is_some_and(|other| other.0 == kind)
}

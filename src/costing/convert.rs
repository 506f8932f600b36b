//! From a quantity as a cook measures it to the base unit of its price: grams, millilitres, pieces or a named count.
//!
//! Ways are tried in order: the food's own measures, then what its pack or batch says, then what a can of its size is
//! published to hold. Steps may chain, the fewest first; the yield is crossed once.

use super::kind::Kind;
use super::link::{Link, Links, MeasureFrom};
use super::rate::Amount;
use super::serving::choose;
use super::unjoined::missing;
use crate::kitchen::NameKey;
use crate::kitchen::bridge::Basis;
use crate::measure::{Measured, Volumes};
use crate::number::{Overflow, exact};
use crate::problem::{Code, Fault, Place, Problem};

/// A quantity in the base unit asked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Converted {
    /// How much.
    pub amount: Amount,
    /// The basis it stands on now.
    pub basis: Basis,
    /// Whether it is still to be multiplied by the yield.
    pub shrinks: bool,
    /// The measures passed through.
    pub through: Vec<MeasureFrom>,
}

/// What stopped a conversion.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Stop {
    /// A problem to report at the line.
    Fault(Fault),
    /// A problem that has been reported where it stands.
    Known,
    /// A number that does not fit.
    Overflow,
}

impl Stop {
    /// What to say of it at `place`; nothing when it has been said.
    pub fn at(self, place: Place) -> Option<Problem> {
        match self {
            Stop::Fault(fault) => Some(fault.at(place)),
            Stop::Known => None,
            Stop::Overflow => {
                let fault = Fault::new(
                    Code::NumberOutOfRange,
                    "the numbers here are too large or too small to compute exactly",
                    "Check the quantity, the pack and the price.",
                );
                Some(fault.at(place))
            }
        }
    }
}

impl From<Overflow> for Stop {
    fn from(_: Overflow) -> Self {
        Stop::Overflow
    }
}

/// A quantity to be converted.
#[derive(Debug, Clone, Copy)]
pub struct Wanted<'a> {
    /// The quantity as typed.
    pub quantity: &'a Measured,
    /// The preparation asked for.
    pub prep: Option<&'a NameKey>,
    /// The basis it is asked on.
    pub basis: Basis,
    /// The food's name, for messages.
    pub name: &'a str,
}

/// Converts `wanted` to base units of `target`.
///
/// # Errors
/// A [`Stop`] that says what is missing or ambiguous.
pub fn convert(wanted: Wanted<'_>, target: &Kind, links: &Links, volumes: Volumes) -> Result<Converted, Stop> {
    let (kind, factor) = Kind::of(&wanted.quantity.unit, volumes);
    let amount = Amount::of(exact::mul(wanted.quantity.amount, factor)?);
    let start = Converted { amount, basis: wanted.basis, shrinks: false, through: Vec::new() };
    if kind == *target {
        return Ok(start);
    }
    if links.broken {
        return Err(Stop::Known);
    }
    let usable = choose(links, wanted)?;
    let own: Vec<&Link> = usable.iter().copied().filter(|link| matches!(link.from, MeasureFrom::Row(_))).collect();
    let cans = links.published([&kind, target]);
    let path = path(&own, &kind, target).or_else(|| path(&usable, &kind, target)).or_else(|| {
        let all: Vec<&Link> = usable.iter().copied().chain(&cans).collect();
        path(&all, &kind, target)
    });
    let Some(path) = path else { return Err(Stop::Fault(missing(wanted, &kind, target, volumes))) };
    let mut at = start;
    for (link, forward) in path {
        let Some(other) = &link.other else { return Err(Stop::Known) };
        let (from, to) = if forward { (&link.one, other) } else { (other, &link.one) };
        at.amount = at.amount.times(to.1)?.over(from.1)?;
        if link.basis == Basis::Ep {
            // An EP measure joins pieces as purchased to what is usable of them.
            if to.0.is_counted() {
                at.shrinks |= at.basis == Basis::Ap;
                at.basis = Basis::Ap;
            } else if from.0 != Kind::Mass {
                at.basis = Basis::Ep;
            }
        }
        at.through.push(link.from);
    }
    Ok(at)
}

/// The shortest way from `from` to `to`, each step with its direction.
fn path<'a>(links: &[&'a Link], from: &Kind, to: &Kind) -> Option<Vec<(&'a Link, bool)>> {
    /// Cup to grams to each, and one more for a named count at either end.
    const MOST_STEPS: usize = 3;
    let mut frontier: Vec<(Kind, Vec<(&'a Link, bool)>)> = vec![(from.clone(), Vec::new())];
    for _ in 0..MOST_STEPS {
        let mut next = Vec::new();
        for (kind, steps) in &frontier {
            for link in links {
                let far = link.other.as_ref().map(|(kind, _)| kind);
                let (reached, forward) = match far {
                    Some(far) if link.one.0 == *kind => (far, true),
                    Some(far) if far == kind => (&link.one.0, false),
                    // A measure that could not be read stands in the way of what it might have joined.
                    None if link.one.0 == *kind => (to, true),
                    _ => continue,
                };
                let mut steps = steps.clone();
                steps.push((*link, forward));
                if reached == to {
                    return Some(steps);
                }
                next.push((reached.clone(), steps));
            }
        }
        frontier = next;
    }
    None
}

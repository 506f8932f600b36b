//! From a quantity as a cook measures it to the base unit of its price: grams, millilitres, pieces or a named count.
//!
//! Ways are tried in order: the food's own measures and what its pack or batch says, then borrowed ones, then what a can of
//! its size is published to hold. Steps may chain, the fewest first; the yield is crossed once.

use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::choose_measure::{ServingMeasures, choose, ends};
use crate::costing::conversion::equivalence::{Link, Links, MeasureFrom};
use crate::costing::conversion::no_conversion::{Joined, missing};
use crate::costing::rate::Amount;
use crate::in_order::InOrder;
use crate::kitchen::NameKey;
use crate::kitchen::bridge::Basis;
use crate::measure::{Measured, Volumes};
use crate::number::{Decimal, Overflow, exact};
use crate::problem::{Code, Fault, Place, Problem};

/// A quantity in the base unit asked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Converted {
    /// How much, before any yield.
    pub amount: Amount,
    /// The basis it stands on once it has crossed.
    pub basis: Basis,
    /// How the yield is crossed on the way.
    pub crossing: Crossing,
    /// The measures passed through.
    pub through: Vec<MeasureFrom>,
}

/// How a quantity crosses the yield before it meets a price.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Crossing {
    /// Not at all.
    None,
    /// A weight as purchased became pieces by their edible weight: times the yield.
    Times,
    /// Something as purchased was measured by its edible weight: divided by the yield.
    Over,
}

impl Crossing {
    /// `amount` on the other side of the yield.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit.
    pub fn cross(self, amount: Amount, fraction: Decimal) -> Result<Amount, Overflow> {
        match self {
            Crossing::None => Ok(amount),
            Crossing::Times => amount.times(fraction),
            Crossing::Over => amount.over(fraction),
        }
    }
}

/// What stopped a conversion.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoConversion {
    /// A problem to report at the line.
    Fault(Fault),
    /// A problem that has been reported where it stands.
    Known,
    /// A number that does not fit.
    Overflow,
}

impl NoConversion {
    /// What to say of it at `place`; nothing when it has been said.
    pub fn at(self, place: Place) -> Option<Problem> {
        match self {
            NoConversion::Fault(fault) => Some(fault.at(place)),
            NoConversion::Known => None,
            NoConversion::Overflow => {
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

impl From<Overflow> for NoConversion {
    fn from(_: Overflow) -> Self {
        NoConversion::Overflow
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
    /// Who asks, for messages.
    pub by: AskedBy,
}

impl<'a> Wanted<'a> {
    /// A quantity as purchased, without a preparation.
    pub fn as_purchased(quantity: &'a Measured, name: &'a str) -> Self {
        Wanted { quantity, prep: None, basis: Basis::Ap, name, by: AskedBy::Recipe }
    }
}

/// Who asks for a quantity: for messages.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AskedBy {
    /// Whoever makes something: a line of a recipe, a yield test, a dish.
    Recipe,
    /// Whoever counts what there is.
    Stock,
}

/// Converts `wanted` to base units of `target`.
///
/// # Errors
/// A [`NoConversion`] that says what is missing or ambiguous.
pub fn convert(
    wanted: Wanted<'_>,
    target: &BaseUnitKind,
    links: &Links,
    volumes: Volumes,
) -> Result<Converted, NoConversion> {
    let (kind, factor) = BaseUnitKind::of(&wanted.quantity.unit, volumes);
    let amount = Amount::of(exact::mul(wanted.quantity.amount, factor)?);
    let mut at = Converted { amount, basis: wanted.basis, crossing: Crossing::None, through: Vec::new() };
    if kind == *target {
        return Ok(at);
    }
    let ServingMeasures { links: mut usable, unclear } = choose(links, wanted, volumes);
    // What is not clear stands in the way of what it joins.
    usable.extend(unclear.iter().map(|(link, _)| *link));
    usable.put_in_order_by(|a, b| (ends(a), a.basis).cmp(&(ends(b), b.basis)));
    let own: Vec<&Link> = usable.iter().copied().filter(|link| link.is_own()).collect();
    let cans = links.published([&kind, target]);
    let from = (&kind, wanted.basis);
    let found = path(&own, from, target).or_else(|| {
        // What could not be read might be the very measure that is missing.
        if links.broken {
            return None;
        }
        path(&usable, from, target).or_else(|| {
            let all: Vec<&Link> = usable.iter().copied().chain(&cans).collect();
            path(&all, from, target)
        })
    });
    let is_on_the_way = |link: &Link| found.iter().flatten().any(|(step, _)| std::ptr::eq(*step, link));
    let in_the_way = unclear.iter().find(|(link, _)| found.is_none() || is_on_the_way(link));
    if let Some((_, fault)) = in_the_way {
        return Err(NoConversion::Fault(fault.clone()));
    }
    let Some(found) = found else {
        return Err(if links.broken {
            NoConversion::Known
        } else {
            let weighed = |from: &BaseUnitKind| {
                let ways = [BaseUnitKind::Mass, BaseUnitKind::Volume];
                ways.iter().any(|to| from == to || path(&usable, (from, wanted.basis), to).is_some())
            };
            // A volume meets what is counted through a weight.
            let asked = match kind {
                BaseUnitKind::Volume => path(&usable, (&kind, wanted.basis), &BaseUnitKind::Mass).is_some(),
                _ => weighed(&kind),
            };
            let joined = Joined { asked, sold: weighed(target) };
            NoConversion::Fault(missing(wanted, &kind, target, joined, volumes))
        });
    };
    for (link, forward) in found {
        let Some(other) = link.other.as_ref().filter(|_| !link.faulty) else { return Err(NoConversion::Known) };
        let (from, to) = if forward { (&link.one, other) } else { (other, &link.one) };
        at.amount = at.amount.times(to.1)?.over(from.1)?;
        let (basis, crossing) = across((&from.0, at.basis), link.basis, &to.0);
        at.basis = basis;
        at.crossing = if crossing == Crossing::None { at.crossing } else { crossing };
        at.through.push(link.from);
    }
    if wanted.basis == Basis::Ap && at.basis == Basis::Ep {
        (at.basis, at.crossing) = (Basis::Ap, Crossing::Over);
    }
    Ok(at)
}

/// The basis on which something stands once a measure of `basis` made another kind of it.
fn across((from, at): (&BaseUnitKind, Basis), basis: Basis, to: &BaseUnitKind) -> (Basis, Crossing) {
    match (basis, at) {
        (Basis::Ap, _) => (at, Crossing::None),
        // An edible measure joins pieces as purchased to what is usable of them.
        (Basis::Ep, _) if to.is_counted() && from.is_counted() => (at, Crossing::None),
        (Basis::Ep, Basis::Ap) if to.is_counted() => (Basis::Ap, Crossing::Times),
        (Basis::Ep, Basis::Ep) if to.is_counted() => (Basis::Ap, Crossing::None),
        (Basis::Ep, Basis::Ap) if *from == BaseUnitKind::Mass => (at, Crossing::None),
        (Basis::Ep, _) => (Basis::Ep, Crossing::None),
    }
}

/// Measures to pass through, each with its direction.
type Steps<'a> = Vec<(&'a Link, bool)>;

/// The shortest way from `from` to `to`, each step with its direction. Of two measures that join the same kinds the one on
/// the basis that is reached serves.
fn path<'a>(links: &[&'a Link], (from, basis): (&BaseUnitKind, Basis), to: &BaseUnitKind) -> Option<Steps<'a>> {
    /// Cup to grams to each, and one more for a named count at either end.
    const MOST_STEPS: usize = 3;
    let mut frontier: Vec<(BaseUnitKind, Basis, Steps<'a>)> = vec![(from.clone(), basis, Vec::new())];
    for _ in 0..MOST_STEPS {
        let mut next = Vec::new();
        for (kind, basis, steps) in &frontier {
            for link in links {
                let has_own = |other: &&Link| ends(other) == ends(link) && other.basis == *basis;
                if link.basis != *basis && links.iter().any(has_own) {
                    continue;
                }
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
                next.push((reached.clone(), across((kind, *basis), link.basis, reached).0, steps));
            }
        }
        frontier = next;
    }
    None
}

//! Choice among a food's measures for a line: of several that join the same two kinds, by the preparation, the basis
//! and the unit that are asked for.
//!
//! Takes [`Links`] and what is wanted; gives for every pair of kinds the link of each basis, or what to say where it is not
//! clear which is meant. The order of rows says nothing.

use std::cmp::Reverse;

use super::convert::Wanted;
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::equivalence::{Link, Links, MeasureFrom};
use crate::costing::conversion::no_conversion::{which, which_borrowed};
use crate::in_order::InOrder;
use crate::kitchen::NameKey;
use crate::kitchen::bridge::Basis;
use crate::measure::Volumes;
use crate::number::{Decimal, exact};
use crate::problem::Fault;

/// The links that serve what is asked for.
pub(crate) struct ServingMeasures<'a> {
    /// In an order that rows do not decide.
    pub(crate) links: Vec<&'a Link>,
    /// Of kinds that end where the quantity begins, and have a measure for several preparations none of which is asked
    /// for: one of them, and what to say where it is in the way.
    pub(crate) unclear: Vec<(&'a Link, Fault)>,
}

/// The links that serve what is asked for, in an order that rows do not decide: the kitchen's before borrowed ones, what the
/// pack counts before what Measures say of a piece as purchased, the preparation's own before those without one.
pub(crate) fn choose<'a>(links: &'a Links, wanted: Wanted<'_>, volumes: Volumes) -> ServingMeasures<'a> {
    let mut chosen: Vec<&Link> = Vec::new();
    let mut unclear: Vec<(&Link, Fault)> = Vec::new();
    let mut done: Vec<(&BaseUnitKind, Option<&BaseUnitKind>)> = Vec::new();
    for link in &links.links {
        let pair = ends(link);
        if done.contains(&pair) {
            continue;
        }
        done.push(pair);
        let mut group: Vec<&Link> = links.links.iter().filter(|other| ends(other) == pair).collect();
        if group.iter().any(|link| !link.is_borrowed()) {
            group.retain(|link| !link.is_borrowed());
        }
        // What is weighed by itself stands before what the whole batch says.
        if group.iter().any(|link| matches!(link.from, MeasureFrom::Row(_))) {
            group.retain(|link| link.from != MeasureFrom::Makes);
        }
        let counts = group.iter().any(|link| matches!(link.from, MeasureFrom::Pack(_)));
        group.retain(|link| !counts || link.basis == Basis::Ep || matches!(link.from, MeasureFrom::Pack(_)));
        let asking = Asking { wanted, volumes, group: &group, links };
        let serving = [Basis::Ap, Basis::Ep].map(|basis| asking.of_basis(basis));
        if serving.iter().any(Option::is_some) {
            chosen.extend(serving.into_iter().flatten());
        } else {
            match asking.of_a_preparation(link) {
                Ok(of_it) => chosen.extend(of_it),
                Err(of_each) => unclear.extend(of_each),
            }
        }
    }
    chosen.put_in_order_by(|a, b| (ends(a), a.basis).cmp(&(ends(b), b.basis)));
    ServingMeasures { links: chosen, unclear }
}

/// The two kinds that a link joins.
pub(crate) fn ends(link: &Link) -> (&BaseUnitKind, Option<&BaseUnitKind>) {
    (&link.one.0, link.other.as_ref().map(|other| &other.0))
}

/// What is asked of the links that join two kinds.
struct Asking<'a, 'b> {
    wanted: Wanted<'b>,
    volumes: Volumes,
    group: &'b [&'a Link],
    links: &'a Links,
}

impl<'a> Asking<'a, '_> {
    /// The link of this basis for the preparation asked for, else without one.
    fn of_basis(&self, basis: Basis) -> Option<&'a Link> {
        let named = |key: Option<&NameKey>| -> Vec<&'a Link> {
            let is =
                |link: &&Link| link.basis == basis && !is_test(link) && link.prep.as_ref().map(|(prep, _)| prep) == key;
            self.group.iter().copied().filter(is).collect()
        };
        let asked = self.wanted.prep.and_then(|prep| self.nearest(&named(Some(prep))));
        let stated = asked.or_else(|| self.nearest(&named(None)));
        stated.or_else(|| self.group.iter().copied().find(|link| link.basis == basis && is_test(link)))
    }

    /// Where all hold for preparations that are not asked for: the only one there is, where none is asked for.
    ///
    /// # Errors
    /// One of each basis, and what to say, where several serve what is asked for equally.
    fn of_a_preparation(&self, link: &'a Link) -> Result<Vec<&'a Link>, Vec<(&'a Link, Fault)>> {
        let mut preps: Vec<&NameKey> = Vec::new();
        for (prep, _) in self.group.iter().filter_map(|link| link.prep.as_ref()) {
            if !preps.contains(&prep) {
                preps.push(prep);
            }
        }
        let of = |prep: &NameKey, basis: Basis| -> Vec<&'a Link> {
            let is = |link: &&Link| link.basis == basis && link.prep.as_ref().is_some_and(|(key, _)| key == prep);
            self.group.iter().copied().filter(is).collect()
        };
        let each: Vec<[Option<&Link>; 2]> =
            preps.into_iter().map(|prep| [Basis::Ap, Basis::Ep].map(|basis| self.nearest(&of(prep, basis)))).collect();
        let is_borrowed = link.is_borrowed();
        let firsts: Vec<&Link> = each.iter().filter_map(|bases| bases.iter().copied().flatten().next()).collect();
        match each.as_slice() {
            [only] if is_borrowed || self.wanted.prep.is_none() => Ok(only.iter().copied().flatten().collect()),
            [first, ..] if is_borrowed && are_alike(&firsts) => Ok(first.iter().copied().flatten().collect()),
            _ if !self.involves(link) => Ok(Vec::new()),
            _ => {
                let fault = if is_borrowed {
                    which_borrowed(self.wanted, &firsts)
                } else {
                    which(self.wanted, &firsts, self.links.preps(ends(link), firsts.len()))
                };
                let of_basis = |basis| self.group.iter().copied().find(|link: &&Link| link.basis == basis);
                let of_each = [Basis::Ap, Basis::Ep].into_iter().filter_map(of_basis);
                Err(of_each.map(|link| (link, fault.clone())).collect())
            }
        }
    }

    /// The link in the very unit asked for, else the nearest to it by size, of two the larger; the largest where what is
    /// asked for is of another kind.
    fn nearest(&self, serving: &[&'a Link]) -> Option<&'a Link> {
        let (kind, asked) = BaseUnitKind::of(&self.wanted.quantity.unit, self.volumes);
        let far = |link: &Link| {
            let size = link.one.1;
            if link.unit.as_ref() == Some(&self.wanted.quantity.unit) {
                Decimal::ZERO
            } else if link.one.0 != kind || link.is_borrowed() {
                Decimal::MAX
            } else {
                exact::div(size.max(asked), size.min(asked)).unwrap_or(Decimal::MAX)
            }
        };
        // Of borrowed ones the first: their table says which is usual.
        let size = |link: &Link| if link.is_borrowed() { Decimal::ZERO } else { link.one.1 };
        serving.iter().copied().min_by_key(|link| (far(link), Reverse(size(link)), !link.faulty))
    }

    /// Whether a link ends at the kind that is asked for.
    fn involves(&self, link: &Link) -> bool {
        let (kind, _) = BaseUnitKind::of(&self.wanted.quantity.unit, self.volumes);
        link.one.0 == kind || link.other.as_ref().is_some_and(|other| other.0 == kind)
    }
}

/// Whether it is what a yield test's pieces weigh, which stands behind what is stated.
fn is_test(link: &Link) -> bool {
    matches!(link.from, MeasureFrom::TestRow(_))
}

/// Whether none weighs much more than another.
fn are_alike(links: &[&Link]) -> bool {
    let size = |link: &&Link| exact::div(link.other.as_ref()?.1, link.one.1).ok();
    let Some(sizes) = links.iter().map(size).collect::<Option<Vec<Decimal>>>() else { return false };
    let (Some(least), Some(most)) = (sizes.iter().min(), sizes.iter().max()) else { return false };
    exact::is_near(*least, *most)
}

//! Equivalence of two kinds of measure for one food, and all of them together.
//!
//! Takes the kitchen's measures, packs, batches, cans and built-in foods; gives [`Links`] for a conversion to walk.

use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::equivalences_of_food;
use crate::food::FoodMeasure;
use crate::kitchen::bridge::{Basis, Bridge, Measure};
use crate::kitchen::price::CountedIn;
use crate::kitchen::{NameKey, Reference};
use crate::measure::{Base, CanFigure, Dimension, Measured, Pack, Unit, Volumes, published};
use crate::number::{Decimal, exact};

/// Where a measure comes from, the most certain first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum MeasureFrom {
    /// A row of the measures table, as an index into the entries.
    Row(usize),
    /// What a recipe makes in two measures.
    Makes,
    /// Pieces that a yield test counted and weighed as they went in, as an index into the entries.
    TestRow(usize),
    /// The pack of a price row, as an index into the entries.
    Pack(usize),
    /// What a can of this size is published to hold.
    Can(CanFigure),
    /// A measure of a built-in food.
    Reference(FoodMeasure),
}

/// What joins two kinds for one food.
#[derive(Debug, Clone)]
pub(crate) struct Link {
    /// One end, in base units.
    pub(crate) one: (BaseUnitKind, Decimal),
    /// The other end; `None` when not even its kind could be read.
    pub(crate) other: Option<(BaseUnitKind, Decimal)>,
    /// Whether a reported problem leaves its size unknown, so that it stops what would use it.
    pub(crate) faulty: bool,
    /// The preparation for which it holds, and how it was written.
    pub(crate) prep: Option<(NameKey, String)>,
    /// The unit as the measure names it.
    pub(crate) unit: Option<Unit>,
    /// What the measure weighs.
    pub(crate) basis: Basis,
    /// Where it comes from.
    pub(crate) from: MeasureFrom,
}

impl Link {
    /// What a measure of the kitchen's own joins.
    pub(crate) fn of(measure: &Measure, volumes: Volumes) -> Self {
        let one = BaseUnitKind::of(&measure.unit, volumes);
        let known = measure.equals.as_ref().and_then(|equals| in_base(equals, volumes));
        let other = known.clone().or_else(|| match measure.says? {
            Dimension::Mass => Some((BaseUnitKind::Mass, Decimal::ONE)),
            Dimension::Volume => Some((BaseUnitKind::Volume, Decimal::ONE)),
            Dimension::Count => None,
        });
        let (one, other) = match other {
            Some(other) => ordered(one, other),
            None => (one, None),
        };
        Link {
            one,
            other,
            faulty: known.is_none(),
            prep: measure.prep.clone().map(|prep| (prep, measure.prep_text.clone())),
            unit: Some(measure.unit.clone()),
            basis: measure.basis,
            from: MeasureFrom::Row(measure.row),
        }
    }

    /// Whether the kitchen says it: a Measures row, a pack, a batch, or pieces that were weighed.
    pub(crate) fn is_own(&self) -> bool {
        !matches!(self.from, MeasureFrom::Can(_) | MeasureFrom::Reference(_))
    }

    /// Whether it is a measure of a built-in food.
    pub(crate) fn is_borrowed(&self) -> bool {
        matches!(self.from, MeasureFrom::Reference(_))
    }
}

/// Everything that joins kinds for one food.
#[derive(Debug, Clone, Default)]
pub struct Links {
    pub(crate) links: Vec<Link>,
    /// Whether a measure could not be read at all.
    pub(crate) broken: bool,
    bought: bool,
    /// How many preparations there are where not all are among the links, by what they join.
    preps: Vec<((BaseUnitKind, Option<BaseUnitKind>), usize)>,
}

/// What measures are asked for.
#[derive(Debug, Clone, Copy)]
pub(crate) struct AskedOf<'a> {
    /// The unit of the quantity, and one of the kind wanted.
    pub(crate) units: [&'a Unit; 2],
    /// The preparation asked for.
    pub(crate) prep: Option<&'a NameKey>,
    /// What a cup holds.
    pub(crate) volumes: Volumes,
}

impl Links {
    /// Adds the food's own measures that what is asked may go through.
    pub fn measures(&mut self, bridge: &Bridge, asked: AskedOf<'_>) -> &mut Self {
        self.broken |= bridge.broken;
        for measure in bridge.asked(asked.units, asked.prep, asked.volumes) {
            let link = Link::of(measure, asked.volumes);
            if let Some(preps) = bridge.preps(&measure.unit, measure.says) {
                let ends = (link.one.0.clone(), link.other.as_ref().map(|other| other.0.clone()));
                match self.preps.iter_mut().find(|(known, _)| *known == ends) {
                    Some((_, most)) => *most = preps.max(*most),
                    None => self.preps.push((ends, preps)),
                }
            }
            self.links.push(link);
        }
        self
    }

    /// How many preparations the measures are for that join two kinds, of which `among` are among the links.
    pub(crate) fn preps(&self, (one, other): (&BaseUnitKind, Option<&BaseUnitKind>), among: usize) -> usize {
        let is = |ends: &(BaseUnitKind, Option<BaseUnitKind>)| ends.0 == *one && ends.1.as_ref() == other;
        self.preps.iter().find(|(ends, _)| is(ends)).map_or(among, |(_, preps)| among.max(*preps))
    }

    /// Adds what pieces weigh that a yield test counted as they went in.
    pub(crate) fn counted(&mut self, counted: Option<CountedIn>) -> &mut Self {
        if let Some(CountedIn { count, grams, row }) = counted {
            self.push_plain((BaseUnitKind::Each, count), (BaseUnitKind::Mass, grams), MeasureFrom::TestRow(row));
        }
        self
    }

    /// Adds what a pack says when it names both a count and a weight or volume. A nominal one joins nothing.
    pub fn pack(&mut self, pack: &Pack, row: usize, volumes: Volumes) -> &mut Self {
        if !pack.nominal
            && let (Some(pieces), Some(content)) = (&pack.pieces, &pack.content)
            && let (Some(one), Some(other)) = (in_base(pieces, volumes), in_base(content, volumes))
        {
            self.push_plain(one, other, MeasureFrom::Pack(row));
        }
        self
    }

    /// Adds what a package word of `unit` means of a pack.
    pub(crate) fn packages(&mut self, pack: &Pack, unit: &Unit, row: usize, volumes: Volumes) -> &mut Self {
        if let Some((count, all)) = pack.packages(unit)
            && let Some(other) = in_base(&all, volumes)
        {
            self.push_plain((BaseUnitKind::of(unit, volumes).0, count), other, MeasureFrom::Pack(row));
        }
        self
    }

    /// Lets cans of a numbered size serve by their published figures where nothing else leads on: for what is bought.
    pub fn cans(&mut self) -> &mut Self {
        self.bought = true;
        self
    }

    /// What the cans among these links and in `wanted` are published to hold, where that may serve.
    pub(crate) fn published(&self, kinds: [&BaseUnitKind; 2]) -> Vec<Link> {
        let others = self.links.iter().flat_map(|link| [Some(&link.one.0), link.other.as_ref().map(|other| &other.0)]);
        let mut cans: Vec<&str> = Vec::new();
        for kind in others.flatten().chain(kinds).filter(|_| self.bought) {
            if let BaseUnitKind::Own(name) = kind
                && !cans.contains(&&**name)
            {
                cans.push(name);
            }
        }
        cans.iter().flat_map(|can| published(&Unit::Own((*can).into()))).filter_map(of_can).collect()
    }

    /// Adds what a recipe makes when it is known in two measures.
    pub fn makes(&mut self, makes: &[Measured], volumes: Volumes) -> &mut Self {
        if let [first, second, ..] = makes
            && let (Some(one), Some(other)) = (in_base(first, volumes), in_base(second, volumes))
        {
            self.push_plain(one, other, MeasureFrom::Makes);
        }
        self
    }

    /// Adds the measures of a built-in food.
    pub fn reference(&mut self, reference: Reference) -> &mut Self {
        self.links.extend(equivalences_of_food::by(reference).iter().cloned());
        self
    }

    /// These without the measures of built-in foods.
    pub(crate) fn without_borrowed(&self) -> Self {
        let links = self.links.iter().filter(|link| !link.is_borrowed()).cloned().collect();
        Links { links, ..self.clone() }
    }

    fn push_plain(&mut self, one: (BaseUnitKind, Decimal), other: (BaseUnitKind, Decimal), from: MeasureFrom) {
        let (one, other) = ordered(one, other);
        self.links.push(Link { one, other, faulty: false, prep: None, unit: None, basis: Basis::Ap, from });
    }
}

/// The two ends with the weight behind, or else the volume: a pound that holds two cups and a cup that weighs eight ounces
/// join the same kinds.
fn ordered(
    one: (BaseUnitKind, Decimal),
    other: (BaseUnitKind, Decimal),
) -> ((BaseUnitKind, Decimal), Option<(BaseUnitKind, Decimal)>) {
    if one.0 < other.0 { (other, Some(one)) } else { (one, Some(other)) }
}

fn in_base(measured: &Measured, volumes: Volumes) -> Option<(BaseUnitKind, Decimal)> {
    let (kind, factor) = BaseUnitKind::of(&measured.unit, volumes);
    let amount = exact::mul(measured.amount, factor).ok()?;
    (amount > Decimal::ZERO).then_some((kind, amount))
}

fn of_can(figure: CanFigure) -> Option<Link> {
    let (base, size) = figure.in_base()?;
    let kind = match base {
        Base::Gram => BaseUnitKind::Mass,
        Base::Millilitre => BaseUnitKind::Volume,
        Base::Each => BaseUnitKind::Each,
    };
    Some(Link {
        one: (BaseUnitKind::of(&figure.can(), Volumes::Us).0, Decimal::ONE),
        other: Some((kind, size)),
        faulty: false,
        prep: None,
        unit: None,
        basis: Basis::Ap,
        from: MeasureFrom::Can(figure),
    })
}

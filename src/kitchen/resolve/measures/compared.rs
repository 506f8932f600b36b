//! The measures of one food held against each other: two rows for one measure, and volumes that do not go together.
//!
//! Takes a food's measures; marks those of which two rows say different things, so that only lines that use them stop.

use std::collections::{HashMap, HashSet};

use crate::in_order::InOrder;
use crate::kitchen::bridge::{Basis, Bridge, Measure};
use crate::kitchen::{Entries, NameKey};
use crate::measure::{Base, Dimension, Measured, Unit, Volumes};
use crate::number::{Decimal, exact};
use crate::problem::{Code, Fault, Problem, THERE};
use crate::schema::Column;

/// A size that two units of one measure share: grams, millilitres or pieces, or the name of a count of its own.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
enum ComparedSize<'a> {
    Of(Base, Decimal),
    Own(&'a str),
}

/// What measures that are held against each other have in common.
type MeasureGroup<'a> = (Option<&'a NameKey>, Basis, Option<Dimension>);

/// A measure with what a gram, millilitre or piece of it holds or weighs.
#[derive(Clone, Copy)]
struct WeighedMeasure<'a> {
    density: Decimal,
    /// The size of its unit.
    size: Decimal,
    measure: &'a Measure,
}

/// The densest and the least dense of the measures of a group, each with the next that has a unit of another size: what
/// is near all four is near all.
#[derive(Default)]
struct Densities<'a> {
    least: Vec<WeighedMeasure<'a>>,
    most: Vec<WeighedMeasure<'a>>,
}

impl<'a> Densities<'a> {
    /// The first measure in another unit that for the same amount weighs more than a tenth more or less.
    fn far_from(&self, later: &WeighedMeasure<'_>) -> Option<&'a Measure> {
        let ends = self.least.iter().chain(&self.most);
        let far = ends.filter(|end| end.size != later.size && !exact::is_near(end.density, later.density));
        far.map(|end| end.measure).min_by_key(|measure| measure.row)
    }

    fn add(&mut self, weighed: WeighedMeasure<'a>) {
        keep(&mut self.least, weighed, |one, other| one.density < other.density);
        keep(&mut self.most, weighed, |one, other| one.density > other.density);
    }
}

/// Keeps the foremost two that have units of different sizes.
fn keep<'a>(
    ends: &mut Vec<WeighedMeasure<'a>>,
    weighed: WeighedMeasure<'a>,
    before: fn(&WeighedMeasure<'a>, &WeighedMeasure<'a>) -> bool,
) {
    match ends.iter_mut().find(|end| end.size == weighed.size) {
        Some(end) if before(&weighed, end) => *end = weighed,
        Some(_) => {}
        None => ends.push(weighed),
    }
    ends.put_in_order_by(|one, other| before(other, one).cmp(&before(one, other)));
    ends.truncate(2);
}

/// What measures are held against, and what was said.
pub(super) struct ComparedMeasures<'a> {
    pub(super) entries: &'a Entries,
    pub(super) volumes: Volumes,
    pub(super) problems: &'a mut Vec<Problem>,
    /// Pairs of rows that were told: one row may be hung on an item and on a recipe.
    pub(super) told: HashSet<(usize, usize)>,
}

impl ComparedMeasures<'_> {
    /// Compares the measures of a food.
    pub(super) fn all(&mut self, name: &str, bridge: &mut Bridge) {
        /// So many are compared each with each, so that the order of their rows says nothing. More has no kitchen.
        const FEW: usize = 50;
        let unclear = if bridge.measures.len() <= FEW {
            self.each_with_each(name, bridge)
        } else {
            self.with_firsts(name, bridge)
        };
        for measure in bridge.measures.iter_mut().filter(|measure| unclear.contains(&measure.row)) {
            measure.equals = None;
        }
    }

    /// Compares every two measures; gives the rows of those that are unclear.
    fn each_with_each(&mut self, name: &str, bridge: &Bridge) -> HashSet<usize> {
        let mut unclear: HashSet<usize> = HashSet::new();
        for (at, later) in bridge.measures.iter().enumerate() {
            for earlier in bridge.measures.iter().take(at) {
                let is_pair = earlier.row != later.row
                    && earlier.prep == later.prep
                    && earlier.basis == later.basis
                    && earlier.says == later.says;
                let (Some(one), Some(other), true) = (&earlier.equals, &later.equals, is_pair) else { continue };
                if self.size(&earlier.unit) == self.size(&later.unit) {
                    if self.size_of(one) != self.size_of(other) {
                        unclear.extend([earlier.row, later.row]);
                        self.tell((earlier, later), |does| twice(name, (earlier, one), other, does));
                    }
                } else if self.are_far(&earlier.unit, one, &later.unit, other) {
                    let (one, other) = ((&earlier.unit, one), (&later.unit, other));
                    self.tell((earlier, later), |does| disagree(name, one, other, does));
                }
            }
        }
        unclear
    }

    /// Compares each measure with the first that says something else, which takes no longer than there are of them; gives the
    /// rows of those that are unclear.
    fn with_firsts(&mut self, name: &str, bridge: &Bridge) -> HashSet<usize> {
        let mut unclear: HashSet<usize> = HashSet::new();
        let mut same: HashMap<(MeasureGroup<'_>, ComparedSize<'_>), Vec<&Measure>> = HashMap::new();
        let mut alike: HashMap<(MeasureGroup<'_>, Base), Densities<'_>> = HashMap::new();
        for later in &bridge.measures {
            let Some(equals) = &later.equals else { continue };
            let group = (later.prep.as_ref(), later.basis, later.says);
            let size = self.size(&later.unit);
            // The first of the measure, and the first that says something else than that.
            let firsts = same.entry((group, size)).or_default();
            let says = |measure: &Measure| measure.equals.as_ref().map(|equals| self.size_of(equals));
            let earlier = firsts.iter().copied().find(|first| says(first) != Some(self.size_of(equals)));
            if firsts.is_empty() || (firsts.len() == 1 && earlier.is_some()) {
                firsts.push(later);
            }
            if let Some(earlier) = earlier.filter(|earlier| earlier.row != later.row)
                && let Some(one) = &earlier.equals
            {
                unclear.extend([earlier.row, later.row]);
                self.tell((earlier, later), |does| twice(name, (earlier, one), equals, does));
            }
            let ComparedSize::Of(base, size) = size else { continue };
            let density = self.size_of(equals).and_then(|amount| exact::div(amount, size).ok());
            let (Some(density), true) = (density, base.dimension() != Dimension::Mass) else { continue };
            let densities = alike.entry((group, base)).or_default();
            let weighed = WeighedMeasure { density, size, measure: later };
            if let Some(earlier) = densities.far_from(&weighed)
                && let Some(one) = &earlier.equals
            {
                let (one, other) = ((&earlier.unit, one), (&later.unit, equals));
                self.tell((earlier, later), |does| disagree(name, one, other, does));
            }
            densities.add(weighed);
        }
        unclear
    }

    fn size<'b>(&self, unit: &'b Unit) -> ComparedSize<'b> {
        match (unit.to_base(self.volumes), unit) {
            (Some((base, size)), _) => ComparedSize::Of(base, size),
            (None, Unit::Own(name)) => ComparedSize::Own(name),
            (None, Unit::Standard(_)) => ComparedSize::Own(""),
        }
    }

    fn size_of(&self, measured: &Measured) -> Option<Decimal> {
        measured.in_base(self.volumes).ok().flatten().map(|(_, amount)| amount)
    }

    /// Whether two volumes, or two counts, of one food weigh what cannot be true of both, by more than a tenth.
    fn are_far(&self, unit: &Unit, equals: &Measured, other: &Unit, also: &Measured) -> bool {
        let (ComparedSize::Of(base, size), ComparedSize::Of(kind, length)) = (self.size(unit), self.size(other)) else {
            return false;
        };
        if base != kind || base.dimension() == Dimension::Mass {
            return false;
        }
        let density = |equals, size| exact::div(self.size_of(equals)?, size).ok();
        density(equals, size).zip(density(also, length)).is_some_and(|(one, two)| !exact::is_near(one, two))
    }

    /// Says what is wrong with two rows, at the later one.
    fn tell(&mut self, (earlier, later): (&Measure, &Measure), fault: impl Fn(&str) -> Fault) {
        if !self.told.insert((earlier.row, later.row)) {
            return;
        }
        let row = |index: usize| self.entries.measures.get(index);
        let (Some(first), Some(second)) = (row(earlier.row), row(later.row)) else { return };
        let column = if later.says == Some(Dimension::Volume) { Column::Holds } else { Column::Weighs };
        let there = first.input.place(column);
        let does = if column == Column::Holds { "holds" } else { "weighs" };
        self.problems.push(fault(does).speaking_of(there).at(second.input.place(column)));
    }
}

fn twice(name: &str, (measure, one): (&Measure, &Measured), other: &Measured, does: &str) -> Fault {
    let prep = if measure.prep.is_some() { format!(", {}", measure.prep_text) } else { String::new() };
    Fault::new(
        Code::MeasureTwice,
        format!("1 {}{prep} of “{name}” {does} {other} here and {one} at {THERE}", measure.unit.name()),
        "Keep one of the two rows, or tell them apart: by a preparation behind a comma, or by Basis, where one is of the \
         food as purchased and the other of its edible portion.",
    )
}

fn disagree(name: &str, one: (&Unit, &Measured), other: (&Unit, &Measured), does: &str) -> Fault {
    Fault::new(
        Code::MeasuresDisagree,
        format!(
            "1 {} of “{name}” {does} {} here and 1 {} {} at {THERE}: for the same amount more than 10 % apart",
            other.0.name(),
            other.1,
            one.0.name(),
            one.1
        ),
        "Weigh again. Until then a line takes the row in its own unit, or else the nearest.",
    )
}

//! Measure index: where one food's measures are, by what they measure and for which preparation, where there are too
//! many to look through them all for every line.
//!
//! Takes the measures; gives those that a quantity may go through. What it leaves out would not be chosen.

use std::collections::{BTreeMap, HashMap, HashSet};

use super::NameKey;
use super::bridge::{Basis, Measure};
use crate::in_order::InOrder;
use crate::measure::{Dimension, Unit, Volumes};
use crate::number::Decimal;

/// So many are looked through each time: no kitchen weighs one food in more ways.
pub(super) const FEW: usize = 50;
/// As many preparations of a measure are looked at where a line asks for none of them: one more than is listed.
const PREPS: usize = 7;
/// As many measures of the kitchen's own are tried on a way from a weight to a volume, the first by name.
const DETOURS: usize = 8;

/// What units measure that convert into one another.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(super) enum Measures {
    Of(Dimension),
    Own(Box<str>),
}

impl Measures {
    const STANDARD: [Measures; 3] =
        [Measures::Of(Dimension::Mass), Measures::Of(Dimension::Volume), Measures::Of(Dimension::Count)];

    pub(super) fn by(unit: &Unit) -> Self {
        match unit {
            Unit::Standard(standard) => Measures::Of(standard.dimension()),
            Unit::Own(name) => Measures::Own(name.clone()),
        }
    }
}

/// Where the measures of a food are.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct MeasureIndex {
    /// One of each unit, by what it measures, its preparation, its basis and what it equals; with its size, by that.
    by: HashMap<Measures, HashMap<Serves, Vec<(Decimal, usize)>>>,
    /// Those of the first few preparations.
    first_preps: HashMap<Measures, Vec<usize>>,
    /// How many preparations there are, by what is measured and what it equals.
    preps: HashMap<(Measures, Option<Dimension>), usize>,
    /// Own measures that are known by weight and by volume: for a preparation, and for whoever asks for none.
    detours: HashMap<NameKey, Vec<Measures>>,
    detours_for_all: Vec<Measures>,
    detours_for_none: Vec<Measures>,
    units: HashSet<Unit>,
    edible: HashSet<Measures>,
    pub(super) has_edible_piece: bool,
}

/// The preparation and basis that a measure serves, and whether it weighs or holds.
type Serves = (Option<NameKey>, Basis, Option<Dimension>);

/// What rows for one and the same measure share.
type MeasuredAs<'a> = (&'a Unit, Option<&'a NameKey>, Basis, Option<Dimension>);

/// The preparations that one of a measure is weighed for, in book order, and their measures.
type ByPrep = Vec<(Option<NameKey>, Vec<usize>)>;

impl MeasureIndex {
    pub(super) fn of(measures: &[Measure], volumes: Volumes) -> Self {
        let mut index = MeasureIndex::default();
        let mut kept: HashMap<MeasuredAs<'_>, usize> = HashMap::new();
        for (at, measure) in measures.iter().enumerate() {
            let key = (&measure.unit, measure.prep.as_ref(), measure.basis, measure.says);
            let one = kept.entry(key).or_insert(at);
            // Of rows for one measure, that stands in the way which cannot be relied on.
            if measure.equals.is_none() && measures.get(*one).is_some_and(|first| first.equals.is_some()) {
                *one = at;
            }
            index.units.insert(measure.unit.clone());
            if measure.basis == Basis::Ep {
                index.has_edible_piece |= measure.unit.is_count_like();
                if measure.says.is_some() {
                    index.edible.insert(Measures::by(&measure.unit));
                }
            }
        }
        let mut kept: Vec<usize> = kept.into_values().collect();
        kept.put_in_order();
        let mut equal: BTreeMap<(Measures, Option<Dimension>), ByPrep> = BTreeMap::new();
        let mut place: HashMap<(Measures, Option<Dimension>, Option<NameKey>), usize> = HashMap::new();
        for at in kept {
            let Some(measure) = measures.get(at) else { continue };
            let by = Measures::by(&measure.unit);
            let serves = (measure.prep.clone(), measure.basis, measure.says);
            let size = measure.unit.to_base(volumes).map_or(Decimal::ONE, |(_, size)| size);
            index.by.entry(by.clone()).or_default().entry(serves).or_default().push((size, at));
            let group = equal.entry((by.clone(), measure.says)).or_default();
            let place = place.entry((by, measure.says, measure.prep.clone())).or_insert_with(|| {
                group.push((measure.prep.clone(), Vec::new()));
                group.len().saturating_sub(1)
            });
            if let Some((_, of_prep)) = group.get_mut(*place) {
                of_prep.push(at);
            }
        }
        for ((by, says), group) in &equal {
            let preps = group.iter().filter(|(prep, _)| prep.is_some());
            index.preps.insert((by.clone(), *says), preps.clone().count());
            let first = preps.take(PREPS).flat_map(|(_, of_prep)| of_prep);
            index.first_preps.entry(by.clone()).or_default().extend(first);
        }
        index.by.values_mut().flat_map(HashMap::values_mut).for_each(|alike| alike.put_in_order());
        index.find_detours(&equal);
        index
    }

    fn find_detours(&mut self, equal: &BTreeMap<(Measures, Option<Dimension>), ByPrep>) {
        let keep = |list: &mut Vec<Measures>, by: &Measures| {
            if list.len() < DETOURS {
                list.push(by.clone());
            }
        };
        for ((by, says), weighed) in equal {
            let held = equal.get(&(by.clone(), Some(Dimension::Volume)));
            let (Measures::Own(_), Some(Dimension::Mass), Some(held)) = (by, says, held) else { continue };
            let has = |group: &ByPrep, key: Option<&NameKey>| group.iter().any(|(prep, _)| prep.as_ref() == key);
            let plain = [has(weighed, None), has(held, None)];
            if plain == [true, true] {
                keep(&mut self.detours_for_all, by);
            }
            if [weighed, held].into_iter().zip(plain).all(|(group, plain)| plain || group.len() == 1) {
                keep(&mut self.detours_for_none, by);
            }
            let preps =
                |group: &ByPrep| -> HashSet<NameKey> { group.iter().filter_map(|(prep, _)| prep.clone()).collect() };
            let (weighed, held) = (preps(weighed), preps(held));
            for prep in weighed.union(&held) {
                if (plain[0] || weighed.contains(prep)) && (plain[1] || held.contains(prep)) {
                    keep(self.detours.entry(prep.clone()).or_default(), by);
                }
            }
        }
    }

    /// The measures that a quantity in one of `units` may go through on its way to the other, in book order, as indices.
    pub(super) fn asked(&self, units: [&Unit; 2], prep: Option<&NameKey>, volumes: Volumes) -> Vec<usize> {
        const SAYS: [Option<Dimension>; 3] = [None, Some(Dimension::Mass), Some(Dimension::Volume)];
        let detours = match prep {
            Some(prep) => [self.detours.get(prep).map(Vec::as_slice).unwrap_or_default(), &self.detours_for_all],
            None => [self.detours_for_none.as_slice(), &[]],
        };
        let owns = units.map(Measures::by);
        let mut found: Vec<usize> = Vec::new();
        for by in Measures::STANDARD.iter().chain(&owns).chain(detours.into_iter().flatten()) {
            let Some(serving) = self.by.get(by) else { continue };
            let sizes = units.iter().filter(|unit| Measures::by(unit) == *by).filter_map(|unit| unit.to_base(volumes));
            let sizes: Vec<Decimal> = sizes.map(|(_, size)| size).collect();
            for prep in prep.map(|prep| Some(prep.clone())).into_iter().chain([None]) {
                for serves in [Basis::Ap, Basis::Ep].into_iter().flat_map(|basis| SAYS.map(|says| (basis, says))) {
                    let alike = serving.get(&(prep.clone(), serves.0, serves.1)).map(Vec::as_slice).unwrap_or_default();
                    found.extend(near(alike, &sizes));
                }
            }
            found.extend(self.first_preps.get(by).into_iter().flatten());
        }
        found.put_in_order();
        found.dedup();
        found
    }

    /// How many preparations a measure such as `unit` is known for, that weighs or holds.
    pub(super) fn preps(&self, unit: &Unit, says: Option<Dimension>) -> usize {
        self.preps.get(&(Measures::by(unit), says)).copied().unwrap_or_default()
    }

    pub(super) fn knows(&self, unit: &Unit) -> bool {
        self.units.contains(unit)
    }

    pub(super) fn is_edible(&self, unit: &Unit) -> bool {
        self.edible.contains(&Measures::by(unit))
    }
}

/// Of measures by size those that are as large as one of `sizes`, its neighbours, and the largest.
fn near(alike: &[(Decimal, usize)], sizes: &[Decimal]) -> Vec<usize> {
    let around = sizes.iter().flat_map(|asked| {
        let (smaller, rest) = alike.split_at(alike.partition_point(|(size, _)| size < asked));
        let (same, larger) = rest.split_at(rest.partition_point(|(size, _)| size == asked));
        smaller.last().into_iter().chain(same).chain(larger.first())
    });
    around.chain(alike.last()).map(|(_, at)| *at).collect()
}

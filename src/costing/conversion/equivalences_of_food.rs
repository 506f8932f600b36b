//! Equivalences that the built-in foods lend: the measures of each as links, read once in a run.
//!
//! Takes a food; gives links from what a cook measures to grams. The tables never change, so what was read once is kept.

use std::collections::HashMap;
use std::sync::{Arc, LazyLock, PoisonError, RwLock};

use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::equivalence::{Link, MeasureFrom};
use crate::food::{Food, FoodMeasure, MeasureText};
use crate::kitchen::bridge::Basis;
use crate::kitchen::{NameKey, Reference};
use crate::measure::{Unit, Volumes};
use crate::number::{Decimal, exact};

static LENT: LazyLock<RwLock<HashMap<Reference, Arc<[Link]>>>> = LazyLock::new(RwLock::default);

/// The measures of a food: those that count when none is named, then all with their preparations.
pub(crate) fn by(reference: Reference) -> Arc<[Link]> {
    if let Some(known) = LENT.read().unwrap_or_else(PoisonError::into_inner).get(&reference) {
        return Arc::clone(known);
    }
    let read: Arc<[Link]> = read(reference).into();
    LENT.write().unwrap_or_else(PoisonError::into_inner).insert(reference, Arc::clone(&read));
    read
}

fn read(reference: Reference) -> Vec<Link> {
    let mut links = Vec::new();
    let measures: Vec<(FoodMeasure, MeasureText)> =
        reference.food().into_iter().flat_map(Food::measures).map(|measure| (measure, measure.read())).collect();
    if let Reference::Kitchen(food) = reference {
        let counting: Vec<FoodMeasure> = food.measures().collect();
        let whole = |(measure, reading): &&(FoodMeasure, MeasureText)| food.is_whole(*measure, reading);
        for one in measures.iter().filter(|(measure, _)| counting.contains(measure)) {
            borrow(&mut links, one, &one.1.unit, None);
            if whole(&one) {
                borrow(&mut links, one, &Unit::each(), None);
            }
        }
        // `3 each`, Prep large.
        for (one, size) in measures.iter().filter_map(|one| Some((one, one.1.size()?))).filter(|(one, _)| whole(one)) {
            borrow(&mut links, one, &Unit::each(), Some(size));
        }
    }
    for one in &measures {
        if one.1.preps.is_empty() {
            borrow(&mut links, one, &one.1.unit, None);
        }
        for prep in &one.1.preps {
            borrow(&mut links, one, &one.1.unit, Some(prep));
        }
    }
    links
}

/// Adds a measure of a built-in food. Its volumes are US ones, whatever the book's are.
fn borrow(links: &mut Vec<Link>, (measure, reading): &(FoodMeasure, MeasureText), unit: &Unit, prep: Option<&str>) {
    let (kind, factor) = BaseUnitKind::of(unit, Volumes::Us);
    let Ok(amount) = exact::mul(measure.amount(), factor) else { return };
    if kind == BaseUnitKind::Mass || reading.is_package() || amount <= Decimal::ZERO || measure.grams() <= Decimal::ZERO
    {
        return;
    }
    links.push(Link {
        one: (kind, amount),
        other: Some((BaseUnitKind::Mass, measure.grams())),
        faulty: false,
        prep: prep.map(|prep| (NameKey::of(prep), prep.to_owned())),
        unit: Some(unit.clone()),
        basis: if measure.is_as_purchased() { Basis::Ap } else { Basis::Ep },
        from: MeasureFrom::Reference(*measure),
    });
}

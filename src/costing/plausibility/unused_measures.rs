//! Measures of the kitchen's own that no line asks for, while a line borrows one for the same item.
//!
//! The warnings name both, at the row: its preparation or its unit is often a slip.

use std::collections::HashSet;

use indexmap::IndexMap;

use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::equivalence::MeasureFrom;
use crate::costing::{Costing, LineCost};
use crate::food::{Food, FoodMeasure};
use crate::kitchen::bridge::Measure;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::{ItemId, Kitchen, NameKey};
use crate::number::plain;
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// The doubts of all items that a line borrows a measure for.
pub(super) fn of_items(kitchen: &Kitchen, costing: &Costing) -> Vec<Problem> {
    let mut borrowed: IndexMap<ItemId, FoodMeasure> = IndexMap::new();
    for (recipe, cost) in kitchen.recipes.iter().zip(&costing.recipes) {
        for (line, cost) in recipe.lines.iter().zip(cost.iter().flat_map(|cost| &cost.lines)) {
            let (IngredientSource::Bought(id), LineCost::Costed { trace, .. }) = (line.source, cost) else { continue };
            let lent = trace.measures.iter().find_map(|step| match step {
                MeasureFrom::Reference(measure) => Some(*measure),
                _ => None,
            });
            if let Some(measure) = lent {
                borrowed.entry(id).or_insert(measure);
            }
        }
    }
    if borrowed.is_empty() {
        return Vec::new();
    }
    let volumes = kitchen.settings.volumes;
    // What is asked of them, by kind of measure: in a preparation, or in whatever.
    let mut asked: HashSet<(ItemId, BaseUnitKind, Option<&NameKey>)> = HashSet::new();
    let mut asked_in_any: HashSet<(ItemId, BaseUnitKind)> = HashSet::new();
    for line in kitchen.recipes.iter().flat_map(|recipe| &recipe.lines) {
        let (IngredientSource::Bought(id), Some(unit)) = (line.source, line.unit()) else { continue };
        if borrowed.contains_key(&id) {
            let (kind, _) = BaseUnitKind::of(unit, volumes);
            asked.insert((id, kind.clone(), line.prep.as_ref()));
            asked_in_any.insert((id, kind));
        }
    }
    let mut doubts = Vec::new();
    for (id, lent) in borrowed {
        let Some((item, cost)) = kitchen.item(id).zip(costing.item(id)) else { continue };
        let serves = |measure: &Measure| {
            let implied = costing.pieces.get(id.index()).and_then(|pieces| pieces.implied);
            let (kind, _) = BaseUnitKind::of(&measure.unit, volumes);
            kind == cost.kind
                || implied.is_some_and(|piece| piece.row == measure.row)
                || match &measure.prep {
                    Some(prep) => asked.contains(&(id, kind, Some(prep))),
                    None => asked_in_any.contains(&(id, kind)),
                }
        };
        let passed: Vec<&Measure> = item.bridge.measures.iter().filter(|measure| !serves(measure)).collect();
        let found = passed.into_iter().filter_map(|measure| {
            let place = kitchen.entries.measures.get(measure.row)?.input.place(Column::Measure);
            let prep = if measure.prep.is_some() { format!(", {}", measure.prep_text) } else { String::new() };
            let fault = Fault::new(
                Code::MeasurePassedOver,
                format!(
                    "no line asks for “{}{prep}” of “{}”, while a borrowed measure is used: {} = {} g (SR28 {})",
                    measure.unit.name(),
                    item.name,
                    lent.text(),
                    plain(lent.grams()),
                    lent.food().map_or("", Food::number)
                ),
                "Name the unit and the preparation here as the recipe does, or delete the row.",
            );
            Some(fault.at(place))
        });
        doubts.extend(found);
    }
    doubts
}

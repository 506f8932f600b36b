//! Cans that were taken at their published figures: a can has no single weight, so every place that relies on one is
//! told.
//!
//! Takes the measures that conversions passed through; gives warnings.

use crate::costing::Costing;
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::equivalence::MeasureFrom;
use crate::costing::conversion::equivalences_of_item::as_purchased;
use crate::costing::price::bought::PriceFrom;
use crate::costing::yield_test::charge::in_scenario;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::reuse::BuyIn;
use crate::kitchen::yield_test::{Charge, Test};
use crate::kitchen::{Kitchen, PartId, TestId};
use crate::measure::{CanFigure, Dimension, Measured, Unit};
use crate::number::Decimal;
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// The warnings that the measures of a line or row of `item` call for.
pub(crate) fn faults(item: &str, measures: &[MeasureFrom]) -> Vec<Fault> {
    let cans = measures.iter().filter_map(|step| match step {
        MeasureFrom::Can(figure) => Some(fault(item, *figure)),
        _ => None,
    });
    cans.collect()
}

fn fault(item: &str, figure: CanFigure) -> Fault {
    let can = figure.can();
    let ranges = figure.spread().is_some_and(|[least, _, most]| least != most);
    let used = if ranges { ", is used" } else { " is used" };
    let (holds, help) = match figure.dimension() {
        // A label says what is in the can by weight, which does not tell what it holds.
        Dimension::Volume => {
            ("holds", format!("Add a Measures row: Item {item}, Measure {can}, Holds what one holds."))
        }
        _ => (
            "weighs",
            format!(
                "Add what its label says to the pack, such as 6/#10 (6 lb 9 oz), or a Measures row: Item {item}, Measure \
                 {can}, Weighs what one weighs."
            ),
        ),
    };
    let message = format!("nothing says what a {can} of “{item}” {holds}; the published {figure}{used}");
    Fault::new(Code::CanPublished, message, help)
}

/// The warnings of a yield test: what went in, what was added, and what its by-products save buying.
pub(crate) fn of_test(kitchen: &Kitchen, costing: &Costing, id: TestId, test: &Test) -> Vec<Problem> {
    let grams = |grams: Decimal| Measured::new(grams, Unit::gram());
    let mut bought: Vec<(IngredientSource, Measured, Option<Decimal>, usize)> = Vec::new();
    bought.extend(test.runs.iter().map(|run| (test.input, grams(run.grams), run.count, run.row)));
    bought.extend(
        test.added.iter().filter_map(|added| Some((added.source?, grams(added.grams), added.count, added.row))),
    );
    for (index, part) in test.parts.iter().enumerate() {
        if let Charge::Market(BuyIn { item, amount, .. }) =
            in_scenario(costing.scenario.charging, PartId::new(id, index), part)
        {
            bought.push((IngredientSource::Bought(item), amount, None, part.rows.first().copied().unwrap_or_default()));
        }
    }
    let mut found = Vec::new();
    for (source, quantity, count, row) in bought {
        let IngredientSource::Bought(item) = source else { continue };
        let (Some(cost), Some(known)) = (costing.item(item), kitchen.item(item)) else { continue };
        let by_piece = cost.kind == BaseUnitKind::Each && count.is_some();
        let Some(entry) = kitchen.entries.tests.get(row).filter(|_| !by_piece && cost.from != PriceFrom::Water) else {
            continue;
        };
        if let Ok(converted) = as_purchased(kitchen, item, cost, &quantity) {
            let faults = faults(&known.name, &converted.through);
            found.extend(faults.into_iter().map(|fault| fault.at(entry.input.place(Column::Part))));
        }
    }
    found
}

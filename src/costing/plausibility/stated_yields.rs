//! Yields that a price row states otherwise than the item's trim test, which is used.

use crate::costing::{Costing, PartCost};
use crate::kitchen::Kitchen;
use crate::kitchen::price::TrimYield;
use crate::number::{Decimal, rounding};
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// The doubts of all items, to the precision typed.
pub(super) fn of_items(kitchen: &Kitchen, costing: &Costing) -> Vec<Problem> {
    /// Whole percents: what a cook who types `85%` means.
    const LEAST_PLACES: u32 = 2;
    let mut found = Vec::new();
    for (item, cost) in kitchen.items.iter().zip(&costing.items) {
        let (TrimYield::Main(part), Some(cost)) = (&item.trim, cost) else { continue };
        let (Some((stated, row)), Some(tested)) = (cost.row_yield, costing.part(*part)) else { continue };
        let PartCost { fraction, .. } = tested;
        let places = stated.normalize().scale().max(LEAST_PLACES);
        if rounding::half_up(*fraction, places) == stated.normalize() {
            continue;
        }
        let Some(row) = kitchen.entries.prices.get(row) else { continue };
        let percent = |x: Decimal| x.checked_mul(Decimal::ONE_HUNDRED).map(|p| rounding::half_up(p, 1).normalize());
        let (Some(stated), Some(tested)) = (percent(stated), percent(*fraction)) else { continue };
        found.push(
            Fault::new(
                Code::YieldDisagrees,
                format!(
                    "the price row says {stated} %, the yield test of “{}” gives {tested} %; the test is used",
                    item.name
                ),
                "Clear Yield here, or test again.",
            )
            .at(row.input.place(Column::Yield)),
        );
    }
    found
}

//! Edible yields of price rows: what is left of each after trimming, where that is from, and what an edible unit costs,
//! whether the row is in use or not.
//!
//! Where a trim test speaks for an item, its row in use has the test's yield, which stands with the test's parts.

use crate::costing::edible_portion::EdibleCosts;
use crate::costing::{Costing, ItemCost, RowState, YieldFrom};
use crate::kitchen::price::Price;
use crate::kitchen::{Field, ItemId, Kitchen};
use crate::number::{Decimal, exact};

/// The yield of a price row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RowYield {
    /// What is left, as a fraction: all of it where nothing says.
    pub fraction: Decimal,
    /// Where that is from.
    pub from: YieldFrom,
    /// What would be left were the row's own statement cleared; `None` where another row's would come in its place.
    pub unstated: Option<Decimal>,
    /// Money per base unit as purchased; `None` where the row has none, or it does not fit.
    pub ap: Option<Decimal>,
    /// Money per edible base unit; `None` likewise.
    pub ep: Option<Decimal>,
}

impl RowYield {
    const NONE: RowYield =
        RowYield { fraction: Decimal::ONE, from: YieldFrom::None, unstated: None, ap: None, ep: None };
}

/// The yields of all price rows, beside the kitchen's.
#[derive(Debug, Clone)]
pub struct RowYields {
    rows: Vec<RowYield>,
}

impl RowYields {
    /// The yields of the rows of a costing.
    pub fn of(kitchen: &Kitchen, costing: &Costing) -> Self {
        let mut rows = vec![RowYield::NONE; kitchen.entries.prices.len()];
        for (index, item) in kitchen.items.iter().enumerate() {
            let offers = EdibleCosts::of(kitchen, costing.scenario.date, item);
            let states = |row: usize| kitchen.entries.prices.get(row).is_none_or(|row| row.trim_yield != Field::Blank);
            let stating = item.rows.iter().filter(|row| states(**row)).count();
            for row in &item.rows {
                let known = read(kitchen, costing, (ItemId::new(index), &offers), *row);
                if let (Some(slot), Some(known)) = (rows.get_mut(*row), known) {
                    (slot.fraction, slot.from) = known;
                    let others = stating.saturating_sub(usize::from(states(*row)));
                    slot.unstated = if others == 0 { unstated(costing, &offers, *row) } else { None };
                }
            }
        }
        for (slot, cost) in rows.iter_mut().zip(&costing.rows) {
            slot.ap = cost.as_ref().and_then(|cost| cost.ap.unit_cost().ok());
            slot.ep = slot.ap.and_then(|ap| exact::div(ap, slot.fraction).ok());
        }
        RowYields { rows }
    }

    /// The yield of a row.
    pub fn row(&self, row: usize) -> RowYield {
        self.rows.get(row).copied().unwrap_or(RowYield::NONE)
    }
}

/// The yield of a row without its own statement.
fn unstated(costing: &Costing, offers: &EdibleCosts<'_>, row: usize) -> Option<Decimal> {
    let cost = offers.cost_by(row, row, costing.rows.get(row)?.as_ref()?)?;
    Some(offers.yield_read(&ItemCost { row_yield: None, ..cost }).0)
}

/// The yield of one row of an item; `None` of a row without a price, or whose yield could not be read.
fn read(
    kitchen: &Kitchen,
    costing: &Costing,
    (id, offers): (ItemId, &EdibleCosts<'_>),
    row: usize,
) -> Option<(Decimal, YieldFrom)> {
    let cost = costing.rows.get(row)?.as_ref()?;
    // A market price goes by another row's price and by its own yield.
    let is_market = kitchen.entries.prices.get(row)?.price == Field::Given(Price::Market);
    let is_in_use = !is_market && costing.row_states.get(row) == Some(&RowState::InUse);
    match costing.item(id).filter(|_| is_in_use) {
        Some(in_use) => Some(offers.yield_read(in_use)),
        None => offers.cost_by(row, row, cost).map(|cost| offers.yield_read(&cost)),
    }
}

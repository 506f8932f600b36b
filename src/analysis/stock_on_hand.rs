//! Stock in the quantities that the balance reckons in, what is there and what is on order: items in base units of their
//! price, parts in grams, recipes in batches.

use crate::costing::Costing;
use crate::costing::yield_test::input_cost::on_hand;
use crate::kitchen::Kitchen;
use crate::kitchen::recipe::IngredientSource;
use crate::number::Decimal;

/// Something on hand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StockOnHand {
    /// What it is.
    pub source: IngredientSource,
    /// How much; `None` when it cannot be brought to its unit, which counts as nothing and is said.
    pub amount: Option<Decimal>,
    /// Its row, as an index into the entries' stock.
    pub row: usize,
}

/// Everything on hand, in book order.
pub fn held(kitchen: &Kitchen, costing: &Costing) -> Vec<StockOnHand> {
    let held = kitchen.stock.iter().map(|there| StockOnHand {
        source: there.source,
        amount: there.amount.as_ref().and_then(|amount| on_hand(kitchen, costing, there.source, amount).ok()),
        row: there.row,
    });
    held.collect()
}

/// Everything on order, in book order.
pub fn under_way(kitchen: &Kitchen, costing: &Costing) -> Vec<StockOnHand> {
    let on_order = kitchen.on_order.iter().map(|ordered| {
        let source = IngredientSource::Bought(ordered.item);
        let amount = ordered.amount.as_ref().and_then(|amount| on_hand(kitchen, costing, source, amount).ok());
        StockOnHand { source, amount, row: ordered.row }
    });
    on_order.collect()
}

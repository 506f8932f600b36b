//! Stock that could not be weighed against the plan, in words: what of which item, and why.

use crate::costing::Costing;
use crate::costing::conversion::convert::NoConversion;
use crate::costing::yield_test::input_cost::on_hand;
use crate::kitchen::Kitchen;
use crate::kitchen::recipe::IngredientSource;

/// What the stock list says of an item.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum StockColumn {
    /// What is there.
    OnHand,
    /// What is on its way.
    OnOrder,
}

/// What is said of a row of the stock list, by its index among the entries, that counts as nothing.
pub(crate) fn not_weighed(kitchen: &Kitchen, costing: &Costing, row: usize, column: StockColumn) -> Option<String> {
    let name = &kitchen.entries.stock.get(row)?.item;
    let (what, source, amount) = match column {
        StockColumn::OnHand => {
            let held = kitchen.stock.iter().find(|held| held.row == row)?;
            ("on hand", held.source, held.amount.as_ref())
        }
        StockColumn::OnOrder => {
            let ordered = kitchen.on_order.iter().find(|ordered| ordered.row == row)?;
            ("on order", IngredientSource::Bought(ordered.item), ordered.amount.as_ref())
        }
    };
    let why = match amount.map(|amount| on_hand(kitchen, costing, source, amount)) {
        None => "it could not be read.".to_owned(),
        Some(Err(NoConversion::Fault(fault))) => format!("{}.", fault.message),
        Some(Err(NoConversion::Overflow)) => "the figure is too large.".to_owned(),
        Some(Err(NoConversion::Known) | Ok(_)) => format!("{name} is not costed."),
    };
    Some(format!("What is {what} of {name} could not be weighed against the plan, so it counts as nothing: {why}"))
}

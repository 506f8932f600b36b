//! Values of a part: what its rows state that its own way of charging may not use: what it sells for, what finishing it
//! takes, and what it saves buying.
//!
//! Takes a resolved part; gives money by weight.

use crate::costing::Rate;
use crate::kitchen::Kitchen;
use crate::kitchen::yield_test::{Charge, Part};

/// What a part sells for, in money for so many grams: its Value where that is money, else what it fetches when it is not
/// used. `None` when neither is stated.
pub fn sales_value(kitchen: &Kitchen, part: &Part) -> Option<Rate> {
    let row = kitchen.entries.tests.get(*part.rows.first()?)?;
    row.sales_value().or_else(|| part.reuse.sells_at()).map(Rate::from)
}

/// What it takes to make a part usable or saleable, in money for so many grams; `None` when nothing is stated.
pub fn further_cost(part: &Part) -> Option<Rate> {
    part.reuse.further_cost.map(Rate::from)
}

/// The charge of a part at what it would cost to buy: *Instead of* first, else the item of its own name; `None` when
/// nothing readable says what that is.
pub fn at_market(part: &Part) -> Option<Charge> {
    part.buy_in.clone().filter(|_| !part.reuse.unread).map(Charge::Market)
}

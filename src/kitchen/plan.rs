//! Plan, stock and control rows: read and carried; the trim balance, the buying list and the control report use them.

use super::{Field, InputRow};
use crate::measure::Measured;
use crate::number::Decimal;

/// A row of the plan.
#[derive(Debug, Clone)]
pub struct PlanRow {
    /// The cells.
    pub input: InputRow,
    /// The dish's name as spelled.
    pub dish: String,
    /// Portions planned.
    pub portions: Field<Decimal>,
    /// The day they are planned for, as typed; empty when not named.
    pub day: String,
}

/// A row of the stock list.
#[derive(Debug, Clone)]
pub struct StockRow {
    /// The cells.
    pub input: InputRow,
    /// The item's or part's name as spelled.
    pub item: String,
    /// What is there.
    pub on_hand: Field<Measured>,
}

/// A period of the control table, in money.
#[derive(Debug, Clone)]
pub struct ControlRow {
    /// The cells.
    pub input: InputRow,
    /// The period's name.
    pub period: String,
    /// Opening inventory.
    pub opening: Field<Decimal>,
    /// Purchases.
    pub purchases: Field<Decimal>,
    /// Closing inventory.
    pub closing: Field<Decimal>,
    /// Transfers in.
    pub transfers_in: Field<Decimal>,
    /// Transfers out.
    pub transfers_out: Field<Decimal>,
    /// Staff meals.
    pub staff_meals: Field<Decimal>,
    /// Sales.
    pub sales: Field<Decimal>,
}

//! Analysis of a costing: the ways of charging side by side, a credit moved up and down, what one run makes of it.
//!
//! Takes a kitchen and its costing; gives plain figures for reports to lay out. Reads no file and writes no sheet, and
//! where a figure is not known says why. Money and weights are decimals, weights in grams, fractions of one.

pub mod actual_against_standard;
pub mod balance;
mod batch_usage;
pub mod charging_methods;
pub mod cost_factor;
pub mod counted_use;
mod flow_constants;
pub mod menu_mix;
pub mod missing_input;
mod moves_by_item;
pub mod order_list;
pub(crate) mod part_values;
pub(crate) mod portion_usage;
pub(crate) mod price_history;
pub mod reprice;
pub mod resize;
pub(crate) mod row_yields;
pub mod run_variation;
mod standard_use;
pub(crate) mod stock_on_hand;
pub mod supplier_list;
pub mod sweep;
pub mod trim;
pub mod trim_savings;
pub(crate) mod where_used;
pub mod why;

pub use actual_against_standard::FoodControl;
pub use balance::Balance;
pub use charging_methods::{Way, Ways};
pub use cost_factor::Factors;
pub use menu_mix::MenuMix;
pub use missing_input::Lack;
pub use order_list::OrderList;
pub use portion_usage::{Usage, Uses};
pub use reprice::Effects;
pub use resize::Resized;
pub(crate) use row_yields::RowYields;
pub use run_variation::Spread;
pub use sweep::Sweep;
pub use trim::Trim;
pub use trim_savings::Worth;
pub use why::Why;

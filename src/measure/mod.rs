//! Measures that kitchens write: units, quantities, packs, money.
//!
//! Takes text and, where a comma may be a decimal mark, what its column says about marks; gives exact amounts with
//! their units, or a [`crate::problem::Fault`] that says what to type instead. Knows no items: what one egg or one cup
//! of flour weighs belongs to the item.

pub(crate) mod base;
pub(crate) mod can;
mod catalogue;
pub(crate) mod compound;
pub(crate) mod currency;
mod dated;
pub(crate) mod ingredient;
mod kitchen_units;
mod ladder;
mod measure_name;
pub(crate) mod money;
pub(crate) mod number_fault;
mod numbered;
pub mod pack;
pub(crate) mod quantity;
pub(crate) mod several;
mod slip;
pub(crate) mod standard;
pub(crate) mod unit;
pub(crate) mod words;

pub use base::{Base, Dimension, Volumes};
pub use can::{CanFigure, published};
pub use compound::{compound_in_base, compound_in_first};
pub use ingredient::{AmountText, Conventions, IngredientText, parse_line, parse_parts};
pub(crate) use ingredient::{named_percentage, parse_yield};
pub use kitchen_units::{InKitchenUnits, KitchenPart, Rounding, in_kitchen_units};
pub(crate) use measure_name::measure_name;
pub use money::{MoneyText, is_market, parse_money};
pub(crate) use number_fault::number_fault;
pub use pack::{Pack, parse_pack};
pub use quantity::{Measured, QuantityText, parse_quantity};
pub(crate) use several::parse_batch;
pub use several::parse_several;
pub use standard::StandardUnit;
pub use unit::Unit;
pub(crate) use unit::did_you_mean;

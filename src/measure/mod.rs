//! Measures that kitchens write: units, quantities, packs, money.
//!
//! Takes text and, where a comma may be a decimal mark, what its column says about marks; gives exact amounts with
//! their units, or a [`crate::problem::Fault`] that says what to type instead. Knows no items: what one egg or one cup
//! of flour weighs belongs to the item.

pub mod base;
pub mod can;
mod catalogue;
pub mod compound;
pub mod currency;
mod dated;
mod measure_name;
pub mod money;
pub mod number_fault;
mod numbered;
pub mod pack;
pub mod quantity;
pub mod several;
pub mod standard;
pub mod unit;
pub mod words;

pub use base::{Base, Dimension, Volumes};
pub use can::{CanFigure, published};
pub use compound::{compound_in_base, compound_in_first};
pub use measure_name::measure_name;
pub use money::{MoneyText, is_market, parse_money};
pub use number_fault::number_fault;
pub use pack::{Pack, parse_pack};
pub use quantity::{Measured, QuantityText, parse_quantity, unmeasured};
pub use several::{parse_batch, parse_several};
pub use standard::StandardUnit;
pub use unit::Unit;

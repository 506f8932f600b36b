//! What a costing means for trim: the ways of charging side by side, a credit moved up and down, what one run makes of it.
//!
//! Takes a kitchen and its costing; gives plain figures for reports to lay out. Reads no file and writes no sheet, and
//! where a figure is not known says why. Money and weights are decimals, weights in grams, fractions of one.

pub mod balance;
mod draws;
pub mod factor;
pub mod lack;
pub mod list;
pub mod reach;
pub mod reprice;
pub mod spread;
pub mod stated;
pub mod stock;
pub mod sweep;
pub mod trim;
pub mod uses;
pub mod ways;
pub mod worth;

pub use balance::Balance;
pub use factor::Factors;
pub use lack::Lack;
pub use reprice::Effects;
pub use spread::Spread;
pub use sweep::Sweep;
pub use trim::Trim;
pub use ways::{Way, Ways};
pub use worth::Worth;

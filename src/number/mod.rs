//! Exact numbers: decimal arithmetic that never wraps, rounds or panics unasked, and the reading of numbers as
//! people type them.
//!
//! Takes text and [`Decimal`]s; gives [`Decimal`]s or a fault. Knows nothing of kitchens.

pub mod decimal;
pub mod exact;
pub mod fences;
pub mod leading;
pub mod marks;
pub mod percent;
pub mod plain;
pub mod rounding;
pub mod share;
pub mod text;

pub use decimal::NumberFault;
pub use exact::Overflow;
pub use fences::Fences;
pub use marks::{Marks, evidence};
pub use percent::{BareReading, BareRule, PercentText, parse_percent};
pub use plain::plain;
pub use rounding::{as_held, half_up, round_up_steps};
pub use rust_decimal::Decimal;
pub use share::share_of;

//! Exact numbers: decimal arithmetic that never wraps, rounds or panics unasked, and the reading of numbers as
//! people type them.
//!
//! Takes text and [`Decimal`]s; gives [`Decimal`]s or a fault. Knows nothing of kitchens.

pub(crate) mod decimal;
pub(crate) mod exact;
pub(crate) mod fences;
pub(crate) mod leading;
pub(crate) mod marks;
pub(crate) mod percent;
pub(crate) mod plain;
pub(crate) mod rounding;
pub(crate) mod share;
pub(crate) mod text;

pub use decimal::NumberFault;
pub use exact::Overflow;
pub use fences::Fences;
pub use marks::{Marks, evidence};
pub(crate) use percent::{BareRule, PercentText, parse_percent};
pub use plain::plain;
pub use rounding::half_up;
pub(crate) use rounding::{as_held, round_up_steps, settled};
pub use rust_decimal::Decimal;

//! Yield tests costed: what went in, how its cost is split over what came out, and what is doubtful about it.

pub mod at_market;
pub(crate) mod charge;
pub mod cost;
pub mod input_cost;
pub(crate) mod large_credits;
pub mod split;

//! Yield tests costed: what went in, how its cost is split over what came out, and what is doubtful about it.

pub(crate) mod at_market;
pub(crate) mod charge;
pub(crate) mod cost;
pub(crate) mod input_cost;
pub(crate) mod large_credits;
pub(crate) mod split;

//! What the contract says and the code does not do yet: off until it does, so that the kitchens leave it out.

/// Further cost and Credit on price rows.
pub const CHARGES_ON_PRICES: bool = false;
/// Tax within the price of a price row, and the setting that says so.
pub const TAX_IN_PRICES: bool = false;

//! By-products at market: what it costs to buy what a part stands in for.

use crate::costing::conversion::convert::NoConversion;
use crate::costing::conversion::{equivalences_of_item, package};
use crate::costing::rate::{Amount, Rate};
use crate::costing::{Costing, item_yield};
use crate::kitchen::Kitchen;
use crate::kitchen::reuse::BuyIn;

/// What it costs to buy what a part stands in for, per gram of the part.
///
/// # Errors
/// A [`NoConversion`] when the item's price is not known, or no measure leads to its unit.
pub fn buy_in_rate(kitchen: &Kitchen, costing: &Costing, buy_in: &BuyIn) -> Result<Rate, NoConversion> {
    let cost = costing.item(buy_in.item).ok_or(NoConversion::Known)?;
    let amount = buy_in_amount(kitchen, costing, buy_in)?;
    Ok(Rate { money: cost.ap.cost_of(amount)?, per: buy_in.grams })
}

/// How much of its item, in base units of the price as purchased, stands in for the buy-in's grams of a part.
///
/// # Errors
/// As [`buy_in_rate`].
pub fn buy_in_amount(kitchen: &Kitchen, costing: &Costing, buy_in: &BuyIn) -> Result<Amount, NoConversion> {
    let cost = costing.item(buy_in.item).ok_or(NoConversion::Known)?;
    let item = kitchen.item(buy_in.item).ok_or(NoConversion::Known)?;
    package::has_one_meaning(kitchen, costing, item, cost, &buy_in.amount.unit)?;
    let converted = equivalences_of_item::as_purchased(kitchen, buy_in.item, cost, &buy_in.amount)?;
    item_yield::as_purchased(kitchen, costing, buy_in.item, cost, &converted)
}

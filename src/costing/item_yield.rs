//! The yield of an item where a line names none of its own: its trim test's, the price row's, a piece's, a built-in
//! food's.
//!
//! Takes a priced item; gives the yield with where it is from, or the stop of one that cannot be told.

use super::Costing;
use super::rate::Amount;
use super::trace::YieldFrom;
use crate::costing::conversion::convert::{Converted, Crossing, NoConversion};
use crate::costing::piece_yield;
use crate::costing::piece_yield::Pieces;
use crate::costing::price::bought::ItemCost;
use crate::food::Food;
use crate::kitchen::price::{Item, TrimYield};
use crate::kitchen::{Field, ItemId, Kitchen, PartId};
use crate::number::{Decimal, exact};

/// A yield and where it is from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct ItemYield {
    /// As a fraction.
    pub(super) fraction: Decimal,
    /// The same, not yet divided.
    pub(super) ratio: Amount,
    /// Where it is from.
    pub(super) from: YieldFrom,
}

impl ItemYield {
    /// A yield that is known as a fraction.
    pub(super) fn of(fraction: Decimal, from: YieldFrom) -> Self {
        ItemYield { fraction, ratio: Amount::of(fraction), from }
    }

    /// No yield at all, for want of any use.
    pub(super) const NONE: ItemYield = ItemYield { fraction: Decimal::ONE, ratio: Amount::ONE, from: YieldFrom::None };
}

/// The yield of an item.
///
/// # Errors
/// A [`NoConversion`] where its test has several mains, or where what would say it could not be read.
pub(super) fn of_item(costing: &Costing, id: ItemId, item: &Item, cost: &ItemCost) -> Result<ItemYield, NoConversion> {
    match item.trim {
        TrimYield::Main(part) => {
            let fraction = costing.part(part).ok_or(NoConversion::Known)?.fraction;
            return Ok(ItemYield::of(fraction, YieldFrom::Test(part)));
        }
        TrimYield::SeveralMains(_) => return Err(NoConversion::Fault(piece_yield::unweighed(item))),
        TrimYield::Unreadable => return Err(NoConversion::Known),
        TrimYield::None | TrimYield::SeveralTests => {}
    }
    without_test(cost, costing.pieces.get(id.index()))
}

/// The yield of what an item is bought as, by a price row, where no trim test speaks: stated, implied by the weight of a
/// piece in that row's pack, published.
///
/// # Errors
/// A [`NoConversion`] where what would say it could not be read.
pub(super) fn without_test(cost: &ItemCost, pieces: Option<&Pieces>) -> Result<ItemYield, NoConversion> {
    if let Some((fraction, row)) = cost.row_yield {
        return Ok(ItemYield::of(fraction, YieldFrom::PriceRow(row)));
    }
    if let Some(implied) = pieces.and_then(|pieces| pieces.implied) {
        return Ok(ItemYield { fraction: implied.fraction, ratio: implied.ratio, from: YieldFrom::Piece(implied.row) });
    }
    if pieces.is_some_and(|pieces| !pieces.faulty.is_empty()) {
        return Err(NoConversion::Known);
    }
    match &cost.reference {
        Field::Given((food, _)) => {
            let fraction = food.food().map_or(Decimal::ONE, Food::trim_yield);
            Ok(ItemYield::of(fraction, YieldFrom::Reference(*food)))
        }
        Field::Broken => Err(NoConversion::Known),
        Field::Blank => Ok(ItemYield::NONE),
    }
}

/// An amount of an item as purchased that measures brought to the unit of its price, across its yield where need be.
///
/// # Errors
/// As [`of_item`].
pub(super) fn as_purchased(
    kitchen: &Kitchen,
    costing: &Costing,
    id: ItemId,
    cost: &ItemCost,
    converted: &Converted,
) -> Result<Amount, NoConversion> {
    if converted.crossing == Crossing::None {
        return Ok(converted.amount);
    }
    let item = kitchen.item(id).ok_or(NoConversion::Known)?;
    let fraction = match item.trim {
        // The test may be costed later, but what it yields is known.
        TrimYield::Main(part) => pooled(kitchen, part)?,
        _ => of_item(costing, id, item, cost)?.fraction,
    };
    Ok(converted.crossing.cross(converted.amount, fraction)?)
}

/// What a part weighs over what went in, in all runs.
fn pooled(kitchen: &Kitchen, id: PartId) -> Result<Decimal, NoConversion> {
    let test = kitchen.test(id.test).filter(|test| !test.broken).ok_or(NoConversion::Known)?;
    let grams = kitchen.part(id).ok_or(NoConversion::Known)?.grams;
    Ok(exact::div(grams, exact::sum(test.runs.iter().map(|run| run.grams))?)?)
}

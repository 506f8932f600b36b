//! Prices compared across measures: what a quantity of an item costs at another price, where the two may be by weight
//! and by the piece.

use crate::costing::ItemCost;
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::convert::Crossing;
use crate::costing::conversion::equivalences_of_item::as_purchased;
use crate::costing::rate::Amount;
use crate::kitchen::{ItemId, Kitchen};
use crate::measure::Measured;
use crate::number::{Decimal, Overflow};

/// Why an item cannot be compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LeftOut {
    /// It had no price before.
    NoPriceBefore,
    /// It has no price with the new rows.
    NoPriceNow,
    /// One price is by weight and the other by volume or piece, and no measure or pack leads from one to the other.
    NotJoined,
    /// A figure is outside what can be computed exactly.
    Outside,
}

impl LeftOut {
    /// In words for a cook, in lower case and without a full stop.
    pub fn words(self) -> &'static str {
        match self {
            LeftOut::NoPriceBefore => "it had no price before",
            LeftOut::NoPriceNow => "it has no price now",
            LeftOut::NotJoined => "its two prices are by unlike measures, and nothing says how they compare",
            LeftOut::Outside => "a figure is too large or too small to be computed exactly",
        }
    }
}

impl From<Overflow> for LeftOut {
    fn from(_: Overflow) -> Self {
        LeftOut::Outside
    }
}

/// What `quantity` base units of `kind` of an item as purchased cost at `price`, which may be by another kind.
pub(super) fn at(
    kitchen: &Kitchen,
    item: ItemId,
    price: &ItemCost,
    kind: &BaseUnitKind,
    quantity: Decimal,
) -> Result<Decimal, LeftOut> {
    if price.kind == *kind {
        return Ok(price.ap.cost_of(Amount::of(quantity))?);
    }
    let measured = Measured { amount: quantity, unit: kind.unit() };
    match as_purchased(kitchen, item, price, &measured) {
        // A measure of the edible portion says nothing of what is bought.
        Ok(converted) if converted.crossing == Crossing::None => Ok(price.ap.cost_of(converted.amount)?),
        _ => Err(LeftOut::NotJoined),
    }
}

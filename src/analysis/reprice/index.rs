//! Price index of the basket, with the quantities before the new prices (Laspeyres), Σ p₁q₀ ÷ Σ p₀q₀.

use super::basket::{Basket, named};
use super::before_and_after::Pair;
use super::compare::{LeftOut, at};
use super::movers::Mover;
use crate::analysis::Lack;
use crate::costing::ItemCost;
use crate::costing::price::bought::PriceFrom;
use crate::kitchen::ItemId;
use crate::number::{Decimal, Overflow, exact};

/// What of a sum is rounding.
const ROUNDING: Decimal = Decimal::from_parts(1, 0, 0, false, 12);

/// A basket before and after.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Index {
    /// What it cost.
    pub was: Decimal,
    /// What the same quantities cost with the new prices.
    pub now: Decimal,
    /// The second over the first, one where nothing moved; `None` for a basket that cost nothing.
    pub index: Option<Decimal>,
    /// How many items are in it.
    pub counted: usize,
    /// Those left out on both sides, and why, in book order.
    pub left_out: Vec<(ItemId, LeftOut)>,
}

impl Index {
    /// The index of `basket`.
    pub(super) fn of(pair: &Pair<'_>, basket: &Basket) -> Result<Self, Lack> {
        Self::sum(pair, basket).map_err(|_| Lack::Outside)
    }

    /// How much more it costs; less where that is below nothing.
    pub fn more(&self) -> Decimal {
        // Of two sums that a decimal holds, the difference of equal signs fits as well.
        self.now.checked_sub(self.was).unwrap_or_default()
    }

    /// The index about a hundred, as it is told; `None` for a basket that cost nothing.
    pub fn points(&self) -> Option<Decimal> {
        exact::mul(self.index?, Decimal::ONE_HUNDRED).ok()
    }

    /// Whether what it cost and what the moves of `movers` are worth add up to what it costs, but for rounding.
    pub fn is_sum_of(&self, movers: &[Mover]) -> bool {
        let rest = exact::sum(movers.iter().filter_map(|mover| mover.worth.ok()))
            .and_then(|moved| exact::add(self.was, moved))
            .and_then(|sum| exact::sub(sum, self.now));
        rest.is_ok_and(|rest| rest.abs() < ROUNDING)
    }

    fn sum(pair: &Pair<'_>, basket: &Basket) -> Result<Self, Overflow> {
        let mut index = Index { was: Decimal::ZERO, now: Decimal::ZERO, index: None, counted: 0, left_out: Vec::new() };
        let named = named(pair.old);
        for (old, new) in pair.items() {
            let quantity = basket.quantity(new);
            if quantity.is_zero() && !named.contains(&old) {
                continue;
            }
            match costs(pair, (old, new), quantity) {
                Ok(Some((was, now))) if !quantity.is_zero() => {
                    index.was = exact::add(index.was, was)?;
                    index.now = exact::add(index.now, now)?;
                    index.counted += 1;
                }
                Ok(_) => {}
                Err(why) => index.left_out.push((new, why)),
            }
        }
        if !index.was.is_zero() {
            index.index = Some(exact::div(index.now, index.was)?);
        }
        Ok(index)
    }
}

/// What so much of an item cost and costs; `None` for water.
fn costs(
    pair: &Pair<'_>,
    (old, new): (ItemId, ItemId),
    quantity: Decimal,
) -> Result<Option<(Decimal, Decimal)>, LeftOut> {
    let is_water = |cost: Option<&ItemCost>| cost.is_some_and(|cost| cost.from == PriceFrom::Water);
    if is_water(pair.was.item(old)) || is_water(pair.now.item(new)) {
        return Ok(None);
    }
    let was = pair.was.item(old).ok_or(LeftOut::NoPriceBefore)?;
    let now = pair.now.item(new).ok_or(LeftOut::NoPriceNow)?;
    let before = at(pair.old, old, was, &was.kind, quantity)?;
    Ok(Some((before, at(pair.new, new, now, &was.kind, quantity)?)))
}

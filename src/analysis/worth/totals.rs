//! The plan's totals in each kitchen, what must be bought, and what is saved.

use super::dishes::food_of;
use super::earned::earned;
use super::parts::own_rate;
use super::{DishWorth, Kept, PartWorth, PlanWorth, Total, buy_in_of};
use crate::analysis::balance::Balance;
use crate::analysis::uses::Uses;
use crate::costing::Costing;
use crate::costing::bought::PriceFrom;
use crate::costing::rate::Amount;
use crate::kitchen::Kitchen;
use crate::kitchen::plan::Served;
use crate::kitchen::yield_test::Role;
use crate::number::{Decimal, Overflow, exact};

/// The totals of a plan.
pub(super) fn plan(
    kitchen: &Kitchen,
    kitchens: &[Costing; 3],
    balance: &Balance,
    dishes: &[DishWorth],
    parts: &[PartWorth],
    uses: &Uses,
) -> Result<PlanWorth, Overflow> {
    let mut totals = [None, None, None];
    for ((slot, costing), kept) in totals.iter_mut().zip(kitchens).zip(Kept::ALL) {
        *slot = total(kitchen, costing, balance, dishes, kept)?;
    }
    let [_, _, credited] = kitchens;
    let saving = parts.iter().filter(|part| part.used.is_some_and(|used| !used.is_zero()));
    let known = exact::sum(saving.clone().filter_map(|part| part.saved))?;
    let all_known = saving.clone().all(|part| part.saved.is_some());
    let mut margin_of_trim = Some(Decimal::ZERO);
    for dish in dishes.iter().filter(|dish| dish.of_trim) {
        let (Some(portions), Served::Dish(_)) = (dish.portions, dish.served) else { continue };
        margin_of_trim = match (margin_of_trim, dish.margin) {
            (Some(sum), Some(margin)) => Some(exact::add(sum, exact::mul(margin, portions)?)?),
            _ => None,
        };
    }
    let (unearned, earned) = earned(kitchen, credited, balance, uses, |served| food_of(credited, served))?;
    Ok(PlanWorth {
        totals,
        unearned,
        earned,
        purchases: purchases(kitchen, credited, balance)?,
        saving: all_known.then_some(known),
        known_saving: known,
        margin_of_trim,
    })
}

/// The plan's totals in one kitchen. `None` where something that is served is not known.
fn total(
    kitchen: &Kitchen,
    costing: &Costing,
    balance: &Balance,
    dishes: &[DishWorth],
    kept: Kept,
) -> Result<Option<Total>, Overflow> {
    let mut served = Decimal::ZERO;
    for dish in dishes {
        let Some(portions) = dish.portions else { continue };
        let Some(food) = food_of(costing, dish.served) else { return Ok(None) };
        served = exact::add(served, exact::mul(food, portions)?)?;
    }
    let (mut left_over, mut on_hand) = (Decimal::ZERO, Decimal::ZERO);
    for id in kitchen.all_parts() {
        let (Some(part), Some(of_part)) = (kitchen.part(id), balance.part(id)) else { continue };
        // The kitchen that bins its trim has none on hand and leaves none.
        if kept == Kept::Binned && part.role == Role::ByProduct {
            continue;
        }
        let Some(rate) = own_rate(costing, id) else { continue };
        let left = exact::add(of_part.left_over, of_part.too_old)?;
        left_over = exact::add(left_over, rate.cost_of(Amount::of(left))?)?;
        on_hand = exact::add(on_hand, rate.cost_of(Amount::of(of_part.on_hand))?)?;
    }
    for stock in &balance.recipes {
        let Some(batch) = costing.recipe(stock.recipe).map(|cost| cost.batch) else { continue };
        left_over = exact::add(left_over, exact::mul(batch, stock.left_over)?)?;
        on_hand = exact::add(on_hand, exact::mul(batch, stock.on_hand)?)?;
    }
    let brought_in = exact::sub(exact::add(served, left_over)?, on_hand)?;
    Ok(Some(Total { served, left_over, on_hand, brought_in }))
}

/// What the plan takes of bought items, from the shelf or the supplier, and what stands in for short trim, in money. `None`
/// where a price is not known.
fn purchases(kitchen: &Kitchen, costing: &Costing, balance: &Balance) -> Result<Option<Decimal>, Overflow> {
    let mut sum = Decimal::ZERO;
    for item in &balance.items {
        let Some(cost) = costing.item(item.item) else { return Ok(None) };
        if cost.from != PriceFrom::Water {
            sum = exact::add(sum, cost.ap.cost_of(Amount::of(item.wanted))?)?;
        }
    }
    for id in kitchen.all_parts() {
        let Some(short) = balance.part(id).map(|part| part.short).filter(|short| !short.is_zero()) else { continue };
        let Some(at) = kitchen.part(id).and_then(|part| buy_in_of(kitchen, costing, part)) else { return Ok(None) };
        sum = exact::add(sum, at.cost_of(Amount::of(short))?)?;
    }
    Ok(Some(sum))
}

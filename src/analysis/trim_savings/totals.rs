//! The plan's totals in each kitchen, and what is saved. What is bought, on hand and left of bought items is the
//! balance's.

use super::dishes::food_of;
use super::earned::{all_unearned, earned};
use super::parts::own_rate;
use super::trim_sold::fetches;
use super::{DishWorth, Kept, PartWorth, PlanTotals, PlanWorth};
use crate::analysis::balance::Balance;
use crate::costing::Costing;
use crate::costing::rate::Amount;
use crate::kitchen::Kitchen;
use crate::kitchen::yield_test::{Part, Role};
use crate::number::{Decimal, Overflow, exact};

/// The totals of a plan.
pub(super) fn plan(
    kitchen: &Kitchen,
    kitchens: &[Costing; 3],
    balance: &Balance,
    dishes: &[DishWorth],
    parts: &[PartWorth],
) -> Result<PlanWorth, Overflow> {
    let mut totals = [None, None, None];
    for ((slot, costing), kept) in totals.iter_mut().zip(kitchens).zip(Kept::ALL) {
        *slot = total(kitchen, costing, balance, dishes, parts, kept)?;
    }
    let [_, _, credited] = kitchens;
    let saving = parts.iter().filter(|part| part.counts());
    let known = exact::sum(saving.clone().filter_map(|part| part.saved))?;
    let all_known = saving.clone().all(|part| part.saved.is_some());
    Ok(PlanWorth {
        totals,
        unearned: all_unearned(kitchen, credited, balance)?,
        earned: earned(kitchen, credited, balance)?,
        purchases: balance.purchases.sums(credited)?.purchases,
        saving: all_known.then_some(known),
        known_saving: known,
    })
}

/// The plan's totals in one kitchen. `None` where something that is served is not known.
fn total(
    kitchen: &Kitchen,
    costing: &Costing,
    balance: &Balance,
    dishes: &[DishWorth],
    parts: &[PartWorth],
    kept: Kept,
) -> Result<Option<PlanTotals>, Overflow> {
    let mut served = Decimal::ZERO;
    for dish in dishes {
        let Some(portions) = dish.portions else { continue };
        let Some(food) = food_of(costing, dish.served) else { return Ok(None) };
        served = exact::add(served, exact::mul(food, portions)?)?;
    }
    let bought = match kept {
        Kept::Binned => &balance.purchases_binned,
        Kept::Free | Kept::Credited => &balance.purchases,
    };
    let bought = bought.sums(costing)?;
    let Some(purchases) = bought.purchases else { return Ok(None) };
    let (mut left_over, mut on_hand, mut sold) = (bought.left_over, bought.on_hand, Decimal::ZERO);
    for id in kitchen.all_parts() {
        let (Some(part), Some(of_part)) = (kitchen.part(id), balance.part(id)) else { continue };
        // What was on hand before is used first; what is left of what the plan made and still good is sold.
        let for_sale = if keeps(part, kept) { of_part.left_of_made } else { of_part.made };
        sold = exact::add(sold, fetches(part, for_sale)?)?;
        let Some(rate) = own_rate(costing, id) else { continue };
        let (before, left) = if keeps(part, kept) {
            (of_part.on_hand, exact::add(of_part.left_over, of_part.too_old)?)
        } else {
            // None is on hand, none is used: all that is made is sold or goes in the bin.
            (Decimal::ZERO, of_part.made)
        };
        left_over = exact::add(left_over, rate.cost_of(Amount::of(left))?)?;
        on_hand = exact::add(on_hand, rate.cost_of(Amount::of(before))?)?;
    }
    for stock in &balance.recipes {
        let Some(batch) = costing.recipe(stock.recipe).map(|cost| cost.batch) else { continue };
        left_over = exact::add(left_over, exact::mul(batch, stock.left_over)?)?;
        on_hand = exact::add(on_hand, exact::mul(batch, stock.on_hand)?)?;
    }
    let brought_in = exact::sub(exact::sub(exact::add(served, left_over)?, on_hand)?, sold)?;
    let used = parts.iter().filter(|_| kept != Kept::Binned);
    let further_cost = exact::sum(used.clone().map(|part| part.further_cost))?;
    let haulage = exact::sum(used.map(|part| part.haulage))?;
    let comes_to = exact::sub(exact::add(brought_in, further_cost)?, haulage)?;
    Ok(Some(PlanTotals { served, left_over, on_hand, sold, brought_in, purchases, further_cost, haulage, comes_to }))
}

/// Whether a kitchen keeps a part for its recipes.
fn keeps(part: &Part, kept: Kept) -> bool {
    kept != Kept::Binned || part.role != Role::ByProduct
}

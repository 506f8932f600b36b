//! Savings by by-product over the plan, and at which price it would break even.

use std::collections::{BTreeMap, HashSet};

use super::PartWorth;
use super::earned::unearned;
use super::trim_sold::{fetches, sells_at};
use crate::analysis::balance::{Balance, PartBalance, rest};
use crate::analysis::part_values::further_cost;
use crate::analysis::portion_usage::Uses;
use crate::costing::rate::Amount;
use crate::costing::{Costing, Rate};
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::Part;
use crate::kitchen::{Kitchen, PartId};
use crate::number::{Decimal, Overflow, exact};

/// What the parts that something uses save.
pub(super) fn parts(
    kitchen: &Kitchen,
    uses: &Uses,
    credited: &Costing,
    balance: Option<&Balance>,
    buy_ins: &BTreeMap<PartId, Option<Rate>>,
) -> Result<Vec<PartWorth>, Overflow> {
    let recipes = uses.recipes.iter().flatten().flat_map(|takes| takes.parts.keys().copied());
    let tests = kitchen.tests.iter().flat_map(|test| {
        let added = test.added.iter().filter_map(|added| added.source);
        std::iter::once(test.input).chain(added).filter_map(|source| match source {
            IngredientSource::Part(id) => Some(id),
            _ => None,
        })
    });
    let taken: HashSet<PartId> = recipes.chain(tests).collect();
    let mut found = Vec::new();
    for (id, buy_in) in buy_ins {
        let Some(part) = kitchen.part(*id) else { continue };
        let of_part = balance.and_then(|balance| balance.part(*id));
        let stands = of_part.is_some_and(|part| !part.used.is_zero() || !part.short.is_zero());
        if taken.contains(id) || stands {
            found.push(part_worth(kitchen, credited, *id, part, of_part, *buy_in)?);
        }
    }
    Ok(found)
}

fn part_worth(
    kitchen: &Kitchen,
    credited: &Costing,
    id: PartId,
    part: &Part,
    balance: Option<&PartBalance>,
    buy_in: Option<Rate>,
) -> Result<PartWorth, Overflow> {
    let used = balance.map_or(Decimal::ZERO, |balance| balance.used);
    let of = |rate: Rate| rate.cost_of(Amount::of(used));
    // What stands in for none of it costs nothing, whoever says what.
    let not_bought = match (balance, buy_in) {
        (Some(_), _) if used.is_zero() => Some(Decimal::ZERO),
        (Some(_), Some(rate)) => Some(of(rate)?),
        _ => None,
    };
    // What was made and is not left over to be sold still.
    let gone = balance.map_or(Ok(Decimal::ZERO), |balance| rest(balance.made, balance.left_of_made))?;
    let not_sold = fetches(part, gone)?;
    let further_cost = further_cost(part).map_or(Ok(Decimal::ZERO), of)?;
    let haulage = match &kitchen.settings.haulage {
        // What would have been sold was never hauled.
        Some((money, unit)) if sells_at(part).is_none() => {
            let eaten = exact::mul(used, part.reuse.eaten)?;
            let per = unit.grams().unwrap_or(Decimal::ONE);
            Rate { money: *money, per }.cost_of(Amount::of(eaten))?
        }
        _ => Decimal::ZERO,
    };
    let costs = exact::sub(exact::add(not_sold, further_cost)?, haulage)?;
    let saved = not_bought.map(|not_bought| exact::sub(not_bought, costs)).transpose()?;
    let unearned = match (balance, own_rate(credited, id)) {
        (Some(balance), Some(rate)) => unearned(part, balance, rate)?,
        _ => Decimal::ZERO,
    };
    Ok(PartWorth {
        part: id,
        used: balance.map(|balance| balance.used),
        buy_in,
        not_bought,
        not_sold,
        further_cost,
        haulage,
        saved,
        breaks_even_at: (!used.is_zero()).then_some(Rate { money: costs, per: used }),
        unearned,
    })
}

/// What a part is credited by weight, whatever its users pay.
pub fn own_rate(costing: &Costing, id: PartId) -> Option<Rate> {
    let part = costing.part(id)?;
    (!part.grams.is_zero()).then_some(Rate { money: part.cost, per: part.grams })
}

//! Constants by which money flows: what of a batch or a part a line takes, and how joint parts share.

use crate::costing::q_and_spice::QAndSpice;
use crate::costing::rate::{Amount, Rate};
use crate::costing::trace::CostedAs;
use crate::costing::yield_test::split::{Taker, Takes, joint_keys};
use crate::costing::{Costing, LineTrace};
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::{Charge, Test};
use crate::kitchen::{Kitchen, RecipeId};
use crate::number::{Decimal, Overflow, exact};

/// What `by` of a batch, Q and spice of its own card within, is of its food.
pub(in crate::analysis) fn batches(
    kitchen: &Kitchen,
    costing: &Costing,
    id: RecipeId,
    by: Amount,
) -> Result<Amount, Overflow> {
    match kitchen.recipe(id) {
        Some(recipe) => by.times(QAndSpice::of_batch(kitchen, &costing.scenario, recipe).factor()?),
        None => Ok(by),
    }
}

/// How much of the cost of a part, or of a batch, a line takes. `None` for what it buys.
pub(in crate::analysis) fn taken(
    costing: &Costing,
    trace: &LineTrace,
    used: Decimal,
) -> Result<Option<(IngredientSource, Amount)>, Overflow> {
    let by = trace.as_costed()?.times(used)?.over(trace.rate.per)?;
    let source = trace.costed_as.source();
    Ok(match (trace.costed_as, source) {
        (_, IngredientSource::Bought(_) | IngredientSource::Unknown) => None,
        (CostedAs::Portions(id), _) => match costing.recipe(id).and_then(|cost| cost.portions) {
            Some(portions) => Some((source, by.times(portions.den)?)),
            None => None,
        },
        (CostedAs::Plates(_, dish), _) => match costing.plate(dish) {
            Some(plate) => Some((source, by.times(plate.share.num)?)),
            None => None,
        },
        _ => Some((source, by)),
    })
}

/// What a part, or a batch, costs.
pub(in crate::analysis) fn cost_of(costing: &Costing, source: IngredientSource) -> Option<Decimal> {
    match source {
        IngredientSource::Part(id) => costing.part(id).map(|part| part.cost),
        IngredientSource::Made(id) => costing.recipe(id).map(|recipe| recipe.batch),
        IngredientSource::Bought(_) | IngredientSource::Unknown => None,
    }
}

/// The share of every joint part, by index, of what credits leave.
pub(in crate::analysis) fn joint_shares(test: &Test, charges: &[Charge]) -> Option<Vec<(usize, Amount)>> {
    let joint = test.parts.iter().zip(charges).enumerate().filter_map(|(index, (part, charge))| match charge {
        Charge::Joint { money, grams } => {
            let takes = Takes::Share(Rate { money: *money, per: *grams });
            Some((index, Taker { grams: part.grams, key: &part.key, takes }))
        }
        _ => None,
    });
    let (places, takers): (Vec<usize>, Vec<Taker<'_>>) = joint.unzip();
    let keys = joint_keys(&takers).ok()?;
    let whole = exact::sum(keys.iter().map(|(.., key)| *key)).ok().filter(|whole| !whole.is_zero())?;
    let shares = places.into_iter().zip(keys);
    Some(shares.map(|(index, (.., key))| (index, Amount { num: key, den: whole })).collect())
}

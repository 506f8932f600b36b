//! Ingredients that come out whole: the size is moved to the nearest whole egg or can, and all the rest follows.

use super::names::{NamedLine, called};
use super::{NotScaled, multiplied, needs};
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::rate::Amount;
use crate::costing::{Costing, LineCost};
use crate::kitchen::recipe::{IngredientSource, LineQuantity};
use crate::kitchen::{Kitchen, RecipeId};
use crate::measure::Rounding;
use crate::number::{Decimal, exact, half_up};

/// An ingredient that comes out whole.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Whole {
    /// Its name on the line.
    pub item: String,
    /// What is counted: each, can.
    pub unit: String,
    /// How many the size asked for would have taken.
    pub before: Decimal,
    /// How many it takes now.
    pub count: Decimal,
    /// How many times the recipe the size asked for was.
    pub asked: Amount,
    /// How many times the recipe it is now.
    pub factor: Amount,
}

/// `name` whole at about `factor` times the recipe: the nearest, one at the least; no more than there is.
pub(super) fn of(
    kitchen: &Kitchen,
    costing: &Costing,
    recipe: RecipeId,
    name: &str,
    (asked, rounding): (Amount, Rounding),
) -> Result<Whole, NotScaled> {
    let of_recipe = kitchen.recipe(recipe).map(|recipe| recipe.name.clone()).unwrap_or_default();
    if costing.recipe(recipe).is_none() {
        return Err(NotScaled::NotCosted { recipe: of_recipe });
    }
    let names = names(kitchen, costing, recipe);
    let Some(named) = called(&names, name) else {
        let known = names.iter().map(|named| named.item.as_str()).collect();
        let near = super::refusal::near(&known, name, "It takes");
        return Err(NotScaled::NoLine { item: name.to_owned(), recipe: of_recipe, near });
    };
    let item = named.item.clone();
    let not_counted = || NotScaled::NotCounted { item: item.clone(), recipe: of_recipe.clone() };
    let mut total: Option<(BaseUnitKind, Decimal)> = None;
    for (_, line, cost) in needs::lines(kitchen, costing, recipe) {
        if line.source != named.source {
            continue;
        }
        let LineQuantity::Measured(quantity) = &line.quantity else { continue };
        let (kind, size) = BaseUnitKind::of(&quantity.unit, kitchen.settings.volumes);
        let (kind, count) = match cost {
            _ if quantity.unit.is_count_like() => (kind, exact::mul(quantity.amount, size)?),
            LineCost::Costed { trace, .. } if matches!(trace.kind, BaseUnitKind::Each | BaseUnitKind::Own(_)) => {
                (trace.kind.clone(), trace.as_purchased()?.value()?)
            }
            _ => return Err(not_counted()),
        };
        let sum = match total {
            None => count,
            Some((known, sum)) if known == kind => exact::add(sum, count)?,
            Some(_) => return Err(not_counted()),
        };
        total = Some((kind, sum));
    }
    let Some((kind, one)) = total else { return Err(not_counted()) };
    if one <= Decimal::ZERO {
        return Err(not_counted());
    }
    let before = multiplied(Amount::of(one), asked)?.value()?;
    let count = match rounding {
        Rounding::Nearest => half_up(before, 0).max(Decimal::ONE),
        Rounding::Down => half_up(before, 15).trunc(),
    };
    if count.is_zero() {
        return Err(NotScaled::NotOne { item });
    }
    let unit = kind.unit().name();
    Ok(Whole { item, unit, before, count, asked, factor: Amount { num: count, den: one } })
}

/// The names of the lines of a recipe, and of what is bought under them.
fn names(kitchen: &Kitchen, costing: &Costing, recipe: RecipeId) -> Vec<NamedLine> {
    let mut names = Vec::new();
    for (typed, line, _) in needs::lines(kitchen, costing, recipe) {
        names.push(NamedLine::of(&typed.item, line.source, &typed.item));
        if let IngredientSource::Bought(id) = line.source {
            names.extend(kitchen.item(id).map(|item| NamedLine::of(&item.name, line.source, &typed.item)));
        }
    }
    names
}

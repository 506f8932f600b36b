//! Lines of a recipe at another size: exactly, as a kitchen measures them, and what lies between.

use super::{Cost, NotScaled, multiplied, simplest};
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::package;
use crate::costing::rate::Amount;
use crate::costing::{Costing, LineCost};
use crate::kitchen::recipe::{IngredientSource, Line, LineQuantity};
use crate::kitchen::{Kitchen, RecipeId};
use crate::measure::{InKitchenUnits, Measured, Rounding, Unit, in_kitchen_units};
use crate::number::{Decimal, Overflow, exact};

/// A line at another size.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LineResized {
    /// It has no quantity, as one to taste, and stays as it is.
    AsTyped,
    /// Its quantity could not be read, which is reported: what was typed would be wrong in another size.
    NotRead,
    /// It is so many times as much.
    Scaled(Box<ScaledLine>),
}

/// A line with a quantity.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ScaledLine {
    /// Exactly, in the unit typed.
    pub exact: Measured,
    /// As a kitchen measures it.
    pub measured: InKitchenUnits,
    /// How many times the recipe's own quantity that is.
    pub by: Amount,
    /// The kind of what is measured.
    pub kind: BaseUnitKind,
    /// How much more is measured than asked for, in grams, millilitres or pieces; below zero, less.
    pub more: Decimal,
    /// That in grams, where it is known what the ingredient weighs.
    pub more_grams: Option<Decimal>,
    /// What the exact quantity costs; `None` where the recipe, or this line, is not costed.
    pub cost: Option<Decimal>,
    /// What the quantity measured costs.
    pub cost_as_measured: Option<Decimal>,
}

/// The lines of a recipe at `factor`, and what they cost together. Of what is used up, nothing is rounded up: there is no more
/// of it.
pub(super) fn all(
    kitchen: &Kitchen,
    costing: &Costing,
    id: RecipeId,
    factor: Amount,
    used_up: &[IngredientSource],
) -> Result<(Vec<LineResized>, Option<Cost>), NotScaled> {
    let Some(recipe) = kitchen.recipe(id) else { return Ok((Vec::new(), None)) };
    let costed = costing.recipe(id);
    let typed = kitchen.entries.recipes.get(recipe.entry).map(|entry| entry.lines.as_slice()).unwrap_or_default();
    let mut lines = Vec::with_capacity(recipe.lines.len());
    let mut sum = Decimal::ZERO;
    for (index, line) in recipe.lines.iter().enumerate() {
        if typed.get(index).is_some_and(|typed| typed.quantity.is_broken()) {
            lines.push(LineResized::NotRead);
            continue;
        }
        let cost = costed.and_then(|cost| cost.lines.get(index));
        let rounding = if used_up.contains(&line.source) { Rounding::Down } else { Rounding::Nearest };
        let line = of_line((kitchen, costing), line, cost, factor, rounding)?;
        if let LineResized::Scaled(scaled) = &line
            && let Some(cost) = scaled.cost_as_measured
        {
            sum = exact::add(sum, cost)?;
        }
        lines.push(line);
    }
    let cost = match costed {
        Some(cost) => Some(Cost { food: cost.food_at(factor)?, batch: cost.batch_at(factor)?, food_as_measured: sum }),
        None => None,
    };
    Ok((lines, cost))
}

fn of_line(
    (kitchen, costing): (&Kitchen, &Costing),
    line: &Line,
    cost: Option<&LineCost>,
    factor: Amount,
    rounding: Rounding,
) -> Result<LineResized, Overflow> {
    let volumes = kitchen.settings.volumes;
    let typed = match (&line.quantity, cost) {
        (LineQuantity::Measured(typed), _) => typed,
        // A pinch that Measures give a weight is a quantity.
        (LineQuantity::Unmeasured { measured: Some(typed), .. }, Some(LineCost::Costed { .. })) => typed,
        (LineQuantity::Unmeasured { .. }, _) => return Ok(LineResized::AsTyped),
    };
    let mut told = told_in(kitchen, line, typed, cost);
    let at_factor = |typed: &Measured| {
        let amount = multiplied(Amount::of(typed.amount), factor)?.value()?;
        Ok::<_, Overflow>(Measured::new(amount, typed.unit.clone()))
    };
    let exact = at_factor(typed)?;
    let mut wanted = at_factor(&told)?;
    let mut measured = in_kitchen_units(&wanted, told.amount, rounding, volumes)?;
    if !measured.is_count_of(wanted.amount, told.amount)
        && let Some(held) = held_in(kitchen, costing, line.source, &told)
    {
        told = held;
        wanted = at_factor(&told)?;
        measured = in_kitchen_units(&wanted, told.amount, rounding, volumes)?;
    }
    let size = told.unit.to_base(volumes).map_or(Decimal::ONE, |(_, size)| size);
    let base = exact::mul(told.amount, size)?;
    let poured = measured.in_base(volumes)?;
    let by = if base.is_zero() { factor } else { simplest(Amount { num: poured, den: base }) };
    let more = exact::sub(poured, multiplied(Amount::of(base), factor)?.value()?)?;
    let (kind, _) = BaseUnitKind::of(&told.unit, volumes);
    let mut scaled = ScaledLine {
        exact,
        measured,
        by,
        more_grams: (kind == BaseUnitKind::Mass).then_some(more),
        kind,
        more,
        cost: None,
        cost_as_measured: None,
    };
    if let Some(cost) = cost {
        scaled.cost = cost.at(line, factor)?;
        scaled.cost_as_measured = cost.at(line, by)?;
    }
    if let Some(LineCost::Costed { trace, .. }) = cost
        && scaled.more_grams.is_none()
        && trace.kind == BaseUnitKind::Mass
    {
        let grams = |by: Amount| multiplied(trace.as_asked(), by)?.value();
        scaled.more_grams = Some(exact::sub(grams(by)?, grams(factor)?)?);
    }
    Ok(LineResized::Scaled(Box::new(scaled)))
}

/// The quantity in which a line is told: batches of another recipe in what that makes, a bare ounce of what is poured as the
/// fluid one that it was costed as.
fn told_in(kitchen: &Kitchen, line: &Line, typed: &Measured, cost: Option<&LineCost>) -> Measured {
    if let (IngredientSource::Made(id), true) = (line.source, typed.unit.is_batch())
        && let Some(makes) = kitchen.recipe(id).and_then(|recipe| recipe.makes.first())
        && let Ok(amount) = exact::mul(typed.amount, makes.amount)
    {
        return Measured::new(amount, makes.unit.clone());
    }
    let is_poured = match cost {
        Some(LineCost::Costed { trace, .. }) => trace.kind == BaseUnitKind::Volume && trace.measures.is_empty(),
        _ => false,
    };
    let unit = if typed.unit.is_bare_ounce() && is_poured { Unit::fluid_ounce() } else { typed.unit.clone() };
    Measured::new(typed.amount, unit)
}

/// What so many packages of something bought hold, by the pack in use: what a cook measures of 0.7 block.
pub(crate) fn held_in(
    kitchen: &Kitchen,
    costing: &Costing,
    source: IngredientSource,
    packages: &Measured,
) -> Option<Measured> {
    let IngredientSource::Bought(id) = source else { return None };
    let (item, cost) = (kitchen.item(id)?, costing.item(id)?);
    package::has_one_meaning(kitchen, costing, item, cost, &packages.unit).ok()?;
    let one = package::in_use(kitchen, cost)?.1.one_holds(&packages.unit)?;
    Some(Measured::new(exact::mul(packages.amount, one.amount).ok()?.normalize(), one.unit))
}

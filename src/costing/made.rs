//! Recipe costs: the batch over its lines, its portions, and what one unit of it costs inside another recipe.

use super::Costing;
use super::line::{Coster, LineCost};
use super::rate::{Amount, Rate};
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::convert::{NoConversion, Wanted, convert};
use crate::costing::conversion::equivalences_of_item::{no_makes, of_recipe};
use crate::costing::conversion::ounces;
use crate::costing::q_and_spice::{QAndSpice, QAndSpiceMoney, portions_wanted};
use crate::kitchen::recipe::{Recipe, RecipeEntry};
use crate::kitchen::{Kitchen, RecipeId};
use crate::measure::Measured;
use crate::number::{Decimal, Overflow, exact};
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// What a recipe costs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecipeCost {
    /// Ingredients alone.
    pub food: Decimal,
    /// Q of its own card.
    pub q: Decimal,
    /// Spice of its own card.
    pub spice: Decimal,
    /// Food, Q and spice of its own card.
    pub batch: Decimal,
    /// What it makes in base units, when known.
    pub makes: Option<(BaseUnitKind, Decimal)>,
    /// One portion in base units of what it makes, as a ratio, when known.
    pub portion: Option<Amount>,
    /// Portions, as a ratio; net of serving loss.
    pub portions: Option<Amount>,
    /// What one portion costs, own Q and spice within.
    pub portion_cost: Option<Decimal>,
    /// Its lines, beside the recipe's own.
    pub lines: Vec<LineCost>,
}

impl RecipeCost {
    /// What one base unit of it costs inside another recipe, when it is known what it makes.
    pub fn unit_rate(&self) -> Option<(BaseUnitKind, Rate)> {
        let (kind, per) = self.makes.clone()?;
        Some((kind, Rate { money: self.batch, per }))
    }

    /// The same without its lines.
    pub(super) fn without_lines(&self) -> RecipeCost {
        let RecipeCost { food, q, spice, batch, portion, portions, portion_cost, .. } = *self;
        let makes = self.makes.clone();
        RecipeCost { food, q, spice, batch, makes, portion, portions, portion_cost, lines: Vec::new() }
    }

    /// The share of its food cost that `cost` of it is, as a ratio, so that a fraction and a percentage are each divided once.
    /// `None` where the food costs nothing.
    pub fn share_of_food(&self, cost: Decimal) -> Option<Amount> {
        (!self.food.is_zero()).then_some(Amount { num: cost, den: self.food })
    }

    /// Lines without cost.
    pub fn uncosted_lines(&self) -> usize {
        self.lines.iter().filter(|line| **line == LineCost::Uncosted).count()
    }
}

/// Costs one recipe. `None` when a reported problem stops it.
pub(super) fn cost(kitchen: &Kitchen, costing: &mut Costing, id: RecipeId) -> Option<RecipeCost> {
    let mut lines = Vec::with_capacity(kitchen.recipe(id)?.lines.len());
    let cost = of_lines(kitchen, costing, id, None, |line| lines.push(line))?;
    Some(RecipeCost { lines, ..cost })
}

/// Costs one recipe, whose lines cost `before` in another scenario, where it was costed there: what is bought costs what it
/// did. Without its lines; `None` when a reported problem stops it.
pub(super) fn cost_again(
    kitchen: &Kitchen,
    costing: &mut Costing,
    id: RecipeId,
    before: Option<&RecipeCost>,
) -> Option<RecipeCost> {
    of_lines(kitchen, costing, id, before, drop)
}

/// Costs one recipe without its lines, of which those that are costed are handed to `keep`.
fn of_lines(
    kitchen: &Kitchen,
    costing: &mut Costing,
    id: RecipeId,
    before: Option<&RecipeCost>,
    mut keep: impl FnMut(LineCost),
) -> Option<RecipeCost> {
    let recipe = kitchen.recipe(id)?;
    let entry = kitchen.entries.recipes.get(recipe.entry)?;
    let mut food = Ok(Decimal::ZERO);
    let mut stopped = recipe.broken;
    let mut before = before.map(|cost| cost.lines.as_slice()).unwrap_or_default().iter();
    for (line, typed) in recipe.lines.iter().zip(&entry.lines) {
        let before = before.next();
        if line.broken {
            continue;
        }
        if let Some(before) = before.filter(|before| before.is_bought()) {
            food = food.and_then(|food| exact::add(food, before.money()));
            continue;
        }
        let mut coster = Coster { kitchen, costing, recipe: id, line, entry: typed };
        match coster.cost() {
            Ok(cost) => {
                food = food.and_then(|food| exact::add(food, cost.money()));
                keep(cost);
            }
            Err(stop) => {
                stopped = true;
                let place = match &stop {
                    NoConversion::Fault(fault) if fault.code == Code::MainsSeveral => typed.input.place(Column::Item),
                    NoConversion::Fault(fault) if fault.code == Code::UnitUnknown => typed.unit_place(),
                    _ => typed.input.place(Column::Qty),
                };
                costing.problems.extend(stop.at(place));
            }
        }
    }
    // What is wrong with what it makes is told beside what is wrong with its lines.
    if recipe.size_broken {
        return None;
    }
    match batch(kitchen, costing, recipe, entry, food) {
        Ok(cost) => Some(cost).filter(|_| !stopped),
        Err((column, stop)) => {
            costing.problems.extend(stop.at(entry.input.place(column)));
            None
        }
    }
}

/// A recipe whose lines come to `food`, without them.
fn batch(
    kitchen: &Kitchen,
    costing: &mut Costing,
    recipe: &Recipe,
    entry: &RecipeEntry,
    food: Result<Decimal, Overflow>,
) -> Result<RecipeCost, (Column, NoConversion)> {
    let overflow = |_: Overflow| (Column::Recipe, NoConversion::Overflow);
    let food = food.map_err(overflow)?;
    let BatchSize { makes, portion, portions } = size(kitchen, recipe, entry, &mut costing.problems)?;
    let added = QAndSpice::of_batch(kitchen, &costing.scenario, recipe)
        .on(food, || portions.ok_or_else(|| portions_wanted(recipe)))
        .map_err(|stop| {
            if matches!(stop, NoConversion::Fault(_)) { (Column::QFactor, stop) } else { (Column::Recipe, stop) }
        })?;
    let QAndSpiceMoney { q, spice, total: batch } = added;
    let portion_cost = match portions {
        Some(portions) => {
            Some(Rate { money: batch, per: portions.num }.cost_of(Amount::of(portions.den)).map_err(overflow)?)
        }
        None => None,
    };
    Ok(RecipeCost { food, q, spice, batch, makes, portions, portion, portion_cost, lines: Vec::new() })
}

/// What a batch gives, whatever it costs.
struct BatchSize {
    makes: Option<(BaseUnitKind, Decimal)>,
    portion: Option<Amount>,
    portions: Option<Amount>,
}

/// How many portions a recipe gives by its card, as a ratio: `None` within where that does not say. What is to be said of that
/// is said of the recipe.
///
/// # Errors
/// A [`NoConversion`] where a problem leaves it unknown.
pub(super) fn portions_of_card(kitchen: &Kitchen, recipe: &Recipe) -> Result<Option<Amount>, NoConversion> {
    let entry = kitchen.entries.recipes.get(recipe.entry).filter(|_| !recipe.size_broken);
    let entry = entry.ok_or(NoConversion::Known)?;
    size(kitchen, recipe, entry, &mut Vec::new()).map(|size| size.portions).map_err(|_| NoConversion::Known)
}

/// What a batch of a recipe gives; what is doubtful about that goes to `problems`.
fn size(
    kitchen: &Kitchen,
    recipe: &Recipe,
    entry: &RecipeEntry,
    problems: &mut Vec<Problem>,
) -> Result<BatchSize, (Column, NoConversion)> {
    let volumes = kitchen.settings.volumes;
    let makes = match recipe.makes.first() {
        Some(first) => {
            let (kind, factor) = BaseUnitKind::of(&first.unit, volumes);
            let amount = exact::mul(first.amount, factor).map_err(|_| (Column::Makes, NoConversion::Overflow))?;
            if amount <= Decimal::ZERO {
                return Err((Column::Makes, NoConversion::Overflow));
            }
            Some((kind, amount))
        }
        None => None,
    };
    let portion = one_portion(kitchen, recipe, entry, problems).map_err(|stop| (Column::Portion, stop));
    // Stated portions stand without a portion that compares.
    let portion = if recipe.stated_portions.is_some() { portion.unwrap_or_default() } else { portion? };
    let portions = portions(recipe, makes.as_ref(), portion, entry, problems)?;
    Ok(BatchSize { makes, portion, portions })
}

/// One portion in base units of what the recipe makes.
fn one_portion(
    kitchen: &Kitchen,
    recipe: &Recipe,
    entry: &RecipeEntry,
    problems: &mut Vec<Problem>,
) -> Result<Option<Amount>, NoConversion> {
    let (Some((portion, warning)), Some(_)) = (ounces::of_card(kitchen, recipe), recipe.makes.first()) else {
        return Ok(None);
    };
    problems.extend(warning.map(|warning| warning.at(entry.input.place(Column::Portion))));
    in_makes(kitchen, recipe, &portion).map(Some)
}

/// `quantity` of a recipe in base units of what it makes.
///
/// # Errors
/// A [`NoConversion`] when it is not known what it makes, or no measure leads there.
pub(crate) fn in_makes(kitchen: &Kitchen, recipe: &Recipe, quantity: &Measured) -> Result<Amount, NoConversion> {
    let first = recipe.makes.first().ok_or_else(|| no_makes(&recipe.name))?;
    let (kind, _) = BaseUnitKind::of(&first.unit, kitchen.settings.volumes);
    let wanted = Wanted::as_purchased(quantity, &recipe.name);
    let joins = of_recipe(kitchen, recipe, (&quantity.unit, &kind), None);
    let amount = convert(wanted, &kind, &joins, kitchen.settings.volumes)?.amount;
    if amount.num <= Decimal::ZERO { Err(NoConversion::Overflow) } else { Ok(amount) }
}

/// Portions as stated, else Makes × (1 − serving loss) ÷ Portion.
fn portions(
    recipe: &Recipe,
    makes: Option<&(BaseUnitKind, Decimal)>,
    portion: Option<Amount>,
    entry: &RecipeEntry,
    problems: &mut Vec<Problem>,
) -> Result<Option<Amount>, (Column, NoConversion)> {
    let overflow = |_: Overflow| (Column::Portions, NoConversion::Overflow);
    let computed = match (makes, portion) {
        (Some((_, makes)), Some(portion)) if !recipe.makes_computed => {
            Some(served(*makes, recipe.serving_loss, portion).map_err(overflow)?)
        }
        _ => None,
    };
    let Some(stated) = recipe.stated_portions else { return Ok(computed) };
    if stated <= Decimal::ZERO {
        return Err((Column::Portions, NoConversion::Overflow));
    }
    if let Some(computed) = computed {
        let computed = computed.value().map_err(overflow)?;
        let short = exact::sub(computed, stated).map_err(overflow)?;
        if short < Decimal::ZERO || short > Decimal::ONE {
            let shown = crate::number::rounding::half_up(computed, 2).normalize();
            problems.push(
                Fault::new(
                    Code::PortionsDisagree,
                    format!(
                        "“{}” states {} portions, but Makes and Portion give {shown}; the stated number is used",
                        recipe.name,
                        stated.normalize()
                    ),
                    "Correct Makes, Portion or Serving loss, or clear Portions.",
                )
                .at(entry.input.place(Column::Portions)),
            );
        }
    }
    Ok(Some(Amount::of(stated)))
}

/// How many of `portion` a batch gives, net of serving loss.
pub(crate) fn portions_of(kitchen: &Kitchen, recipe: &Recipe, portion: &Measured) -> Result<Amount, NoConversion> {
    let first = recipe.makes.first().ok_or_else(|| no_makes(&recipe.name))?;
    let (_, factor) = BaseUnitKind::of(&first.unit, kitchen.settings.volumes);
    let one = in_makes(kitchen, recipe, portion)?;
    Ok(served(exact::mul(first.amount, factor)?, recipe.serving_loss, one)?)
}

/// makes × (1 − loss) ÷ portion.
fn served(makes: Decimal, loss: Decimal, portion: Amount) -> Result<Amount, Overflow> {
    Amount::of(makes).times(exact::sub(Decimal::ONE, loss)?)?.times(portion.den)?.over(portion.num)
}

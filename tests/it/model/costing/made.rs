//! Recipes: their lines, what the batch costs, and what one unit, portion or batch of it costs those who use it.

use super::super::fraction::{Fraction, whole};
use super::super::kitchen::lines::{Line, LineUnit, Target};
use super::super::kitchen::measures::{Basis, Gauge, Measure};
use super::super::kitchen::recipes::{Q, Recipe};
use super::super::unit::{Dim, Unit};
use super::conversion::density;
use super::{Base, Costs, Known, Lack, YieldFrom};

/// A line that costs something.
#[derive(Debug, Clone)]
pub struct LineCost {
    /// None for portions and batches, which are of no base unit.
    pub base: Option<Base>,
    /// Of an edible quantity.
    pub yields: Option<(Fraction, YieldFrom)>,
    pub cost: Fraction,
}

impl LineCost {
    fn of(base: Base, yields: Option<(Fraction, YieldFrom)>) -> Self {
        LineCost { cost: &base.qty * &base.unit_cost, base: Some(base), yields }
    }

    /// As purchased.
    pub fn ap(base: Base) -> Self {
        LineCost::of(base, None)
    }

    /// Edible.
    pub fn ep(base: Base, yields: Fraction, from: YieldFrom) -> Self {
        LineCost::of(base, Some((yields, from)))
    }
}

/// A recipe.
pub struct RecipeCost {
    /// None for a line without cost.
    pub lines: Vec<Known<Option<LineCost>>>,
    pub portions: Option<Fraction>,
    /// In base units, each in another dimension.
    pub makes: Vec<(Dim, Fraction)>,
    pub food: Known<Fraction>,
    /// With its own card's Q and spice.
    pub batch: Known<Fraction>,
}

/// A percentage, or nothing.
fn share(num: Option<&super::super::fraction::Num>) -> Fraction {
    num.map_or_else(|| whole(0), |num| num.value.clone())
}

/// What is left to serve of all that is made.
pub fn served(recipe: &Recipe) -> Fraction {
    whole(1) - share(recipe.serving_loss.as_ref())
}

/// What a batch makes: as stated, else its portions with what is lost in serving.
fn makes(recipe: &Recipe) -> Vec<(Dim, Fraction)> {
    if let (true, Some(portion), Some(portions)) = (recipe.makes.is_empty(), &recipe.portion, &recipe.portions) {
        return vec![(portion.unit.dim, portion.base() * &portions.value / served(recipe))];
    }
    recipe.makes.iter().map(|amount| (amount.unit.dim, amount.base())).collect()
}

/// How many portions: as stated, else what is left to serve ÷ the portion.
fn portions(recipe: &Recipe, makes: &[(Dim, Fraction)]) -> Option<Fraction> {
    if let Some(stated) = &recipe.portions {
        return Some(stated.value.clone());
    }
    let portion = recipe.portion.as_ref()?;
    let (_, made) = makes.iter().find(|(dim, _)| *dim == portion.unit.dim)?;
    Some(made * served(recipe) / portion.base())
}

impl Costs<'_> {
    /// Whether a recipe needs a test to be costed first: it names a part, or an item that a test breaks down.
    pub(super) fn asks_tests(&self, recipe: &Recipe) -> bool {
        recipe.lines.iter().any(|line| match line.target {
            Target::Part(..) => true,
            Target::Bought(item) => self.trim(item) != super::bought::Trim::Nothing,
            _ => false,
        })
    }

    /// A recipe.
    pub(super) fn recipe(&self, recipe: &Recipe) -> RecipeCost {
        let lines: Vec<Known<Option<LineCost>>> = recipe.lines.iter().map(|line| self.line(line)).collect();
        let food = lines.iter().try_fold(whole(0), |sum, line| match line {
            Ok(Some(line)) => Ok(sum + &line.cost),
            Ok(None) => Ok(sum),
            Err(lack) => Err(*lack),
        });
        let makes = makes(recipe);
        let portions = portions(recipe, &makes);
        let batch = food.clone().and_then(|food| {
            let q = match &recipe.q {
                None => whole(0),
                Some(Q::Percent(percent)) => &food * &percent.value,
                Some(Q::Money(money)) => &money.value * portions.as_ref().ok_or(Lack("no portions"))?,
            };
            let spice = share(recipe.spice.as_ref()) * if self.spice_covers_q() { &food + &q } else { food.clone() };
            Ok(food + q + spice)
        });
        RecipeCost { lines, portions, makes, food, batch }
    }

    /// Whether spice is taken on Q as well.
    pub(super) fn spice_covers_q(&self) -> bool {
        self.kitchen.settings.spice_covers_q.unwrap_or(true)
    }

    fn line(&self, line: &Line) -> Known<Option<LineCost>> {
        let Some(qty) = line.qty.as_ref().map(|qty| &qty.value) else { return Ok(None) };
        let mut cost = match line.target {
            Target::Unknown => return Ok(None),
            Target::Water => LineCost { base: None, yields: None, cost: whole(0) },
            Target::Bought(item) => self.bought_line(item, line, qty)?,
            Target::Part(test, part) => {
                let rows = &self.kitchen.breakdowns[test].parts[part].measures;
                own_line(line, qty, rows, &[(Dim::Weight, whole(1))], &self.part_per_gram(test, part)?)?
            }
            // Its card's Q and spice within, and no others: those of the settings are taken once, on the set menu.
            Target::Dish(at) => {
                let dish = &self.kitchen.dishes[at];
                let (share, _) = self.portion(dish)?;
                let plates = match line.unit {
                    LineUnit::Unit(unit) => qty * unit.size(),
                    _ => qty.clone(),
                };
                LineCost { base: None, yields: None, cost: self.recipes[dish.recipe].batch.clone()? * share * plates }
            }
            Target::Recipe(at) => {
                let (rows, made) = (&self.kitchen.recipes[at].measures, &self.recipes[at]);
                let batch = made.batch.clone();
                match line.unit {
                    LineUnit::Batch => LineCost { base: None, yields: None, cost: batch? * qty },
                    LineUnit::Portion => {
                        let portions = made.portions.as_ref().ok_or(Lack("no portions"))?;
                        LineCost { base: None, yields: None, cost: batch? * qty / portions }
                    }
                    _ => own_line(line, qty, rows, &made.makes, &batch?)?,
                }
            }
        };
        if let Some(used) = &line.used {
            cost.cost *= &used.value;
        }
        Ok(Some(cost))
    }

    /// Money for a base unit of a recipe: its batch, its own card's Q and spice within, ÷ what it makes.
    pub fn recipe_unit_cost(&self, at: usize, dim: Dim) -> Known<Fraction> {
        let recipe = &self.recipes[at];
        let made = recipe.makes.iter().find(|(of, _)| *of == dim).ok_or(Lack("not made in this unit"))?;
        Ok(recipe.batch.clone()? / &made.1)
    }
}

/// A line of a part or a recipe that costs `cost` for as much as `made`; other measures go through its rows of
/// Measures.
fn own_line(
    line: &Line,
    qty: &Fraction,
    rows: &[Measure],
    made: &[(Dim, Fraction)],
    cost: &Fraction,
) -> Known<LineCost> {
    let LineUnit::Unit(unit) = line.unit else { return Err(Lack("no such unit")) };
    let known = |dim: Dim| made.iter().find(|(of, _)| *of == dim).map(|(_, made)| made);
    let more = line.and.as_ref().map_or_else(|| whole(0), |(num, unit)| &num.value * unit.size());
    let mut asked = (unit.dim, qty * unit.size() + more);
    if asked.0 == Dim::Count && known(Dim::Count).is_none() {
        let row = rows.iter().find(|row| row.gauge == Gauge::Piece("each")).ok_or(Lack("no weight of a piece"))?;
        asked = (Dim::Weight, asked.1 * row.weighs.base());
    }
    let (dim, qty) = match asked {
        (dim, qty) if known(dim).is_some() => (dim, qty),
        (Dim::Volume, qty) => (Dim::Weight, qty * by_volume(rows, line, Some(unit))?),
        (_, qty) => (Dim::Volume, qty / by_volume(rows, line, None)?),
    };
    // Of what is known in several measures the first is its own. Nothing of what is made in the house is trimmed.
    let (own, of_own) = made.first().ok_or(Lack("made in no unit"))?;
    let qty = qty * of_own / known(dim).ok_or(Lack("not made in this unit"))?;
    Ok(LineCost::ap(Base { dim: *own, qty, unit_cost: cost / of_own }))
}

fn by_volume(rows: &[Measure], line: &Line, unit: Option<Unit>) -> Known<Fraction> {
    density(rows, line.prep, Basis::Ep, unit).map(|(density, _)| density).ok_or(Lack("no volume row"))
}

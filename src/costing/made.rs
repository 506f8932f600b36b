//! What recipes cost: line by line, the batch, its portions, and what one unit of it costs inside another recipe.

use super::bought;
use super::convert::{Converted, Kind, Links, Stop, Wanted, convert};
use super::fabricated::problem;
use super::rate::{Amount, Rate};
use super::trace::{CostedAs, LineTrace, YieldFrom};
use super::{Costing, ItemCost};
use crate::kitchen::bridge::Basis;
use crate::kitchen::price::{Item, Trim};
use crate::kitchen::recipe::{Line, LineEntry, LineQuantity, QFactor, Recipe, RecipeEntry, Source};
use crate::kitchen::{Field, Kitchen, PartId, RecipeId};
use crate::measure::{Measured, Unit, Volumes};
use crate::number::{Decimal, Overflow, exact};
use crate::problem::{Code, Fault};
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
    pub makes: Option<(Kind, Decimal)>,
    /// One portion in base units of what it makes, as a ratio, when known.
    pub portion: Option<Amount>,
    /// Portions, as a ratio; net of serving loss.
    pub portions: Option<Amount>,
    /// What one portion costs, own Q and spice within.
    pub portion_cost: Option<Decimal>,
    /// Its lines, beside the recipe's own.
    pub lines: Vec<LineCost>,
}

/// What a line costs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LineCost {
    /// So much.
    Costed {
        /// Money.
        cost: Decimal,
        /// How it came about.
        trace: LineTrace,
    },
    /// Nothing, for want of a quantity.
    Uncosted,
}

impl RecipeCost {
    /// What one base unit of it costs inside another recipe, when it is known what it makes.
    pub fn unit_rate(&self) -> Option<(Kind, Rate)> {
        let (kind, per) = self.makes.clone()?;
        Some((kind, Rate { money: self.batch, per }))
    }

    /// Lines without cost.
    pub fn uncosted_lines(&self) -> usize {
        self.lines.iter().filter(|line| **line == LineCost::Uncosted).count()
    }
}

/// Everything that joins kinds of a recipe: its measures, then what it makes.
pub(super) fn links(kitchen: &Kitchen, recipe: &Recipe) -> Links {
    let volumes = kitchen.settings.volumes;
    let mut links = Links::default();
    links.measures(&recipe.bridge, volumes).makes(&recipe.makes, volumes);
    links
}

/// The stop of a recipe whose batch is not known in the measure asked for.
pub(super) fn no_makes(name: &str) -> Stop {
    Stop::Fault(Fault::new(
        Code::YieldUnknown,
        format!("“{name}” does not say how much it makes"),
        "Add Makes to its card (such as 3 qt), or ask for it by the portion or batch.",
    ))
}

/// Costs one recipe. `None` when a reported problem stops it.
pub(super) fn cost(kitchen: &Kitchen, costing: &mut Costing, id: RecipeId) -> Option<RecipeCost> {
    let recipe = kitchen.recipe(id)?;
    let entry = kitchen.entries.recipes.get(recipe.entry)?;
    let mut lines = Vec::with_capacity(recipe.lines.len());
    let mut stopped = recipe.broken;
    for (line, typed) in recipe.lines.iter().zip(&entry.lines) {
        if line.broken {
            continue;
        }
        let mut coster = Coster { kitchen, costing, recipe: id, line, entry: typed };
        match coster.cost() {
            Ok(cost) => lines.push(cost),
            Err(stop) => {
                stopped = true;
                let column = match &stop {
                    Stop::Fault(fault) if fault.code == Code::MainsSeveral => Column::Item,
                    _ => Column::Qty,
                };
                costing.problems.extend(problem(stop, typed.input.place(column)));
            }
        }
    }
    if stopped {
        return None;
    }
    match batch(kitchen, costing, recipe, entry, lines) {
        Ok(cost) => Some(cost),
        Err((column, stop)) => {
            costing.problems.extend(problem(stop, entry.input.place(column)));
            None
        }
    }
}

fn batch(
    kitchen: &Kitchen,
    costing: &mut Costing,
    recipe: &Recipe,
    entry: &RecipeEntry,
    lines: Vec<LineCost>,
) -> Result<RecipeCost, (Column, Stop)> {
    let overflow = |_: Overflow| (Column::Recipe, Stop::Overflow);
    let food = exact::sum(lines.iter().map(|line| match line {
        LineCost::Costed { cost, .. } => *cost,
        LineCost::Uncosted => Decimal::ZERO,
    }))
    .map_err(overflow)?;
    let volumes = kitchen.settings.volumes;
    let makes = match recipe.makes.first() {
        Some(first) => {
            let (kind, factor) = Kind::of(&first.unit, volumes);
            let amount = exact::mul(first.amount, factor).map_err(|_| (Column::Makes, Stop::Overflow))?;
            if amount <= Decimal::ZERO {
                return Err((Column::Makes, Stop::Overflow));
            }
            Some((kind, amount))
        }
        None => None,
    };
    let portion = one_portion(kitchen, recipe).map_err(|stop| (Column::Portion, stop));
    // Stated portions stand without a portion that compares.
    let portion = if recipe.stated_portions.is_some() { portion.unwrap_or_default() } else { portion? };
    let portions = portions(recipe, makes.as_ref(), portion, entry, costing)?;
    let q = match recipe.q {
        None => Decimal::ZERO,
        Some(QFactor::Share(share)) => exact::mul(food, share).map_err(overflow)?,
        Some(QFactor::Money(money)) => {
            let portions = portions.ok_or_else(|| (Column::QFactor, portions_wanted(recipe)))?;
            portions.times(money).and_then(Amount::value).map_err(overflow)?
        }
    };
    let spiced = if kitchen.settings.spice_covers_q { exact::add(food, q).map_err(overflow)? } else { food };
    let spice = exact::mul(spiced, recipe.spice.unwrap_or(Decimal::ZERO)).map_err(overflow)?;
    let batch = exact::sum([food, q, spice]).map_err(overflow)?;
    let portion_cost = match portions {
        Some(portions) => {
            Some(Rate { money: batch, per: portions.num }.cost_of(Amount::of(portions.den)).map_err(overflow)?)
        }
        None => None,
    };
    Ok(RecipeCost { food, q, spice, batch, makes, portions, portion, portion_cost, lines })
}

fn portions_wanted(recipe: &Recipe) -> Stop {
    Stop::Fault(Fault::new(
        Code::PortionUnclear,
        format!("Q in money is per portion, and “{}” does not say how many portions it makes", recipe.name),
        "Add Portions, or Makes and Portion; or write Q as a percentage.",
    ))
}

/// One portion in base units of what the recipe makes.
fn one_portion(kitchen: &Kitchen, recipe: &Recipe) -> Result<Option<Amount>, Stop> {
    match (&recipe.portion, recipe.makes.first()) {
        (Some(portion), Some(_)) => in_makes(kitchen, recipe, portion).map(Some),
        _ => Ok(None),
    }
}

/// `quantity` of a recipe in base units of what it makes.
fn in_makes(kitchen: &Kitchen, recipe: &Recipe, quantity: &Measured) -> Result<Amount, Stop> {
    let first = recipe.makes.first().ok_or_else(|| no_makes(&recipe.name))?;
    let (kind, _) = Kind::of(&first.unit, kitchen.settings.volumes);
    let wanted = Wanted { quantity, prep: None, basis: Basis::Ap, name: &recipe.name };
    let amount = convert(wanted, &kind, &links(kitchen, recipe), kitchen.settings.volumes)?.amount;
    if amount.num <= Decimal::ZERO { Err(Stop::Overflow) } else { Ok(amount) }
}

/// Portions as stated, else Makes × (1 − serving loss) ÷ Portion.
fn portions(
    recipe: &Recipe,
    makes: Option<&(Kind, Decimal)>,
    portion: Option<Amount>,
    entry: &RecipeEntry,
    costing: &mut Costing,
) -> Result<Option<Amount>, (Column, Stop)> {
    let overflow = |_: Overflow| (Column::Portions, Stop::Overflow);
    let computed = match (makes, portion) {
        (Some((_, makes)), Some(portion)) if !recipe.makes_computed => {
            Some(served(*makes, recipe.serving_loss, portion).map_err(overflow)?)
        }
        _ => None,
    };
    let Some(stated) = recipe.stated_portions else { return Ok(computed) };
    if stated <= Decimal::ZERO {
        return Err((Column::Portions, Stop::Overflow));
    }
    if let Some(computed) = computed {
        let computed = computed.value().map_err(overflow)?;
        let short = exact::sub(computed, stated).map_err(overflow)?;
        if short < Decimal::ZERO || short > Decimal::ONE {
            let shown = crate::number::rounding::half_up(computed, 2).normalize();
            costing.problems.push(
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
pub(super) fn portions_of(kitchen: &Kitchen, recipe: &Recipe, portion: &Measured) -> Result<Amount, Stop> {
    let first = recipe.makes.first().ok_or_else(|| no_makes(&recipe.name))?;
    let (_, factor) = Kind::of(&first.unit, kitchen.settings.volumes);
    let one = in_makes(kitchen, recipe, portion)?;
    Ok(served(exact::mul(first.amount, factor)?, recipe.serving_loss, one)?)
}

/// makes × (1 − loss) ÷ portion.
fn served(makes: Decimal, loss: Decimal, portion: Amount) -> Result<Amount, Overflow> {
    Amount::of(makes).times(exact::sub(Decimal::ONE, loss)?)?.times(portion.den)?.over(portion.num)
}

struct Coster<'a> {
    kitchen: &'a Kitchen,
    costing: &'a mut Costing,
    recipe: RecipeId,
    line: &'a Line,
    entry: &'a LineEntry,
}

impl<'a> Coster<'a> {
    fn cost(&mut self) -> Result<LineCost, Stop> {
        let quantity = match &self.line.quantity {
            LineQuantity::Measured(measured) => measured.clone(),
            LineQuantity::Unmeasured { measured: Some(measured), .. } if self.knows(&measured.unit) => measured.clone(),
            LineQuantity::Unmeasured { .. } => return Ok(LineCost::Uncosted),
        };
        let trace = match self.line.source {
            Source::Bought(id) => {
                let item = self.kitchen.item(id).ok_or(Stop::Known)?;
                let cost = self.costing.item(id).cloned().ok_or(Stop::Known)?;
                self.bought(item, &cost, quantity)?
            }
            Source::Part(part) => {
                let named = CostedAs::Named(Source::Part(part));
                self.part(part, named, &Links::default(), &quantity)?
            }
            Source::Made(id) => self.made(id, &quantity)?,
            Source::Unknown => return Err(Stop::Known),
        };
        let spent = trace.rate.cost_of(self.amount_charged(&trace)?)?;
        let cost = exact::mul(spent, self.line.used)?;
        Ok(LineCost::Costed { cost, trace })
    }

    fn amount_charged(&self, trace: &LineTrace) -> Result<Amount, Overflow> {
        if trace.shrinks { trace.amount.times(trace.trim_yield) } else { Ok(trace.amount) }
    }

    /// Whether a Measures row of the ingredient gives this measure a weight.
    fn knows(&self, unit: &Unit) -> bool {
        let bridge = match self.line.source {
            Source::Bought(id) => self.kitchen.item(id).map(|item| &item.bridge),
            Source::Part(part) => self.kitchen.part(part).map(|part| &part.bridge),
            Source::Made(id) => self.kitchen.recipe(id).map(|recipe| &recipe.bridge),
            Source::Unknown => None,
        };
        bridge.is_some_and(|bridge| bridge.measures.iter().any(|measure| measure.unit == *unit))
    }

    fn convert(&self, quantity: &Measured, target: &Kind, links: &Links) -> Result<Converted, Stop> {
        let wanted = Wanted { quantity, prep: self.line.prep.as_ref(), basis: self.line.basis, name: &self.entry.item };
        convert(wanted, target, links, self.volumes())
    }

    fn volumes(&self) -> Volumes {
        self.kitchen.settings.volumes
    }

    fn bought(&mut self, item: &Item, cost: &ItemCost, mut quantity: Measured) -> Result<LineTrace, Stop> {
        if item.is_water {
            // Whatever it is measured in, it costs nothing.
            quantity.unit = Unit::millilitre();
        } else if self.is_liquid_ounce(&quantity.unit, &cost.kind) {
            self.warn_of_ounce();
            quantity.unit = Unit::fluid_ounce();
        }
        if let Some(can) = self.the_can_meant(&quantity.unit, cost) {
            quantity.unit = can;
        }
        let links = bought::links(self.kitchen, item, cost);
        if self.line.own_yield.is_none()
            && let Trim::Main(part) = item.trim
            && self.needs_yield(&quantity, &cost.kind, &links)
        {
            return self.part(part, CostedAs::ThroughTest(part), &links, &quantity);
        }
        let converted = self.convert(&quantity, &cost.kind, &links)?;
        let needs_yield = converted.basis == Basis::Ep || converted.shrinks;
        let (trim_yield, yield_from) = match (self.line.own_yield, cost.row_yield) {
            (Some(own), _) => (own, YieldFrom::Line),
            (None, _) if needs_yield && matches!(item.trim, Trim::SeveralMains(_)) => {
                return Err(self.several_mains(item));
            }
            (None, Some((fraction, row))) => (fraction, YieldFrom::PriceRow(row)),
            (None, None) => (Decimal::ONE, YieldFrom::None),
        };
        let rate = if converted.basis == Basis::Ep { cost.ap.after_yield(trim_yield)? } else { cost.ap };
        Ok(LineTrace {
            costed_as: CostedAs::Named(self.line.source),
            amount: converted.amount,
            kind: cost.kind.clone(),
            basis: converted.basis,
            shrinks: converted.shrinks,
            measures: converted.through,
            trim_yield,
            yield_from,
            rate,
        })
    }

    /// `can` of an item that comes in `#10 can`s alone is one of those.
    fn the_can_meant(&self, unit: &Unit, cost: &ItemCost) -> Option<Unit> {
        let super::bought::PriceFrom::Row(row) = cost.from else { return None };
        let Some(Field::Given(pack)) = self.kitchen.entries.prices.get(row).map(|row| &row.pack) else { return None };
        let pieces = pack.pieces.as_ref()?;
        match (unit, &pieces.unit) {
            (Unit::Own(asked), Unit::Own(sized)) if &**asked == "can" && sized.ends_with(" can") => {
                Some(pieces.unit.clone())
            }
            _ => None,
        }
    }

    /// Whether the line ends on edible portion, so that the item's trim test speaks.
    fn needs_yield(&self, quantity: &Measured, kind: &Kind, links: &Links) -> bool {
        match self.convert(quantity, kind, links) {
            Ok(converted) => converted.basis == Basis::Ep || converted.shrinks,
            Err(_) => self.line.basis == Basis::Ep,
        }
    }

    fn part(&self, id: PartId, costed_as: CostedAs, item: &Links, quantity: &Measured) -> Result<LineTrace, Stop> {
        let part = self.kitchen.part(id).ok_or(Stop::Known)?;
        let cost = self.costing.part(id).ok_or(Stop::Known)?;
        let rate = cost.rate.ok_or_else(|| {
            Stop::Fault(Fault::new(
                Code::NumberOutOfRange,
                format!("“{}” weighs nothing in its yield test, so it has no cost per weight", part.name),
                "Type its weight in the test.",
            ))
        })?;
        let mut links = item.clone();
        links.measures(&part.bridge, self.volumes());
        let converted = self.convert(quantity, &Kind::Mass, &links)?;
        let through_test = matches!(costed_as, CostedAs::ThroughTest(_));
        let (trim_yield, yield_from) = match self.line.own_yield {
            Some(own) => (own, YieldFrom::Line),
            None if through_test => (cost.fraction, YieldFrom::Test(id)),
            None => (Decimal::ONE, YieldFrom::None),
        };
        let rate = match yield_from {
            YieldFrom::Line => rate.after_yield(trim_yield)?,
            _ => rate,
        };
        Ok(LineTrace {
            costed_as,
            amount: converted.amount,
            kind: Kind::Mass,
            basis: if through_test { Basis::Ep } else { self.line.basis },
            shrinks: false,
            measures: converted.through,
            trim_yield,
            yield_from,
            rate,
        })
    }

    fn made(&mut self, id: RecipeId, quantity: &Measured) -> Result<LineTrace, Stop> {
        let recipe = self.kitchen.recipe(id).ok_or(Stop::Known)?;
        if id == self.recipe {
            return Err(Stop::Known);
        }
        let cost = self.costing.recipe(id).cloned().ok_or(Stop::Known)?;
        let by_name = |costed_as, rate: Rate| LineTrace {
            costed_as,
            amount: Amount::of(quantity.amount),
            kind: Kind::Each,
            basis: self.line.basis,
            shrinks: false,
            measures: Vec::new(),
            trim_yield: self.line.own_yield.unwrap_or(Decimal::ONE),
            yield_from: if self.line.own_yield.is_some() { YieldFrom::Line } else { YieldFrom::None },
            rate,
        };
        let after = |rate: Rate| match self.line.own_yield {
            Some(own) => rate.after_yield(own),
            None => Ok(rate),
        };
        if quantity.unit.is_portion() {
            let portions = cost.portions.ok_or_else(|| no_makes(&recipe.name))?;
            let rate = Rate { money: exact::mul(cost.batch, portions.den)?, per: portions.num };
            return Ok(by_name(CostedAs::Portions(id), after(rate)?));
        }
        if quantity.unit.is_batch() {
            return Ok(by_name(CostedAs::Batches(id), after(Rate { money: cost.batch, per: Decimal::ONE })?));
        }
        let (kind, rate) = cost.unit_rate().ok_or_else(|| no_makes(&recipe.name))?;
        let mut quantity = quantity.clone();
        let links = links(self.kitchen, recipe);
        if self.is_liquid_ounce(&quantity.unit, &kind) && self.convert(&quantity, &kind, &links).is_err() {
            self.warn_of_ounce();
            quantity.unit = Unit::fluid_ounce();
        }
        let converted = self.convert(&quantity, &kind, &links)?;
        let own = self.line.own_yield;
        let rate = match own {
            Some(own) => rate.after_yield(own)?,
            None => rate,
        };
        Ok(LineTrace {
            costed_as: CostedAs::Named(self.line.source),
            amount: converted.amount,
            kind,
            basis: self.line.basis,
            shrinks: false,
            measures: converted.through,
            trim_yield: own.unwrap_or(Decimal::ONE),
            yield_from: if own.is_some() { YieldFrom::Line } else { YieldFrom::None },
            rate,
        })
    }

    /// A bare `oz` on something priced by volume.
    fn is_liquid_ounce(&self, unit: &Unit, kind: &Kind) -> bool {
        *kind == Kind::Volume && unit.is_bare_ounce() && !self.says_weight()
    }

    /// Whether the unit was typed as `oz wt`.
    fn says_weight(&self) -> bool {
        let typed = format!("{} {}", self.entry.input.text(Column::Qty), self.entry.input.text(Column::Unit));
        let typed = typed.to_lowercase();
        typed.contains("wt") || typed.contains("weight")
    }

    fn warn_of_ounce(&mut self) {
        self.costing.problems.push(
            Fault::new(
                Code::OunceOfLiquid,
                format!("“{}” is priced by volume, so oz was read as fluid ounces", self.entry.item),
                "Write fl oz, or oz wt if it is weighed.",
            )
            .at(self.entry.input.place(Column::Qty)),
        );
    }

    fn several_mains(&self, item: &Item) -> Stop {
        let mains: Vec<String> = match item.trim {
            Trim::SeveralMains(test) => self.kitchen.test(test).map(|test| &test.parts),
            _ => None,
        }
        .into_iter()
        .flatten()
        .filter(|part| part.role == crate::kitchen::yield_test::Role::Main)
        .map(|part| format!("“{}”", part.name))
        .collect();
        Stop::Fault(Fault::new(
            Code::MainsSeveral,
            format!("“{}” is broken down into several mains, so its edible portion has no one cost", item.name),
            format!("Name one of them: {}; or set Basis to AP.", mains.join(", ")),
        ))
    }
}

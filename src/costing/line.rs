//! What one line of a recipe costs: where its ingredient comes from, the way to the unit of its price, the yield.

use super::bought::PriceFrom;
use super::cans;
use super::convert::{Converted, Stop, Wanted, convert};
use super::kind::Kind;
use super::link::Links;
use super::links::{self, no_makes};
use super::rate::{Amount, Rate};
use super::trace::{CostedAs, LineTrace, YieldFrom};
use super::weighed::part_rate;
use super::{Costing, ItemCost, borrowed, ounces};
use crate::food::Food;
use crate::kitchen::bridge::Basis;
use crate::kitchen::price::{Item, Trim};
use crate::kitchen::recipe::{Line, LineEntry, LineQuantity, Source};
use crate::kitchen::{Field, Kitchen, PartId, RecipeId};
use crate::measure::{Measured, Unit, Volumes};
use crate::number::{Decimal, Overflow, exact};
use crate::problem::{Code, Fault};
use crate::schema::Column;

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

impl LineCost {
    /// Whether it hangs on nothing but what is bought: no yield test and no recipe.
    pub(super) fn is_bought(&self) -> bool {
        match self {
            LineCost::Costed { trace, .. } => {
                matches!(trace.costed_as, CostedAs::Named(Source::Bought(_)))
                    && !matches!(trace.yield_from, YieldFrom::Test(_))
            }
            LineCost::Uncosted => true,
        }
    }
}

/// A line while it is being costed.
pub(super) struct Coster<'a> {
    /// The kitchen.
    pub(super) kitchen: &'a Kitchen,
    /// What is costed so far; takes the warnings met.
    pub(super) costing: &'a mut Costing,
    /// The recipe that the line stands in.
    pub(super) recipe: RecipeId,
    /// The line.
    pub(super) line: &'a Line,
    /// The line as typed.
    pub(super) entry: &'a LineEntry,
}

impl<'a> Coster<'a> {
    /// What the line costs.
    ///
    /// # Errors
    /// A [`Stop`] when it cannot be costed.
    pub(super) fn cost(&mut self) -> Result<LineCost, Stop> {
        let quantity = match &self.line.quantity {
            LineQuantity::Measured(measured) => measured.clone(),
            LineQuantity::Unmeasured { measured: Some(measured), .. } if self.knows(&measured.unit) => measured.clone(),
            LineQuantity::Unmeasured { .. } => return Ok(LineCost::Uncosted),
        };
        let trace = match self.line.source {
            Source::Bought(id) => {
                let item = self.kitchen.item(id).ok_or(Stop::Known)?;
                let cost = self.costing.item(id).cloned().ok_or(Stop::Known)?;
                if cost.from == PriceFrom::Water { self.water(&quantity)? } else { self.bought(item, &cost, quantity)? }
            }
            Source::Part(part) => {
                let named = CostedAs::Named(Source::Part(part));
                self.part(part, named, &Links::default(), &quantity)?
            }
            Source::Made(id) => self.made(id, &quantity)?,
            Source::Unknown => return Err(Stop::Known),
        };
        let place = self.entry.input.place(Column::Qty);
        let warnings = cans::faults(&self.entry.item, &trace.measures).into_iter();
        self.costing.problems.extend(warnings.map(|fault| fault.at(place.clone())));
        if let Source::Bought(id) = self.line.source {
            borrowed::tell(self, id, &trace);
        }
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

    pub(super) fn convert(&self, quantity: &Measured, target: &Kind, links: &Links) -> Result<Converted, Stop> {
        let wanted = Wanted { quantity, prep: self.line.prep.as_ref(), basis: self.line.basis, name: &self.entry.item };
        convert(wanted, target, links, self.volumes())
    }

    fn volumes(&self) -> Volumes {
        self.kitchen.settings.volumes
    }

    /// Water and ice cost nothing, whatever they are measured in.
    fn water(&self, quantity: &Measured) -> Result<LineTrace, Stop> {
        let (kind, factor) = Kind::of(&quantity.unit, self.volumes());
        Ok(LineTrace {
            costed_as: CostedAs::Named(self.line.source),
            amount: Amount::of(exact::mul(quantity.amount, factor)?),
            kind,
            basis: self.line.basis,
            shrinks: false,
            measures: Vec::new(),
            trim_yield: Decimal::ONE,
            yield_from: YieldFrom::None,
            rate: Rate { money: Decimal::ZERO, per: Decimal::ONE },
        })
    }

    fn bought(&mut self, item: &Item, cost: &ItemCost, mut quantity: Measured) -> Result<LineTrace, Stop> {
        if self.is_liquid_ounce(&quantity.unit, &cost.kind) {
            self.warn_of_ounce();
            quantity.unit = Unit::fluid_ounce();
        }
        if let Some(can) = self.the_can_meant(&quantity.unit, cost) {
            quantity.unit = can;
        }
        let links = borrowed::links(self, item, cost, &quantity)?;
        if self.line.own_yield.is_none()
            && let Trim::Main(part) = item.trim
            && self.ends_as_edible(&quantity, &cost.kind, &links)
        {
            return self.part(part, CostedAs::ThroughTest(part), &links, &quantity);
        }
        let converted = self.convert(&quantity, &cost.kind, &links)?;
        let needs_yield = converted.basis == Basis::Ep || converted.shrinks;
        let tested = match item.trim {
            // As purchased all the way: the test gives the yield, and its credits stay with its parts.
            Trim::Main(part) if converted.shrinks => {
                let fraction = self.costing.part(part).ok_or(Stop::Known)?.fraction;
                Some((fraction, YieldFrom::Test(part)))
            }
            _ => None,
        };
        let (trim_yield, yield_from) = match (self.line.own_yield, tested, cost.row_yield) {
            (Some(own), ..) => (own, YieldFrom::Line),
            (None, ..) if needs_yield && matches!(item.trim, Trim::SeveralMains(_)) => {
                return Err(self.several_mains(item));
            }
            (None, ..) if needs_yield && item.trim == Trim::Unreadable => return Err(Stop::Known),
            (None, Some(tested), _) => tested,
            (None, None, Some((fraction, row))) => (fraction, YieldFrom::PriceRow(row)),
            (None, None, None) => match &cost.reference {
                Field::Given((food, _)) => {
                    (food.food().map_or(Decimal::ONE, Food::trim_yield), YieldFrom::Reference(*food))
                }
                Field::Broken if needs_yield => return Err(Stop::Known),
                _ => (Decimal::ONE, YieldFrom::None),
            },
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
        let PriceFrom::Row(row) = cost.from else { return None };
        let Some(Field::Given(pack)) = self.kitchen.entries.prices.get(row).map(|row| &row.pack) else { return None };
        let pieces = pack.pieces.as_ref()?;
        match (unit, &pieces.unit) {
            (Unit::Own(asked), Unit::Own(sized)) if &**asked == "can" && sized.ends_with(" can") => {
                Some(pieces.unit.clone())
            }
            _ => None,
        }
    }

    /// Whether the line ends on edible portion, so that the main of the item's trim test is what it uses.
    fn ends_as_edible(&self, quantity: &Measured, kind: &Kind, links: &Links) -> bool {
        match self.convert(quantity, kind, links) {
            Ok(converted) => converted.basis == Basis::Ep,
            Err(_) => self.line.basis == Basis::Ep,
        }
    }

    fn part(&self, id: PartId, costed_as: CostedAs, item: &Links, quantity: &Measured) -> Result<LineTrace, Stop> {
        let part = self.kitchen.part(id).ok_or(Stop::Known)?;
        let cost = self.costing.part(id).ok_or(Stop::Known)?;
        let rate = part_rate(self.kitchen, self.costing, id)?;
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
        let cost = self.costing.recipe(id).ok_or(Stop::Known)?;
        let (batch, portions, unit_rate) = (cost.batch, cost.portions, cost.unit_rate());
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
            let portions = portions.ok_or_else(|| no_makes(&recipe.name))?;
            let rate = Rate { money: exact::mul(batch, portions.den)?, per: portions.num };
            return Ok(by_name(CostedAs::Portions(id), after(rate)?));
        }
        if quantity.unit.is_batch() {
            return Ok(by_name(CostedAs::Batches(id), after(Rate { money: batch, per: Decimal::ONE })?));
        }
        let (kind, rate) = unit_rate.ok_or_else(|| no_makes(&recipe.name))?;
        let mut quantity = quantity.clone();
        let links = links::of_recipe(self.kitchen, recipe);
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
        [Column::Qty, Column::Unit].iter().any(|column| ounces::says_weight(&self.entry.input.text(*column)))
    }

    fn warn_of_ounce(&mut self) {
        let warning = ounces::warning(&format!("“{}” is priced by volume", self.entry.item));
        self.costing.problems.push(warning.at(self.entry.input.place(Column::Qty)));
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

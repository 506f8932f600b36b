//! Line costs: where its ingredient comes from, the way to the unit of its price, the yield.

use super::rate::{Amount, Rate};
use super::trace::{CostedAs, LineTrace, YieldFrom};
use super::{Costing, ItemCost};
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::cans;
use crate::costing::conversion::choose_measure::choose;
use crate::costing::conversion::convert::{AskedBy, Converted, Crossing, NoConversion, Wanted, convert};
use crate::costing::conversion::equivalence::{AskedOf, Link, Links, MeasureFrom};
use crate::costing::conversion::{borrowed_measures, ounces, package};
use crate::costing::item_yield;
use crate::costing::item_yield::ItemYield;
use crate::costing::price::bought::PriceFrom;
use crate::costing::yield_test::input_cost::part_rate;
use crate::kitchen::bridge::Basis;
use crate::kitchen::price::{Item, TrimYield};
use crate::kitchen::recipe::{IngredientSource, Line, LineEntry, LineQuantity};
use crate::kitchen::{ItemId, Kitchen, PartId, RecipeId};
use crate::measure::{Measured, Unit, Volumes};
use crate::number::{Decimal, exact, plain};
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
    /// What it adds to the food of its recipe, in money; nothing where it is not costed.
    pub(super) fn money(&self) -> Decimal {
        match self {
            LineCost::Costed { cost, .. } => *cost,
            LineCost::Uncosted => Decimal::ZERO,
        }
    }

    /// Whether it hangs on nothing but what is bought: no yield test and no recipe.
    pub(super) fn is_bought(&self) -> bool {
        match self {
            LineCost::Costed { trace, .. } => {
                matches!(trace.costed_as, CostedAs::Named(IngredientSource::Bought(_)))
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
    /// A [`NoConversion`] when it cannot be costed.
    pub(super) fn cost(&mut self) -> Result<LineCost, NoConversion> {
        let quantity = match &self.line.quantity {
            LineQuantity::Measured(measured) => measured.clone(),
            LineQuantity::Unmeasured { measured: Some(measured), .. } if self.knows(&measured.unit) => measured.clone(),
            LineQuantity::Unmeasured { .. } => return Ok(LineCost::Uncosted),
        };
        let trace = match self.line.source {
            IngredientSource::Bought(id) => {
                let cost = self.costing.item(id).cloned().ok_or(NoConversion::Known)?;
                if cost.from == PriceFrom::Water { self.water(&quantity)? } else { self.bought(id, &cost, quantity)? }
            }
            IngredientSource::Part(part) => {
                let named = CostedAs::Named(IngredientSource::Part(part));
                self.part(part, named, (&Links::default(), self.line.own_yield), &quantity)?
            }
            IngredientSource::Made(id) => self.made(id, &quantity)?,
            IngredientSource::Unknown => return Err(NoConversion::Known),
        };
        let entry = self.entry;
        let warnings = cans::faults(&entry.item, &trace.measures).into_iter();
        self.costing.problems.extend(warnings.map(|fault| fault.at(entry.input.place(Column::Qty))));
        if let IngredientSource::Bought(id) = self.line.source {
            borrowed_measures::tell(self, id, &trace);
        }
        let spent = trace.rate.cost_of(trace.as_costed()?)?;
        let cost = exact::mul(spent, self.line.used)?;
        Ok(LineCost::Costed { cost, trace })
    }

    /// Whether a Measures row of the ingredient gives this measure a weight.
    fn knows(&self, unit: &Unit) -> bool {
        let bridge = match self.line.source {
            // Of plates there is none.
            _ if self.line.dish.is_some() => None,
            IngredientSource::Bought(id) => self.kitchen.item(id).map(|item| &item.bridge),
            IngredientSource::Part(part) => self.kitchen.part(part).map(|part| &part.bridge),
            IngredientSource::Made(id) => self.kitchen.recipe(id).map(|recipe| &recipe.bridge),
            IngredientSource::Unknown => None,
        };
        bridge.is_some_and(|bridge| bridge.knows(unit))
    }

    pub(super) fn convert(
        &self,
        quantity: &Measured,
        target: &BaseUnitKind,
        links: &Links,
    ) -> Result<Converted, NoConversion> {
        convert(self.wanted(quantity), target, links, self.volumes())
    }

    fn wanted<'b>(&'b self, quantity: &'b Measured) -> Wanted<'b> {
        Wanted {
            quantity,
            prep: self.line.prep.as_ref(),
            basis: self.line.basis,
            name: &self.entry.item,
            by: AskedBy::Recipe,
        }
    }

    pub(super) fn volumes(&self) -> Volumes {
        self.kitchen.settings.volumes
    }

    /// Water and ice cost nothing, whatever they are measured in.
    fn water(&self, quantity: &Measured) -> Result<LineTrace, NoConversion> {
        let (kind, factor) = BaseUnitKind::of(&quantity.unit, self.volumes());
        Ok(LineTrace {
            costed_as: CostedAs::Named(self.line.source),
            amount: Amount::of(exact::mul(quantity.amount, factor)?),
            kind,
            basis: self.line.basis,
            crossing: Crossing::None,
            measures: Vec::new(),
            trim_yield: Decimal::ONE,
            yield_from: YieldFrom::None,
            rate: Rate { money: Decimal::ZERO, per: Decimal::ONE },
        })
    }

    fn bought(&mut self, id: ItemId, cost: &ItemCost, mut quantity: Measured) -> Result<LineTrace, NoConversion> {
        let item = self.kitchen.item(id).ok_or(NoConversion::Known)?;
        if self.is_liquid_ounce(&quantity.unit, &cost.kind) {
            self.warn_of_ounce();
            quantity.unit = Unit::fluid_ounce();
        }
        let links = borrowed_measures::links(self, item, cost, &quantity)?;
        package::has_one_meaning(self.kitchen, self.costing, item, cost, &quantity.unit)?;
        let assumed = package::assumed_whole(self.kitchen, item, cost, &quantity.unit);
        self.costing.problems.extend(assumed.map(|fault| fault.at(self.entry.input.place(Column::Qty))));
        let held = self.edible_piece(&cost.kind, &quantity, &links)?;
        let own = self.line.own_yield.filter(|_| held.is_none());
        if let (Some(_), Some(own)) = (held, self.line.own_yield) {
            self.warn_of_own_yield(own);
        }
        if own.is_none() && self.line.basis == Basis::Ep {
            match item.trim {
                TrimYield::SeveralMains(_) => return Err(self.several_mains(item)),
                TrimYield::Unreadable => return Err(NoConversion::Known),
                TrimYield::Main(part) if !self.is_unweighed(&quantity, &links) => {
                    return self.part(part, CostedAs::ThroughTest(part), (&links, own), &quantity);
                }
                _ => {}
            }
        }
        let mut converted = self.convert(&quantity, &cost.kind, &links)?;
        let pieces = self.costing.pieces.get(id.index());
        let found = match (own, held) {
            (Some(own), _) => ItemYield::of(own, YieldFrom::Line),
            (None, Some(row)) => {
                if pieces.is_some_and(|pieces| pieces.faulty.contains(&row)) {
                    return Err(NoConversion::Known);
                }
                converted.basis = Basis::Ap;
                let implied = pieces.and_then(|pieces| pieces.implied).map(|piece| piece.fraction);
                let known = || item_yield::of_item(self.costing, id, item, cost).map(|found| found.fraction);
                ItemYield::of(implied.unwrap_or_else(|| known().unwrap_or(Decimal::ONE)), YieldFrom::Piece(row))
            }
            (None, None) if converted.basis == Basis::Ap && converted.crossing == Crossing::None => ItemYield::NONE,
            (None, None) => item_yield::of_item(self.costing, id, item, cost)?,
        };
        let rate = if converted.basis == Basis::Ep {
            let Amount { num, den } = found.ratio;
            Rate { money: exact::mul(cost.ap.money, den)?, per: cost.ap.per }.after_yield(num)?
        } else {
            cost.ap
        };
        Ok(LineTrace {
            costed_as: CostedAs::Named(self.line.source),
            amount: converted.amount,
            kind: cost.kind.clone(),
            basis: converted.basis,
            crossing: converted.crossing,
            measures: converted.through,
            trim_yield: found.fraction,
            yield_from: found.from,
            rate,
        })
    }

    /// The measure row with the edible weight of what an item is priced by, where it is priced by the piece and asked for as
    /// edible portion: it holds the yield already.
    fn edible_piece(
        &self,
        kind: &BaseUnitKind,
        quantity: &Measured,
        links: &Links,
    ) -> Result<Option<usize>, NoConversion> {
        if !kind.is_counted() || self.line.basis == Basis::Ap {
            return Ok(None);
        }
        let serving = choose(links, self.wanted(quantity), self.volumes());
        let is_it = |link: &Link| {
            let joins = link.one.0 == *kind && link.other.as_ref().is_some_and(|other| !other.0.is_counted());
            joins && link.basis == Basis::Ep
        };
        if let Some((_, fault)) = serving.unclear.into_iter().find(|(link, _)| is_it(link)) {
            return Err(NoConversion::Fault(fault));
        }
        Ok(serving.links.into_iter().find(|link| is_it(link)).and_then(|link| match link.from {
            MeasureFrom::Row(row) => Some(row),
            _ => None,
        }))
    }

    /// Whether the quantity counts pieces or packages of which nothing says a weight, so that only their yield can be crossed.
    fn is_unweighed(&self, quantity: &Measured, links: &Links) -> bool {
        let (kind, _) = BaseUnitKind::of(&quantity.unit, self.volumes());
        kind.is_counted() && self.convert(quantity, &BaseUnitKind::Mass, links).is_err()
    }

    fn warn_of_own_yield(&mut self, own: Decimal) {
        let percent = own.checked_mul(Decimal::ONE_HUNDRED).map(plain).unwrap_or_default();
        self.costing.problems.push(
            Fault::new(
                Code::YieldUnused,
                format!(
                    "“{}” is priced by the piece, and what is left of a piece is weighed: that holds the yield, so {percent} \
                     % is not used",
                    self.entry.item
                ),
                "Clear Yield here, or delete the EP row of Measures.",
            )
            .at(self.entry.input.place(Column::Yield)),
        );
    }

    /// A part, through the measures of an item where it is the main of that one's test, and a yield of the line's own.
    fn part(
        &self,
        id: PartId,
        costed_as: CostedAs,
        (item, own): (&Links, Option<Decimal>),
        quantity: &Measured,
    ) -> Result<LineTrace, NoConversion> {
        let part = self.kitchen.part(id).ok_or(NoConversion::Known)?;
        let cost = self.costing.part(id).ok_or(NoConversion::Known)?;
        let rate = part_rate(self.kitchen, self.costing, id)?;
        // Who names the item goes by the item's own measures; those of its main are the kitchen's, too.
        let converted = self.convert(quantity, &BaseUnitKind::Mass, &item.without_borrowed()).or_else(|_| {
            let mut links = item.clone();
            let prep = self.line.prep.as_ref();
            let asked = AskedOf { units: [&quantity.unit, &Unit::gram()], prep, volumes: self.volumes() };
            links.measures(&part.bridge, asked);
            self.convert(quantity, &BaseUnitKind::Mass, &links)
        })?;
        let through_test = matches!(costed_as, CostedAs::ThroughTest(_));
        let (trim_yield, yield_from) = match own {
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
            kind: BaseUnitKind::Mass,
            basis: if through_test { Basis::Ep } else { self.line.basis },
            crossing: Crossing::None,
            measures: converted.through,
            trim_yield,
            yield_from,
            rate,
        })
    }

    /// A bare `oz` on something priced by volume.
    pub(super) fn is_liquid_ounce(&self, unit: &Unit, kind: &BaseUnitKind) -> bool {
        *kind == BaseUnitKind::Volume && unit.is_bare_ounce() && !self.says_weight()
    }

    /// Whether the unit was typed as `oz wt`.
    fn says_weight(&self) -> bool {
        [Column::Qty, Column::Unit].iter().any(|column| ounces::says_weight(&self.entry.input.text(*column)))
    }

    pub(super) fn warn_of_ounce(&mut self) {
        let warning = ounces::warning(&format!("“{}” is priced by volume", self.entry.item));
        self.costing.problems.push(warning.at(self.entry.input.place(Column::Qty)));
    }

    fn several_mains(&self, item: &Item) -> NoConversion {
        let mains: Vec<String> = match item.trim {
            TrimYield::SeveralMains(test) => self.kitchen.test(test).map(|test| &test.parts),
            _ => None,
        }
        .into_iter()
        .flatten()
        .filter(|part| part.role == crate::kitchen::yield_test::Role::Main)
        .map(|part| format!("“{}”", part.name))
        .collect();
        NoConversion::Fault(Fault::new(
            Code::MainsSeveral,
            format!("“{}” is broken down into several mains, so its edible portion has no one cost", item.name),
            format!("Name one of them: {}; or set Basis to AP.", mains.join(", ")),
        ))
    }
}

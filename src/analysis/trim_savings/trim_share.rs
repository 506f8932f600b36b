//! Share of trim in a dish's food: what the trim in it would cost to buy, beside that and the rest of its food as
//! costed.
//!
//! Takes a kitchen and the book's own costing. In one pass in the order of costing it follows trim through recipes and on
//! through yield tests, where a part holds as much of what went in as it bears of its cost.

use std::collections::{BTreeMap, HashMap};

use crate::analysis::batch_usage::{self, Draw};
use crate::costing::rate::Amount;
use crate::costing::{Costing, Rate};
use crate::kitchen::plan::Served;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::{Role, Test};
use crate::kitchen::{Kitchen, Node, PartId, TestId};
use crate::number::{Decimal, Overflow, exact};

/// The trim within something, in money.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TrimHeld {
    /// What it would cost to buy; `None` where nobody says.
    pub bought: Option<Decimal>,
    /// What it is charged.
    pub charged: Decimal,
}

/// A portion's food: its trim at what that would cost to buy, and the rest as costed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FoodOfTrim {
    /// What its trim would cost to buy.
    pub bought: Decimal,
    /// The rest of its food.
    pub rest: Decimal,
}

impl FoodOfTrim {
    /// The share that is trim, as a fraction. `None` of no food.
    pub fn share(self) -> Option<Decimal> {
        let whole = exact::add(self.bought, self.rest).ok().filter(|whole| !whole.is_zero())?;
        exact::div(self.bought, whole).ok()
    }
}

const NOTHING: TrimHeld = TrimHeld { bought: Some(Decimal::ZERO), charged: Decimal::ZERO };

impl TrimHeld {
    fn add(self, other: TrimHeld) -> Result<Self, Overflow> {
        let bought = match (self.bought, other.bought) {
            (Some(one), Some(other)) => Some(exact::add(one, other)?),
            _ => None,
        };
        Ok(TrimHeld { bought, charged: exact::add(self.charged, other.charged)? })
    }

    fn times(self, by: Amount) -> Result<Self, Overflow> {
        let of = |money: Decimal| by.times(money)?.value();
        Ok(TrimHeld { bought: self.bought.map(of).transpose()?, charged: of(self.charged)? })
    }
}

/// The trim within a gram of every part and a batch of every recipe; of nothing where there is none.
#[derive(Debug, Clone, Default)]
pub struct TrimWithin {
    held: HashMap<IngredientSource, TrimHeld>,
}

impl TrimWithin {
    /// Goes through the kitchen.
    pub(super) fn of(
        kitchen: &Kitchen,
        costing: &Costing,
        buy_ins: &BTreeMap<PartId, Option<Rate>>,
    ) -> Result<Self, Overflow> {
        let mut within = TrimWithin::default();
        for node in &kitchen.order {
            match node {
                Node::Item(_) => {}
                Node::Test(id) => {
                    if let Some(test) = kitchen.test(*id) {
                        within.test(kitchen, costing, *id, test, buy_ins)?;
                    }
                }
                Node::Recipe(id) => {
                    if let Some(draws) = batch_usage::of_batch(kitchen, costing, *id)? {
                        let held = within.all(&draws)?;
                        within.note(IngredientSource::Made(*id), held);
                    }
                }
            }
        }
        Ok(within)
    }

    /// How much of a portion of what is served is trim. `None` where that is not known.
    pub(super) fn food(
        &self,
        kitchen: &Kitchen,
        costing: &Costing,
        served: Served,
    ) -> Result<Option<FoodOfTrim>, Overflow> {
        let Some((recipe, share)) = batch_usage::share_of(kitchen, costing, served) else { return Ok(None) };
        let Some(food) = costing.recipe(recipe).map(|cost| cost.food) else { return Ok(None) };
        let food = share.times(food)?.value()?;
        let held = self.source(IngredientSource::Made(recipe)).times(share)?;
        let Some(bought) = held.bought else { return Ok(None) };
        Ok(Some(FoodOfTrim { bought, rest: exact::sub(food, held.charged)?.max(Decimal::ZERO) }))
    }

    /// What the trim in a portion of what is served is charged; `None` where that is not known.
    pub(crate) fn charged(&self, kitchen: &Kitchen, costing: &Costing, served: Served) -> Option<Decimal> {
        let (recipe, share) = batch_usage::share_of(kitchen, costing, served)?;
        share.times(self.source(IngredientSource::Made(recipe)).charged).and_then(|charged| charged.value()).ok()
    }

    /// The trim within a gram of a part.
    pub fn part(&self, id: PartId) -> TrimHeld {
        self.source(IngredientSource::Part(id))
    }

    fn source(&self, source: IngredientSource) -> TrimHeld {
        self.held.get(&source).copied().unwrap_or(NOTHING)
    }

    fn note(&mut self, source: IngredientSource, held: TrimHeld) {
        if held != NOTHING {
            self.held.insert(source, held);
        }
    }

    fn all(&self, draws: &[Draw]) -> Result<TrimHeld, Overflow> {
        draws.iter().try_fold(NOTHING, |sum, draw| sum.add(self.source(draw.of).times(Amount::of(draw.amount))?))
    }

    fn test(
        &mut self,
        kitchen: &Kitchen,
        costing: &Costing,
        id: TestId,
        test: &Test,
        buy_ins: &BTreeMap<PartId, Option<Rate>>,
    ) -> Result<(), Overflow> {
        let Some(cost) = costing.test(id) else { return Ok(()) };
        let went_in = self.all(&batch_usage::of_test(kitchen, costing, test, Amount::of(Decimal::ONE))?)?;
        let mains = || test.parts.iter().zip(&cost.parts).filter(|(part, _)| part.role == Role::Main);
        let weight = exact::sum(mains().map(|(_, main)| main.grams))?;
        for (part_id, (part, of_part)) in kitchen.part_ids(id).zip(test.parts.iter().zip(&cost.parts)) {
            let Some(rate) = of_part.rate else { continue };
            let held = match part.role {
                // Trim is trim, whatever it was made of.
                Role::ByProduct => {
                    let bought = buy_ins.get(&part_id).copied().flatten().map(Rate::unit_cost).transpose()?;
                    TrimHeld { bought, charged: rate.unit_cost()? }
                }
                // What cost nothing is held by weight.
                Role::Main if cost.cost.is_zero() => went_in.times(Amount { num: Decimal::ONE, den: weight })?,
                Role::Main => went_in.times(Amount { num: of_part.cost, den: cost.cost }.over(of_part.grams)?)?,
                _ => continue,
            };
            self.note(IngredientSource::Part(part_id), held);
        }
        Ok(())
    }
}

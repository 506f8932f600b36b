//! Rows of a yield test: what each costs by weight, and the keys and values that its charge is figured from.

use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::yield_test::input_cost;
use crate::costing::yield_test::input_cost::{WayToPrice, way_to_price};
use crate::costing::{Costing, ItemCost, PartCost, Rate, TestCost};
use crate::kitchen::Kitchen;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::reuse::BuyIn;
use crate::kitchen::yield_test::{Part, Test};
use crate::measure::{Measured, Unit};
use crate::number::{Decimal, exact};

/// What a weight of something costs today as it goes into a test.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CostToday {
    /// Money per base unit.
    pub unit_cost: Decimal,
    /// The kind of that unit.
    pub kind: BaseUnitKind,
    /// What the weight costs; `None` where no measure leads to the unit of its price, or the figure does not fit.
    pub cost: Option<Decimal>,
    /// Base units in a gram of it: one where it is priced by weight, and where all of it costs nothing.
    pub units_per_gram: Decimal,
    /// What leads from a gram of it to that unit.
    pub way: WayToPrice,
}

impl CostToday {
    /// That of `source`; in pieces where `count` is given and it is priced by the piece. `None` where its unit cost is not
    /// known.
    pub fn of(
        kitchen: &Kitchen,
        costing: &Costing,
        source: IngredientSource,
        grams: Decimal,
        count: Option<Decimal>,
    ) -> Option<Self> {
        let (unit_cost, kind) = match source {
            IngredientSource::Bought(id) => {
                let cost = costing.item(id)?;
                (cost.ap.unit_cost().ok()?, cost.kind.clone())
            }
            IngredientSource::Part(part) => (costing.part(part)?.rate?.per_unit()?, BaseUnitKind::Mass),
            IngredientSource::Made(id) => {
                let (kind, rate) = costing.recipe(id)?.unit_rate()?;
                (rate.unit_cost().ok()?, kind)
            }
            IngredientSource::Unknown => return None,
        };
        let cost = input_cost::weight_cost(kitchen, costing, source, grams, count).ok();
        let units = match kind {
            BaseUnitKind::Mass => None,
            _ => cost.and_then(|cost| exact::div(cost, exact::mul(grams, unit_cost).ok()?).ok()),
        };
        let way = match kind {
            BaseUnitKind::Mass => None,
            _ => way_to_price(kitchen, costing, source, &Measured { amount: grams, unit: Unit::gram() }),
        };
        let units_per_gram = units.unwrap_or(Decimal::ONE);
        Some(CostToday { unit_cost, kind, cost, units_per_gram, way: way.unwrap_or_default() })
    }
}

/// What a gram of a test's input costs as purchased; `None` where that does not fit.
pub fn input_per_gram(cost: &TestCost) -> Option<Decimal> {
    exact::div(cost.input_cost, cost.grams).ok()
}

/// How many base units of the item that it stands in for a gram of a part is charged at market; `None` where either's cost is
/// not known.
pub fn market_charge(part: &PartCost, item: &ItemCost) -> Option<Decimal> {
    let (charge, ap) = (part.charge?.unit_cost().ok()?, item.ap.unit_cost().ok()?);
    Some(exact::div(charge, ap).unwrap_or_default())
}

/// What leads from what a part stands in for at market to the unit of its price.
pub fn way_to_market(kitchen: &Kitchen, costing: &Costing, buy_in: &BuyIn) -> WayToPrice {
    way_to_price(kitchen, costing, IngredientSource::Bought(buy_in.item), &buy_in.amount).unwrap_or_default()
}

/// What fixed charges leave of a test's cost to be shared; `None` where that does not fit.
pub fn left_to_share(test: &Test, cost: &TestCost) -> Option<Decimal> {
    let shared = test.parts.iter().zip(&cost.parts).filter(|(part, _)| part.is_joint());
    exact::sum(shared.map(|(_, part)| part.cost)).ok()
}

/// What a part that shares what remains is weighed by, at so much money for so many grams; `None` where that does not fit.
pub fn key_to_share_by(part: &Part, value: Rate) -> Option<Decimal> {
    exact::div(exact::mul(part.grams, value.money).ok()?, value.per).ok()
}

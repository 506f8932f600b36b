//! Input of a yield test by weight: how much it is in the units of its price, and what that costs.

use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::convert::{AskedBy, Crossing, NoConversion, Wanted, convert};
use crate::costing::conversion::equivalence::{AskedOf, Links, MeasureFrom};
use crate::costing::conversion::equivalences_of_item::{no_makes, no_portions};
use crate::costing::conversion::{equivalences_of_item, package};
use crate::costing::price::bought::PriceFrom;
use crate::costing::rate::{Amount, Rate};
use crate::costing::{Costing, YieldFrom, item_yield};
use crate::kitchen::price::TrimYield;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::{Kitchen, PartId};
use crate::measure::{Measured, Unit};
use crate::number::Decimal;
use crate::problem::{Code, Fault};

/// A weight of `source` as purchased, in the units of its price, with that price; in pieces where a count is given and the
/// price is by the piece. A part is in grams, a recipe in base units of what it makes.
///
/// # Errors
/// A [`NoConversion`] when its cost is not known, or no measure leads from weight to the unit of its price.
pub(crate) fn priced(
    kitchen: &Kitchen,
    costing: &Costing,
    source: IngredientSource,
    grams: Decimal,
    count: Option<Decimal>,
) -> Result<(Amount, Rate), NoConversion> {
    let weight = Measured { amount: grams, unit: Unit::gram() };
    match source {
        IngredientSource::Bought(id) => {
            let cost = costing.item(id).ok_or(NoConversion::Known)?;
            if cost.from == PriceFrom::Water {
                return Ok((Amount::of(grams), Rate { money: Decimal::ZERO, per: Decimal::ONE }));
            }
            match (&cost.kind, count) {
                (BaseUnitKind::Each, Some(count)) => Ok((Amount::of(count), cost.ap)),
                _ => {
                    let converted = equivalences_of_item::as_purchased(kitchen, id, cost, &weight)?;
                    Ok((item_yield::as_purchased(kitchen, costing, id, cost, &converted)?, cost.ap))
                }
            }
        }
        IngredientSource::Part(part) => Ok((Amount::of(grams), part_rate(kitchen, costing, part)?)),
        IngredientSource::Made(id) => {
            let cost = costing.recipe(id).ok_or(NoConversion::Known)?;
            let recipe = kitchen.recipe(id).ok_or(NoConversion::Known)?;
            let (kind, rate) = cost.unit_rate().ok_or_else(|| equivalences_of_item::no_makes(&recipe.name))?;
            let wanted = Wanted::as_purchased(&weight, &recipe.name);
            let joins = equivalences_of_item::of_recipe(kitchen, recipe, (&weight.unit, &kind), None);
            Ok((convert(wanted, &kind, &joins, kitchen.settings.volumes)?.amount, rate))
        }
        IngredientSource::Unknown => Err(NoConversion::Known),
    }
}

/// What leads from a weight to the unit of a price.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct WayToPrice {
    /// The measures passed through.
    pub measures: Vec<MeasureFrom>,
    /// The yield crossed, as a fraction, and where it is from.
    pub crossed: Option<(Decimal, YieldFrom)>,
}

/// What leads from `quantity` of `source` as purchased to the unit of its price; `None` where nothing does.
pub(crate) fn way_to_price(
    kitchen: &Kitchen,
    costing: &Costing,
    source: IngredientSource,
    quantity: &Measured,
) -> Option<WayToPrice> {
    match source {
        IngredientSource::Bought(id) => {
            let cost = costing.item(id)?;
            let converted = equivalences_of_item::as_purchased(kitchen, id, cost, quantity).ok()?;
            let crossed = match kitchen.item(id)?.trim {
                _ if converted.crossing == Crossing::None => None,
                TrimYield::Main(part) => Some((costing.part(part)?.fraction, YieldFrom::Test(part))),
                _ => {
                    let found = item_yield::of_item(costing, id, kitchen.item(id)?, cost).ok()?;
                    Some((found.fraction, found.from))
                }
            };
            Some(WayToPrice { measures: converted.through, crossed })
        }
        IngredientSource::Made(id) => {
            let recipe = kitchen.recipe(id)?;
            let (kind, _) = costing.recipe(id)?.unit_rate()?;
            let wanted = Wanted::as_purchased(quantity, &recipe.name);
            let joins = equivalences_of_item::of_recipe(kitchen, recipe, (&quantity.unit, &kind), None);
            let converted = convert(wanted, &kind, &joins, kitchen.settings.volumes).ok()?;
            Some(WayToPrice { measures: converted.through, crossed: None })
        }
        IngredientSource::Part(_) | IngredientSource::Unknown => Some(WayToPrice::default()),
    }
}

/// What a weight of `source` costs as purchased.
///
/// # Errors
/// As `priced`, and where the cost does not fit.
pub fn weight_cost(
    kitchen: &Kitchen,
    costing: &Costing,
    source: IngredientSource,
    grams: Decimal,
    count: Option<Decimal>,
) -> Result<Decimal, NoConversion> {
    let (amount, rate) = priced(kitchen, costing, source, grams, count)?;
    Ok(rate.cost_of(amount)?)
}

/// An amount on hand: of an item in base units of its price, of a part in grams, of a recipe in batches. Nothing is nothing
/// in any unit.
///
/// # Errors
/// A [`NoConversion`] when its cost is not known or no measure leads there.
pub(crate) fn on_hand(
    kitchen: &Kitchen,
    costing: &Costing,
    source: IngredientSource,
    amount: &Measured,
) -> Result<Decimal, NoConversion> {
    const KNOWN: NoConversion = NoConversion::Known;
    if amount.amount.is_zero() {
        return Ok(Decimal::ZERO);
    }
    let volumes = kitchen.settings.volumes;
    let wanted = |name| Wanted { by: AskedBy::Stock, ..Wanted::as_purchased(amount, name) };
    let converted = match source {
        IngredientSource::Bought(id) => {
            let (item, cost) = (kitchen.item(id).ok_or(KNOWN)?, costing.item(id).ok_or(KNOWN)?);
            package::has_one_meaning(kitchen, costing, item, cost, &amount.unit)?;
            let converted = equivalences_of_item::asked_by(kitchen, id, cost, (amount, AskedBy::Stock))?;
            item_yield::as_purchased(kitchen, costing, id, cost, &converted)?
        }
        IngredientSource::Part(id) => {
            let part = kitchen.part(id).ok_or(KNOWN)?;
            let mut joins = Links::default();
            let asked = AskedOf { units: [&amount.unit, &Unit::gram()], prep: None, volumes };
            joins.measures(&part.bridge, asked);
            convert(wanted(&part.name), &BaseUnitKind::Mass, &joins, volumes)?.amount
        }
        IngredientSource::Made(id) => {
            let (recipe, cost) = (kitchen.recipe(id).ok_or(KNOWN)?, costing.recipe(id).ok_or(KNOWN)?);
            if amount.unit.is_batch() {
                return Ok(amount.amount);
            }
            if amount.unit.is_portion() {
                let portions = cost.portions.ok_or_else(|| no_portions(&recipe.name))?;
                return Ok(Amount::of(amount.amount).times(portions.den)?.over(portions.num)?.value()?);
            }
            let (kind, makes) = cost.makes.as_ref().ok_or_else(|| no_makes(&recipe.name))?;
            let joins = equivalences_of_item::of_recipe(kitchen, recipe, (&amount.unit, kind), None);
            convert(wanted(&recipe.name), kind, &joins, volumes)?.amount.over(*makes)?
        }
        IngredientSource::Unknown => return Err(KNOWN),
    };
    Ok(converted.value()?)
}

/// What those who use a part pay for it by weight.
///
/// # Errors
/// A [`NoConversion`] when it is not known, or the part weighs nothing.
pub(crate) fn part_rate(kitchen: &Kitchen, costing: &Costing, id: PartId) -> Result<Rate, NoConversion> {
    let cost = costing.part(id).ok_or(NoConversion::Known)?;
    match cost.rate {
        Some(rate) => Ok(rate),
        // What nobody says the price of; the scenario that asks for it knows.
        None if costing.scenario.bought_in.contains_key(&id) => Err(NoConversion::Known),
        None => {
            let name = kitchen.part(id).map(|part| part.name.as_str()).unwrap_or_default();
            Err(NoConversion::Fault(Fault::new(
                Code::NumberOutOfRange,
                format!("“{name}” weighs nothing in its yield test, so it has no cost per weight"),
                "Type its weight in the test.",
            )))
        }
    }
}

//! Charge of a part: what it takes of its test's cost, free, at a fraction, at a price, at market or by a joint share.

use super::at_market::buy_in_rate;
use super::split::{Taker, Takes};
use crate::costing::Costing;
use crate::costing::conversion::convert::NoConversion;
use crate::costing::rate::Rate;
use crate::costing::scenario::Charging;
use crate::kitchen::reuse::{Otherwise, PerWeight};
use crate::kitchen::yield_test::{Charge, Part, Role};
use crate::kitchen::{Kitchen, PartId};
use crate::number::{Decimal, exact};

/// How a part is charged in a scenario: mains always share what remains, by-products as the scenario says.
pub(crate) fn in_scenario(charging: Charging, id: PartId, part: &Part) -> Charge {
    match (part.role, charging) {
        (Role::ByProduct, Charging::Free) => Charge::Free,
        (Role::ByProduct, Charging::Binned) => match part.reuse.otherwise {
            Otherwise::Sold(PerWeight { money, grams }) => Charge::Price { money, grams },
            Otherwise::Binned => Charge::Free,
        },
        (Role::ByProduct, Charging::OneAt { part: one, fraction }) if one == id => Charge::Fraction(fraction),
        _ => part.charge.clone(),
    }
}

/// What a part that is charged so takes, where `input` is what the test's input costs by weight.
///
/// # Errors
/// A [`NoConversion`] when what it stands in for has no cost by weight, or a figure does not fit.
pub(crate) fn takes(kitchen: &Kitchen, costing: &Costing, charge: &Charge, input: Rate) -> Result<Takes, NoConversion> {
    Ok(Takes::Fixed(match charge {
        Charge::Joint { money, grams } => return Ok(Takes::Share(Rate { money: *money, per: *grams })),
        Charge::Free => Rate { money: Decimal::ZERO, per: Decimal::ONE },
        Charge::Fraction(fraction) => Rate { money: exact::mul(input.money, *fraction)?, per: input.per },
        Charge::Price { money, grams } => Rate { money: *money, per: *grams },
        Charge::Market(buy_in) => buy_in_rate(kitchen, costing, buy_in)?,
    }))
}

/// The `parts` with what each takes.
pub(crate) fn takers<'a>(parts: &'a [Part], takes: &[Takes]) -> Vec<Taker<'a>> {
    let parts = parts.iter().zip(takes);
    parts.map(|(part, takes)| Taker { grams: part.grams, key: &part.key, takes: *takes }).collect()
}

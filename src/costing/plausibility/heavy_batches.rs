//! Batches that more goes into than they could ever lose. Mostly one unit is wrong, so the doubt names the heaviest
//! line.

use super::measured;
use crate::costing::LineCost;
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::convert::{Wanted, convert};
use crate::costing::conversion::equivalences_of_item::of_recipe;
use crate::costing::rate::Amount;
use crate::kitchen::Kitchen;
use crate::kitchen::recipe::{IngredientSource, Line, LineEntry, Recipe, RecipeEntry};
use crate::measure::Measured;
use crate::number::{Decimal, Overflow, exact};
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// How many times its own weight may go into a batch. Bones come to ten times the demi-glace boiled from them and to
/// twenty times a meat glaze; what is dried to a powder loses nine tenths and more. A gram typed as a kilo, or a day of
/// the calendar as a weight, is far above. Common practice, no source.
const MOST: Decimal = Decimal::from_parts(50, 0, 0, false, 0);

/// Grams in a millilitre of what a batch makes, at the most: honey and syrups have 1.4. From memory.
const DENSEST: Decimal = Decimal::from_parts(15, 0, 0, false, 1);

/// Grams in a millilitre of a line asked for or priced by volume, at the least: ice cream is half air. From memory.
const LIGHTEST: Decimal = Decimal::from_parts(5, 0, 0, false, 1);

/// The doubt of a batch whose lines weigh out of all proportion to what it makes, at its heaviest line. `lines` are what
/// the recipe's lines cost, one by one.
pub(super) fn of_batch(kitchen: &Kitchen, recipe: &Recipe, entry: &RecipeEntry, lines: &[LineCost]) -> Option<Problem> {
    let first = recipe.makes.first()?;
    let made = at_most(kitchen, recipe, first)?;
    let mut all = Decimal::ZERO;
    let mut heaviest: Option<(Decimal, &LineEntry, &Measured)> = None;
    for ((line, typed), cost) in recipe.lines.iter().zip(&entry.lines).zip(lines) {
        let Some(grams) = at_least(kitchen, line, cost) else { continue };
        all = exact::add(all, grams).ok()?;
        if let Some(measured) = measured(line)
            && heaviest.is_none_or(|(most, ..)| grams > most)
        {
            heaviest = Some((grams, typed, measured));
        }
    }
    let (_, typed, measured) = heaviest?;
    if all <= exact::mul(made, MOST).ok()? {
        return None;
    }
    let times = exact::div(all, made).ok()?.trunc().normalize();
    let fault = Fault::new(
        Code::LinesOutweighMakes,
        format!(
            "what goes into “{}” weighs {times} times what it makes, {first}, or more; most of it is {measured} of “{}”",
            recipe.name, typed.item
        ),
        "Check the number and the unit of this line, and Makes.",
    );
    Some(fault.at(typed.input.place(Column::Qty)))
}

/// What a batch weighs at the most, in grams; nothing where only pieces are known.
fn at_most(kitchen: &Kitchen, recipe: &Recipe, makes: &Measured) -> Option<Decimal> {
    let volumes = kitchen.settings.volumes;
    let wanted = Wanted::as_purchased(makes, &recipe.name);
    let joins = of_recipe(kitchen, recipe, (&makes.unit, &BaseUnitKind::Mass), None);
    if let Ok(weight) = convert(wanted, &BaseUnitKind::Mass, &joins, volumes) {
        return weight.amount.value().ok();
    }
    match BaseUnitKind::of(&makes.unit, volumes) {
        (BaseUnitKind::Volume, factor) => product(&[makes.amount, factor, DENSEST]).ok(),
        _ => None,
    }
}

/// What is used up of a line weighs at the least, in grams; nothing where only pieces are known. Water boils away, and
/// costs nothing.
fn at_least(kitchen: &Kitchen, line: &Line, cost: &LineCost) -> Option<Decimal> {
    let LineCost::Costed { trace, .. } = cost else { return None };
    if let IngredientSource::Bought(id) = line.source
        && kitchen.item(id).is_some_and(|item| item.is_water)
    {
        return None;
    }
    let grams = match trace.kind {
        BaseUnitKind::Mass => trace.as_asked().value().ok()?,
        BaseUnitKind::Volume => trace.as_asked().times(LIGHTEST).and_then(Amount::value).ok()?,
        BaseUnitKind::Each | BaseUnitKind::Own(_) => {
            let measured = measured(line)?;
            exact::mul(measured.amount, measured.unit.grams()?).ok()?
        }
    };
    exact::mul(grams, line.used).ok()
}

fn product(factors: &[Decimal]) -> Result<Decimal, Overflow> {
    factors.iter().try_fold(Decimal::ONE, |product, factor| exact::mul(product, *factor))
}

//! Figures that stand but that no kitchen can mean: more goes in than a batch could ever lose, or a dish costs more
//! than it sells for. Mostly one unit is wrong, so each doubt names the line to look at first.
//!
//! Takes what is costed; gives warnings at the cell to check. Decides nothing: the figures stay.

use super::dish::DishCost;
use super::line::LineCost;
use super::rate::Amount;
use crate::costing::conversion::base_unit::Kind;
use crate::costing::conversion::convert::{Wanted, convert};
use crate::costing::conversion::of_item::of_recipe;
use crate::kitchen::bridge::Basis;
use crate::kitchen::menu::Dish;
use crate::kitchen::recipe::{Line, LineEntry, LineQuantity, Recipe, RecipeEntry, Source};
use crate::kitchen::{Field, Kitchen};
use crate::measure::Measured;
use crate::number::rounding::half_up;
use crate::number::{Decimal, Overflow, exact};
use crate::problem::{Code, Fault, Place, Problem, THERE};
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
    let wanted = Wanted { quantity: makes, prep: None, basis: Basis::Ap, name: &recipe.name };
    if let Ok(weight) = convert(wanted, &Kind::Mass, &of_recipe(kitchen, recipe), volumes) {
        return weight.amount.value().ok();
    }
    match Kind::of(&makes.unit, volumes) {
        (Kind::Volume, factor) => product(&[makes.amount, factor, DENSEST]).ok(),
        _ => None,
    }
}

/// What is used up of a line weighs at the least, in grams; nothing where only pieces are known. Water boils away, and
/// costs nothing.
fn at_least(kitchen: &Kitchen, line: &Line, cost: &LineCost) -> Option<Decimal> {
    let LineCost::Costed { trace, .. } = cost else { return None };
    if let Source::Bought(id) = line.source
        && kitchen.item(id).is_some_and(|item| item.is_water)
    {
        return None;
    }
    let grams = match trace.kind {
        Kind::Mass => trace.as_asked().value().ok()?,
        Kind::Volume => trace.as_asked().times(LIGHTEST).and_then(Amount::value).ok()?,
        Kind::Each | Kind::Own(_) => {
            let measured = measured(line)?;
            exact::mul(measured.amount, measured.unit.grams()?).ok()?
        }
    };
    exact::mul(grams, line.used).ok()
}

fn measured(line: &Line) -> Option<&Measured> {
    match &line.quantity {
        LineQuantity::Measured(measured) => Some(measured),
        LineQuantity::Unmeasured { measured, .. } => measured.as_ref(),
    }
}

fn product(factors: &[Decimal]) -> Result<Decimal, Overflow> {
    factors.iter().try_fold(Decimal::ONE, |product, factor| exact::mul(product, *factor))
}

/// The doubt of a dish that costs more than it sells for, at its menu price.
pub(super) fn of_dish(
    kitchen: &Kitchen,
    dish: &Dish,
    recipe: &Recipe,
    lines: &[LineCost],
    cost: &DishCost,
) -> Option<Problem> {
    let ex_tax = cost.ex_tax.filter(|ex_tax| cost.portion_cost > *ex_tax)?;
    let shown = |amount: Decimal| format!("{:.2}", half_up(amount, 2));
    let without = if dish.tax.is_zero() { "" } else { " without tax" };
    let told = format!(
        "“{}” costs {} a portion, more than the {} it sells for{without}",
        dish.name,
        shown(cost.portion_cost),
        shown(ex_tax)
    );
    let entry = kitchen.entries.recipes.get(recipe.entry)?;
    let fault = match dearest(recipe, entry, lines) {
        Some((money, typed, measured)) => Fault::new(
            Code::CostOverPrice,
            format!("{told}; its dearest line is {measured} of “{}” for {}, at {THERE}", typed.item, shown(money)),
            "Check the number and the unit of that line, what the recipe makes, and this price.",
        )
        .speaking_of(typed.input.place(Column::Qty)),
        None => Fault::new(Code::CostOverPrice, told, "Check what is added per portion, and this price."),
    };
    Some(fault.at(price_of(kitchen, dish, entry)))
}

/// The line that costs most, if any costs something; of equals the first.
fn dearest<'a>(
    recipe: &'a Recipe,
    entry: &'a RecipeEntry,
    lines: &[LineCost],
) -> Option<(Decimal, &'a LineEntry, &'a Measured)> {
    let mut dearest: Option<(Decimal, &LineEntry, &Measured)> = None;
    for ((line, typed), cost) in recipe.lines.iter().zip(&entry.lines).zip(lines) {
        if let (LineCost::Costed { cost, .. }, Some(measured)) = (cost, measured(line))
            && *cost > dearest.map_or(Decimal::ZERO, |(most, ..)| most)
        {
            dearest = Some((*cost, typed, measured));
        }
    }
    dearest
}

/// Where the dish's menu price stands: on the menu, else on its card.
fn price_of(kitchen: &Kitchen, dish: &Dish, card: &RecipeEntry) -> Place {
    let row = dish.row.and_then(|row| kitchen.entries.menu.get(row));
    match row {
        Some(row) if row.menu_price != Field::Blank => row.input.place(Column::MenuPrice),
        _ => card.input.place(Column::MenuPrice),
    }
}

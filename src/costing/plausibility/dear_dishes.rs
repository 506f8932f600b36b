//! Dishes that cost more than they sell for. Mostly one unit is wrong, so the doubt names the dearest line.

use super::measured;
use crate::costing::{DishCost, LineCost};
use crate::kitchen::menu::Dish;
use crate::kitchen::recipe::{LineEntry, Recipe, RecipeEntry};
use crate::kitchen::{Field, Kitchen};
use crate::measure::{Measured, currency};
use crate::number::Decimal;
use crate::problem::{Code, Fault, Place, Problem, THERE};
use crate::schema::Column;

/// The doubt of a dish that costs more than it sells for, at its menu price.
pub(super) fn of_dish(
    kitchen: &Kitchen,
    dish: &Dish,
    recipe: &Recipe,
    lines: &[LineCost],
    cost: &DishCost,
) -> Option<Problem> {
    let ex_tax = cost.ex_tax.filter(|ex_tax| cost.portion_cost > *ex_tax)?;
    let shown = |amount: Decimal| currency::shown(&kitchen.settings.currency, amount);
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
pub(super) fn price_of(kitchen: &Kitchen, dish: &Dish, card: &RecipeEntry) -> Place {
    let row = dish.row.and_then(|row| kitchen.entries.menu.get(row));
    match row {
        Some(row) if row.menu_price != Field::Blank => row.input.place(Column::MenuPrice),
        _ => card.input.place(Column::MenuPrice),
    }
}

//! The dishes on the terminal: those over target first, then in book order; the recipes where there is no dish.

use super::table::{TextColumn, TextRow, table};
use super::width::{hang, printable};
use super::{Emphasis, View, many};
use crate::costing::Costing;
use crate::in_order::InOrder;
use crate::kitchen::Kitchen;
use crate::measure::currency;
use crate::problem::Problem;
use crate::results::dish::DishResult;
use crate::results::figures::{NONE, PERCENT_PLACES, at_most, shown};
use crate::results::recipe::RecipeResult;
use crate::results::stopped_by::Errors;
use crate::results::target_status::TargetStatus;
use crate::results::value::Figure;

const COLUMNS: [TextColumn; 7] = [
    TextColumn { header: &["Portion", "cost"], figures: true },
    TextColumn { header: &["Menu", "price"], figures: true },
    TextColumn { header: &["Food", "cost %"], figures: true },
    TextColumn { header: &["Target", "%"], figures: true },
    TextColumn { header: &["Price at", "target"], figures: true },
    TextColumn { header: &["Margin"], figures: true },
    TextColumn { header: &["Standing"], figures: false },
];

const RECIPE_COLUMNS: [TextColumn; 4] = [
    TextColumn { header: &["Batch", "cost"], figures: true },
    TextColumn { header: &["Makes"], figures: true },
    TextColumn { header: &["Portions"], figures: true },
    TextColumn { header: &["Portion", "cost"], figures: true },
];

/// A line that says what was costed, and the table of the dishes: money to the currency's minor unit and
/// percentages to one decimal, both half up.
pub fn dishes(kitchen: &Kitchen, costing: &Costing, problems: &[Problem], view: View) -> String {
    let mut dishes: Vec<DishResult<'_>> = DishResult::all(kitchen, costing).collect();
    dishes.put_in_order_by_key(|dish| dish.standing.0 != TargetStatus::OverTarget);
    if dishes.is_empty() && kitchen.recipes.is_empty() {
        return hang("", &nothing_yet(kitchen), view.width);
    }
    let mut out = hang("", &heading(kitchen, costing, &dishes), view.width);
    if dishes.is_empty() {
        out.push('\n');
        out.push_str(&recipes(kitchen, costing, view));
        out.push_str(&hang(
            "",
            "Give a card a Menu price, or add a Menu table, to see what its dish costs.",
            view.width,
        ));
        return out;
    }
    let places = currency::minor_digits(&kitchen.settings.currency);
    let rows: Vec<TextRow> = dishes.iter().map(|dish| row(dish, places)).collect();
    out.push('\n');
    out.push_str(&table("Dish", &COLUMNS, &rows, view));
    out.push_str(&why_not(kitchen, costing, problems, view));
    out
}

/// What the recipes of a book without dishes cost.
fn recipes(kitchen: &Kitchen, costing: &Costing, view: View) -> String {
    let places = currency::minor_digits(&kitchen.settings.currency);
    let money = |figure: Option<Figure>| (shown(figure.map(|figure| figure.0), places), Emphasis::Plain);
    let rows = RecipeResult::all(kitchen, costing).map(|recipe| {
        let makes = recipe.makes.qty.zip(recipe.makes.unit.as_deref());
        let makes = makes.map_or_else(|| NONE.to_owned(), |(qty, unit)| format!("{} {unit}", at_most(qty.0, 3)));
        let portions = recipe.portions.map_or_else(|| NONE.to_owned(), |portions| at_most(portions.0, 2));
        let plain = |text: String| (printable(&text), Emphasis::Plain);
        let cells = vec![money(recipe.batch_cost), plain(makes), plain(portions), money(recipe.portion_cost)];
        TextRow { name: printable(recipe.name), cells }
    });
    table("Recipe", &RECIPE_COLUMNS, &rows.collect::<Vec<_>>(), view)
}

/// What to fill in next in a book without recipes.
fn nothing_yet(kitchen: &Kitchen) -> String {
    let next = "a recipe card that says what goes in, how much it makes, and its menu price.";
    if kitchen.bought_items() == 0 {
        return format!("Nothing to cost yet: fill in Prices, then {next}");
    }
    let items = many(kitchen.bought_items(), "bought item", "bought items");
    format!("Nothing to cost yet: {items}, no recipe. Next, fill in {next}")
}

/// A line for every dish that is not costed: the nearest error that stops it, and how many more there are.
fn why_not(kitchen: &Kitchen, costing: &Costing, problems: &[Problem], view: View) -> String {
    let errors = Errors::of(kitchen, costing, problems);
    let stopped = kitchen.dishes.iter().zip(&costing.dishes).filter(|(_, cost)| cost.is_none());
    let mut out = String::new();
    let mut told = 0_usize;
    let mut others = 0_usize;
    for (dish, _) in stopped {
        if told >= MOST_TOLD {
            others = others.saturating_add(1);
            continue;
        }
        let stopping = errors.stopping(dish);
        let Some((problem, others)) = stopping.split_first() else { continue };
        if out.is_empty() {
            out.push('\n');
        }
        let place = printable(&problem.place.to_string());
        let more = match others.len() {
            0 => String::new(),
            others => format!(" and {}", many(others, "more error", "more errors")),
        };
        let text = format!("{} is not costed because of {place} ({}){more}.", printable(&dish.name), problem.code);
        out.push_str(&hang("", &text, view.width));
        told = told.saturating_add(1);
    }
    if others > 0 {
        out.push_str(&hang(
            "",
            &format!("{} not costed either.", many(others, "more dish is", "more dishes are")),
            view.width,
        ));
    }
    out
}

/// So many dishes are told one by one why they are not costed.
const MOST_TOLD: usize = 100;

/// `Costed on 2026-11-20 in USD: 7 dishes, 1 over target.`
fn heading(kitchen: &Kitchen, costing: &Costing, dishes: &[DishResult<'_>]) -> String {
    let mut text = format!("Costed on {}", costing.scenario.date);
    let currency = &kitchen.settings.currency;
    if !currency.is_empty() {
        text.push_str(&format!(" in {}", printable(currency)));
    }
    if dishes.is_empty() {
        text.push_str(&format!(": {}, no dish.", many(kitchen.recipes.len(), "recipe", "recipes")));
        return text;
    }
    text.push_str(&format!(": {}", many(dishes.len(), "dish", "dishes")));
    for worth_saying in [TargetStatus::OverTarget, TargetStatus::NotCosted] {
        let count = dishes.iter().filter(|dish| dish.standing.0 == worth_saying).count();
        if count > 0 {
            text.push_str(&format!(", {count} {worth_saying}"));
        }
    }
    text.push('.');
    text
}

fn row(dish: &DishResult<'_>, places: u32) -> TextRow {
    let figure = |figure: Option<Figure>, places: u32| (shown(figure.map(|figure| figure.0), places), Emphasis::Plain);
    let ink = match dish.standing.0 {
        TargetStatus::OverTarget | TargetStatus::NotCosted => Emphasis::Bad,
        TargetStatus::WithinTarget => Emphasis::Good,
        TargetStatus::NoMenuPrice | TargetStatus::NoTarget => Emphasis::Doubt,
    };
    let cells = vec![
        figure(dish.portion_cost, places),
        figure(dish.menu_price, places),
        figure(dish.food_cost_percent, PERCENT_PLACES),
        figure(dish.target_percent, PERCENT_PLACES),
        figure(dish.price_at_target, places),
        figure(dish.margin, places),
        (dish.standing.0.words().to_owned(), ink),
    ];
    TextRow { name: printable(dish.name), cells }
}

//! Names for the figures that people link to from other workbooks: what a dish or a batch costs, by the dish's own
//! name.

use std::collections::HashSet;

use crate::kitchen::RecipeId;
use crate::kitchen::settings::Setting;
use crate::workbook::cells::formula::Ref;
use crate::workbook::context::Context;
use crate::workbook::layout::MOST_CARDS;
use crate::workbook::layout::dish_cells::CardRows;
use crate::workbook::layout::recipe::Total;
use crate::workbook::layout::summary_columns::SummaryColumn;

/// The most letters of a dish that a name takes; a name ends at 255 (ECMA-376 part 1, 18.2.5, as programs keep it).
const MOST_LETTERS: usize = 200;

/// The names and their cells. None of long menus, which would have thousands.
pub fn all(context: &Context<'_>) -> Vec<(String, Ref)> {
    let mut taken = HashSet::new();
    let mut named = Vec::new();
    let settings = [(Setting::CostingDate, "Costing_date"), (Setting::TargetFoodCost, "Target_food_cost")];
    for (setting, name) in settings {
        if let Some(cell) = context.settings.value(setting) {
            taken.insert(name.to_lowercase());
            named.push((name.to_owned(), cell));
        }
    }
    let kitchen = context.kitchen;
    if kitchen.dishes.len() <= MOST_CARDS {
        for (index, (dish, cost)) in kitchen.dishes.iter().zip(&context.costing.dishes).enumerate() {
            let Some(cost) = cost else { continue };
            // On its card, which stays where it is when dishes are sorted.
            let card = CardRows::of(context, index);
            let cell = |column: SummaryColumn, nth: Option<u16>| match (&card, nth) {
                (Some(card), Some(nth)) => card.against(nth),
                (Some(card), None) => card.cost(3),
                (None, _) => column.cell(index),
            };
            let figures = [
                ("Portion_cost", cell(SummaryColumn::PortionCost, None), true),
                ("Food_cost", cell(SummaryColumn::FoodCost, Some(2)), cost.food_cost.is_some()),
                ("Price_at_target", cell(SummaryColumn::PriceAtTarget, Some(1)), cost.price_at_target.is_some()),
                ("Margin", cell(SummaryColumn::Margin, Some(4)), cost.margin.is_some()),
            ];
            for (what, cell, _) in figures.into_iter().filter(|(.., known)| *known) {
                named.push((free(what, &dish.name, &mut taken), cell));
            }
        }
    }
    if context.layout.lists.is_none() {
        for (index, recipe) in kitchen.recipes.iter().enumerate() {
            let id = RecipeId::new(index);
            if let (Some(_), Some(cell)) = (context.costing.recipe(id), context.total(id, Total::Batch)) {
                named.push((free("Batch_cost", &recipe.name, &mut taken), cell));
            }
        }
    }
    named
}

/// `Portion_cost.Leek_soup`: what no name may hold becomes a line, and what is taken gets a number.
fn free(what: &str, whose: &str, taken: &mut HashSet<String>) -> String {
    let mut letters = String::new();
    for c in whose.chars().take(MOST_LETTERS) {
        if c.is_alphanumeric() {
            letters.push(c);
        } else if !letters.ends_with('_') {
            letters.push('_');
        }
    }
    let name = format!("{what}.{}", letters.trim_matches('_'));
    let mut nth = 2_u32;
    let mut free = name.clone();
    while !taken.insert(free.to_lowercase()) {
        free = format!("{name}_{nth}");
        nth = nth.saturating_add(1);
    }
    free
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_told_apart_and_hold_letters_and_figures_alone() {
        let mut taken = HashSet::new();
        assert_eq!(free("Margin", "Leek soup, cup", &mut taken), "Margin.Leek_soup_cup");
        assert_eq!(free("Margin", "LEEK SOUP (cup)", &mut taken), "Margin.LEEK_SOUP_cup_2");
        assert_eq!(free("Margin", "Crème brûlée", &mut taken), "Margin.Crème_brûlée");
        assert_eq!(free("Margin", "!?", &mut taken), "Margin.");
        assert!(free("Margin", &"soup ".repeat(100), &mut taken).len() < 255);
    }
}

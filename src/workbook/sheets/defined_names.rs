//! Names for the figures that people link to from other workbooks: what a dish or a batch costs, by the dish's own
//! name.

use std::collections::HashSet;

use crate::kitchen::RecipeId;
use crate::kitchen::settings::Setting;
use crate::schema::TableKind;
use crate::workbook::cells::formula::{LONGEST, Ref};
use crate::workbook::context::Context;
use crate::workbook::layout::dish_cells::CardRows;
use crate::workbook::layout::recipe::Total;
use crate::workbook::sheets::dish_formulas::DishFormulas;

/// How much of a dish's letters a name takes, in units of UTF-16, by which programs count; a name ends at 255 (ECMA-376 part 1,
/// 18.2.5, as programs keep it).
const MOST_LETTERS: usize = 200;

/// The names, and the formulas that they stand for: on a card a cell that stays where it is, on a list a row that is found
/// by its key, and where a dish stands on no menu what it is figured from, for the Summary may be sorted or taken out.
pub fn all(context: &Context<'_>) -> Vec<(String, String)> {
    let mut taken = HashSet::new();
    let mut named = Vec::new();
    let settings = [(Setting::CostingDate, "Costing_date"), (Setting::TargetFoodCost, "Target_food_cost")];
    for (setting, name) in settings {
        if let Some(cell) = context.settings.value(setting) {
            taken.insert(name.to_lowercase());
            named.push((name.to_owned(), cell.fixed()));
        }
    }
    let kitchen = context.kitchen;
    for (index, dish) in kitchen.dishes.iter().enumerate() {
        let formulas = of_dish(context, index).unwrap_or_default();
        for (what, formula) in FIGURES.into_iter().zip(formulas).filter_map(|(what, formula)| Some((what, formula?))) {
            named.push((free(what, &dish.name, &mut taken), formula));
        }
    }
    for (index, recipe) in kitchen.recipes.iter().enumerate() {
        let id = RecipeId::new(index);
        if let (Some(_), Some(cell)) = (context.costing.recipe(id), context.total(id, Total::Batch)) {
            named.push((free("Batch_cost", &recipe.name, &mut taken), anywhere(&cell)));
        }
    }
    named
}

/// The figures of a dish that have names.
const FIGURES: [&str; 4] = ["Portion_cost", "Food_cost", "Price_at_target", "Margin"];

/// The formulas of those that are known; `None` of a dish that is not costed.
fn of_dish(context: &Context<'_>, index: usize) -> Option<[Option<String>; 4]> {
    let dish = context.kitchen.dishes.get(index)?;
    let cost = context.costing.dishes.get(index)?.as_ref()?;
    let known = [true, cost.food_cost.is_some(), cost.price_at_target.is_some(), cost.margin.is_some()];
    let formulas = if let Some(card) = CardRows::of(context, index) {
        [card.cost(3), card.against(2), card.against(1), card.against(4)].map(|cell| Some(cell.fixed()))
    } else if let Some(row) = dish.row {
        ["Portion cost", "Food cost %", "Price at target", "Margin"]
            .map(|header| context.own(TableKind::Menu, row, header).map(|cell| anywhere(&cell)))
    } else {
        let formulas = DishFormulas::of(context, index, NOWHERE)?;
        let portion_cost = format!("({})", formulas.portion_cost(index));
        let ex_tax = formulas.menu_price().map(|price| format!("({})", formulas.ex_tax(&price)));
        let at_target = formulas.target().map(|target| formulas.price_at_target(&portion_cost, &target));
        let food_cost = ex_tax.as_ref().map(|ex_tax| format!("{portion_cost}/{ex_tax}"));
        let margin = ex_tax.as_ref().map(|ex_tax| format!("{ex_tax}-{portion_cost}"));
        [Some(portion_cost), food_cost, at_target, margin]
    };
    let named =
        formulas.into_iter().zip(known).map(|(formula, known)| formula.filter(|text| known && text.len() < LONGEST));
    named.collect::<Vec<_>>().try_into().ok()
}

/// No sheet and no row: every cell is named with its sheet.
const NOWHERE: (&str, u32) = ("", 0);

/// A cell wherever its row has gone.
fn anywhere(cell: &Ref) -> String {
    cell.from(NOWHERE.0)
}

/// `Portion_cost.Leek_soup`: what no name may hold becomes a line, and what is taken gets a number.
fn free(what: &str, whose: &str, taken: &mut HashSet<String>) -> String {
    let mut letters = String::new();
    let mut units = 0_usize;
    for c in whose.chars() {
        units = units.saturating_add(c.len_utf16());
        if units > MOST_LETTERS {
            break;
        }
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
        // Letters beyond the basic plane count twice (the Unicode Standard, 3.9).
        let script = free("Price_at_target", &"𠮷".repeat(300), &mut taken);
        assert!(script.encode_utf16().count() < 255, "{script}");
    }
}

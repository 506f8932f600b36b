//! Cells of a dish's facts, where they were typed: on the menu, on its card, or among the settings.

use crate::kitchen::Field;
use crate::kitchen::menu::Dish;
use crate::kitchen::settings::Setting;
use crate::number::BareRule;
use crate::schema::{Column, Label, TableKind};
use crate::workbook::cells::formula::Ref;
use crate::workbook::context::{Context, fraction_from};

/// Where a dish's menu price was typed: on the menu, else on its card.
pub fn price_cell(context: &Context<'_>, dish: &Dish) -> Option<Ref> {
    let on_menu =
        dish.row.filter(|row| context.kitchen.entries.menu.get(*row).is_some_and(|row| row.menu_price != Field::Blank));
    match on_menu {
        Some(row) => context.input(TableKind::Menu, row, Column::MenuPrice),
        None => context.layout.recipes.get(dish.recipe?.index())?.label(Label::MenuPrice),
    }
}

/// The target as a formula on `sheet`: the menu's, else the card's, else the setting's.
pub fn target_formula(context: &Context<'_>, dish: &Dish, sheet: &str) -> Option<String> {
    let menu = dish.row.and_then(|row| Some((row, context.kitchen.entries.menu.get(row)?)));
    if let Some((row, entry)) = menu.filter(|(_, entry)| entry.target != Field::Blank) {
        let cell = context.input(TableKind::Menu, row, Column::Target)?.from(sheet);
        return fraction_from(entry.input.typed(Column::Target), &cell, BareRule::UpToOne);
    }
    let recipe = dish.recipe?;
    let card = context.kitchen.entries.recipes.get(recipe.index()).filter(|entry| entry.target != Field::Blank);
    if let Some(entry) = card {
        let cell = context.layout.recipes.get(recipe.index())?.label(Label::Target)?.from(sheet);
        return fraction_from(entry.input.typed(Column::Target), &cell, BareRule::UpToOne);
    }
    context.settings.value(Setting::TargetFoodCost).map(|cell| cell.from(sheet))
}

/// The tax within a dish's price as a formula on `sheet`: the menu's, else the setting's.
pub fn tax_formula(context: &Context<'_>, dish: &Dish, sheet: &str) -> String {
    let menu = dish.row.and_then(|row| Some((row, context.kitchen.entries.menu.get(row)?)));
    let own = menu.filter(|(_, entry)| entry.tax != Field::Blank).and_then(|(row, entry)| {
        let cell = context.input(TableKind::Menu, row, Column::Tax)?.from(sheet);
        fraction_from(entry.input.typed(Column::Tax), &cell, BareRule::BelowOne)
    });
    own.or_else(|| context.settings.value(Setting::TaxIncluded).map(|cell| cell.from(sheet)))
        .unwrap_or_else(|| "0".to_owned())
}

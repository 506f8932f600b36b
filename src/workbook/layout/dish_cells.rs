//! Cells of a dish's facts, where they were typed: on the menu, on its card, or among the settings.

use crate::kitchen::Field;
use crate::kitchen::menu::Dish;
use crate::kitchen::settings::Setting;
use crate::number::BareRule;
use crate::schema::{Column, Label, TableKind};
use crate::workbook::cells::formula::{Ref, needed};
use crate::workbook::context::{Context, fraction_from};
use crate::workbook::layout::recipe::RecipeLayout;

/// Where a dish's menu price was typed: on the menu, else on its card.
pub fn price_cell(context: &Context<'_>, dish: &Dish) -> Option<Ref> {
    let on_menu =
        dish.row.filter(|row| context.kitchen.entries.menu.get(*row).is_some_and(|row| row.menu_price != Field::Blank));
    match on_menu {
        Some(row) => context.input(TableKind::Menu, row, Column::MenuPrice),
        None => context.layout.recipes.get(dish.recipe?.index())?.label(Label::MenuPrice),
    }
}

/// The target as a formula in a row of `sheet`: the menu's, else the card's, else the setting's.
pub fn target_formula(context: &Context<'_>, dish: &Dish, (sheet, at): (&str, u32)) -> Option<String> {
    let menu = dish.row.and_then(|row| Some((row, context.kitchen.entries.menu.get(row)?)));
    if let Some((row, entry)) = menu.filter(|(_, entry)| entry.target != Field::Blank) {
        let cell = context.input(TableKind::Menu, row, Column::Target)?.beside(sheet, at);
        return fraction_from(entry.input.typed(Column::Target), &cell, BareRule::UpToOne);
    }
    let recipe = dish.recipe?;
    let card = context.kitchen.entries.recipes.get(recipe.index()).filter(|entry| entry.target != Field::Blank);
    if let Some(entry) = card {
        let cell = context.layout.recipes.get(recipe.index())?.label(Label::Target)?.from(sheet);
        return fraction_from(entry.input.typed(Column::Target), &cell, BareRule::UpToOne);
    }
    context.settings.value(Setting::TargetFoodCost).map(|cell| needed(&cell.from(sheet)))
}

/// The tax within a dish's price as a formula in a row of `sheet`: the menu's, else the setting's.
pub fn tax_formula(context: &Context<'_>, dish: &Dish, (sheet, at): (&str, u32)) -> String {
    let menu = dish.row.and_then(|row| Some((row, context.kitchen.entries.menu.get(row)?)));
    let own = menu.filter(|(_, entry)| entry.tax != Field::Blank).and_then(|(row, entry)| {
        let cell = context.input(TableKind::Menu, row, Column::Tax)?.beside(sheet, at);
        fraction_from(entry.input.typed(Column::Tax), &cell, BareRule::BelowOne)
    });
    own.or_else(|| context.settings.value(Setting::TaxIncluded).map(|cell| needed(&cell.from(sheet))))
        .unwrap_or_else(|| "0".to_owned())
}

/// Where the figures of a dish stand on the card of its recipe, which no sorting of dishes moves.
pub struct CardRows<'a> {
    card: &'a RecipeLayout,
    first: u16,
    costs: u32,
    against: u32,
}

impl<'a> CardRows<'a> {
    /// Those of the dish at `index`; `None` where it is not costed, or recipes stand in lists.
    pub fn of(context: &'a Context<'_>, index: usize) -> Option<Self> {
        if context.layout.lists.is_some() {
            return None;
        }
        let id = context.kitchen.dishes.get(index)?.recipe?;
        context.costing.dishes.get(index)?.as_ref()?;
        let card = context.layout.recipes.get(id.index())?;
        let all = context.kitchen.dishes.iter().zip(&context.costing.dishes).enumerate();
        let sold = all.filter(|(_, (dish, _))| dish.recipe == Some(id));
        let (mut before, mut costed, mut every) = (0_u32, 0_u32, 0_u32);
        for (at, (_, cost)) in sold {
            every = every.saturating_add(1);
            if at < index {
                before = before.saturating_add(1);
                costed = costed.saturating_add(u32::from(cost.is_some()));
            }
        }
        let first = card.own(0, "AP or EP").column;
        // A blank row and the headers stand above them.
        let costs = card.below_totals().saturating_add(2);
        let against = costs.saturating_add(every).saturating_add(1);
        Some(CardRows { card, first, costs: costs.saturating_add(before), against: against.saturating_add(costed) })
    }

    /// The cell of what it adds up to, in the `nth` column.
    pub fn cost(&self, nth: u16) -> Ref {
        Ref::new(self.card.sheet(), self.costs, self.first.saturating_add(nth))
    }

    /// The cell of how it stands, in the `nth` column.
    pub fn against(&self, nth: u16) -> Ref {
        Ref::new(self.card.sheet(), self.against, self.first.saturating_add(nth))
    }
}

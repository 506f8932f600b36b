//! Group of a dish as a condition: whether the menu, or the dish's card where the menu says none, names another one than
//! was read.

use crate::kitchen::menu::Dish;
use crate::schema::{Column, Label, TableKind, Typed};
use crate::workbook::cells::formula::{Ref, not_as_typed};
use crate::workbook::context::Context;

/// That a dish is in another group than it was, as a formula of `sheet`; `None` where no cell says its group.
pub(super) fn regrouped(context: &Context<'_>, dish: &Dish, sheet: &str) -> Option<String> {
    let entries = &context.kitchen.entries;
    let on_menu = dish.row.and_then(|row| {
        let cell = context.input(TableKind::Menu, row, Column::Group)?;
        Some((cell, entries.menu.get(row)?.input.typed(Column::Group)))
    });
    // The card's word counts where the menu has none.
    let is_named = on_menu.as_ref().is_some_and(|(_, typed)| !typed.is_blank());
    let on_card = dish.recipe.filter(|_| !is_named).and_then(|id| {
        let cell = context.layout.recipes.get(id.index())?.label(Label::Group)?;
        Some((cell, entries.recipes.get(context.kitchen.recipe(id)?.entry)?.input.typed(Column::Group)))
    });
    let other: Vec<String> =
        [on_menu, on_card].into_iter().flatten().map(|(cell, typed)| other(&cell, typed, sheet)).collect();
    match other.as_slice() {
        [] => None,
        [one] => Some(one.clone()),
        many => Some(format!("OR({})", many.join(","))),
    }
}

/// That a cell says something else than was typed in it.
fn other(cell: &Ref, typed: &Typed, sheet: &str) -> String {
    not_as_typed(&cell.from(sheet), typed)
}

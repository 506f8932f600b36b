//! Menu cells of our own: what counts of each dish's facts, what it costs, and how it stands.

use crate::results::target_status::TargetStatus;
use crate::schema::Column;
use crate::workbook::cells::formula::Formula;
use crate::workbook::cells::row::{Content, Ink, Look};
use crate::workbook::context::Context;
use crate::workbook::layout::TableLayout;
use crate::workbook::layout::dish_cells::{MENU_PRICE_USED, MenuFacts, TARGET_USED, TAX_USED};
use crate::workbook::layout::own_columns::Own;
use crate::workbook::sheets::dish_formulas::{Compared, DishFormulas};

/// The cells of the row at `index`.
pub fn row(context: &Context<'_>, table: &TableLayout, index: usize, own: &mut Own<'_>) {
    let dishes = context.kitchen.dishes.iter().zip(&context.costing.dishes).enumerate();
    let Some((at, (dish, cost))) = dishes.into_iter().find(|(_, (dish, _))| dish.row == Some(index)) else { return };
    if let Some((recipe, card)) =
        dish.recipe.and_then(|id| Some((context.kitchen.recipe(id)?, context.layout.recipes.get(id.index())?)))
    {
        let home = card.home();
        let link = Content::Link { text: recipe.name.clone(), to: Box::new(home) };
        own.put("Recipe used", link, Ink::Reading, Look::General);
    }
    if let Some(facts) = MenuFacts::of(context, dish) {
        figure(own, MENU_PRICE_USED, facts.price, context.money());
        figure(own, TARGET_USED, facts.target, Look::Percent(1));
        figure(own, TAX_USED, facts.tax, Look::Percent(1));
    }
    let Some(cost) = cost else { return own.say("Standing", TargetStatus::NotCosted.words()) };
    let Some(formulas) = DishFormulas::of(context, at, (&table.sheet, table.row(index))) else { return };
    let here = |header| table.own(index, header).cell();
    let [portion_cost, price, target, food_cost] =
        ["Portion cost", MENU_PRICE_USED, TARGET_USED, "Food cost %"].map(here);
    let against = formulas.against(&Compared {
        portion_cost: &portion_cost,
        price: &price,
        target: &target,
        food_cost: &food_cost,
    });
    let cost = Formula::number(formulas.portion_cost(at), cost.portion_cost);
    figure(own, "Portion cost", Some(cost), context.money());
    figure(own, "Food cost %", against.food_cost, Look::Percent(1));
    figure(own, "Price at target", against.at_target, context.money());
    figure(own, "Margin", against.margin, context.money());
    figure(own, "Standing", Some(against.standing), Look::Words);
}

fn figure(own: &mut Own<'_>, header: &'static str, formula: Option<Formula>, look: Look) {
    if let Some(formula) = formula {
        own.figure(header, formula, look);
    }
}

/// The blank cells of a row that count once they are filled; how many were sold counts when the book is read again.
pub fn room(context: &Context<'_>, column: Column) -> Option<Look> {
    match column {
        Column::MenuPrice => Some(context.money()),
        Column::Target | Column::Tax => Some(Look::Percent(1)),
        Column::Sold => Some(Look::General),
        _ => None,
    }
}

//! Menu cells of our own: what counts of each dish's facts, what it costs, and how it stands.

use crate::in_order::InOrder;
use crate::kitchen::menu::Dish;
use crate::results::target_status::TargetStatus;
use crate::schema::{Column, TableKind, output};
use crate::workbook::cells::formula::{Formula, not_as_typed, not_if};
use crate::workbook::cells::row::{Cell, Content, Ink, Look, Row, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::dish_cells::{MENU_PRICE_USED, MenuFacts, TARGET_USED, TAX_USED};
use crate::workbook::layout::own_columns::OwnCells;
use crate::workbook::layout::{Slot, TableLayout, column_width};
use crate::workbook::sheets::dish_formulas::{ComparedCells, DishFormulas};

/// The cells of the row at `index`.
pub fn row(context: &Context<'_>, table: &TableLayout, index: usize, own: &mut OwnCells<'_>) {
    let Some(at) = context.kitchen.dish_of_row(index) else { return };
    let Some(dish) = context.kitchen.dishes.get(at) else { return };
    if let Some(facts) = MenuFacts::of(context, dish) {
        let renamed = renamed(context, table, index);
        let while_named = |mut formula: Formula| {
            formula.text = not_if(&renamed, &formula.text);
            formula
        };
        figure(own, MENU_PRICE_USED, facts.price.map(while_named), context.money());
        figure(own, TARGET_USED, facts.target.map(while_named), Look::Percent(1));
        figure(own, TAX_USED, facts.tax, Look::Percent(1));
    }
    dish_cells(context, table, (at, dish), index, own);
}

/// That the row says another dish or recipe than it said, stands elsewhere, or there twice: rows that were sorted or pasted
/// without the columns of our own are other ones.
fn renamed(context: &Context<'_>, table: &TableLayout, index: usize) -> Vec<String> {
    let entry = context.kitchen.entries.menu.get(index).filter(|_| table.roomy);
    let typed = entry.into_iter().flat_map(|entry| {
        [Column::Dish, Column::Recipe].map(|column| (entry.input.typed(column), table.input(index, column)))
    });
    let other = typed.filter_map(|(typed, cell)| Some(not_as_typed(&cell?.cell(), typed)));
    let twice = entry.and_then(|entry| {
        let dish = entry.input.typed(Column::Dish);
        context.more_rows(TableKind::Menu, Column::Dish, dish, &table.sheet)
    });
    let elsewhere = entry.into_iter().flat_map(|entry| table.elsewhere(index, &entry.input));
    other.chain(elsewhere).chain(twice).collect()
}

/// The dishes that are sold at the price on their card and stand on no menu, below a blank row: whoever prints the menu wants
/// them all. No row of the menu, and passed over when the book is read again.
pub fn on_their_cards(context: &Context<'_>, table: &TableLayout, out: &mut RowSink<'_>) {
    let dishes = context.kitchen.dishes.iter().enumerate().filter(|(_, dish)| dish.row.is_none());
    for ((at, dish), index) in dishes.zip(table.rows.saturating_add(1)..) {
        let mut own = OwnCells::of(table);
        let place = (&*table.sheet, table.row(index));
        let facts = DishFormulas::of(context, at, place).map(|formulas| formulas.facts());
        let is_costed = facts.is_some();
        if let Some(against) = facts {
            figure(&mut own, MENU_PRICE_USED, against.0, context.money());
            figure(&mut own, TARGET_USED, against.1, Look::Percent(1));
        }
        dish_cells(context, table, (at, dish), index, &mut own);
        own.seal();
        let named = format!("{}{}", output::ON_ITS_CARD, dish.name);
        let shape = table.shapes.first();
        let mut cells = vec![column_width::fitted(Cell::text(0, named, Ink::Reading), shape)];
        let price = dish.menu_price.zip(table.column(Slot::Input(Column::MenuPrice)));
        cells.extend(price.map(|(price, column)| {
            // What is not costed has no price in use beside it to follow.
            if !is_costed {
                return Cell::number(column, price, Ink::Reading, context.money());
            }
            let used = table.own(index, MENU_PRICE_USED).cell();
            Cell::figure(column, Formula::number(used, price), context.money())
        }));
        cells.extend(own.cells);
        cells.put_in_order_by_key(|cell| cell.column);
        out(Row { row: table.row(index), cells });
    }
}

/// What a dish costs and how it stands, in the row at `index`.
fn dish_cells(
    context: &Context<'_>,
    table: &TableLayout,
    (at, dish): (usize, &Dish),
    index: usize,
    own: &mut OwnCells<'_>,
) {
    if let Some((recipe, card)) =
        dish.recipe.and_then(|id| Some((context.kitchen.recipe(id)?, context.layout.recipes.get(id.index())?)))
    {
        // Some programs do not wrap what leads elsewhere.
        if recipe.name.chars().count() > LONGEST_LINK {
            own.say(RECIPE_USED, &recipe.name);
        } else {
            let link = Content::Link { text: recipe.name.clone(), to: Box::new(card.home()) };
            own.put(RECIPE_USED, link, Ink::Reading, Look::General);
        }
    }
    let Some(cost) = context.costing.dishes.get(at).and_then(Option::as_ref) else {
        return own.say("Standing", TargetStatus::NotCosted.words());
    };
    let Some(formulas) = DishFormulas::of(context, at, (&table.sheet, table.row(index))) else { return };
    let here = |header| table.own(index, header).cell();
    let [portion_cost, price, target, food_cost] =
        ["Portion cost", MENU_PRICE_USED, TARGET_USED, "Food cost %"].map(here);
    let against = formulas.against(&ComparedCells {
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

/// The header of the recipe that a dish is made by, and the longest name that its column shows whole in one row: a longer one
/// wraps, and leads nowhere.
const RECIPE_USED: &str = "Recipe used";
const LONGEST_LINK: usize = 26;

fn figure(own: &mut OwnCells<'_>, header: &'static str, formula: Option<Formula>, look: Look) {
    if let Some(formula) = formula {
        own.figure(header, formula, look);
    }
}

/// The blank cells of the row at `index` that count once they are filled; how many were sold counts when the book is read
/// again. A row that only adds to the sales of another has no figures.
pub fn room(context: &Context<'_>, index: usize, column: Column) -> Option<Look> {
    match column {
        _ if context.kitchen.dish_of_row(index).is_none() => None,
        Column::MenuPrice => Some(context.money()),
        Column::Target | Column::Tax => Some(Look::Percent(1)),
        Column::Sold => Some(Look::General),
        _ => None,
    }
}

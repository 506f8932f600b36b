//! Tables that are mostly inputs: measures, menu, plan, stock, control and supplier layouts.

use crate::kitchen::Field;
use crate::results::target_status::TargetStatus;
use crate::schema::TableKind;
use crate::workbook::cells::formula::Formula;
use crate::workbook::cells::row::{Content, Ink, Look, Row, Rows};
use crate::workbook::context::Context;
use crate::workbook::layout::own_columns::Own;
use crate::workbook::layout::{TableLayout, rows_of};
use crate::workbook::sheets::dish_formulas::{DishFormulas, standing};
use crate::workbook::sheets::table;

/// The rows of a table of inputs, with what little is computed beside them.
pub fn rows(context: &Context<'_>, table: &TableLayout, out: &mut Rows<'_>) {
    out(table::header(table));
    for (index, input) in rows_of(context.kitchen, table.kind).into_iter().enumerate() {
        let mut own = Own::of(table);
        match table.kind {
            TableKind::Measures => measure(context, index, &mut own),
            TableKind::Menu => menu(context, table, index, &mut own),
            TableKind::RecipeLines => own.say("Source", NOT_READ),
            TableKind::Stock => stock(context, index, &mut own),
            TableKind::SupplierLayouts => layout(context, index, &mut own),
            _ => {}
        }
        let row: Row = table::row(table.row(index), table::inputs(context, table, input), own);
        out(row);
    }
}

/// What is said of a row that could not be read. Said in every such row, it also keeps a name that stands alone from being
/// taken for a heading when the sheet is read again.
const NOT_READ: &str = "not read";

fn stock(context: &Context<'_>, index: usize, own: &mut Own<'_>) {
    let row = context.kitchen.entries.stock.get(index);
    match row.and_then(|row| row.on_hand.given()) {
        Some(on_hand) => own.say("On hand read as", on_hand.to_string()),
        None => own.say("On hand read as", NOT_READ),
    }
}

fn layout(context: &Context<'_>, index: usize, own: &mut Own<'_>) {
    let row = context.kitchen.entries.layouts.get(index);
    let column = row.and_then(|row| row.column.given());
    own.say("Column read as", column.map_or(NOT_READ, |column| TableKind::Prices.header(*column)));
}

fn measure(context: &Context<'_>, index: usize, own: &mut Own<'_>) {
    let fields = context.kitchen.entries.measures.get(index).map(|row| (row, &row.measure, &row.equals));
    let Some((row, Field::Given((unit, prep)), Field::Given(equals))) = fields else {
        return own.say("Measure read as", NOT_READ);
    };
    let basis = match row.basis.given() {
        Some(basis) => basis.name(),
        None if unit.is_count_like() => "AP",
        None => "EP",
    };
    let prep = prep.as_ref().map(|prep| format!(", {prep}")).unwrap_or_default();
    own.say("Measure read as", format!("1 {}{prep} = {equals} {basis}", unit.name()));
}

fn menu(context: &Context<'_>, table: &TableLayout, index: usize, own: &mut Own<'_>) {
    let dishes = context.kitchen.dishes.iter().zip(&context.costing.dishes).enumerate();
    let Some((at, (dish, cost))) = dishes.into_iter().find(|(_, (dish, _))| dish.row == Some(index)) else { return };
    if let Some((recipe, card)) =
        dish.recipe.and_then(|id| Some((context.kitchen.recipe(id)?, context.layout.recipes.get(id.index())?)))
    {
        let home = card.home();
        let link = Content::Link { text: recipe.name.clone(), cell: home.cell(), sheet: home.sheet };
        own.put("Recipe used", link, Ink::Reading, Look::General);
    }
    let Some(cost) = cost else { return own.say("Standing", TargetStatus::NotCosted.words()) };
    let Some(formulas) = DishFormulas::of(context, at, (&table.sheet, table.row(index))) else { return };
    let here = |header| table.own(index, header).cell();
    let portion_cost = here("Portion cost");
    let target = formulas.target();
    let ex_tax = formulas.menu_price().map(|price| formulas.ex_tax(&price));
    let at_target = target.as_ref().map(|target| formulas.price_at_target(&portion_cost, target));
    let food_cost = ex_tax.as_ref().map(|ex_tax| format!("{portion_cost}/({ex_tax})"));
    let margin = ex_tax.map(|ex_tax| format!("{ex_tax}-{portion_cost}"));
    let mut figure = |header, text: Option<String>, result: Option<crate::number::Decimal>, look: Look| {
        if let (Some(text), Some(result)) = (text, result) {
            own.figure(header, Formula::number(text, result), look);
        }
    };
    figure("Portion cost", Some(formulas.portion_cost(at)), Some(cost.portion_cost), context.money());
    figure("Food cost %", food_cost, cost.food_cost, Look::Percent(1));
    figure("Price at target", at_target, cost.price_at_target, context.money());
    figure("Margin", margin, cost.margin, context.money());
    let status = TargetStatus::of(dish, Some(cost));
    let cells = [portion_cost.as_str(), &here("Food cost %"), target.as_deref().unwrap_or("0")];
    own.figure("Standing", Formula::text(standing(status, cells), status.words()), Look::Words);
}

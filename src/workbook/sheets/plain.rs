//! Tables that are mostly inputs: measures, plan, stock, counts, control, suppliers and their layouts; the menu.

use crate::kitchen::Field;
use crate::number::plain;
use crate::schema::{Column, TableKind};
use crate::workbook::cells::row::{Look, Row, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::own_columns::OwnCells;
use crate::workbook::layout::{TableLayout, rows_of};
use crate::workbook::sheets::{menu, table};

/// The rows of a table of inputs, with what little is computed beside them.
pub fn rows(context: &Context<'_>, table: &TableLayout, out: &mut RowSink<'_>) {
    out(table::header(table));
    for (index, input) in rows_of(context.kitchen, table.kind).into_iter().enumerate() {
        let mut own = OwnCells::of(table);
        match table.kind {
            TableKind::Measures => measure(context, index, &mut own),
            TableKind::Menu => menu::row(context, table, index, &mut own),
            TableKind::RecipeLines => own.say("Source", NOT_READ),
            TableKind::Stock => stock(context, index, &mut own),
            TableKind::Counts => count(context, index, &mut own),
            TableKind::SupplierLayouts => layout(context, index, &mut own),
            TableKind::Suppliers => supplier(context, index, &mut own),
            _ => {}
        }
        let room = |column| room(context, table.kind, index, column);
        let row: Row = table::row(table.row(index), table::inputs(context, table, input, &room), own);
        out(row);
    }
    if table.kind == TableKind::Menu {
        menu::on_their_cards(context, table, out);
    }
}

/// The blank cells of a row that count once they are filled, or that no figure here stands on.
fn room(context: &Context<'_>, kind: TableKind, index: usize, column: Column) -> Option<Look> {
    match kind {
        TableKind::Menu if index < context.kitchen.entries.menu.len() => menu::room(context, index, column),
        TableKind::Control if column.holds_money() => Some(context.money()),
        _ => None,
    }
}

/// What is said of a row that could not be read. Said in every such row, it also keeps a name that stands alone from being
/// taken for a heading when the sheet is read again.
const NOT_READ: &str = "not read";

fn stock(context: &Context<'_>, index: usize, own: &mut OwnCells<'_>) {
    let row = context.kitchen.entries.stock.get(index);
    match row.map(|row| (&row.on_hand, &row.on_order)) {
        Some((Field::Given(on_hand), _)) => own.say("On hand read as", on_hand.to_string()),
        Some((Field::Blank, Field::Given(_))) => own.say("On hand read as", "nothing"),
        _ => own.say("On hand read as", NOT_READ),
    }
}

fn count(context: &Context<'_>, index: usize, own: &mut OwnCells<'_>) {
    let row = context.kitchen.entries.counts.get(index);
    match row.and_then(|row| Some((row.opening.given()?, row.closing.given()?))) {
        Some((opening, closing)) => own.say("Counts read as", format!("{opening}, then {closing}")),
        None => own.say("Counts read as", NOT_READ),
    }
}

fn layout(context: &Context<'_>, index: usize, own: &mut OwnCells<'_>) {
    let row = context.kitchen.entries.layouts.get(index);
    let column = row.and_then(|row| row.column.given());
    own.say("Column read as", column.map_or(NOT_READ, |column| TableKind::Prices.header(*column)));
}

fn supplier(context: &Context<'_>, index: usize, own: &mut OwnCells<'_>) {
    let row = context.kitchen.entries.suppliers.get(index);
    let said = match row.map(|row| &row.minimum) {
        Some(Field::Given(minimum)) => plain(*minimum),
        Some(Field::Blank) => "none".to_owned(),
        _ => NOT_READ.to_owned(),
    };
    own.say("Minimum read as", said);
}

fn measure(context: &Context<'_>, index: usize, own: &mut OwnCells<'_>) {
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

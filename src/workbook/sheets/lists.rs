//! Lists of many recipes: a table of facts with their totals, and their lines on as many sheets as they need.

use std::ops::Range;
use std::sync::Arc;

use crate::in_order::InOrder;
use crate::kitchen::RecipeId;
use crate::kitchen::recipe::RecipeEntry;
use crate::schema::output::LINES_IN_PLACE;
use crate::schema::{Column, TableKind};
use crate::workbook::cells::formula::{Formula, Ref, YES};
use crate::workbook::cells::row::{Cell, Content, Look, Row, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::inputs::{Inputs, input_cell};
use crate::workbook::layout::own_columns::OwnCells;
use crate::workbook::layout::own_columns::say_row;
use crate::workbook::layout::recipe as recipe_layout;
use crate::workbook::layout::recipe::{Total, name_in_lists, typed_lines};
use crate::workbook::layout::{Lists, Slot, TableLayout, column_width};
use crate::workbook::sheets::recipe::{MOVED, ShownRecipe, room};
use crate::workbook::sheets::table;

/// What is said of a recipe whose lines do not stand where they stood, or that has others.
const NO: &str = "no";

/// The same where other recipes may have more lines by it.
const OTHERS: &str = "no, others' too";

/// Those `rows` of the table of facts, by their index below its header, which stands above the first.
pub fn facts(context: &Context<'_>, lists: &Lists, rows: Range<usize>, out: &mut RowSink<'_>) {
    let facts = &lists.facts;
    if rows.start == 0 {
        let mut header = table::header(facts);
        let at = facts.column(Slot::Own(Total::Uncosted.label()));
        if let Some(over) = header.cells.iter_mut().find(|cell| Some(cell.column) == at) {
            over.content = Content::Formula(over_uncosted(context, lists));
        }
        out(header);
    }
    let listed = context.layout.recipes.iter().enumerate().filter(|(_, recipe)| !recipe.is_card());
    for (index, _) in listed.take(rows.end).skip(rows.start) {
        let Some(shown) = ShownRecipe::of(context, RecipeId::new(index)) else { continue };
        let mut own = OwnCells::of(facts);
        for total in shown.totals() {
            own.put(total.total.label(), total.content, total.ink, total.look);
        }
        if let Some(formula) = in_place(context, lists, &shown) {
            own.figure(LINES_IN_PLACE, formula, Look::Words);
        }
        own.say("Figured in", shown.unit_made().unwrap_or_default());
        for (label, text) in shown.words() {
            own.say(label, text);
        }
        let mut cells = table::inputs(context, facts, &shown.entry.input, &room);
        name(context, facts, shown.entry, &mut cells);
        out(table::row(shown.layout.home().row, cells, own));
    }
}

/// Whether the lines of a recipe stand where they stood, and no other, and so does what its row of facts says: it looks at
/// names and places alone, for costs hang on it.
fn in_place(context: &Context<'_>, lists: &Lists, shown: &ShownRecipe<'_>) -> Option<Formula> {
    let last = lists.last_row(&context.layout.recipes, shown.layout.sheet())?;
    let (named, rows) = shown.layout.rows_of_its_name(shown.entry, last)?;
    let mut other = vec![format!("{named}<>{rows}")];
    other.extend(shown.layout.facts_elsewhere(shown.entry));
    let end_of_facts = lists.facts.row(lists.facts.rows);
    let others = shown.layout.others_within(shown.entry, end_of_facts)?;
    let why = format!("IF({others},\"{OTHERS}\",\"{NO}\")");
    Some(Formula::text(format!("IFERROR(IF(OR({}),{why},\"{YES}\"),\"{NO}\")", other.join(",")), YES))
}

/// The header over the lines that are not costed, which says so when lines were added that no recipe finds beside its own.
fn over_uncosted(context: &Context<'_>, lists: &Lists) -> Formula {
    let recipes = &context.layout.recipes;
    let counted = lists.sheets.iter().filter_map(|(table, _)| {
        let column = table.column(Slot::Input(Column::Item))?;
        let cell = |row| Ref::new(Arc::clone(&table.sheet), row, column);
        let last = recipe_layout::below(lists.last_row(recipes, &table.sheet)?);
        Some(format!("COUNTA({}:{})", cell(0).from(&lists.facts.sheet), cell(last).absolute()))
    });
    let counted: Vec<String> = counted.collect();
    let listed = context.kitchen.entries.recipes.iter().zip(recipes).filter(|(_, recipe)| !recipe.is_card());
    let lines = listed.flat_map(|(entry, _)| typed_lines(entry));
    let lines = lines.filter(|line| !line.typed(Column::Item).is_blank()).count();
    let in_place = |index: usize| lists.facts.own(index, LINES_IN_PLACE).cell();
    let told = format!("{}:{}", in_place(0), in_place(lists.facts.rows));
    let known = lines.saturating_add(counted.len());
    let mut other = vec![
        format!("{}-{known}>COUNTIF({told},\"{NO}\")", counted.join("+")),
        format!("COUNTIF({told},\"{OTHERS}\")>0"),
    ];
    other.extend(lists.sheets.iter().flat_map(|(table, _)| renamed(table, &lists.facts.sheet)));
    let text = format!("IF(OR({}),\"{MOVED}\",\"{}\")", other.join(","), Total::Uncosted.label());
    Formula::text(text, Total::Uncosted.label())
}

/// That a header over what was typed says another word.
fn renamed(table: &TableLayout, sheet: &str) -> Vec<String> {
    let slots = table.slots.iter().zip(0_u16..);
    let other = slots.filter_map(|(slot, at)| match slot {
        Slot::Input(column) => {
            let over = Ref::new(Arc::clone(&table.sheet), 0, at).from(sheet);
            Some(format!("{over}<>\"{}\"", table.kind.header(*column)))
        }
        Slot::Own(_) => None,
    });
    other.collect()
}

/// The rows of a sheet of lines below its header: those of the recipes in `recipes`.
pub fn lines(context: &Context<'_>, sheet: &TableLayout, recipes: Range<usize>, out: &mut RowSink<'_>) {
    for index in recipes {
        let shown = ShownRecipe::of(context, RecipeId::new(index)).filter(|shown| !shown.layout.is_card());
        let Some(shown) = shown else { continue };
        for (at, typed) in typed_lines(shown.entry).enumerate() {
            let mut cells = table::inputs(context, sheet, typed, &room);
            name(context, sheet, shown.entry, &mut cells);
            shown.line(at, &mut cells);
            cells.put_in_order_by_key(|cell| cell.column);
            out(Row { row: shown.layout.line_row(at), cells });
        }
    }
}

/// Those `rows` of the table of facts as typed, likewise.
pub fn typed_facts(inputs: &Inputs<'_>, lists: &Lists, rows: Range<usize>, out: &mut RowSink<'_>) {
    let facts = &lists.facts;
    if rows.start == 0 {
        out(table::header(facts));
    }
    let all = inputs.kitchen.entries.recipes.iter().enumerate();
    for (index, entry) in all.take(rows.end).skip(rows.start) {
        let mut own = OwnCells::of(facts);
        say_row(TableKind::RecipeFacts, &entry.input, Some(&name_in_lists(entry)), &mut own);
        let mut cells = table::inputs(inputs, facts, &entry.input, table::ANYWHERE);
        name(inputs, facts, entry, &mut cells);
        out(table::row(facts.row(index), cells, own));
    }
}

/// The rows of a sheet of lines as typed, below its header: those of the recipes in `recipes`.
pub fn typed_lines_of(inputs: &Inputs<'_>, sheet: &TableLayout, recipes: Range<usize>, out: &mut RowSink<'_>) {
    let all = inputs.kitchen.entries.recipes.iter().zip(&inputs.layout.recipes);
    for (entry, layout) in all.skip(recipes.start).take(recipes.len()) {
        let named = name_in_lists(entry);
        for (at, typed) in typed_lines(entry).enumerate() {
            let mut own = OwnCells::of(sheet);
            say_row(TableKind::RecipeLines, typed, Some(&named), &mut own);
            let mut cells = table::inputs(inputs, sheet, typed, table::ANYWHERE);
            name(inputs, sheet, entry, &mut cells);
            out(table::row(layout.line_row(at), cells, own));
        }
    }
}

/// The recipe's name, where the row was read from a card or is a line of one.
fn name(inputs: &Inputs<'_>, table: &TableLayout, entry: &RecipeEntry, cells: &mut Vec<Cell>) {
    let Some(at) = table.column(Slot::Input(Column::Recipe)) else { return };
    if cells.iter().any(|cell| cell.column == at && cell.content != Content::Blank) {
        return;
    }
    cells.retain(|cell| cell.column != at);
    let named = input_cell(inputs, table.kind, Column::Recipe, at, &name_in_lists(entry));
    cells.splice(..0, named.map(|cell| column_width::fitted(cell, table.shapes.get(usize::from(at)))));
}

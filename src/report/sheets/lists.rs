//! Many recipes in lists: a table of facts with their totals, and their lines on as many sheets as they need.

use crate::kitchen::RecipeId;
use crate::report::context::{Context, input_cell};
use crate::report::layout::{Lists, Slot, TableLayout};
use crate::report::recipe_layout::typed_lines;
use crate::report::row::{Cell, Content, Ink, Look, Row, Rows};
use crate::report::sheets::recipe::Shown;
use crate::report::sheets::table::{self, Own};
use crate::schema::{Column, TableKind};

/// The rows of the table of facts.
pub fn facts(context: &Context<'_>, lists: &Lists, out: &mut Rows<'_>) {
    let facts = &lists.facts;
    out(table::header(facts));
    for index in 0..context.kitchen.recipes.len() {
        let Some(shown) = Shown::of(context, RecipeId::new(index)) else { continue };
        let mut own = Own::of(facts);
        for total in shown.totals() {
            own.put(total.total.label(), total.content, total.ink, total.look);
        }
        own.say("Figured in", shown.unit_made().unwrap_or_default());
        for (label, text) in shown.words() {
            own.say(label, text);
        }
        let mut cells = table::inputs(context, facts, &shown.entry.input);
        name(context, facts, TableKind::RecipeFacts, &shown, &mut cells);
        out(table::row(facts.row(index), cells, own));
    }
}

/// The rows of a sheet of lines: those of the recipes in `recipes`.
pub fn lines(context: &Context<'_>, sheet: &TableLayout, recipes: std::ops::Range<usize>, out: &mut Rows<'_>) {
    out(table::header(sheet));
    for index in recipes {
        let Some(shown) = Shown::of(context, RecipeId::new(index)) else { continue };
        for (at, typed) in typed_lines(shown.entry).enumerate() {
            let mut cells = table::inputs(context, sheet, typed);
            name(context, sheet, TableKind::RecipeLines, &shown, &mut cells);
            cells.extend(shown.line(at));
            cells.sort_by_key(|cell| cell.column);
            out(Row { row: shown.layout.line_row(at), cells });
        }
    }
}

/// The recipe's name, where the row was read from a card or is a line of one.
fn name(context: &Context<'_>, table: &TableLayout, kind: TableKind, shown: &Shown<'_>, cells: &mut Vec<Cell>) {
    let Some(at) = table.column(Slot::Input(Column::Recipe)) else { return };
    if cells.iter().any(|cell| cell.column == at && cell.content != Content::Blank) {
        return;
    }
    cells.retain(|cell| cell.column != at);
    let typed = shown.entry.input.typed(Column::Recipe);
    let content = Content::Text(shown.entry.name.clone());
    let spelled = Cell { column: at, content, ink: Ink::Input, look: Look::General };
    cells.insert(0, input_cell(context, kind, Column::Recipe, at, typed).unwrap_or(spelled));
}

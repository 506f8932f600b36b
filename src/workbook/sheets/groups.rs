//! Groups of rows that belong together on paper: the rows of a yield test, the lines of a recipe.

use crate::in_order::InOrder;
use crate::schema::TableKind;
use crate::workbook::context::Context;
use crate::workbook::layout::TableLayout;

/// The first rows of the groups of a table, from the top down; none where its rows stand each for itself.
pub fn of(context: &Context<'_>, table: &TableLayout) -> Vec<u32> {
    let mut first: Vec<u32> = match table.kind {
        TableKind::YieldTests => {
            let of_test = context.kitchen.tests.iter().filter_map(|test| test.runs.first());
            of_test.map(|run| table.row(run.row)).collect()
        }
        TableKind::RecipeLines => {
            let sheets = context.layout.lists.iter().flat_map(|lists| &lists.sheets);
            let recipes =
                sheets.filter(|(sheet, _)| sheet.sheet == table.sheet).flat_map(|(_, recipes)| recipes.clone());
            let layouts = recipes.filter_map(|index| context.layout.recipes.get(index));
            layouts.filter(|layout| layout.lines > 0 && !layout.is_card()).map(|layout| layout.line_row(0)).collect()
        }
        _ => Vec::new(),
    };
    first.put_in_order();
    first.dedup();
    first
}

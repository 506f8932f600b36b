//! What the weights on Trim are drawn from, besides plan and stock: recipes, their lines and totals, and the yield tests.
//! Each as what holds as long as it figures to what it figured to.

use std::collections::BTreeSet;

use crate::analysis::Trim;
use crate::costing::{LineCost, RecipeCost};
use crate::kitchen::plan::Served;
use crate::kitchen::recipe::{IngredientSource, Line};
use crate::kitchen::yield_test::{Role, Test};
use crate::kitchen::{PartId, RecipeId, TestId};
use crate::number::{Decimal, plain};
use crate::problem::place::column_letters;
use crate::results::figures::sum_and_squares;
use crate::results::line::LineFigures;
use crate::results::recipe::BatchFigures;
use crate::schema::{Column, Label, TableKind, Typed, Value};
use crate::workbook::cells::formula::{Ref, literal, quoted};
use crate::workbook::context::Context;
use crate::workbook::layout::recipe::{RecipeLayout, Total};
use crate::workbook::layout::{Slot, rows_of, sheet_names};
use crate::workbook::sheets::unchanged_rows::{MOST_ROWS, said_as_often};

use super::planned::WeightGroup;

/// Everything that what is served draws on: each recipe on a card, the lists as one, the yield tests as one.
pub(super) fn groups(context: &Context<'_>, trim: &Trim) -> Vec<WeightGroup> {
    let served = served(context, trim);
    let reached = reached(context, &served);
    let mut groups = Vec::new();
    for id in &reached {
        let on_card = context.layout.recipes.get(id.index()).is_some_and(RecipeLayout::is_card);
        let (Some(recipe), Some(cost), true) = (context.kitchen.recipe(*id), context.costing.recipe(*id), on_card)
        else {
            continue;
        };
        groups.push(WeightGroup { named: recipe.name.clone(), holds: of_card(context, *id, cost) });
    }
    let menu = of_menu(context, &served, &reached);
    if !menu.is_empty() {
        groups.push(WeightGroup { named: "What the menu serves".to_owned(), holds: menu });
    }
    if context.layout.lists.is_some() {
        groups.push(WeightGroup { named: "All recipes in lists, by their sums".to_owned(), holds: of_lists(context) });
    }
    let tests = context.kitchen.test_ids().filter_map(|id| Some((id, context.kitchen.test(id)?)));
    let of_tests: Vec<String> = tests.flat_map(|(id, test)| of_test(context, id, test)).collect();
    if !of_tests.is_empty() {
        groups.push(WeightGroup { named: "Yield tests".to_owned(), holds: of_tests });
    }
    groups
}

/// What is planned; without a plan, all that is told of what using trim is worth.
fn served(context: &Context<'_>, trim: &Trim) -> Vec<Served> {
    let planned: Vec<Served> = context.kitchen.plan.rows.iter().map(|row| row.served).collect();
    let all = || trim.worth.iter().flat_map(|worth| worth.dishes.iter().map(|dish| dish.served)).collect();
    if planned.is_empty() { all() } else { planned }
}

/// The recipes of what is served, and those within them, through tests as well.
fn reached(context: &Context<'_>, served: &[Served]) -> BTreeSet<RecipeId> {
    let kitchen = context.kitchen;
    let recipe = |served: Served| match served {
        Served::Dish(index) => kitchen.dishes.get(index)?.recipe,
        Served::Recipe(id) => Some(id),
    };
    let mut next: Vec<RecipeId> = served.iter().copied().filter_map(recipe).collect();
    let within_test = |test: &Test| {
        let added = test.added.iter().filter_map(|added| added.source);
        let inputs: Vec<IngredientSource> = std::iter::once(test.input).chain(added).collect();
        inputs
    };
    for test in kitchen.test_ids().filter_map(|id| kitchen.test(id)) {
        next.extend(within_test(test).into_iter().filter_map(made));
    }
    let mut reached = BTreeSet::new();
    while let Some(id) = next.pop() {
        if reached.insert(id) {
            let lines = kitchen.recipe(id).into_iter().flat_map(|recipe| &recipe.lines);
            next.extend(lines.filter_map(|line| made(line.source)));
        }
    }
    reached
}

fn made(source: IngredientSource) -> Option<RecipeId> {
    if let IngredientSource::Made(id) = source { Some(id) } else { None }
}

/// What holds of a recipe on a card: what its lines come to, how much of them is used, what it makes, and how many lines
/// have no cost.
fn of_card(context: &Context<'_>, id: RecipeId, cost: &RecipeCost) -> Vec<String> {
    let (Some(recipe), Some(layout)) = (context.kitchen.recipe(id), context.layout.recipes.get(id.index())) else {
        return Vec::new();
    };
    let Some(entry) = context.kitchen.entries.recipes.get(recipe.entry) else { return Vec::new() };
    let mut holds = Vec::new();
    for (index, (line, of_line)) in recipe.lines.iter().zip(&cost.lines).enumerate() {
        let LineCost::Costed { trace, .. } = of_line else { continue };
        let figures = LineFigures::of(line, trace);
        holds.extend(figures.base_qty.map(|amount| figures_to(&layout.own(index, "Qty in g, ml, each"), amount)));
        if trace.is_rate_yielded() {
            holds.push(figures_to(&layout.own(index, "Yield used"), trace.trim_yield));
        }
        // A yield of its own that is typed yet divides what is drawn.
        let said = [Column::Used, Column::Yield].into_iter().filter_map(|column| {
            let typed = entry.lines.get(index)?.input.typed(column);
            says(&layout.input(index, column)?, typed)
        });
        holds.extend(said);
    }
    let uncosted = Decimal::from(cost.uncosted_lines());
    holds.push(format!("{}={}", layout.total(Total::Uncosted).from(sheet_names::TRIM), plain(uncosted)));
    let loss = entry.input.typed(Column::ServingLoss);
    holds.extend(layout.label(Label::ServingLoss).and_then(|cell| says(&cell, loss)));
    holds.extend(cost.makes.as_ref().map(|(_, makes)| figures_to(&layout.total(Total::Makes), *makes)));
    let portions = BatchFigures::of(cost).portions;
    holds.extend(portions.map(|portions| figures_to(&layout.total(Total::Portions), portions)));
    holds
}

/// What holds of the menu's rows of what is served, and of the dishes that lines name: how much of a recipe each is, and of
/// which; where there are very many, how often each portion is served.
fn of_menu(context: &Context<'_>, served: &[Served], reached: &BTreeSet<RecipeId>) -> Vec<String> {
    let kitchen = context.kitchen;
    let dishes = served.iter().filter_map(|one| match one {
        Served::Dish(index) => kitchen.dishes.get(*index),
        Served::Recipe(_) => None,
    });
    let lines = reached.iter().filter_map(|id| kitchen.recipe(*id)).flat_map(|recipe| &recipe.lines);
    let courses = lines.filter_map(|line| kitchen.dish(line.dish?));
    let rows: BTreeSet<usize> = dishes.chain(courses).filter_map(|dish| dish.row).collect();
    if let Some(table) = context.layout.table(TableKind::Menu).filter(|_| rows.len() > MOST_ROWS) {
        return said_as_often(table, &rows_of(kitchen, TableKind::Menu), Column::Portion);
    }
    let columns = [Column::Dish, Column::Recipe, Column::Portion];
    let cells = rows.into_iter().flat_map(|row| columns.map(|column| (row, column)));
    let said = cells.filter_map(|(row, column)| {
        let typed = kitchen.entries.menu.get(row)?.input.typed(column);
        says(&context.input(TableKind::Menu, row, column)?, typed)
    });
    said.collect()
}

/// What holds of all recipes in lists: sums, and sums of squares.
fn of_lists(context: &Context<'_>) -> Vec<String> {
    let Some(lists) = &context.layout.lists else { return Vec::new() };
    let mut holds = Vec::new();
    for (table, those) in &lists.sheets {
        let Some(last) = lists.last_row(&context.layout.recipes, &table.sheet) else { continue };
        let ids = || those.clone().map(RecipeId::new).filter(|id| is_listed(context, *id));
        let lines = || ids().flat_map(|id| lines_of(context, id));
        let range = |slot: Slot| Some(range(&table.sheet, table.column(slot)?, last));
        let amounts = lines().filter_map(|line| line.amount);
        holds.extend(sums(range(Slot::Own("Qty in g, ml, each")), amounts));
        holds.extend(sums(range(Slot::Input(Column::Used)), lines().filter_map(|line| line.used)));
        holds.extend(sums(range(Slot::Own("Yield used")), lines().filter_map(|line| line.trim_yield)));
    }
    let facts = &lists.facts;
    let last = facts.row(facts.rows.saturating_sub(1));
    let costs = || {
        let ids = (0..context.kitchen.recipes.len()).map(RecipeId::new).filter(|id| is_listed(context, *id));
        ids.filter_map(|id| context.costing.recipe(id))
    };
    let range = |header: &'static str| Some(range(&facts.sheet, facts.column(Slot::Own(header))?, last));
    holds.extend(sums(range("Portions used"), costs().filter_map(|cost| BatchFigures::of(cost).portions)));
    let makes = costs().filter_map(|cost| cost.makes.as_ref().map(|(_, makes)| *makes));
    holds.extend(sums(range("Makes in g, ml, each"), makes));
    holds
}

fn is_listed(context: &Context<'_>, id: RecipeId) -> bool {
    context.layout.recipes.get(id.index()).is_some_and(|layout| !layout.is_card())
}

/// What counts of a line in a list.
struct OfLine {
    amount: Option<Decimal>,
    used: Option<Decimal>,
    trim_yield: Option<Decimal>,
}

fn lines_of(context: &Context<'_>, id: RecipeId) -> Vec<OfLine> {
    let recipe = context.kitchen.recipe(id);
    let entry = recipe.and_then(|recipe| context.kitchen.entries.recipes.get(recipe.entry));
    let cost = context.costing.recipe(id);
    let lines = recipe.into_iter().flat_map(|recipe| recipe.lines.iter().enumerate());
    let of_line = |(index, line): (usize, &Line)| {
        let typed = entry.and_then(|entry| entry.lines.get(index)).map(|line| &line.input.typed(Column::Used).value);
        let used = if let Some(Value::Number(used)) = typed { Some(*used) } else { None };
        let Some(LineCost::Costed { trace, .. }) = cost.and_then(|cost| cost.lines.get(index)) else {
            return OfLine { amount: None, used, trim_yield: None };
        };
        let figures = LineFigures::of(line, trace);
        let is_told = figures.trim_yield.is_some();
        OfLine { amount: figures.base_qty, used, trim_yield: is_told.then_some(trace.trim_yield) }
    };
    lines.map(of_line).collect()
}

/// What holds of a test: what each part is of its weight, and what was added; how long trim keeps, and what of it is eaten.
fn of_test(context: &Context<'_>, id: TestId, test: &Test) -> Vec<String> {
    let Some(cost) = context.costing.test(id) else { return Vec::new() };
    let Some(head) = test.runs.first().map(|run| run.row) else { return Vec::new() };
    let own = |row, header| context.own(TableKind::YieldTests, row, header);
    let mut holds = Vec::new();
    for (index, part) in test.parts.iter().enumerate().filter(|(_, part)| part.role != Role::Waste) {
        let fraction = cost.parts.get(index).map(|part| part.fraction);
        let cell = context.part_cell(PartId::new(id, index), "Share of weight");
        holds.extend(cell.zip(fraction).map(|(cell, fraction)| figures_to(&cell, fraction)));
        for row in &part.rows {
            let Some(typed) = context.kitchen.entries.tests.get(*row) else { continue };
            for column in [Column::Keeps, Column::Eaten] {
                let typed = typed.input.typed(column);
                let cell = context.input(TableKind::YieldTests, *row, column);
                holds.extend(cell.and_then(|cell| says(&cell, typed)));
                let elsewhere = || context.elsewhere(TableKind::YieldTests, *row, column, sheet_names::TRIM);
                let stands = if typed.is_blank() { None } else { elsewhere() };
                holds.extend(stands.map(|elsewhere| format!("NOT({elsewhere})")));
            }
        }
    }
    if !test.added.is_empty() {
        holds.extend(own(head, "Weight pooled").map(|cell| figures_to(&cell, cost.grams)));
        let added =
            test.added.iter().filter_map(|added| Some(figures_to(&own(added.row, "Weight in grams")?, added.grams)));
        holds.extend(added);
    }
    holds
}

/// A column from below its header to the row `last`.
fn range(sheet: &str, column: u16, last: u32) -> String {
    let letters = column_letters(u32::from(column));
    format!("{}!${letters}$2:${letters}${}", quoted(sheet), u64::from(last).saturating_add(1))
}

/// That a cell comes to what it came to.
fn figures_to(cell: &Ref, was: Decimal) -> String {
    is_what_it_was(&cell.from(sheet_names::TRIM), was)
}

/// That something comes to what it came to, but for what a spreadsheet program rounds.
fn is_what_it_was(text: &str, was: Decimal) -> String {
    if was.is_zero() { format!("{text}=0") } else { format!("ROUND({text}/{},9)=1", plain(was)) }
}

/// That a cell says what was typed into it.
fn says(cell: &Ref, typed: &Typed) -> Option<String> {
    let was = match &typed.value {
        Value::Number(number) => plain(*number),
        Value::Text(text) => literal(text)?,
        _ if typed.is_blank() => "\"\"".to_owned(),
        _ => return None,
    };
    Some(format!("{}={was}", cell.from(sheet_names::TRIM)))
}

/// That the numbers of a range add up to what they did, and their squares.
fn sums(range: Option<String>, numbers: impl Iterator<Item = Decimal>) -> Vec<String> {
    let (Some(range), Some((sum, squares))) = (range, sum_and_squares(numbers)) else { return Vec::new() };
    vec![is_what_it_was(&format!("SUM({range})"), sum), is_what_it_was(&format!("SUMSQ({range})"), squares)]
}

//! Working, the sheet How it was figured: what every dish adds up to, live; then for every line the measure, yield and
//! price it was costed with, and where each stands in this workbook. Of recipes that stand in lists the lines are left to
//! those.

use crate::costing::conversion::convert::Crossing;
use crate::costing::price::bought::PriceFrom;
use crate::costing::trace::CostedAs;
use crate::costing::{DishCost, LineCost, LineTrace, MeasureFrom, YieldFrom};
use crate::food::{Food, FoodMeasure};
use crate::kitchen::recipe::{IngredientSource, Line, Recipe};
use crate::kitchen::{ItemId, RecipeId};
use crate::number::{Decimal, plain};
use crate::results::dish;
use crate::results::display_units::base_unit;
use crate::results::figures::{at_most, percent_at_most};
use crate::results::line::LineFigures;
use crate::results::target_status::TargetStatus;
use crate::schema::{Column, TableKind, own_sheets};
use crate::workbook::cells::formula::{Formula, while_there};
use crate::workbook::cells::row::{Cell, Frame, Ink, Look, PrintedPage, Row, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::Lists;
use crate::workbook::layout::recipe::Total;
use crate::workbook::layout::sheet_names;
use crate::workbook::layout::working_columns::{self, WorkingColumn};
use crate::workbook::sheets::dish_formulas::DishFormulas;
use crate::workbook::sheets::prices::price_from;

const LINE_HEADERS: [&str; 8] = own_sheets::WORKING_LINES;

/// The frame of the sheet.
pub fn frame(context: &Context<'_>) -> Frame {
    let heading = context.layout.lists.is_none().then(|| heading(context));
    let frame = Frame::new(sheet_names::WORKING, vec![28, 24, 12, 12, 18, 22, 22, 11]);
    Frame { page: PrintedPage { heading, ..frame.page }, ..frame }
}

/// The row of the headers of lines: a blank one stands above it.
fn heading(context: &Context<'_>) -> u32 {
    WorkingColumn::Dish.cell(context.kitchen.dishes.len()).row.saturating_add(1)
}

/// Its rows.
pub fn rows(context: &Context<'_>, out: &mut RowSink<'_>) {
    out(Row { row: 0, cells: vec![Cell::text(0, context.mark, Ink::Aside), Cell::back(6)] });
    out(header(working_columns::HEADER_ROW, &working_columns::HEADERS, &["Recipe"]));
    for (index, (dish, cost)) in context.kitchen.dishes.iter().zip(&context.costing.dishes).enumerate() {
        let recipe = dish.recipe.and_then(|id| context.kitchen.recipe(id));
        let mut cells = vec![Cell::text(WorkingColumn::Dish.column(), &dish.name, Ink::Reading)];
        cells.extend(
            dish.recipe
                .zip(recipe)
                .map(|(id, recipe)| named(context, id, WorkingColumn::Recipe.column(), &recipe.name)),
        );
        cells.extend(cost.as_ref().map(|cost| figures(context, index, cost)).unwrap_or_default());
        out(Row { row: WorkingColumn::Dish.cell(index).row, cells });
    }
    let mut row = heading(context);
    if let Some(lists) = &context.layout.lists {
        out(Row { row, cells: vec![Cell::text(0, told_beside(lists), Ink::Plain)] });
        return;
    }
    out(header(row, &LINE_HEADERS, &["Ingredient", "Measure", "Yield", "Price"]));
    for (index, recipe) in context.kitchen.recipes.iter().enumerate() {
        let id = RecipeId::new(index);
        let Some(cost) = context.costing.recipe(id) else {
            row = row.saturating_add(1);
            let stopped = Cell::text(1, TargetStatus::NotCosted.words(), Ink::Reading);
            out(Row { row, cells: vec![named(context, id, 0, &recipe.name), stopped] });
            continue;
        };
        for (at, line) in cost.lines.iter().enumerate() {
            row = row.saturating_add(1);
            out(Row { row, cells: line_cells(context, id, recipe, at, line) });
        }
    }
}

/// A recipe's name, leading to where it stands.
fn named(context: &Context<'_>, id: RecipeId, column: u16, name: &str) -> Cell {
    match context.layout.recipes.get(id.index()) {
        Some(layout) => Cell::link(column, name, &layout.home(), Ink::Reading),
        None => Cell::text(column, name, Ink::Reading),
    }
}

/// Where the working of many recipes stands: beside their lines, and not here once more.
fn told_beside(lists: &Lists) -> String {
    let sheets: Vec<&str> = lists.sheets.iter().map(|(sheet, _)| &*sheet.sheet).collect();
    let those = if sheets.len() == 1 { "the sheet" } else { "the sheets" };
    format!(
        "Each line's quantity in g, ml or each, its yield, its price and its cost stand beside it on {those} {}: the \
         formulas there lead to the rows that they come from.",
        sheets.join(", ")
    )
}

fn header(row: u32, headers: &[&str], words: &[&str]) -> Row {
    let cells = headers.iter().zip(0_u16..).map(|(header, at)| Cell::over(at, header, words.contains(header)));
    Row { row, cells: cells.collect() }
}

/// What a dish adds up to, each figure from those beside it.
fn figures(context: &Context<'_>, index: usize, cost: &DishCost) -> Vec<Cell> {
    use WorkingColumn as C;
    let row = C::Dish.cell(index).row;
    let Some(formulas) = DishFormulas::of(context, index, (sheet_names::WORKING, row)) else { return Vec::new() };
    let at = |column: C| column.cell(index).cell();
    let money = || context.money();
    let figure = |column: C, text: String, result: Decimal, look: Look| {
        Cell::figure(column.column(), Formula::number(text, result), look)
    };
    let reading = |column: C, number: Decimal, look: Look| Cell::number(column.column(), number, Ink::Reading, look);
    let share = dish::share(cost.plate()).unwrap_or_default();
    let mut cells = vec![figure(C::Share, formulas.share(), share, Look::Percent(3))];
    cells.push(figure(C::Food, formulas.food(&at(C::Share)), cost.food, money()));
    cells.push(match formulas.q(&at(C::Food)) {
        Some(text) => figure(C::Q, text, cost.q, money()),
        None => reading(C::Q, Decimal::ZERO, money()),
    });
    cells.push(match formulas.spice(&at(C::Food), &at(C::Q)) {
        Some(text) => figure(C::Spice, text, cost.spice, money()),
        None => reading(C::Spice, Decimal::ZERO, money()),
    });
    let all = format!("{}+{}+{}", at(C::Food), at(C::Q), at(C::Spice));
    cells.push(figure(C::PortionCost, all, cost.portion_cost, money()));
    if let (Some(ex_tax), Some(price)) = (cost.ex_tax, formulas.menu_price()) {
        cells.push(figure(C::ExTax, formulas.ex_tax(&price), ex_tax, money()));
    }
    cells
}

fn line_cells(context: &Context<'_>, id: RecipeId, recipe: &Recipe, at: usize, line: &LineCost) -> Vec<Cell> {
    let Some(whole) = context.kitchen.entries.recipes.get(recipe.entry) else { return Vec::new() };
    let Some(entry) = whole.lines.get(at) else { return Vec::new() };
    let quantity = format!("{} {}", entry.input.text(Column::Qty), entry.input.text(Column::Unit));
    // The first line of each leads to its card: every line would be hard to read.
    let first = if at == 0 { named(context, id, 0, &recipe.name) } else { Cell::text(0, &recipe.name, Ink::Reading) };
    let mut cells = vec![first, Cell::text(1, &entry.item, Ink::Reading), Cell::text(2, quantity.trim(), Ink::Reading)];
    let LineCost::Costed { cost, trace } = line else {
        cells.push(Cell::text(3, "not costed", Ink::Reading));
        return cells;
    };
    let Some(typed) = recipe.lines.get(at) else { return cells };
    let amount = LineFigures::of(typed, trace).base_qty.map(|amount| at_most(amount, 4)).unwrap_or_default();
    cells.push(Cell::text(3, format!("{amount} {}", base_unit(&trace.kind)), Ink::Reading));
    let words = LineWords { context, line: typed, trace };
    for (column, text) in [(4, words.measure()), (5, words.trim_yield()), (6, words.price())] {
        if !text.is_empty() {
            cells.push(Cell::text(column, text, Ink::Reading));
        }
    }
    if let Some(card) = context.layout.recipes.get(id.index()) {
        let from = card.own(at, "Line cost").from(sheet_names::WORKING);
        let text = while_there(&card.said(at, whole), sheet_names::WORKING, &from);
        cells.push(Cell::figure(7, Formula::number(text, *cost), context.money()));
    }
    cells
}

/// A measure of a built-in food with where it stands: `1 cup, chopped = 160 g (SR28 11282)`.
fn borrowed(measure: FoodMeasure) -> String {
    let number = measure.food().map_or("", Food::number);
    format!("{} = {} g (SR28 {number})", measure.text(), plain(measure.grams()))
}

/// A line's provenance, said in words with the cells of this workbook.
struct LineWords<'a> {
    context: &'a Context<'a>,
    line: &'a Line,
    trace: &'a LineTrace,
}

impl LineWords<'_> {
    fn measure(&self) -> String {
        let steps = self.trace.measures.iter().map(|step| match step {
            MeasureFrom::Row(row) => self.spoken(TableKind::Measures, *row, Column::Measure),
            MeasureFrom::Makes => "what the batch makes".to_owned(),
            MeasureFrom::Reference(measure) => borrowed(*measure),
            MeasureFrom::TestRow(row) => {
                format!("pieces weighed at {}", self.spoken(TableKind::YieldTests, *row, Column::Weight))
            }
            MeasureFrom::Pack(row) => format!("pack at {}", self.spoken(TableKind::Prices, *row, Column::Item)),
            MeasureFrom::Can(figure) => format!("published for a {}: {figure}", figure.can()),
        });
        let steps: Vec<String> = steps.collect();
        if steps.is_empty() { "same kind".to_owned() } else { steps.join(", then ") }
    }

    fn spoken(&self, kind: TableKind, row: usize, column: Column) -> String {
        self.context.input(kind, row, column).map(|cell| cell.spoken()).unwrap_or_default()
    }

    fn trim_yield(&self) -> String {
        let Some((left, from)) = LineFigures::of(self.line, self.trace).trim_yield else {
            return "as purchased".to_owned();
        };
        let said = self.yield_from(&percent_at_most(left, 2), from);
        // A weight as purchased that is told from the edible one.
        if self.trace.crossing == Crossing::Over {
            format!("{said}, so what a piece weighs as purchased")
        } else {
            said
        }
    }

    fn yield_from(&self, percent: &str, from: YieldFrom) -> String {
        match from {
            YieldFrom::Line => format!("{percent} %, this line's own"),
            YieldFrom::Test(part) => {
                let cell =
                    self.context.part_cell(part, "Share of weight").map(|cell| cell.spoken()).unwrap_or_default();
                format!("{percent} %, yield test at {cell}")
            }
            YieldFrom::PriceRow(row) => {
                format!("{percent} %, {}", self.spoken(TableKind::Prices, row, Column::Yield))
            }
            YieldFrom::Piece(row) => {
                let cell = self.spoken(TableKind::Measures, row, Column::Weighs);
                let holds = if self.trace.is_yielded() { "a piece's weight at" } else { "held in a piece's weight at" };
                format!("{percent} %, {holds} {cell}")
            }
            YieldFrom::Reference(food) => format!("{percent} %, {}", food.spoken()),
            YieldFrom::None => "none stated: 100 %".to_owned(),
        }
    }

    fn price(&self) -> String {
        let context = self.context;
        match self.trace.costed_as {
            CostedAs::Named(IngredientSource::Bought(id)) => self.bought(id),
            CostedAs::Named(IngredientSource::Part(part)) | CostedAs::ThroughTest(part) => {
                context.part_cell(part, "Cost per gram").map(|cell| cell.spoken()).unwrap_or_default()
            }
            CostedAs::Named(IngredientSource::Made(id)) => self.card(id, Total::UnitCost),
            CostedAs::Portions(id) => self.card(id, Total::PortionCost),
            CostedAs::Batches(id) => self.card(id, Total::Batch),
            CostedAs::Plates(id, _) => self.plate(id),
            CostedAs::Named(IngredientSource::Unknown) => String::new(),
        }
    }

    fn bought(&self, id: ItemId) -> String {
        let Some(cost) = self.context.costing.item(id) else { return String::new() };
        let since = match cost.from {
            PriceFrom::Row(row) => self.context.kitchen.entries.prices.get(row).and_then(|row| row.date.given()),
            _ => None,
        };
        let since = since.map(|date| format!(", since {date}")).unwrap_or_default();
        format!("{}{since}", price_from(self.context, cost))
    }

    /// A dish on the menu, or the card whose price makes it one, and what its recipe's batch costs.
    fn plate(&self, id: RecipeId) -> String {
        let batch = self.card(id, Total::Batch);
        let row = self.line.dish.and_then(|dish| self.context.kitchen.dish(dish)?.row);
        match row.map(|row| self.spoken(TableKind::Menu, row, Column::Dish)) {
            Some(menu) => format!("dish at {menu}, of {batch}"),
            None => batch,
        }
    }

    fn card(&self, id: RecipeId, total: Total) -> String {
        self.context.total(id, total).map(|cell| cell.spoken()).unwrap_or_default()
    }
}

//! Cards, one per recipe, as a kitchen pins it up: its labels, its lines with what each costs, its totals, the dishes
//! that are sold of it, its allergens, and room to sign.

mod typed;

use typed::TypedCard;

use crate::costing::DishCost;
use crate::in_order::InOrder;
use crate::kitchen::RecipeId;
use crate::kitchen::menu::Dish;
use crate::kitchen::recipe::{IngredientSource, RecipeEntry};
use crate::number::Decimal;
use crate::results::target_status::TargetStatus;
use crate::schema::{Column, TableKind, as_written, output};
use crate::workbook::cells::formula::{Formula, Outcome, Ref};
use crate::workbook::cells::row::{Cell, Content, Frame, Ink, Look, PrintedPage, Row, RowSink, Tab};
use crate::workbook::context::Context;
use crate::workbook::layout::dish_cells::CardRows;
use crate::workbook::layout::inputs::Inputs;
use crate::workbook::layout::last_printed;
use crate::workbook::layout::own_columns::sealed_row;
use crate::workbook::layout::recipe::{RecipeLayout, Total, typed_lines};
use crate::workbook::layout::summary_columns::SummaryColumn;
use crate::workbook::layout::working_columns::WorkingColumn;
use crate::workbook::sheets::dish_formulas::{ComparedCells, DishFormulas};
use crate::workbook::sheets::recipe::{ShownRecipe, TotalCell};

/// Where the portion of a dish stands that is sold of the recipe, and the longest name that ends before it.
const PORTION: u16 = 2;
const LONGEST_DISH: usize = 50;

/// Where it leads to what the kitchen reads.
const KITCHEN: u16 = 2;

/// What a dish adds up to.
const COSTS: [WorkingColumn; 4] =
    [WorkingColumn::Food, WorkingColumn::Q, WorkingColumn::Spice, WorkingColumn::PortionCost];

/// How it stands.
const AGAINST: [SummaryColumn; 5] = [
    SummaryColumn::MenuPrice,
    SummaryColumn::PriceAtTarget,
    SummaryColumn::FoodCost,
    SummaryColumn::Target,
    SummaryColumn::Margin,
];

/// The frame of a card.
pub fn frame(card: &RecipeLayout) -> Frame {
    let widths = card.shapes().iter().map(|shape| shape.width);
    let frame = Frame::new(card.sheet(), widths.collect()).tabbed(Tab::Card);
    // What is long goes on with a block of its own.
    let groups = vec![card.totals_row(), card.below_totals()];
    Frame {
        page: PrintedPage { upright: true, last_column: Some(last_column(card)), groups, ..frame.page },
        frozen_columns: 1,
        ..frame
    }
}

/// The last column on paper.
fn last_column(card: &RecipeLayout) -> u16 {
    last_printed(TableKind::CardLines, card.slots()).unwrap_or_default()
}

/// What is said on a card besides its figures.
#[derive(Debug, Default)]
pub struct Remarks {
    /// Why it could not be costed.
    pub stopped_by: Vec<String>,
    /// How many problems are at its cells, and where the first is listed.
    pub problems: Option<(usize, Ref)>,
    /// Where it stands as a cook reads it.
    pub kitchen_card: Option<Ref>,
}

/// The rows of a card.
pub fn rows(context: &Context<'_>, id: RecipeId, remarks: &Remarks, out: &mut RowSink<'_>) {
    let Some(shown) = ShownRecipe::of(context, id) else { return };
    let out: &mut RowSink<'_> = &mut |row| out(sealed(shown.layout, row));
    let last = last_column(shown.layout);
    let has_kitchen_card = remarks.kitchen_card.is_some();
    let typed = TypedCard { inputs: context, entry: shown.entry, layout: shown.layout, last, has_kitchen_card };
    let card = CardSheet { shown: &shown, typed, last };
    card.typed.labels(out);
    card.in_sight(remarks, out);
    card.lines(out);
    card.totals(out);
    let layout = shown.layout;
    let below = if shown.cost.is_some() { layout.below_totals() } else { layout.totals_row() };
    let row = card.on_the_menu(below, out);
    let row = card.words(row.saturating_add(1), remarks, out);
    card.to_sign(row.saturating_add(1), out);
}

/// A row with the seal of what stands in it besides what was typed: of a line in its columns of our own, of another row in
/// the cell beside its label too. Heads say nothing that anybody would change, and what is to sign is written on.
fn sealed(layout: &RecipeLayout, mut row: Row) -> Row {
    let (first, end) = (layout.line_row(0), layout.line_row(layout.lines));
    let is_line = (first..end).contains(&row.row);
    let is_head = |cell: &Cell| matches!(cell.ink, Ink::OwnHeader | Ink::Header | Ink::ToWriteOn);
    // What stands above the lines was typed, but for what the card comes to.
    if row.row.saturating_add(2) < first || row.cells.iter().any(is_head) {
        return row;
    }
    let before = (!is_line).then_some(1);
    if let Some(seal) = sealed_row(layout.slots(), &row.cells, before) {
        let text = Cell::text(layout.own_column(as_written::HEADER), seal, Ink::Reading);
        row.cells.push(Cell { look: Look::Words, ..text });
    }
    row
}

/// The rows of a card of inputs: its labels and its lines as typed.
pub fn typed_rows(inputs: &Inputs<'_>, entry: &RecipeEntry, layout: &RecipeLayout, out: &mut RowSink<'_>) {
    let typed = TypedCard { inputs, entry, layout, last: last_column(layout), has_kitchen_card: false };
    typed.labels(out);
    out(typed.header());
    for (index, row) in typed_lines(entry).enumerate() {
        let mut cells = typed.line(row);
        cells.extend(typed.row_cell(row));
        out(Row { row: layout.line_row(index), cells });
    }
}

struct CardSheet<'a> {
    shown: &'a ShownRecipe<'a>,
    typed: TypedCard<'a>,
    last: u16,
}

impl CardSheet<'_> {
    /// Above the lines, in sight when the card is opened: what it comes to, and the way back.
    fn in_sight(&self, remarks: &Remarks, out: &mut RowSink<'_>) {
        let layout = self.shown.layout;
        let totals = self.shown.totals();
        let wanted = [Total::PortionCost, Total::PerMade, Total::Batch];
        let total = wanted.into_iter().find_map(|wanted| totals.iter().find(|found| found.total == wanted));
        let only = self.shown.only_dish();
        let label = if only.is_some() { Total::PortionCost } else { total.map_or(Total::Batch, |total| total.total) };
        let mut cells = vec![Cell::text(0, label.label(), Ink::Label)];
        let figure = match (only, total) {
            (Some((at, cost)), _) => Some((at, cost, self.shown.context.money())),
            (
                None,
                Some(TotalCell {
                    total,
                    content: Content::Formula(Formula { result: Outcome::Number(result), .. }),
                    look,
                    ..
                }),
            ) => Some((layout.total(*total), *result, look.clone())),
            _ => None,
        };
        cells.push(match figure {
            Some((at, result, look)) => {
                Cell { ink: Ink::Total, ..Cell::figure(1, Formula::number(at.cell(), result), look) }
            }
            None => Cell::text(1, TargetStatus::NotCosted.words(), Ink::Reading),
        });
        let kitchen_card = remarks.kitchen_card.as_ref().filter(|_| self.last > KITCHEN.saturating_add(2));
        cells.extend(
            kitchen_card
                .map(|at| Cell { look: Look::Words, ..Cell::link(KITCHEN, output::KITCHEN_CARD, at, Ink::Reading) }),
        );
        cells.push(Cell::back(self.last.saturating_sub(1).max(2)));
        out(Row { row: layout.line_row(0).saturating_sub(2), cells });
    }

    fn lines(&self, out: &mut RowSink<'_>) {
        let (shown, typed) = (self.shown, &self.typed);
        out(typed.header());
        for (index, row) in typed_lines(shown.entry).enumerate() {
            let mut cells = typed.line(row);
            if let Some(own) = shown.layout.input(index, Column::Yield).filter(|_| !shown.follows_own_yield(index)) {
                cells.retain(|cell| cell.column != own.column || cell.content != Content::Blank);
            }
            let mut own = Vec::new();
            shown.line(index, &mut own);
            cells.extend(own.into_iter().map(|cell| typed.fitted(cell)));
            cells.put_in_order_by_key(|cell| cell.column);
            out(Row { row: shown.layout.line_row(index), cells });
        }
    }

    fn totals(&self, out: &mut RowSink<'_>) {
        let layout = self.shown.layout;
        let totals = self.shown.totals();
        let (working, totals): (Vec<_>, Vec<_>) = totals.into_iter().partition(|total| total.total.is_working());
        for total in totals {
            let at = layout.total(total.total);
            let is_dish_in_sight = total.total == Total::PortionCost && self.shown.only_dish().is_some();
            let strong = matches!(total.total, Total::Batch | Total::PortionCost) && !is_dish_in_sight;
            let label = if is_dish_in_sight { output::PORTION_OF_BATCH } else { total.total.label() };
            let mut cells = vec![
                Cell::text(0, label, if strong { Ink::Label } else { Ink::Plain }),
                Cell {
                    column: at.column,
                    content: total.content,
                    ink: if strong { Ink::Total } else { total.ink },
                    look: total.look,
                },
            ];
            if let (Total::PerMade, Some(unit)) = (total.total, self.shown.unit_told()) {
                cells.push(Cell { look: Look::Words, ..Cell::text(2, format!("per {unit}"), Ink::Reading) });
            }
            for beside in working.iter().filter(|beside| layout.total(beside.total).row == at.row) {
                // Not under Source, which tells lines from totals when the card is read again.
                let named = layout.own(0, "Unit factor").column;
                let unit = layout.own(0, "Figured in").column;
                let column = layout.total(beside.total).column;
                cells.push(Cell::text(named, beside.total.label(), Ink::Reading));
                cells.extend(self.shown.unit_made().map(|made| Cell::text(unit, made, Ink::Reading)));
                let (content, ink, look) = (beside.content.clone(), beside.ink, beside.look.clone());
                cells.push(Cell { column, content, ink, look });
            }
            out(Row { row: at.row, cells });
        }
    }

    /// The dishes that are sold of this recipe, from the row below `above` on: what each adds up to, for it may differ from
    /// the card's own cost, and how it stands against its target. Gives the row below them.
    fn on_the_menu(&self, above: u32, out: &mut RowSink<'_>) -> u32 {
        let context = self.shown.context;
        let dishes = context.kitchen.dishes.iter().zip(&context.costing.dishes).enumerate();
        let sold: Vec<(usize, &Dish, Option<&DishCost>)> = dishes
            .filter(|(_, (dish, _))| dish.recipe == Some(self.shown.id))
            .map(|(index, (dish, cost))| (index, dish, cost.as_ref()))
            .collect();
        if sold.is_empty() {
            return above;
        }
        let mut row = self.menu_head(above.saturating_add(1), "On the menu", &COSTS.map(WorkingColumn::header), out);
        for (index, dish, cost) in &sold {
            let mut cells = vec![self.sold_as(*index, dish)];
            let portion = dish.portion.as_ref().or(self.shown.recipe.portion.as_ref());
            let portion = portion.map(|portion| Cell::text(PORTION, portion.to_string(), Ink::Reading));
            cells.extend(portion.map(|cell| Cell { look: Look::Words, ..cell }));
            match cost {
                Some(cost) => {
                    cells.extend(self.costs(*index, row, cost));
                }
                None => cells.push(Cell::text(self.figures(), TargetStatus::NotCosted.words(), Ink::Reading)),
            }
            out(Row { row, cells });
            row = row.saturating_add(1);
        }
        if sold.iter().all(|(_, dish, cost)| cost.is_none() || (dish.menu_price.is_none() && dish.target.is_none())) {
            return row;
        }
        row = self.menu_head(row, "Against the target", &AGAINST.map(SummaryColumn::header), out);
        for (index, dish, cost) in &sold {
            if cost.is_none() {
                continue;
            }
            let mut cells = vec![self.sold_as(*index, dish)];
            cells.extend(self.against(*index, row));
            out(Row { row, cells });
            row = row.saturating_add(1);
        }
        row
    }

    /// What a dish adds up to, in the row `row`.
    fn costs(&self, index: usize, row: u32, cost: &DishCost) -> Vec<Cell> {
        let (context, sheet) = (self.shown.context, self.shown.layout.sheet());
        let Some(formulas) = DishFormulas::of(context, index, (sheet, row)) else { return Vec::new() };
        let [food, q, spice, all] = [0, 1, 2, 3].map(|nth| self.figures().saturating_add(nth));
        let at = |column| Ref::new(sheet, row, column).cell();
        let share = formulas.share();
        let figure = |column, text, result| Cell::figure(column, Formula::number(text, result), context.money());
        let or_nothing = |column, text: Option<String>, result| match text {
            Some(text) => figure(column, text, result),
            None => Cell::number(column, Decimal::ZERO, Ink::Reading, context.money()),
        };
        vec![
            figure(food, formulas.food(&share), cost.food),
            or_nothing(q, formulas.q(&at(food)), cost.q),
            or_nothing(spice, formulas.spice(&at(food), &at(q)), cost.spice),
            figure(all, format!("{}+{}+{}", at(food), at(q), at(spice)), cost.portion_cost),
        ]
    }

    /// How a dish stands, in the row `row`.
    fn against(&self, index: usize, row: u32) -> Vec<Cell> {
        let (context, sheet) = (self.shown.context, self.shown.layout.sheet());
        let Some(formulas) = DishFormulas::of(context, index, (sheet, row)) else { return Vec::new() };
        let Some(portion_cost) = CardRows::of(context, index).map(|rows| rows.cost(3).from(sheet)) else {
            return Vec::new();
        };
        let [price, at_target, food_cost, target, margin] =
            [0, 1, 2, 3, 4].map(|nth| self.figures().saturating_add(nth));
        let at = |column| Ref::new(sheet, row, column).cell();
        let against = formulas.against(&ComparedCells {
            portion_cost: &portion_cost,
            price: &at(price),
            target: &at(target),
            food_cost: &at(food_cost),
        });
        let figures = [
            (price, against.menu_price, context.money()),
            (at_target, against.at_target, context.money()),
            (food_cost, against.food_cost, Look::Percent(1)),
            (target, against.target, Look::Percent(1)),
            (margin, against.margin, context.money()),
        ];
        let known =
            figures.into_iter().filter_map(|(column, formula, look)| Some(Cell::figure(column, formula?, look)));
        known.collect()
    }

    /// The first column of a dish's figures.
    fn figures(&self) -> u16 {
        self.shown.layout.own(0, "AP or EP").column
    }

    /// The headers of what is told of the dishes; gives the row below them.
    fn menu_head<const N: usize>(&self, row: u32, title: &str, headers: &[&str; N], out: &mut RowSink<'_>) -> u32 {
        let first = self.figures();
        let mut cells = vec![Cell::text(0, title, Ink::OwnHeader), Cell::text(1, "", Ink::OwnHeader)];
        let portion = if title == "On the menu" { "Portion" } else { "" };
        cells.push(Cell { look: Look::Words, ..Cell::text(PORTION, portion, Ink::OwnHeader) });
        cells.extend((PORTION + 1..first).map(|at| Cell::text(at, "", Ink::OwnHeader)));
        cells.extend(headers.iter().zip(first..).map(|(header, at)| Cell::over_figures(at, *header)));
        out(Row { row, cells });
        row.saturating_add(1)
    }

    /// The name of a dish, leading to the Summary.
    fn sold_as(&self, index: usize, dish: &Dish) -> Cell {
        let named = format!("{}{}", output::SOLD_AS, dish.name);
        // A longer one does not end within the two columns that are free for it.
        if named.chars().count() > LONGEST_DISH {
            // Some programs do not wrap what leads elsewhere.
            return Cell { look: Look::Flowing(PORTION.saturating_sub(1)), ..Cell::text(0, named, Ink::Reading) };
        }
        Cell::link(0, named, &SummaryColumn::Dish.cell(index), Ink::Reading)
    }

    /// Why it is not costed, its allergens, its problems; gives the row below them.
    fn words(&self, mut row: u32, remarks: &Remarks, out: &mut RowSink<'_>) -> u32 {
        let flowing = |text: String| Cell { look: Look::Flowing(self.last), ..Cell::text(1, text, Ink::Reading) };
        let mut say = |label: &str, cell: Cell| {
            out(Row { row, cells: vec![Cell::text(0, label, Ink::Label), cell] });
            row = row.saturating_add(1);
        };
        for reason in &remarks.stopped_by {
            say("Not costed, because", flowing(reason.clone()));
        }
        for (label, text) in self.shown.words() {
            say(label, flowing(text));
        }
        for (name, home) in self.used_in() {
            say("Used in", Cell::link(1, name, &home, Ink::Reading));
        }
        if let Some((count, at)) = &remarks.problems {
            let text = if *count == 1 {
                "1, on the sheet Problems".to_owned()
            } else {
                format!("{count}, on the sheet Problems")
            };
            say("Problems here", Cell::link(1, text, at, Ink::Reading));
        }
        row
    }

    /// The recipes that this one goes into, and where each stands.
    fn used_in(&self) -> Vec<(&str, Ref)> {
        const MOST: usize = 12;
        let context = self.shown.context;
        let made = IngredientSource::Made(self.shown.id);
        let users = context.kitchen.recipes.iter().zip(&context.layout.recipes);
        let users = users.filter(|(recipe, _)| recipe.lines.iter().any(|line| line.source == made));
        users.map(|(recipe, layout)| (recipe.name.as_str(), layout.home())).take(MOST).collect()
    }

    /// The day of its figures, and room for names.
    fn to_sign(&self, row: u32, out: &mut RowSink<'_>) {
        let date = Content::Date(self.shown.context.costing.scenario.date);
        let date = Cell { column: 1, content: date, ink: Ink::Reading, look: Look::Date };
        out(Row { row, cells: vec![Cell::text(0, "Costed on", Ink::Plain), date] });
        for (label, row) in ["Made by, date", "Checked by, date"].into_iter().zip(row.saturating_add(1)..) {
            let mut cells = vec![Cell::text(0, label, Ink::Plain)];
            let line = |column| Cell { column, content: Content::Blank, ink: Ink::ToWriteOn, look: Look::General };
            cells.extend((1..=self.last.min(4)).map(line));
            out(Row { row, cells });
        }
    }
}

//! The Summary: one row per dish, live, with where it stands; the costing date, the problems and the cautions; what is
//! made for other dishes, the dishes ranked, and where the money of the dearest goes. Without a dish, its recipes.

mod head;
mod made;

use crate::costing::DishCost;
use crate::kitchen::menu::Dish;
use crate::number::Decimal;
use crate::results::changes::Changes;
use crate::results::problem_counts::Counts;
use crate::results::target_status::TargetStatus;
use crate::schema::as_written::{self, Stands};
use crate::workbook::cells::chart::Span;
use crate::workbook::cells::formula::{Formula, Ref};
use crate::workbook::cells::row::{Cell, Frame, Ink, Look, PrintedPage, Row, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::dish_cells::target_formula;
use crate::workbook::layout::own_columns::stands;
use crate::workbook::layout::sheet_names;
use crate::workbook::layout::summary_columns::{self, SummaryColumn};
use crate::workbook::sheets::dish_formulas::{ComparedCells, DishFormulas, menu_price, while_a_dish};
use crate::workbook::sheets::money::DishMoney;
use crate::workbook::sheets::ranked;
use made::RecipesMade;

/// What is said below the dishes.
const SAID: &[&str] = &[
    "Pale cells were typed and may be changed: the figures follow. Slanted ones were read or chosen, upright ones are figured.",
    "Figures only. Trim and stock kept for reuse: chill fast, hold cold, date it, use it or throw it away.",
    "Allergens pass with the trim: what was in the shells is in the stock. Check every label.",
    "Local food code and a licensed professional's advice decide, not this workbook.",
];

/// What is said on the Summary besides the dishes' figures.
pub struct SummaryNotes<'a> {
    /// How many problems there are.
    pub counts: &'a Counts,
    /// What new prices changed, where some were compared.
    pub changes: Option<&'a Changes<'a>>,
    /// The names of all other sheets, in their order.
    pub sheets: Vec<String>,
    /// Why a dish is not costed, and where that is listed.
    pub stopped_by: &'a dyn Fn(&Dish) -> (String, Option<Ref>),
}

/// The frame of the sheet.
pub fn frame(context: &Context<'_>) -> Frame {
    let below = Below::of(context);
    let ranking = ranked::picture(context, below.tables, below.pictures, (SIDE, below.height));
    let at = (below.pictures, if ranking.is_some() { SECOND } else { 0 });
    let money = below.money.as_ref().map(|money| money.picture(below.tables, at, (OTHER_SIDE, below.height)));
    let dishes = context.kitchen.dishes.len();
    let standing = |index| SummaryColumn::Standing.cell(index).row;
    let span =
        Span { column: SummaryColumn::Standing.column(), first: standing(0), last: standing(dishes.saturating_sub(1)) };
    let groups = vec![below.tables.saturating_sub(1), below.pictures];
    let last_row = Some(below.contents.saturating_sub(1));
    let frame = Frame::new(sheet_names::SUMMARY, vec![36, 13, 13, 13, 12, 15, 13, 16]);
    let frame = frame.frozen(summary_columns::HEADER_ROW.saturating_add(1)).upright().in_groups(groups);
    Frame {
        pictures: ranking.into_iter().chain(money).collect(),
        alert: (dishes > 0).then(|| (TargetStatus::OverTarget.words().to_owned(), span)),
        // The list of sheets leads from here to there, which paper cannot.
        page: PrintedPage { last_row, last_column: Some(SummaryColumn::Standing.column()), ..frame.page },
        ..frame
    }
}

/// The column in which the second picture begins, and how wide the two are in pixels: side by side as wide as the table.
const SECOND: u16 = 4;
const SIDE: u32 = 540;
const OTHER_SIDE: u32 = 405;

/// Where everything stands below the dishes.
struct Below<'a> {
    /// The row of the first remark.
    said: u32,
    /// The row of the heading above the dishes that are not costed.
    stopped: u32,
    /// The row of what is made for other dishes.
    made: u32,
    recipes: RecipesMade<'a>,
    /// The row of the headers of the ranking and, beside it, of where the money goes.
    tables: u32,
    /// The row of the pictures, and their height in pixels.
    pictures: u32,
    height: u32,
    /// The row of the heading above the list of sheets.
    contents: u32,
    money: Option<DishMoney<'a>>,
}

impl<'a> Below<'a> {
    fn of(context: &'a Context<'_>) -> Self {
        let recipes = RecipesMade::of(context);
        let rows = recipes.len();
        let dishes = context.kitchen.dishes.len();
        let head = summary_columns::HEADER_ROW;
        let above = if recipes.are_alone() { head.saturating_add(rows) } else { SummaryColumn::Dish.cell(dishes).row };
        let said = above.saturating_add(1);
        let below_said = said.saturating_add(u32::try_from(SAID.len()).unwrap_or_default()).saturating_add(1);
        let stopped = below_said;
        let below_said = match u32::try_from(not_costed(context).count()).unwrap_or_default() {
            0 => below_said,
            dishes => below_said.saturating_add(dishes).saturating_add(2),
        };
        let (made, rows) = if recipes.are_alone() { (head, 0) } else { (below_said, rows) };
        let tables = below_said.saturating_add(if rows > 0 { rows.saturating_add(2) } else { 1 });
        let money = DishMoney::of_dearest(context);
        let ranked = ranked::count(context);
        let longest = ranked.max(money.as_ref().map_or(0, DishMoney::len));
        let pictures = tables.saturating_add(longest).saturating_add(2);
        // As high as a page at the most.
        let height = longest.saturating_mul(24).saturating_add(110);
        let contents = pictures.saturating_add(height.div_ceil(20)).saturating_add(2);
        Below { said, stopped, made, recipes, tables, pictures, height, contents, money }
    }
}

/// Its rows.
pub fn rows(context: &Context<'_>, said: &SummaryNotes<'_>, out: &mut RowSink<'_>) {
    let below = Below::of(context);
    head::head(context, said, below.contents, out);
    if !below.recipes.are_alone() {
        let words = SummaryColumn::Standing.header();
        let headers =
            summary_columns::HEADERS.iter().zip(0_u16..).map(|(header, at)| Cell::over(at, header, *header == words));
        out(Row { row: summary_columns::HEADER_ROW, cells: headers.collect() });
    }
    for (index, (dish, cost)) in context.kitchen.dishes.iter().zip(&context.costing.dishes).enumerate() {
        out(DishRow { context, dish, index }.row(cost.as_ref()));
    }
    stopped(context, said, below.stopped, out);
    contents(&said.sheets, below.contents, out);
    for (said, row) in SAID.iter().zip(below.said..) {
        out(Row { row, cells: vec![Cell::text(0, *said, Ink::Plain)] });
    }
    below.recipes.rows(below.made, out);
    ranked::rows(context, below.tables, out);
    if let Some(money) = &below.money {
        money.rows(below.tables, out);
    }
}

/// The most dishes of which it is said why they are not costed.
const MOST_STOPPED: usize = 20;

/// The dishes that are not costed.
fn not_costed<'a>(context: &'a Context<'_>) -> impl Iterator<Item = (usize, &'a Dish)> {
    let dishes = context.kitchen.dishes.iter().zip(&context.costing.dishes).enumerate();
    let stopped = dishes.filter(|(_, (_, cost))| cost.is_none()).map(|(index, (dish, _))| (index, dish));
    stopped.take(MOST_STOPPED)
}

/// Why dishes are not costed.
fn stopped(context: &Context<'_>, said: &SummaryNotes<'_>, row: u32, out: &mut RowSink<'_>) {
    let mut row = row;
    for (nth, (index, dish)) in not_costed(context).enumerate() {
        if nth == 0 {
            out(Row { row, cells: vec![Cell::text(0, "Not costed, because", Ink::Section)] });
        }
        row = row.saturating_add(1);
        let (text, to) = (said.stopped_by)(dish);
        let named = Cell::link(0, &dish.name, &to.unwrap_or_else(|| SummaryColumn::Dish.cell(index)), Ink::Reading);
        out(Row { row, cells: vec![named, Cell::text(1, text, Ink::Plain)] });
    }
}

/// Every sheet, three in a row.
fn contents(sheets: &[String], row: u32, out: &mut RowSink<'_>) {
    out(Row { row, cells: vec![Cell::text(0, "All sheets", Ink::Section)] });
    for (three, row) in sheets.chunks(3).zip(row.saturating_add(1)..) {
        let cells = three.iter().zip([0, 1, SECOND]);
        let cells =
            cells.map(|(sheet, column)| Cell::link(column, sheet, &Ref::new(sheet.as_str(), 0, 0), Ink::Reading));
        out(Row { row, cells: cells.collect() });
    }
}

/// The seal of a dish's row, beside its figures and not on paper.
fn sealed(cells: &[Cell]) -> Option<Cell> {
    let figures = 1..=SummaryColumn::Standing.column();
    let seal =
        as_written::sealed(figures.map(|at| {
            cells.iter().find(|cell| cell.column == at).map_or(Stands::Nothing, |cell| stands(&cell.content))
        }));
    seal.map(|seal| Cell { look: Look::Words, ..Cell::text(SEALS, seal, Ink::Aside) })
}

/// The column of the seals: right of what a window shows, and without a header, for the Summary has those it has.
const SEALS: u16 = 25;

struct DishRow<'a> {
    context: &'a Context<'a>,
    dish: &'a Dish,
    index: usize,
}

impl DishRow<'_> {
    fn row(&self, cost: Option<&DishCost>) -> Row {
        let home = self.dish.recipe.and_then(|id| Some(self.context.layout.recipes.get(id.index())?.home()));
        let mut cells = vec![match home {
            Some(home) => Cell::link(SummaryColumn::Dish.column(), &self.dish.name, &home, Ink::Reading),
            None => Cell::text(SummaryColumn::Dish.column(), &self.dish.name, Ink::Reading),
        }];
        match cost {
            Some(cost) => cells.extend(self.figures(cost)),
            None => {
                cells.extend([self.menu_price(), self.target()].into_iter().flatten());
                let words = TargetStatus::NotCosted.words();
                let standing = Cell::text(SummaryColumn::Standing.column(), words, Ink::Reading);
                cells.push(Cell { look: Look::Words, ..standing });
            }
        }
        cells.extend(sealed(&cells));
        Row { row: SummaryColumn::Dish.cell(self.index).row, cells }
    }

    fn at(&self, column: SummaryColumn) -> String {
        column.cell(self.index).cell()
    }

    /// A fact of a dish that is not costed, where it is known.
    fn fact(&self, column: SummaryColumn, text: Option<String>, result: Option<Decimal>, look: Look) -> Option<Cell> {
        Some(Cell::figure(column.column(), Formula::number(text?, result?), look))
    }

    /// Where it stands.
    fn place(&self) -> (&'static str, u32) {
        (sheet_names::SUMMARY, SummaryColumn::Dish.cell(self.index).row)
    }

    fn while_a_dish(&self, figure: String) -> String {
        while_a_dish(self.context, self.dish, sheet_names::SUMMARY, figure)
    }

    fn menu_price(&self) -> Option<Cell> {
        let price = menu_price(self.context, self.dish, self.place());
        self.fact(SummaryColumn::MenuPrice, price, self.dish.menu_price, self.context.money())
    }

    fn target(&self) -> Option<Cell> {
        let target = target_formula(self.context, self.dish, self.place());
        let target = target.map(|target| self.while_a_dish(target));
        self.fact(SummaryColumn::Target, target, self.dish.target, Look::Percent(1))
    }

    fn figures(&self, cost: &DishCost) -> Vec<Cell> {
        use SummaryColumn as C;
        let money = || self.context.money();
        let Some(formulas) = DishFormulas::of(self.context, self.index, self.place()) else { return Vec::new() };
        let [portion_cost, price, target, food_cost] =
            [C::PortionCost, C::MenuPrice, C::Target, C::FoodCost].map(|column| self.at(column));
        let against = formulas.against(&ComparedCells {
            portion_cost: &portion_cost,
            price: &price,
            target: &target,
            food_cost: &food_cost,
        });
        let whole = self.while_a_dish(formulas.portion_cost(self.index));
        let figures = [
            (C::PortionCost, Some(Formula::number(whole, cost.portion_cost)), money()),
            (C::MenuPrice, against.menu_price, money()),
            (C::FoodCost, against.food_cost, Look::Percent(1)),
            (C::Target, against.target, Look::Percent(1)),
            (C::PriceAtTarget, against.at_target, money()),
            (C::Margin, against.margin, money()),
            (C::Standing, Some(against.standing), Look::Words),
        ];
        let known = figures.into_iter();
        known.filter_map(|(column, formula, look)| Some(Cell::figure(column.column(), formula?, look))).collect()
    }
}

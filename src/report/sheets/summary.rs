//! The Summary: one row per dish, live, with where it stands; the costing date, the problems and the cautions.

use crate::costing::DishCost;
use crate::kitchen::menu::Dish;
use crate::kitchen::settings::{PriceRounding, Setting};
use crate::number::Decimal;
use crate::report::context::Context;
use crate::report::dish_cells::{price_cell, target_formula, tax_formula};
use crate::report::formula::{Formula, Ref};
use crate::report::names;
use crate::report::problems::Counts;
use crate::report::row::{Cell, Content, Frame, Ink, Look, Row, Rows};
use crate::report::sheets::ranked;
use crate::report::sheets::working::WorkingColumn;
use crate::report::standing::Standing;

/// The columns of the Summary.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SummaryColumn {
    /// The dish.
    Dish,
    /// What one portion costs.
    PortionCost,
    /// The menu price as typed.
    MenuPrice,
    /// Portion cost over the price without tax.
    FoodCost,
    /// What it should be.
    Target,
    /// The price that meets the target.
    PriceAtTarget,
    /// Price without tax less portion cost.
    Margin,
    /// Where it stands, in words.
    Standing,
}

/// The headers, exactly.
pub const HEADERS: [&str; 8] =
    ["Dish", "Portion cost", "Menu price", "Food cost %", "Target %", "Price at target", "Margin", "Standing"];

/// The zero-based row of the headers.
const HEADER_ROW: u32 = 5;

impl SummaryColumn {
    /// Its zero-based column.
    pub fn column(self) -> u16 {
        self as u16
    }

    /// The cell of the dish at `index`.
    pub fn cell(self, index: usize) -> Ref {
        let below = u32::try_from(index).unwrap_or(u32::MAX).saturating_add(1);
        Ref::new(names::SUMMARY, HEADER_ROW.saturating_add(below), self.column())
    }
}

/// What is said below the dishes.
const CAUTIONS: &[&str] = &[
    "Figures only. Trim and stock kept for reuse: chill fast, hold cold, date it, use it or throw it away.",
    "Allergens pass with the trim: what was in the shells is in the stock. Check every label.",
    "Local food code and a licensed professional's advice decide, not this workbook.",
];

/// The frame of the sheet.
pub fn frame(context: &Context<'_>) -> Frame {
    let widths = vec![36, 14, 14, 14, 12, 16, 14, 16];
    let frame = Frame::new(names::SUMMARY, widths).frozen(HEADER_ROW.saturating_add(1));
    Frame { pictures: ranked::picture(context, below_cautions(context)).into_iter().collect(), ..frame }
}

/// The zero-based row below the cautions, one left free.
fn below_cautions(context: &Context<'_>) -> u32 {
    let dishes = SummaryColumn::Dish.cell(context.kitchen.dishes.len()).row;
    dishes.saturating_add(2).saturating_add(u32::try_from(CAUTIONS.len()).unwrap_or_default())
}

/// Its rows.
pub fn rows(context: &Context<'_>, counts: &Counts, out: &mut Rows<'_>) {
    let settings = &context.kitchen.settings;
    out(Row { row: 0, cells: vec![Cell::text(0, context.mark, Ink::Reading)] });
    let title = if settings.house_name.is_empty() { "What the menu costs" } else { &settings.house_name };
    out(Row { row: 1, cells: vec![Cell::text(0, title, Ink::Title)] });
    let date = Content::Date(context.costing.scenario.date);
    let date = Cell { column: 1, content: date, ink: Ink::Reading, look: Look::Date };
    out(Row { row: 2, cells: vec![Cell::text(0, "Costed on", Ink::Label), date] });
    let link = Content::Link { text: counts.words(), sheet: names::PROBLEMS.to_owned(), cell: "A1".to_owned() };
    let link = Cell { column: 1, content: link, ink: Ink::Reading, look: Look::General };
    out(Row { row: 3, cells: vec![Cell::text(0, "Problems", Ink::Label), link] });
    let headers = HEADERS.iter().zip(0_u16..).map(|(header, at)| Cell::text(at, *header, Ink::OwnHeader));
    out(Row { row: HEADER_ROW, cells: headers.collect() });
    for (index, (dish, cost)) in context.kitchen.dishes.iter().zip(&context.costing.dishes).enumerate() {
        out(DishRow { context, dish, index }.row(cost.as_ref()));
    }
    let below = SummaryColumn::Dish.cell(context.kitchen.dishes.len()).row.saturating_add(1);
    for (caution, row) in CAUTIONS.iter().zip(below..) {
        out(Row { row, cells: vec![Cell::text(0, *caution, Ink::Plain)] });
    }
    ranked::rows(context, below_cautions(context), out);
}

struct DishRow<'a> {
    context: &'a Context<'a>,
    dish: &'a Dish,
    index: usize,
}

impl DishRow<'_> {
    fn row(&self, cost: Option<&DishCost>) -> Row {
        let mut cells = vec![Cell::text(SummaryColumn::Dish.column(), &self.dish.name, Ink::Reading)];
        match cost {
            Some(cost) => cells.extend(self.figures(cost)),
            None => {
                cells.extend([self.menu_price(), self.target()].into_iter().flatten());
                let words = Standing::NotCosted.words();
                let standing = Cell::text(SummaryColumn::Standing.column(), words, Ink::Reading);
                cells.push(Cell { look: Look::Words, ..standing });
            }
        }
        Row { row: SummaryColumn::Dish.cell(self.index).row, cells }
    }

    fn at(&self, column: SummaryColumn) -> String {
        column.cell(self.index).cell()
    }

    fn figure(&self, column: SummaryColumn, text: Option<String>, result: Option<Decimal>, look: Look) -> Option<Cell> {
        Some(Cell::figure(column.column(), Formula::number(text?, result?), look))
    }

    fn menu_price(&self) -> Option<Cell> {
        let price = price_cell(self.context, self.dish).map(|cell| cell.from(names::SUMMARY));
        self.figure(SummaryColumn::MenuPrice, price, self.dish.menu_price, self.context.money())
    }

    fn target(&self) -> Option<Cell> {
        let target = target_formula(self.context, self.dish, names::SUMMARY);
        self.figure(SummaryColumn::Target, target, self.dish.target, Look::Percent(1))
    }

    fn figures(&self, cost: &DishCost) -> Vec<Cell> {
        use SummaryColumn as C;
        let money = || self.context.money();
        let portion_cost = WorkingColumn::PortionCost.cell(self.index).from(names::SUMMARY);
        let ex_tax = WorkingColumn::ExTax.cell(self.index).from(names::SUMMARY);
        let food_cost = format!("{}/{ex_tax}", self.at(C::PortionCost));
        let margin = format!("{ex_tax}-{}", self.at(C::PortionCost));
        let mut cells: Vec<Cell> = [
            self.figure(C::PortionCost, Some(portion_cost), Some(cost.portion_cost), money()),
            self.menu_price(),
            self.figure(C::FoodCost, Some(food_cost), cost.food_cost, Look::Percent(1)),
            self.target(),
            self.figure(C::PriceAtTarget, Some(self.price_at_target()), cost.price_at_target, money()),
            self.figure(C::Margin, Some(margin), cost.margin, money()),
        ]
        .into_iter()
        .flatten()
        .collect();
        cells.push(self.standing(cost));
        cells
    }

    /// Live where there is something to compare.
    fn standing(&self, cost: &DishCost) -> Cell {
        let column = SummaryColumn::Standing.column();
        let standing = Standing::of(self.dish, Some(cost));
        match standing {
            Standing::OverTarget | Standing::OnTarget => {
                let (over, on) = (Standing::OverTarget.words(), Standing::OnTarget.words());
                let (food_cost, target) = (self.at(SummaryColumn::FoodCost), self.at(SummaryColumn::Target));
                let text = format!("IF(ROUND({food_cost}-{target},9)>0,\"{over}\",\"{on}\")");
                Cell::figure(column, Formula::text(text, standing.words()), Look::Words)
            }
            _ => Cell { look: Look::Words, ..Cell::text(column, standing.words(), Ink::Reading) },
        }
    }

    fn price_at_target(&self) -> String {
        let tax = tax_formula(self.context, self.dish, names::SUMMARY);
        let portion_cost = self.at(SummaryColumn::PortionCost);
        let price = format!("{portion_cost}*(1+{tax})/{}", self.at(SummaryColumn::Target));
        let setting = |setting| self.context.settings.value(setting).map(|cell| cell.from(names::SUMMARY));
        let house = self.context.kitchen.settings.rounding;
        match (house, setting(Setting::PriceStep), setting(Setting::PriceEnding)) {
            (PriceRounding::Step(_), Some(step), _) => format!("ROUNDUP(ROUND({price}/{step},9),0)*{step}"),
            (PriceRounding::Ending(_), _, Some(ending)) => {
                format!("MAX(0,ROUNDUP(ROUND({price}-{ending},9),0))+{ending}")
            }
            _ => price,
        }
    }
}

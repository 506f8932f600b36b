//! The sheet Food cost: what the food sold did cost, period by period, what it ought to have cost, and what was counted item
//! by item.
//!
//! The control table's money is live, and so is the standard, where the period's last day is the costing date. What was
//! counted stands as costed, and only as long as counts, prices and yield tests do: amounts are brought to the units of prices,
//! which wants the book to be costed again.

use crate::analysis::FoodControl;
use crate::analysis::actual_against_standard::{ControlPeriod, StandardCost};
use crate::kitchen::Kitchen;
use crate::number::{Decimal, plain};
use crate::results::counted_use::CountedItemResult;
use crate::results::food_control::counted;
use crate::schema::{Column, TableKind, own_sheets};
use crate::workbook::cells::formula::{Formula, NOT_KNOWN, Ref, YES, or_else};
use crate::workbook::cells::row::{Cell, Content, Frame, Ink, Look, PrintedPage, Row, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::{rows_of, sheet_names};
use crate::workbook::sheets::dish_formulas::DishFormulas;
use crate::workbook::sheets::sales::SalesCells;
use crate::workbook::sheets::unchanged_rows::{AGAIN, MOST_ROWS, as_they_were, pieces, says_whether, unchanged};

const SHEET: &str = sheet_names::FOOD_COST;
/// The first row below the title.
const FIRST: u32 = 3;
const MONEY: u16 = 1;
const SHARE: u16 = 2;
/// The last columns that are printed: of what was sold, and of what was counted.
const LAST: u16 = 3;
const LAST_OF_COUNTS: u16 = 8;
/// From here on sums of some of a dish's rows of sales, where they are many.
const SUMS: u16 = 10;
/// From here on, in the first row, whether what was counted still stands.
const COUNTS_STAND: u16 = 10;
/// The columns of the counts that figures come of.
const COUNTED: [Column; 8] = [
    Column::OpeningCount,
    Column::PurchasedCount,
    Column::CameIn,
    Column::WentOut,
    Column::ClosingCount,
    Column::Thrown,
    Column::Unit,
    Column::Paid,
];

/// Whether there is anything to show.
pub fn any(kitchen: &Kitchen) -> bool {
    !kitchen.entries.control.is_empty() || !kitchen.counts.is_empty()
}

/// The frame of the sheet.
pub fn frame(kitchen: &Kitchen) -> Frame {
    let frame = Frame::new(SHEET, vec![36, 13, 13, 13, 13, 13, 13, 13, 13]).upright();
    let last_column = if kitchen.counts.is_empty() { LAST } else { LAST_OF_COUNTS };
    Frame { page: PrintedPage { last_column: Some(last_column), ..frame.page }, ..frame }
}

/// Its rows.
pub fn rows(context: &Context<'_>, out: &mut RowSink<'_>) {
    let control = FoodControl::of(context.kitchen, context.costing);
    let mut top = vec![Cell::text(0, context.mark, Ink::Aside), Cell::back(3)];
    let counts: Vec<Cell> = (COUNTS_STAND..u16::MAX)
        .zip(pieces(&of_counts(context)))
        .map(|(column, piece)| Cell::figure(column, says_whether(&piece), Look::Words))
        .collect();
    let as_counted = counts.last().map(|last| {
        let [first, last] = [COUNTS_STAND, last.column].map(|column| Ref::new(SHEET, 0, column).from(SHEET));
        format!("COUNTIF({first}:{last},\"{YES}\")={}", counts.len())
    });
    top.extend(counts);
    out(Row { row: 0, cells: top });
    out(Row { row: 1, cells: vec![Cell::text(0, own_sheets::FOOD_COST_TITLE, Ink::Title)] });
    let mut page = FoodCostSheet { context, out, next: FIRST, as_counted };
    let mut cells = None;
    for period in &control.periods {
        cells = Some(page.period(period));
    }
    if let (Some(cells), Ok(standard)) = (cells, &control.standard) {
        page.standard(&control, standard, &cells);
    }
    page.counted(&control);
}

/// What holds as long as what was counted is worth what it was.
fn of_counts(context: &Context<'_>) -> Vec<String> {
    let of = |kind: TableKind, columns: &[Column]| {
        let Some(table) = context.layout.table(kind) else { return Vec::new() };
        let rows = rows_of(context.kitchen, kind);
        match columns {
            [amount] => unchanged(table, &rows, *amount),
            columns if rows.len() <= MOST_ROWS => as_they_were(table, &rows, columns),
            columns => columns.iter().flat_map(|column| unchanged(table, &rows, *column)).collect(),
        }
    };
    let counts = of(TableKind::Counts, &COUNTED);
    if counts.is_empty() {
        return counts;
    }
    let worth = [(TableKind::Prices, Column::Price), (TableKind::YieldTests, Column::Weight)];
    counts.into_iter().chain(worth.into_iter().flat_map(|(kind, column)| of(kind, &[column]))).collect()
}

/// The cells of a period that the standard is held against.
struct PeriodCells {
    food_sold: Ref,
    sales: Ref,
    /// The waste log, as a formula reads it.
    waste: String,
    known: (Option<Decimal>, Option<Decimal>),
}

/// The sheet while it is written.
struct FoodCostSheet<'a, 'o> {
    context: &'a Context<'a>,
    out: &'a mut RowSink<'o>,
    next: u32,
    /// What holds as long as the counts are as costed.
    as_counted: Option<String>,
}

impl FoodCostSheet<'_, '_> {
    fn put(&mut self, cells: Vec<Cell>) -> u32 {
        let row = self.next;
        (self.out)(Row { row, cells });
        self.next = row.saturating_add(1);
        row
    }

    fn head(&mut self, title: &str, headers: &[&str], words: &[u16]) {
        self.put(vec![Cell::text(0, title, Ink::Section)]);
        let headers = headers.iter().zip(0_u16..);
        self.put(headers.map(|(header, at)| Cell::over(at, header, words.contains(&at))).collect());
    }

    /// A line of money, and its part of the sales where that is said.
    fn line(&mut self, label: &str, text: String, money: Option<Decimal>, share: Option<(String, Decimal)>) -> Ref {
        let mut cells = vec![Cell::text(0, label, Ink::Label)];
        cells.push(match money {
            Some(money) => Cell::figure(MONEY, Formula::number(text, money), self.context.money()),
            None => Cell { look: Look::Words, ..Cell::text(MONEY, NOT_KNOWN, Ink::Reading) },
        });
        cells.extend(share.map(|(text, is)| Cell::figure(SHARE, Formula::number(text, is), Look::Percent(2))));
        let row = self.put(cells);
        Ref::new(SHEET, row, MONEY)
    }

    /// A number that came of the counts, as a formula says it.
    fn while_counted(&self, number: Decimal) -> String {
        let number = plain(number);
        self.as_counted.as_ref().map_or_else(|| number.clone(), |holds| format!("IF({holds},{number},\"{AGAIN}\")"))
    }

    /// A reading of the counts.
    fn counted_number(&self, column: u16, number: Decimal, look: Look) -> Cell {
        let content = Content::Formula(Formula::number(self.while_counted(number), number));
        Cell { content, ..Cell::number(column, number, Ink::Reading, look) }
    }

    /// What a cell of the control table says; blank is `otherwise`.
    fn typed(&self, period: &ControlPeriod, column: Column, otherwise: &str) -> Option<String> {
        let cell = self.context.input(TableKind::Control, period.row, column)?.from(SHEET);
        Some(or_else(&cell, &cell, otherwise))
    }

    fn period(&mut self, period: &ControlPeriod) -> PeriodCells {
        let name = self.context.kitchen.entries.control.get(period.row).map_or("", |row| &row.period);
        let name = if name.is_empty() { "Actual food cost".to_owned() } else { format!("Actual food cost, {name}") };
        self.head(&name, &["", "Money", "% of sales"], &[]);
        let needed = |page: &mut Self, label, column, is: Option<Decimal>| {
            // Where the counts stand for a blank cell, they do as costed.
            let otherwise = match is.filter(|_| period.of_counts.contains(&column)) {
                Some(counted) => page.while_counted(counted),
                None => format!("\"{NOT_KNOWN}\""),
            };
            let text = page.typed(period, column, &otherwise).unwrap_or(otherwise);
            page.line(label, text, is, None).cell()
        };
        // What nobody uses has no column, and is nothing.
        let optional = |page: &mut Self, label, column, is: Option<Decimal>| {
            let otherwise = match is {
                Some(counted) if period.of_counts.contains(&column) => page.while_counted(counted),
                Some(_) => "0".to_owned(),
                None => format!("\"{NOT_KNOWN}\""),
            };
            let text = page.typed(period, column, &otherwise);
            let text = text.or_else(|| (is != Some(Decimal::ZERO)).then_some(otherwise))?;
            Some(page.line(label, text, is, None).cell())
        };
        let less = |cell: Option<String>| cell.map(|cell| format!("-{cell}")).unwrap_or_default();
        let opening = needed(self, "Opening", Column::Opening, period.opening);
        let purchases = needed(self, "+ Purchases", Column::Purchases, period.purchases);
        let came = optional(self, "+ Transfers in", Column::TransfersIn, period.transfers_in);
        let went = optional(self, "− Transfers out", Column::TransfersOut, period.transfers_out);
        let closing = needed(self, "− Closing", Column::Closing, period.closing);
        let came = came.map(|cell| format!("+{cell}")).unwrap_or_default();
        let text = format!("{opening}+{purchases}{came}{}-{closing}", less(went));
        let consumed = self.line("Cost of food consumed", text, period.consumed, None).cell();
        let staff = optional(self, "− Staff meals", Column::StaffMeals, period.staff_meals);
        let comps = optional(self, "− Comps", Column::Comps, period.comps);
        let trim = optional(self, "− Trim sold", Column::TrimSold, period.trim_sold);
        // Sales stand in the row below.
        let sales = Ref::new(SHEET, self.next.saturating_add(1), MONEY);
        let text = format!("{consumed}{}{}{}", less(staff), less(comps), less(trim));
        let here = Ref::new(SHEET, self.next, MONEY).cell();
        let share = period.food_cost.map(|share| (format!("{here}/{}", sales.cell()), share));
        let food_sold = self.line("Cost of food sold", text, period.food_sold, share);
        needed(self, "Sales", Column::Sales, period.sales);
        self.next = self.next.saturating_add(1);
        let waste = self.typed(period, Column::WasteLogged, "0").unwrap_or_else(|| "0".to_owned());
        PeriodCells { food_sold, sales, waste, known: (period.waste, period.sales) }
    }

    /// The dishes sold at their portion costs, and the gap.
    fn standard(&mut self, control: &FoodControl, standard: &StandardCost, period: &PeriodCells) {
        let context = self.context;
        let title = format!("Standard cost, at the prices of {}", control.priced_on);
        self.head(&title, &["Dish", "Sold", "Portion cost", "In all"], &[]);
        let first = self.next;
        let sales = SalesCells::of(context);
        let is_live = control.priced_on == context.costing.scenario.date;
        for dish in &standard.dishes {
            let Some(of) = context.kitchen.dishes.get(dish.dish) else { continue };
            let at = |column| Ref::new(SHEET, self.next, column).cell();
            let formulas = DishFormulas::of(context, dish.dish, (SHEET, self.next)).filter(|_| is_live);
            let cost = match formulas {
                Some(formulas) => {
                    let text = formulas.portion_cost(dish.dish);
                    Cell::figure(2, Formula::number(text, dish.portion_cost), context.money())
                }
                None => Cell::number(2, dish.portion_cost, Ink::Reading, context.money()),
            };
            let mut cells = vec![Cell::text(0, &of.name, Ink::Reading)];
            let (sold, sums) = sales.sold(&of.name, dish.sold, (SHEET, self.next), SUMS);
            cells.push(Cell::figure(1, sold, Look::General));
            cells.push(cost);
            cells.extend(dish.in_all.map(|in_all| {
                Cell::figure(3, Formula::number(format!("{}*{}", at(1), at(2)), in_all), context.money())
            }));
            cells.extend(sums);
            self.put(cells);
        }
        let all =
            format!("{}:{}", Ref::new(SHEET, first, 3).cell(), Ref::new(SHEET, self.next.saturating_sub(1), 3).cell());
        self.next = self.next.saturating_add(1);
        self.head("Actual less standard", &["", "Money", "% of sales"], &[]);
        let sales = period.sales.cell();
        let over = |at: u32, share: Option<Decimal>| {
            share.map(|share| (format!("{}/{sales}", Ref::new(SHEET, at, MONEY).cell()), share))
        };
        let share = over(self.next, standard.share);
        // A cell that is no number is not passed over.
        let text = format!("IF(COUNT({all})={},SUM({all}),\"{NOT_KNOWN}\")", standard.dishes.len());
        let cost = self.line("Standard cost", text, standard.cost, share).cell();
        let share = over(self.next, standard.variance_share);
        let text = format!("{}-{cost}", period.food_sold.cell());
        let variance = self.line("Actual less standard", text, standard.variance, share).cell();
        let share = over(self.next, standard.waste_share);
        let waste = self.line("of it waste written down", period.waste.clone(), period.known.0, share).cell();
        let share = over(self.next, standard.unexplained_share);
        let text = format!("{variance}-{waste}");
        self.line("of it unexplained", text, standard.unexplained, share);
        self.next = self.next.saturating_add(1);
    }

    /// What was counted, as costed.
    fn counted(&mut self, control: &FoodControl) {
        let context = self.context;
        let Some(counted) = counted(context.kitchen, context.costing, control) else { return };
        let headers = ["Item", "Unit", "Used", "Standard use", "Gap", "of it price", "of it mix", "of it use", "Waste"];
        self.head(&format!("Counted item by item, as costed at the prices of {}", control.priced_on), &headers, &[1]);
        for item in &counted.items {
            let cells = self.item(item);
            self.put(cells);
        }
        if let Some(all) = &counted.money {
            let money = [all.gap, all.of_price, all.of_mix, all.of_use, all.waste];
            let money = money.iter().zip(4_u16..);
            let mut cells = vec![Cell::text(0, "All that was counted", Ink::Label)];
            cells.extend(money.map(|(money, at)| self.counted_number(at, money.0, context.money())));
            self.put(cells);
        }
        if let Some(rest) = counted.not_counted {
            let rest = self.counted_number(4, rest.0, context.money());
            self.put(vec![Cell::text(0, "Actual less standard of what was not counted", Ink::Label), rest]);
        }
    }

    fn item(&self, item: &CountedItemResult<'_>) -> Vec<Cell> {
        let mut cells = vec![Cell::text(0, item.name, Ink::Reading)];
        cells.push(Cell { look: Look::Words, ..Cell::text(1, &item.unit, Ink::Reading) });
        let amounts = [item.used, item.standard_use].into_iter().zip(2_u16..);
        cells.extend(amounts.filter_map(|(amount, at)| Some(self.counted_number(at, amount?.0, Look::Quantity))));
        match &item.money {
            Some(money) => {
                let money = [money.gap, money.of_price, money.of_mix, money.of_use, money.waste];
                let money = money.iter().zip(4_u16..);
                cells.extend(money.map(|(money, at)| self.counted_number(at, money.0, self.context.money())));
            }
            None => cells.push(Cell { look: Look::Words, ..Cell::text(4, NOT_KNOWN, Ink::Reading) }),
        }
        cells
    }
}

//! Order of a supplier on a sheet of its own, to print and tick: what to order in which packs, what that costs, and beside
//! it what is wanted, there and left. How many packs may be typed over: money and what is left follow.

use crate::analysis::OrderList;
use crate::analysis::order_list::{Order, OrderLine};
use crate::food::care;
use crate::number::{Decimal, plain};
use crate::results::display_units::DisplayUnit;
use crate::results::order_words::{NOTHING_PLANNED, OrderTelling, TRIM_HEAD};
use crate::schema::own_sheets;
use crate::workbook::cells::formula::{Formula, Ref};
use crate::workbook::cells::row::{Cell, Content, Frame, Ink, Look, Row, RowSink};
use crate::workbook::context::Context;

/// The columns: a box to tick and what is ordered; then what is wanted, there and left; then room for remarks.
const TICK: u16 = 0;
const ITEM: u16 = 1;
const CODE: u16 = 2;
const ORDER: u16 = 3;
const PACK: u16 = 4;
const PRICE: u16 = 5;
const MONEY: u16 = 6;
const WANTED: u16 = 7;
const ON_HAND: u16 = 8;
const ON_ORDER: u16 = 9;
const LEFT: u16 = 10;
const UNIT: u16 = 11;
const REMARKS: u16 = 12;
const WIDTHS: [u16; 13] = [6, 25, 9, 8, 13, 10, 11, 9, 9, 9, 9, 7, 18];

/// The zero-based row of the headers, which stand on every page with the name above them.
const HEADER_ROW: u32 = 2;

/// What is said of a supplier that no price row names.
const NO_SUPPLIER: &str = "No supplier named";

/// The name of the sheet beside the orders.
pub const BESIDE: &str = "Beside the orders";

/// The name under which a supplier has a sheet.
pub fn supplier(order: &Order) -> &str {
    if order.supplier.is_empty() { NO_SUPPLIER } else { &order.supplier }
}

/// The frame of an order.
pub fn frame(name: &str) -> Frame {
    Frame::new(name, WIDTHS.to_vec()).frozen(HEADER_ROW.saturating_add(1))
}

/// The rows of an order on the sheet `name`.
pub fn rows(context: &Context<'_>, list: &OrderList, order: &Order, name: &str, out: &mut RowSink<'_>) {
    let telling = telling(context);
    out(Row { row: 0, cells: vec![Cell::text(TICK, context.mark, Ink::Aside)] });
    let of_plan = format!("Order for {}", telling.plan(list));
    out(Row {
        row: 1,
        cells: vec![Cell::text(TICK, supplier(order), Ink::Title), Cell::text(PRICE, of_plan, Ink::Plain)],
    });
    out(Row { row: HEADER_ROW, cells: headers() });
    let page = OrderPage { context, telling, name };
    let first = HEADER_ROW.saturating_add(1);
    let mut row = first;
    for line in &order.lines {
        if let Some(cells) = page.line(line, row) {
            out(Row { row, cells });
            row = row.saturating_add(1);
        }
    }
    row = page.sums(order, first, row, out).saturating_add(1);
    let told = order.lines.iter().filter_map(|line| telling.stands_in(line));
    for text in told {
        out(Row { row, cells: vec![flowing(text)] });
        row = row.saturating_add(1);
    }
    row = row.saturating_add(1);
    for label in ["Ordered by, on", "Delivery on", "Checked in by"] {
        let line = |column| Cell { column, content: Content::Blank, ink: Ink::ToWriteOn, look: Look::General };
        let cells = std::iter::once(Cell::text(ITEM, label, Ink::Label)).chain((CODE..=PRICE).map(line));
        out(Row { row, cells: cells.collect() });
        row = row.saturating_add(2);
    }
}

fn telling<'a>(context: &Context<'a>) -> OrderTelling<'a> {
    let places = crate::measure::currency::minor_digits(&context.kitchen.settings.currency);
    OrderTelling { kitchen: context.kitchen, costing: context.costing, places }
}

/// A sentence over the width of the sheet.
fn flowing(text: impl Into<String>) -> Cell {
    Cell { look: Look::Flowing(REMARKS), ..Cell::text(ITEM, text, Ink::Plain) }
}

fn headers() -> Vec<Cell> {
    let words = |column: u16| matches!(column, CODE | PACK | UNIT | REMARKS);
    let header = |(text, column): (&&str, u16)| match column {
        // Over names, which begin at the edge of their column.
        ITEM => Cell::text(ITEM, *text, Ink::OwnHeader),
        _ => Cell::over(column, text, words(column)),
    };
    own_sheets::ORDER.iter().zip(0_u16..).map(header).collect()
}

struct OrderPage<'a> {
    context: &'a Context<'a>,
    telling: OrderTelling<'a>,
    name: &'a str,
}

impl OrderPage<'_> {
    fn cell(&self, row: u32, column: u16) -> String {
        Ref::new(self.name, row, column).cell()
    }

    /// A line: the number of packs is an input, what follows from it is figured.
    fn line(&self, line: &OrderLine, row: u32) -> Option<Vec<Cell>> {
        let kitchen = self.context.kitchen;
        let cost = self.context.costing.item(line.item.item)?;
        let typed = line.row.and_then(|row| kitchen.entries.prices.get(row));
        let unit = self.telling.unit(line.item.item, line.item.wanted)?;
        let pack = typed.and_then(|typed| typed.pack.given()).map(|pack| pack.text.as_str());
        let by_pack = line.packs.map(|packs| (packs, cost.ap.per, pack.unwrap_or("pack")));
        // Otherwise as much as is wanted can be ordered, in the unit that it is told in.
        let (many, holds, what) = by_pack.unwrap_or((unit.count(line.ordered)?, unit.size, &unit.name));
        let price = DisplayUnit { name: what.to_owned(), size: holds }.cost_at(cost.ap);
        let quantity =
            |column, base: Decimal| Some(Cell::number(column, unit.count(base)?, Ink::Reading, Look::Quantity));
        let mut cells = vec![
            Cell { look: Look::Words, ..Cell::room(TICK) },
            Cell { look: Look::Wrapped, ..Cell::text(ITEM, &kitchen.item(line.item.item)?.name, Ink::Label) },
            Cell { look: Look::Words, ..Cell::text(CODE, typed.map_or("", |typed| &typed.code), Ink::Plain) },
            Cell::number(ORDER, many, Ink::Input, Look::Quantity),
            Cell { look: Look::Words, ..Cell::text(PACK, what, Ink::Reading) },
        ];
        let places = self.context.money();
        cells.extend(price.map(|price| Cell::number(PRICE, price, Ink::Reading, places.clone())));
        if let Some(money) = line.money {
            let text = format!("{}*{}", self.cell(row, ORDER), self.cell(row, PRICE));
            cells.push(Cell::figure(MONEY, Formula::number(text, money), places));
        }
        cells.extend(quantity(WANTED, line.item.wanted));
        cells.extend(quantity(ON_HAND, line.item.on_hand));
        cells.extend(quantity(ON_ORDER, line.on_order));
        let held = [ON_HAND, ON_ORDER].map(|column| self.cell(row, column)).join("+");
        let each = plain(unit.count(holds)?);
        let text = format!("{held}+{}*{each}-{}", self.cell(row, ORDER), self.cell(row, WANTED));
        cells.push(Cell::figure(LEFT, Formula::number(text, unit.count(line.left)?), Look::Quantity));
        cells.push(Cell { look: Look::Words, ..Cell::text(UNIT, unit.name, Ink::Reading) });
        cells.push(Cell { column: REMARKS, content: Content::Blank, ink: Ink::ToWriteOn, look: Look::General });
        Some(cells)
    }

    /// What the order comes to, and what is missing to the least that is delivered; gives the row below.
    fn sums(&self, order: &Order, first: u32, end: u32, out: &mut RowSink<'_>) -> u32 {
        let mut row = end;
        let Some(money) = order.money.filter(|_| end > first) else {
            out(Row { row, cells: vec![Cell::text(ITEM, "In all: not known", Ink::Label)] });
            return row.saturating_add(1);
        };
        let look = self.context.money();
        let last = self.cell(end.saturating_sub(1), MONEY);
        let text = format!("SUM({}:{last})", self.cell(first, MONEY));
        let total = Cell { ink: Ink::Total, ..Cell::figure(MONEY, Formula::number(text, money), look.clone()) };
        out(Row { row, cells: vec![Cell::text(ITEM, "In all", Ink::Label), total] });
        let of_total = self.cell(row, MONEY);
        row = row.saturating_add(1);
        if let Some(minimum) = order.minimum {
            let label = |text: &str| Cell::text(ITEM, text, Ink::Label);
            let at = self.cell(row, MONEY);
            let stated = Cell::number(MONEY, minimum, Ink::Reading, look.clone());
            out(Row { row, cells: vec![label("Minimum order"), stated] });
            row = row.saturating_add(1);
            let missing = Formula::number(format!("MAX(0,{at}-{of_total})"), order.below_minimum().unwrap_or_default());
            out(Row { row, cells: vec![label("Missing to it"), Cell::figure(MONEY, missing, look)] });
            row = row.saturating_add(1);
        }
        row
    }
}

/// The frame of what stands beside the orders.
pub fn frame_beside() -> Frame {
    Frame::new(BESIDE, vec![6, 84]).upright()
}

/// What stands beside the orders: what there is enough of, what is on none, and the trim that comes out; without a plan what
/// to do about it.
pub fn rows_beside(context: &Context<'_>, list: Option<&OrderList>, out: &mut RowSink<'_>) {
    let telling = telling(context);
    out(Row { row: 0, cells: vec![Cell::text(0, context.mark, Ink::Aside)] });
    out(Row { row: 1, cells: vec![Cell::text(0, BESIDE, Ink::Title)] });
    let mut lines: Vec<(bool, String)> = Vec::new();
    match list {
        None => lines.push((false, NOTHING_PLANNED.to_owned())),
        Some(list) => {
            lines.push((false, format!("For {}.", telling.plan(list))));
            lines.extend(telling.covered(list).map(|text| (false, text)));
            lines.extend(telling.not_on_order(list).into_iter().map(|text| (true, text)));
            if !list.trim.is_empty() {
                lines.push((false, TRIM_HEAD.to_owned()));
                lines.extend(list.trim.iter().map(|made| (true, telling.trim(made))));
                lines.extend(care::KEPT.iter().map(|caution| (true, caution.text.to_owned())));
                lines.push((false, care::WHO_DECIDES.to_owned()));
            }
        }
    }
    for ((is_point, text), row) in lines.into_iter().zip(3_u32..) {
        let text = Cell { look: Look::Flowing(1), ..Cell::text(u16::from(is_point), text, Ink::Plain) };
        let cells = if is_point { vec![Cell::text(0, "–", Ink::Plain), text] } else { vec![text] };
        out(Row { row, cells });
    }
}

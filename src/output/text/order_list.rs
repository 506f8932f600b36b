//! Order list on the terminal: a table a supplier, what is on no order, and the trim that comes out.

use super::table::{TextColumn, TextRow, table};
use super::width::{hang, printable, wrap_at_most};
use super::{Emphasis, View, many};
use crate::analysis::OrderList;
use crate::analysis::order_list::{Order, OrderLine};
use crate::costing::Costing;
use crate::food::care;
use crate::kitchen::Kitchen;
use crate::measure::currency;
use crate::number::plain;
use crate::results::figures::shown;
use crate::results::order_words::{NOTHING_PLANNED, OrderTelling, TRIM_HEAD};

const COLUMNS: [TextColumn; 7] = [
    TextColumn { header: &["Wanted"], figures: true },
    TextColumn { header: &["On", "hand"], figures: true },
    TextColumn { header: &["On", "order"], figures: true },
    TextColumn { header: &["Order"], figures: true },
    TextColumn { header: &["Money"], figures: true },
    TextColumn { header: &["Left"], figures: true },
    TextColumn { header: &["Lasts", "days"], figures: true },
];

/// The column that stands only where something is on order.
const ON_ORDER: usize = 2;

/// The columns of a supplier's name above a table.
const LONGEST_SUPPLIER: usize = 40;

/// The decimals of days.
const DAY_PLACES: u32 = 1;

/// The orders one after another; what to type where nothing is planned.
pub fn order_list(kitchen: &Kitchen, costing: &Costing, list: Option<&OrderList>, view: View) -> String {
    let places = currency::minor_digits(&kitchen.settings.currency);
    let page = Page { telling: OrderTelling { kitchen, costing, places }, view };
    let Some(list) = list else { return page.say(NOTHING_PLANNED) };
    let mut out = page.say(&page.heading(list));
    for order in &list.orders {
        out.push('\n');
        out.push_str(&page.order(order));
    }
    out.push('\n');
    out.push_str(&page.telling.covered(list).map(|text| page.say(&text)).unwrap_or_default());
    for text in page.telling.not_on_order(list) {
        out.push_str(&page.point(&text));
    }
    if !list.trim.is_empty() {
        out.push_str(&page.say(TRIM_HEAD));
        for made in &list.trim {
            out.push_str(&page.point(&page.telling.trim(made)));
        }
        for caution in care::KEPT {
            out.push_str(&page.point(caution.text));
        }
        out.push_str(&page.say(care::WHO_DECIDES));
    }
    out
}

struct Page<'a> {
    telling: OrderTelling<'a>,
    view: View,
}

impl Page<'_> {
    fn say(&self, text: &str) -> String {
        hang("", &printable(text), self.view.width)
    }

    fn point(&self, text: &str) -> String {
        hang("- ", &printable(text), self.view.width)
    }

    fn heading(&self, list: &OrderList) -> String {
        let items = list.orders.iter().flat_map(|order| &order.lines).count();
        let total = list.money().map(|money| format!(", {} in all", shown(Some(money), self.telling.places)));
        let what = if items == 0 && list.is_whole() {
            "nothing to order".to_owned()
        } else if items == 0 {
            "no order, as what it wants is not known".to_owned()
        } else {
            format!("{} to order{}", many(items, "item", "items"), total.unwrap_or_default())
        };
        format!("For {}: {what}.", self.telling.plan(list))
    }

    fn order(&self, order: &Order) -> String {
        let name = if order.supplier.is_empty() { "No supplier named".to_owned() } else { printable(&order.supplier) };
        let name = wrap_at_most(&name, LONGEST_SUPPLIER, 1).concat();
        let mut rows: Vec<TextRow> = order.lines.iter().filter_map(|line| self.row(line)).collect();
        let empty = || (String::new(), Emphasis::Plain);
        let total = (shown(order.money, self.telling.places), Emphasis::Strong);
        rows.push(TextRow {
            name: "In all".to_owned(),
            cells: vec![empty(), empty(), empty(), empty(), total, empty(), empty()],
        });
        // A column of noughts says nothing.
        let any_on_order = order.lines.iter().any(|line| !line.on_order.is_zero());
        let is_shown = |at: usize| any_on_order || at != ON_ORDER;
        let columns: Vec<TextColumn> =
            COLUMNS.iter().enumerate().filter(|(at, _)| is_shown(*at)).map(|(_, column)| *column).collect();
        for row in &mut rows {
            let cells = std::mem::take(&mut row.cells).into_iter().enumerate();
            row.cells = cells.filter(|(at, _)| is_shown(*at)).map(|(_, cell)| cell).collect();
        }
        let mut out = table(&name, &columns, &rows, self.view);
        out.push_str(&self.telling.below_minimum(order).map(|text| self.say(&text)).unwrap_or_default());
        for text in order.lines.iter().filter_map(|line| self.telling.stands_in(line)) {
            out.push_str(&self.point(&text));
        }
        out
    }

    fn row(&self, line: &OrderLine) -> Option<TextRow> {
        let kitchen = self.telling.kitchen;
        let row = line.row.and_then(|row| kitchen.entries.prices.get(row));
        let pack = row.and_then(|row| row.pack.given()).map(|pack| printable(&pack.text));
        let of = line.item;
        let so_much = |amount| self.telling.so_much(of.item, amount).map(|text| printable(&text));
        let order = match (line.packs, pack) {
            (Some(packs), Some(pack)) => format!("{} × {pack}", plain(packs)),
            _ => so_much(line.ordered)?,
        };
        let plain_ink = |text: String| (text, Emphasis::Plain);
        let cells = vec![
            plain_ink(so_much(of.wanted)?),
            plain_ink(so_much(of.on_hand)?),
            plain_ink(so_much(line.on_order)?),
            (order, Emphasis::Strong),
            plain_ink(shown(line.money, self.telling.places)),
            plain_ink(so_much(line.left)?),
            plain_ink(shown(line.lasts_days, DAY_PLACES)),
        ];
        Some(TextRow { name: printable(&kitchen.item(of.item)?.name), cells })
    }
}

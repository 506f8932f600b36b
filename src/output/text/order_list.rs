//! Order list on the terminal: a table a supplier, what is on no order, and the trim that comes out.

use super::table::{TextColumn, TextRow, table};
use super::width::{hang, printable, wrap_at_most};
use super::{Emphasis, View, capital, many};
use crate::analysis::OrderList;
use crate::analysis::order_list::{Order, OrderLine, TrimMade};
use crate::costing::Costing;
use crate::food::care;
use crate::kitchen::{ItemId, Kitchen};
use crate::measure::currency;
use crate::number::{Decimal, plain};
use crate::results::display_units::{DisplayUnit, base_unit};
use crate::results::figures::{amount, at_most, shown};
use crate::results::order_list::{not_costed, not_counted, not_read};

const COLUMNS: [TextColumn; 6] = [
    TextColumn { header: &["Wanted"], figures: true },
    TextColumn { header: &["On", "hand"], figures: true },
    TextColumn { header: &["Order"], figures: true },
    TextColumn { header: &["Money"], figures: true },
    TextColumn { header: &["Left"], figures: true },
    TextColumn { header: &["Lasts", "days"], figures: true },
];

/// The columns of a supplier's name above a table.
const LONGEST_SUPPLIER: usize = 40;

/// The decimals of days.
const DAY_PLACES: u32 = 1;

/// The orders one after another; what to type where nothing is planned.
pub fn order_list(kitchen: &Kitchen, costing: &Costing, list: Option<&OrderList>, view: View) -> String {
    let page = Page { kitchen, costing, places: currency::minor_digits(&kitchen.settings.currency), view };
    let Some(list) = list else {
        return page.say(
            "Nothing is planned: add a table with Dish and Portions (and Day, if you like) to see what to order.",
        );
    };
    let mut out = page.say(&page.heading(list));
    for order in &list.orders {
        out.push('\n');
        out.push_str(&page.order(order));
    }
    out.push('\n');
    out.push_str(&page.not_on_order(list));
    if !list.trim.is_empty() {
        out.push_str(&page.say("Trim that comes out:"));
        for made in &list.trim {
            out.push_str(&page.point(&page.trim(made)));
        }
        for caution in care::KEPT {
            out.push_str(&page.point(caution.text));
        }
        out.push_str(&page.say(care::WHO_DECIDES));
    }
    out
}

struct Page<'a> {
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    places: u32,
    view: View,
}

impl Page<'_> {
    fn say(&self, text: &str) -> String {
        hang("", text, self.view.width)
    }

    fn point(&self, text: &str) -> String {
        hang("- ", text, self.view.width)
    }

    fn heading(&self, list: &OrderList) -> String {
        let currency = &self.kitchen.settings.currency;
        let money = if currency.is_empty() { String::new() } else { format!(" in {}", printable(currency)) };
        let items = list.orders.iter().flat_map(|order| &order.lines).count();
        let days = if list.days == Decimal::ONE { String::new() } else { format!(" of {} days", plain(list.days)) };
        let total = list.money().map(|money| format!(", {} in all", shown(Some(money), self.places)));
        let what = if items == 0 && list.is_whole() {
            "nothing to order".to_owned()
        } else if items == 0 {
            "no order, as what it wants is not known".to_owned()
        } else {
            format!("{} to order{}", many(items, "item", "items"), total.unwrap_or_default())
        };
        format!("For the plan{days}, at the prices of {}{money}: {what}.", self.costing.scenario.date)
    }

    /// What the plan wants and no order holds, and what on hand was not reckoned with.
    fn not_on_order(&self, list: &OrderList) -> String {
        let mut out = String::new();
        for name in not_costed(self.kitchen, list) {
            out.push_str(&self.point(&format!("Nothing is ordered for {}: it is not costed.", printable(name))));
        }
        for name in not_read(self.kitchen, list) {
            let name = printable(name);
            out.push_str(
                &self.point(&format!("A row of the plan for {name} could not be read: nothing is ordered for it.")),
            );
        }
        for name in list.unknown.iter().filter_map(|id| Some(printable(&self.kitchen.part(*id)?.name))) {
            out.push_str(&self.point(&format!(
                "There is not enough of {name}, and nothing says what is bought in its place: it is on no order."
            )));
        }
        for name in not_counted(self.kitchen, list) {
            out.push_str(&self.point(&format!(
                "What is on hand of {} could not be weighed against the plan, so it counts as nothing.",
                printable(name)
            )));
        }
        out
    }

    fn order(&self, order: &Order) -> String {
        let name = if order.supplier.is_empty() { "No supplier named".to_owned() } else { printable(&order.supplier) };
        let name = wrap_at_most(&name, LONGEST_SUPPLIER, 1).concat();
        let mut rows: Vec<TextRow> = order.lines.iter().filter_map(|line| self.row(line)).collect();
        let empty = || (String::new(), Emphasis::Plain);
        let total = (shown(order.money, self.places), Emphasis::Strong);
        rows.push(TextRow {
            name: "In all".to_owned(),
            cells: vec![empty(), empty(), empty(), total, empty(), empty()],
        });
        table(&name, &COLUMNS, &rows, self.view)
    }

    fn row(&self, line: &OrderLine) -> Option<TextRow> {
        let row = line.row.and_then(|row| self.kitchen.entries.prices.get(row));
        let pack = row.and_then(|row| row.pack.given()).map(|pack| printable(&pack.text));
        let of = line.item;
        let order = match (line.packs, pack) {
            (Some(packs), Some(pack)) => format!("{} × {pack}", plain(packs)),
            _ => self.so_much(of.item, line.ordered)?,
        };
        let plain_ink = |text: String| (text, Emphasis::Plain);
        let cells = vec![
            plain_ink(self.so_much(of.item, of.wanted)?),
            plain_ink(self.so_much(of.item, of.on_hand)?),
            (order, Emphasis::Strong),
            plain_ink(shown(line.money, self.places)),
            plain_ink(self.so_much(of.item, line.left)?),
            plain_ink(shown(line.lasts_days, DAY_PLACES)),
        ];
        Some(TextRow { name: printable(&self.kitchen.item(of.item)?.name), cells })
    }

    /// So much of an item, in the unit that the house buys by; in grams or millilitres where that is so little that two
    /// decimals of it would say next to nothing. Of pieces no decimals that say nothing.
    fn so_much(&self, item: ItemId, base_units: Decimal) -> Option<String> {
        let kind = &self.costing.item(item)?.kind;
        let unit = DisplayUnit::of_house(kind, self.kitchen.settings.volumes);
        let is_little = unit.count(base_units).is_some_and(|count| !count.is_zero() && count < Decimal::new(1, 1));
        Some(if unit.size == Decimal::ONE || is_little {
            format!("{} {}", at_most(base_units, 2), base_unit(kind))
        } else {
            format!("{} {}", amount(base_units, &unit), unit.name)
        })
    }

    fn trim(&self, made: &TrimMade) -> String {
        let name = self.kitchen.part(made.part).map(|part| printable(&part.name)).unwrap_or_default();
        let unit = self.kitchen.test(made.part.test).map(|test| DisplayUnit::of_test(self.kitchen, test));
        let days = made.days.iter().map(|of| {
            let weight = unit.as_ref().map_or_else(|| plain(of.made), |unit| amount(of.made, unit));
            let unit = unit.as_ref().map_or("g", |unit| unit.name.as_str());
            let day = self.kitchen.plan.days.names.get(of.day).filter(|day| !day.is_empty());
            let on = day.map(|day| format!(" on {}", printable(day))).unwrap_or_default();
            let by = of.use_by.map(|day| format!(", to be used by {day}")).unwrap_or_default();
            format!("{weight} {unit}{on}{by}")
        });
        let days: Vec<String> = days.collect();
        let keeps = match made.keeps {
            Some(keeps) => {
                let days = if keeps == Decimal::ONE { "day" } else { "days" };
                format!("it keeps {} {days} by your house rule, the day it is made the first", at_most(keeps, 2))
            }
            None => "nothing says how long your house keeps it".to_owned(),
        };
        format!("{name}: {}. {}.", days.join("; "), capital(&keeps))
    }
}

//! Order list as a tidy table.

use super::{CsvCell, table};
use crate::analysis::OrderList;
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::results::order_list::orders;

const COLUMNS: [&str; 19] = [
    "supplier",
    "item",
    "code",
    "pack",
    "packs",
    "base_unit",
    "wanted",
    "stands_in",
    "on_hand",
    "on_order",
    "to_buy",
    "ordered",
    "money",
    "left",
    "lasts_days",
    "minimum",
    "below_minimum",
    "currency",
    "as_of",
];

/// One row per item, supplier by supplier; the header alone without a plan.
pub fn order_list(kitchen: &Kitchen, costing: &Costing, list: Option<&OrderList>) -> String {
    let mut rows = Vec::new();
    for order in list.into_iter().flat_map(|list| orders(kitchen, costing, list)) {
        for line in &order.items {
            rows.push([
                CsvCell::text(order.supplier),
                CsvCell::text(line.item),
                CsvCell::text(line.code),
                CsvCell::text(line.pack),
                CsvCell::figure(line.packs),
                CsvCell::of(Some(line.base_unit)),
                CsvCell::figure(Some(line.wanted)),
                CsvCell::figure(Some(line.stands_in)),
                CsvCell::figure(Some(line.on_hand)),
                CsvCell::figure(Some(line.on_order)),
                CsvCell::figure(Some(line.to_buy)),
                CsvCell::figure(Some(line.ordered)),
                CsvCell::figure(line.money),
                CsvCell::figure(Some(line.left)),
                CsvCell::figure(line.lasts_days),
                CsvCell::figure(order.minimum),
                CsvCell::figure(order.below_minimum),
                CsvCell::text(&kitchen.settings.currency),
                CsvCell::day(costing.scenario.date),
            ]);
        }
    }
    table(&COLUMNS, rows.into_iter())
}

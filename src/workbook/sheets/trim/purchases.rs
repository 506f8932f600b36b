//! Purchases of the plan: where trim is used, what stands in for short trim within, and where it is binned.
//!
//! Quantities are readings, as the plan's weights are; money follows the prices.

use super::TrimSheet;
use super::places::Places;
use crate::kitchen::ItemId;
use crate::number::{Decimal, plain};
use crate::results::display_units::DisplayUnit;
use crate::results::purchases::{Purchase, purchases, totals};
use crate::workbook::cells::row::Look;
use crate::workbook::layout::sheet_names;

const HEADERS: [&str; 13] = [
    "To buy",
    "Unit",
    "On hand",
    "Wanted",
    "Stands in for trim",
    "To buy",
    "Left over",
    "Money",
    "Whole packs",
    "In whole packs",
    "Wanted, trim binned",
    "To buy, trim binned",
    "Money, trim binned",
];
const ON_HAND: u16 = 2;
const WANTED: u16 = 3;
const STANDS_IN: u16 = 4;
const TO_BUY: u16 = 5;
const LEFT_OVER: u16 = 6;
const MONEY: u16 = 7;
const PACKS: u16 = 8;
const IN_PACKS: u16 = 9;
const BINNED: u16 = 10;
const TO_BUY_BINNED: u16 = 11;
const MONEY_BINNED: u16 = 12;

/// The most terms of the sum below the table; beyond that it is a constant.
const MOST: usize = 120;

pub(super) fn write(page: &mut TrimSheet<'_>) {
    let (Some(start), Some(balance)) = (page.places.purchases, &page.trim.balance) else { return };
    page.told_head(
        start,
        "What the plan must buy, as purchased",
        "Before whole packs, what is on hand taken off; what stands in for trim that is short is within. Money is at today's prices.",
        &HEADERS,
    );
    let (kitchen, costing) = (page.context.kitchen, page.context.costing);
    for purchase in purchases(kitchen, costing, balance) {
        if let Some(row) = page.places.purchased.get(&purchase.used.item).copied() {
            item(page, row, &purchase);
        }
    }
    let Some(row) = page.places.bought else { return };
    let totals = totals(kitchen, costing, balance);
    page.words(row, 0, if totals.money.is_some() { "In all" } else { "In all, as far as it is known" });
    total(page, row, MONEY, totals.known);
    total(page, row, IN_PACKS, totals.in_whole_packs);
    total(page, row, MONEY_BINNED, totals.money_binned);
}

fn item(page: &mut TrimSheet<'_>, row: u32, purchase: &Purchase) {
    let context = page.context;
    let Purchase { used, binned, .. } = purchase;
    let unit = DisplayUnit::of_item(context.kitchen, context.costing, used.item);
    let (Some(item), Some(unit)) = (context.kitchen.item(used.item), unit) else { return };
    page.words(row, 0, &item.name);
    page.words(row, 1, &unit.name);
    for (amount, column) in [
        (used.on_hand, ON_HAND),
        (used.wanted, WANTED),
        (used.stands_in, STANDS_IN),
        (used.purchase, TO_BUY),
        (used.left_over, LEFT_OVER),
        (binned.wanted, BINNED),
        (binned.purchase, TO_BUY_BINNED),
    ] {
        page.planned(row, column, unit.count(amount).unwrap_or_default(), Look::Quantity);
    }
    money(page, row, MONEY, used.item, (TO_BUY, unit.size), purchase.money);
    money(page, row, MONEY_BINNED, used.item, (TO_BUY_BINNED, unit.size), purchase.money_binned);
    match purchase.packs {
        Some((packs, holds)) => {
            page.planned(row, PACKS, packs, Look::Quantity);
            money(page, row, IN_PACKS, used.item, (PACKS, holds), purchase.in_whole_packs);
        }
        None => money(page, row, IN_PACKS, used.item, (TO_BUY, unit.size), purchase.in_whole_packs),
    }
}

/// What the amount in a column of quantities, each so many base units, costs.
fn money(
    page: &mut TrimSheet<'_>,
    row: u32,
    column: u16,
    item: ItemId,
    (of, each): (u16, Decimal),
    result: Option<Decimal>,
) {
    let Some(result) = result else { return };
    let look = page.context.money();
    match ap_cell(page, item) {
        Some(ap) => page.figure(row, column, format!("{}*{}*{ap}", Places::cell(row, of), plain(each)), result, look),
        None => page.planned(row, column, result, look),
    }
}

fn ap_cell(page: &TrimSheet<'_>, item: ItemId) -> Option<String> {
    Some(page.context.ap_cell(item)?.from(sheet_names::TRIM))
}

fn total(page: &mut TrimSheet<'_>, row: u32, column: u16, result: Option<Decimal>) {
    let Some(result) = result else { return page.words(row, column, "not known") };
    let cells: Vec<String> = page.places.purchased.values().map(|row| Places::cell(*row, column)).collect();
    let look = page.context.money();
    if cells.is_empty() || cells.len() > MOST {
        page.planned(row, column, result, look);
    } else {
        page.figure(row, column, cells.join("+"), result, look);
    }
}

/// The cell of what must be bought in all.
pub(super) fn total_cell(places: &Places, binned: bool) -> Option<String> {
    Some(Places::cell(places.bought?, if binned { MONEY_BINNED } else { MONEY }))
}

/// What is on hand of bought items, in money, as terms of a sum; or what is left of them, in every kitchen alike.
pub(super) fn terms(page: &TrimSheet<'_>, left_over: bool) -> Vec<String> {
    let items = page.trim.balance.iter().flat_map(|balance| balance.all_items());
    let terms = items.filter(|(used, _)| !used.on_hand.is_zero()).filter_map(|(used, _)| {
        let row = *page.places.purchased.get(&used.item)?;
        let unit = DisplayUnit::of_item(page.context.kitchen, page.context.costing, used.item)?;
        let cell = |column| Places::cell(row, column);
        let amount = cell(if left_over { LEFT_OVER } else { ON_HAND });
        Some(format!("{amount}*{}*{}", plain(unit.size), ap_cell(page, used.item)?))
    });
    terms.collect()
}

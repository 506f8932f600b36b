//! Purchases of the plan: bought items beyond what is on hand, and what stands in for short trim.

use super::super::table::{TextColumn, TextRow, table};
use super::super::{Emphasis, printable};
use super::TrimPage;
use crate::analysis::balance::Balance;
use crate::kitchen::ItemId;
use crate::number::Decimal;
use crate::results::display_units::DisplayUnit;
use crate::results::figures::{amount, shown};
use crate::results::purchases::{Purchase, purchases as all, totals};

const COLUMNS: [TextColumn; 5] = [
    TextColumn { header: &["Wanted"], figures: true },
    TextColumn { header: &["On", "hand"], figures: true },
    TextColumn { header: &["To buy"], figures: true },
    TextColumn { header: &["Money"], figures: true },
    TextColumn { header: &["In whole", "packs"], figures: true },
];

/// The table, what it comes to, and what of it stands in for trim.
pub(super) fn purchases(page: &TrimPage<'_>, balance: &Balance) -> String {
    let purchases = all(page.kitchen, page.costing, balance);
    let wanted = || purchases.iter().filter(|purchase| !purchase.used.wanted.is_zero());
    let mut rows: Vec<TextRow> = wanted().filter_map(|purchase| row(page, purchase)).collect();
    if rows.is_empty() {
        return String::new();
    }
    let totals = totals(page.kitchen, page.costing, balance);
    let empty = || (String::new(), Emphasis::Plain);
    let total = |name: &str, total: Option<Decimal>| TextRow {
        name: name.to_owned(),
        cells: vec![
            empty(),
            empty(),
            empty(),
            (shown(total, page.places), Emphasis::Strong),
            (shown(totals.in_whole_packs, page.places), Emphasis::Plain),
        ],
    };
    rows.push(match totals.money {
        Some(money) => total("In all", Some(money)),
        None => total("In all, as far as it is known", totals.known),
    });
    let mut out = String::from("\n");
    out.push_str(&table("What the plan must buy, as purchased", &COLUMNS, &rows, page.view));
    let stands_in = wanted().map(|purchase| purchase.used).filter(|item| !item.stands_in.is_zero());
    let stands_in = stands_in.filter_map(|item| {
        let name = &page.kitchen.item(item.item)?.name;
        Some(format!("{} of {name}", so_much(page, item.item, item.stands_in)?))
    });
    let stands_in: Vec<String> = stands_in.collect();
    if !stands_in.is_empty() {
        out.push_str(&page.point(&format!("Of this stands in for trim that is short: {}.", stands_in.join(", "))));
    }
    out
}

fn row(page: &TrimPage<'_>, purchase: &Purchase) -> Option<TextRow> {
    let of = purchase.used;
    let item = page.kitchen.item(of.item)?;
    let amount = |amount: Decimal| Some((so_much(page, of.item, amount)?, Emphasis::Plain));
    let cells = vec![
        amount(of.wanted)?,
        amount(of.from_stock)?,
        amount(of.purchase)?,
        (shown(purchase.money, page.places), Emphasis::Plain),
        (shown(purchase.in_whole_packs, page.places), Emphasis::Plain),
    ];
    Some(TextRow { name: printable(&item.name), cells })
}

/// So much of an item, in the unit by which it is bought.
fn so_much(page: &TrimPage<'_>, item: ItemId, base_units: Decimal) -> Option<String> {
    let unit = DisplayUnit::of_item(page.kitchen, page.costing, item)?;
    Some(format!("{} {}", amount(base_units, &unit), unit.name))
}

//! Purchases of the plan: bought items beyond what is on hand, and what stands in for short trim.

use super::super::table::{Column, Row, table};
use super::super::{Ink, printable};
use super::Page;
use crate::analysis::balance::{Balance, ItemBalance, Purchases};
use crate::number::{Decimal, exact};
use crate::results::display_units::house_unit;
use crate::results::figures::shown;

const COLUMNS: [Column; 5] = [
    Column { header: &["Wanted"], figures: true },
    Column { header: &["On", "hand"], figures: true },
    Column { header: &["To buy"], figures: true },
    Column { header: &["Money"], figures: true },
    Column { header: &["In whole", "packs"], figures: true },
];

/// The table, what it comes to, and what of it stands in for trim.
pub(super) fn purchases(page: &Page<'_>, balance: &Balance) -> String {
    let list = &balance.purchases;
    let wanted = || list.items.iter().filter(|item| !item.wanted.is_zero());
    let mut rows: Vec<Row> = wanted().filter_map(|item| row(page, item)).collect();
    if rows.is_empty() {
        return String::new();
    }
    let sums = list.sums(page.costing).ok();
    let packs = list.in_whole_packs(page.kitchen, page.costing);
    let empty = || (String::new(), Ink::Plain);
    let total = |name: &str, total: Option<Decimal>| Row {
        name: name.to_owned(),
        cells: vec![
            empty(),
            empty(),
            empty(),
            (shown(total, page.places), Ink::Strong),
            (shown(packs, page.places), Ink::Plain),
        ],
    };
    if list.unknown.is_empty() {
        rows.push(total("In all", sums.and_then(|sums| sums.purchases)));
    } else {
        rows.push(total("In all, as far as it is known", sums.map(|sums| sums.known)));
    }
    let mut out = String::from("\n");
    out.push_str(&table("What the plan must buy, as purchased", &COLUMNS, &rows, page.view));
    let stands_in = wanted().filter(|item| !item.stands_in.is_zero()).filter_map(|item| {
        let name = &page.kitchen.item(item.item)?.name;
        Some(format!("{} of {name}", amount(page, item, item.stands_in)?))
    });
    let stands_in: Vec<String> = stands_in.collect();
    if !stands_in.is_empty() {
        out.push_str(&page.point(&format!("Of this stands in for trim that is short: {}.", stands_in.join(", "))));
    }
    out
}

fn row(page: &Page<'_>, balance: &ItemBalance) -> Option<Row> {
    let item = page.kitchen.item(balance.item)?;
    let money = Purchases::money(page.costing, balance.item, balance.purchase).ok();
    let packs = Purchases::whole_packs(page.kitchen, page.costing, balance).map_or(money, |packs| Some(packs.money));
    let amount = |of: Decimal| Some((amount(page, balance, of)?, Ink::Plain));
    let cells = vec![
        amount(balance.wanted)?,
        amount(balance.from_stock)?,
        amount(balance.purchase)?,
        (shown(money, page.places), Ink::Plain),
        (shown(packs, page.places), Ink::Plain),
    ];
    Some(Row { name: printable(&item.name), cells })
}

/// So much of an item, in the unit that the house buys by.
fn amount(page: &Page<'_>, balance: &ItemBalance, amount: Decimal) -> Option<String> {
    let cost = page.costing.item(balance.item)?;
    let (name, size) = house_unit(&cost.kind, page.kitchen.settings.volumes);
    Some(format!("{} {name}", shown(exact::div(amount, size).ok(), 2)))
}

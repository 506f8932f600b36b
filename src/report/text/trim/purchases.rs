//! What the plan must buy: bought items beyond what is on hand, and what stands in for short trim.

use super::super::figures::shown;
use super::super::table::{Column, Row, table};
use super::super::{Ink, printable};
use super::Page;
use crate::analysis::balance::{Balance, ItemBalance};
use crate::costing::bought::PriceFrom;
use crate::costing::rate::Amount;
use crate::number::{Decimal, exact};
use crate::report::scale::house_unit;

const COLUMNS: [Column; 4] = [
    Column { header: &["Wanted"], figures: true },
    Column { header: &["On", "hand"], figures: true },
    Column { header: &["To buy"], figures: true },
    Column { header: &["Money"], figures: true },
];

/// The table, and what it comes to.
pub(super) fn purchases(page: &Page<'_>, balance: &Balance) -> String {
    let rows: Vec<(Row, Decimal)> = balance.purchases.items.iter().filter_map(|item| row(page, item)).collect();
    if rows.is_empty() {
        return String::new();
    }
    let total = exact::sum(rows.iter().map(|(_, money)| *money)).ok();
    let mut rows: Vec<Row> = rows.into_iter().map(|(row, _)| row).collect();
    let empty = || (String::new(), Ink::Plain);
    rows.push(Row {
        name: "In all".to_owned(),
        cells: vec![empty(), empty(), empty(), (shown(total, page.places), Ink::Strong)],
    });
    let mut out = String::from("\n");
    out.push_str(&table("What the plan must buy, as purchased", &COLUMNS, &rows, page.view));
    out
}

fn row(page: &Page<'_>, balance: &ItemBalance) -> Option<(Row, Decimal)> {
    let item = page.kitchen.item(balance.item)?;
    let cost = page.costing.item(balance.item).filter(|cost| cost.from != PriceFrom::Water)?;
    let (name, size) = house_unit(&cost.kind, page.kitchen.settings.volumes);
    let money = cost.ap.cost_of(Amount::of(balance.purchase)).ok()?;
    let amount = |amount: Decimal| {
        let amount = exact::div(amount, size).ok();
        (format!("{} {name}", shown(amount, 2)), Ink::Plain)
    };
    let cells = vec![
        amount(balance.wanted),
        amount(balance.from_stock),
        amount(balance.purchase),
        (shown(Some(money), page.places), Ink::Plain),
    ];
    Some((Row { name: printable(&item.name), cells }, money))
}

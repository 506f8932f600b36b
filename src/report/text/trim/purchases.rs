//! What the plan must buy: bought items beyond what is on hand, and what stands in for short trim.

use super::super::figures::shown;
use super::super::table::{Column, Row, table};
use super::super::{Ink, printable};
use super::Page;
use crate::analysis::balance::{Balance, ItemBalance};
use crate::costing::bought::PriceFrom;
use crate::costing::kind::Kind;
use crate::costing::rate::Amount;
use crate::measure::{Unit, Volumes};
use crate::number::{Decimal, exact};

const COLUMNS: [Column; 4] = [
    Column { header: &["Wanted"], figures: true },
    Column { header: &["On", "hand"], figures: true },
    Column { header: &["To buy"], figures: true },
    Column { header: &["Money"], figures: true },
];

/// The table, and what it comes to.
pub(super) fn purchases(page: &Page<'_>, balance: &Balance) -> String {
    let rows: Vec<(Row, Decimal)> = balance.items.iter().filter_map(|item| row(page, item)).collect();
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
    let (name, size) = unit(&cost.kind, page.kitchen.settings.volumes);
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

/// What a kitchen of these volumes buys by, and its size in base units.
fn unit(kind: &Kind, volumes: Volumes) -> (String, Decimal) {
    let named = |name: &str| {
        let unit = Unit::parse(name);
        let size = unit.as_ref().and_then(|unit| unit.to_base(volumes)).map(|(_, size)| size);
        (name.to_owned(), size.unwrap_or(Decimal::ONE))
    };
    match (kind, volumes) {
        (Kind::Mass, Volumes::Metric) => named("kg"),
        (Kind::Mass, _) => named("lb"),
        (Kind::Volume, Volumes::Metric) => named("l"),
        (Kind::Volume, _) => named("qt"),
        (Kind::Each, _) => ("each".to_owned(), Decimal::ONE),
        (Kind::Own(name), _) => (name.to_string(), Decimal::ONE),
    }
}

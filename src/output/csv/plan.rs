//! The plan as tidy tables: the weights of every part, day by day where one row would be misread; what must be bought;
//! for how many portions there is enough trim.

use super::{Cell, table};
use crate::analysis::Trim;
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::results::purchases::totals;
use crate::results::trim::balance::{Weights, balance as trim_balance};
use crate::results::trim::plan;

const BALANCE: [&str; 11] =
    ["test", "part", "role", "day", "on_hand_g", "made_g", "wanted_g", "used_g", "left_over_g", "too_old_g", "short_g"];

const PURCHASES: [&str; 15] = [
    "item",
    "base_unit",
    "on_hand",
    "wanted",
    "stands_in",
    "from_stock",
    "to_buy",
    "left_over",
    "money",
    "packs",
    "money_in_whole_packs",
    "to_buy_binned",
    "money_binned",
    "currency",
    "as_of",
];

const PORTIONS: [&str; 4] = ["dish", "day", "planned", "enough"];

/// One row per part over the plan, with a blank day; and, where it is short on one day and left over from another, one for
/// each day that touched it.
pub fn balance(kitchen: &Kitchen, trim: &Trim) -> String {
    let mut rows = Vec::new();
    for test in trim_balance(kitchen, trim) {
        for part in &test.parts {
            let row = |day: &str, of: &Weights| {
                let weight = |grams| Cell::figure(Some(grams));
                [
                    Cell::text(test.test),
                    Cell::text(part.name),
                    Cell::of(Some(part.role)),
                    Cell::text(day),
                    weight(of.on_hand_g),
                    weight(of.made_g),
                    weight(of.wanted_g),
                    weight(of.used_g),
                    weight(of.left_over_g),
                    weight(of.too_old_g),
                    weight(of.short_g),
                ]
            };
            rows.push(row("", &part.weights));
            rows.extend(part.days.iter().map(|day| row(day.day, &day.weights)));
        }
    }
    table(&BALANCE, rows.into_iter())
}

/// One row per bought item, then one with a blank item for all of them.
pub fn purchases(kitchen: &Kitchen, costing: &Costing, trim: &Trim) -> String {
    let currency = || Cell::text(&kitchen.settings.currency);
    let Some(balance) = &trim.balance else { return table(&PURCHASES, std::iter::empty()) };
    let items = plan::to_buy(kitchen, costing, trim).into_iter().map(|bought| {
        let amount = |amount| Cell::figure(Some(amount));
        [
            Cell::text(bought.item),
            Cell::of(Some(bought.base_unit)),
            amount(bought.on_hand),
            amount(bought.wanted),
            amount(bought.stands_in),
            amount(bought.from_stock),
            amount(bought.to_buy),
            amount(bought.left_over),
            Cell::figure(bought.money),
            Cell::figure(bought.packs),
            Cell::figure(bought.money_in_whole_packs),
            amount(bought.to_buy_binned),
            Cell::figure(bought.money_binned),
            currency(),
            Cell::day(costing.scenario.date),
        ]
    });
    let totals = totals(kitchen, costing, balance);
    let mut all: [Cell; 15] = Default::default();
    let filled = [
        (8, Cell::number(totals.money)),
        (10, Cell::number(totals.in_whole_packs)),
        (12, Cell::number(totals.money_binned)),
        (13, currency()),
        (14, Cell::day(costing.scenario.date)),
    ];
    for (at, cell) in filled {
        all.get_mut(at).into_iter().for_each(|slot| *slot = cell.clone());
    }
    table(&PURCHASES, items.chain([all]))
}

/// One row per dish and day for which trim is short that nothing is bought in for.
pub fn portions(kitchen: &Kitchen, trim: &Trim) -> String {
    let rows = plan::enough_for(kitchen, trim).into_iter().flat_map(|enough| enough.portions).map(|one| {
        [Cell::text(one.name), Cell::text(one.day), Cell::figure(Some(one.planned)), Cell::figure(Some(one.enough))]
    });
    table(&PORTIONS, rows)
}

//! The plan as tidy tables: the weights of every part, day by day where one row would be misread; what must be bought;
//! for how many portions there is enough trim.

use super::{CsvCell, table};
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
                let weight = |grams| CsvCell::figure(Some(grams));
                [
                    CsvCell::text(test.test),
                    CsvCell::text(part.name),
                    CsvCell::of(Some(part.role)),
                    CsvCell::text(day),
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
    let currency = || CsvCell::text(&kitchen.settings.currency);
    let Some(balance) = &trim.balance else { return table(&PURCHASES, std::iter::empty()) };
    let items = plan::to_buy(kitchen, costing, trim).into_iter().map(|bought| {
        let amount = |amount| CsvCell::figure(Some(amount));
        [
            CsvCell::text(bought.item),
            CsvCell::of(Some(bought.base_unit)),
            amount(bought.on_hand),
            amount(bought.wanted),
            amount(bought.stands_in),
            amount(bought.from_stock),
            amount(bought.to_buy),
            amount(bought.left_over),
            CsvCell::figure(bought.money),
            CsvCell::figure(bought.packs),
            CsvCell::figure(bought.money_in_whole_packs),
            amount(bought.to_buy_binned),
            CsvCell::figure(bought.money_binned),
            currency(),
            CsvCell::day(costing.scenario.date),
        ]
    });
    let totals = totals(kitchen, costing, balance);
    let mut all: [CsvCell; 15] = Default::default();
    let filled = [
        (8, CsvCell::number(totals.money)),
        (10, CsvCell::number(totals.in_whole_packs)),
        (12, CsvCell::number(totals.money_binned)),
        (13, currency()),
        (14, CsvCell::day(costing.scenario.date)),
    ];
    for (at, cell) in filled {
        all.get_mut(at).into_iter().for_each(|slot| *slot = cell.clone());
    }
    table(&PURCHASES, items.chain([all]))
}

/// One row per dish and day for which trim is short that nothing is bought in for.
pub fn portions(kitchen: &Kitchen, trim: &Trim) -> String {
    let rows = plan::enough_for(kitchen, trim).into_iter().flat_map(|enough| enough.portions).map(|one| {
        [
            CsvCell::text(one.name),
            CsvCell::text(one.day),
            CsvCell::figure(Some(one.planned)),
            CsvCell::figure(Some(one.enough)),
        ]
    });
    table(&PORTIONS, rows)
}

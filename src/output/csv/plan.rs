//! The plan as tidy tables: the weights of every part, day by day where one row would be misread; what must be bought;
//! for how many portions there is enough trim.

use super::{Cell, table};
use crate::analysis::Trim;
use crate::analysis::balance::{PartBalance, Purchases};
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::number::Decimal;
use crate::results::word::{Word, base};

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

fn day_name(kitchen: &Kitchen, day: usize) -> Cell {
    Cell::text(kitchen.plan.days.names.get(day).map(String::as_str).unwrap_or_default())
}

/// One row per part over the plan, with a blank day; and, where it is short on one day and left over from another, one for
/// each day that touched it.
pub fn balance(kitchen: &Kitchen, trim: &Trim) -> String {
    let mut rows = Vec::new();
    for id in kitchen.all_parts() {
        let (Some(test), Some(part)) = (kitchen.test(id.test), kitchen.part(id)) else { continue };
        let Some((all, of_part)) = trim.balance.as_ref().and_then(|all| Some((all, all.part(id)?))) else { continue };
        let row = |day: Cell, of: &PartBalance| {
            let weight = |grams: Decimal| Cell::number(Some(grams));
            [
                Cell::text(&test.name),
                Cell::text(&part.name),
                Cell::of(Some(Word(part.role))),
                day,
                weight(of.on_hand),
                weight(of.made),
                weight(of.wanted),
                weight(of.used),
                weight(of.left_over),
                weight(of.too_old),
                weight(of.short),
            ]
        };
        rows.push(row(Cell::text(""), of_part));
        rows.extend(all.by_day(id).iter().map(|(day, of)| row(day_name(kitchen, *day), of)));
    }
    table(&BALANCE, rows.into_iter())
}

/// One row per bought item, then one with a blank item for all of them.
pub fn purchases(kitchen: &Kitchen, costing: &Costing, trim: &Trim) -> String {
    let currency = || Cell::text(&kitchen.settings.currency);
    let mut rows = Vec::new();
    let Some(balance) = &trim.balance else { return table(&PURCHASES, rows.into_iter()) };
    for (used, binned) in balance.all_items() {
        let (Some(item), Some(cost)) = (kitchen.item(used.item), costing.item(used.item)) else { continue };
        let number = |number: Decimal| Cell::number(Some(number));
        let money = |amount| Cell::number(Purchases::money(costing, used.item, amount).ok());
        let packs = Purchases::whole_packs(kitchen, costing, &used);
        rows.push([
            Cell::text(&item.name),
            Cell::of(Some(base(&cost.kind))),
            number(used.on_hand),
            number(used.wanted),
            number(used.stands_in),
            number(used.from_stock),
            number(used.purchase),
            number(used.left_over),
            money(used.purchase),
            Cell::number(packs.map(|packs| packs.packs)),
            Cell::number(packs.map(|packs| packs.money)),
            number(binned.purchase),
            money(binned.purchase),
            currency(),
            Cell::day(costing.scenario.date),
        ]);
    }
    let sums = |list: &Purchases| list.sums(costing).ok().and_then(|sums| sums.purchases);
    let mut all: [Cell; 15] = Default::default();
    let filled = [
        (8, Cell::number(sums(&balance.purchases))),
        (10, Cell::number(balance.purchases.in_whole_packs(kitchen, costing))),
        (12, Cell::number(sums(&balance.purchases_binned))),
        (13, currency()),
        (14, Cell::day(costing.scenario.date)),
    ];
    for (at, cell) in filled {
        all.get_mut(at).into_iter().for_each(|slot| *slot = cell.clone());
    }
    rows.push(all);
    table(&PURCHASES, rows.into_iter())
}

/// One row per dish and day for which trim is short that nothing is bought in for.
pub fn portions(kitchen: &Kitchen, trim: &Trim) -> String {
    let promise = trim.balance.iter().filter_map(|balance| balance.promise.as_ref());
    let rows = promise.flat_map(|promise| &promise.portions).map(|one| {
        [
            Cell::text(kitchen.served_name(one.served)),
            day_name(kitchen, one.day),
            Cell::number(Some(one.planned)),
            Cell::number(Some(one.portions)),
        ]
    });
    table(&PORTIONS, rows)
}

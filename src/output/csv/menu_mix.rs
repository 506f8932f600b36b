//! The menu mix as a tidy table.

use super::{CsvCell, table};
use crate::analysis::MenuMix;
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::results::menu_mix::groups;

const COLUMNS: [&str; 17] = [
    "group",
    "dish",
    "sold",
    "sold_percent",
    "margin",
    "margin_in_all",
    "class",
    "to_try",
    "made_of_trim",
    "margin_at_buy_in",
    "class_at_buy_in",
    "not_counted",
    "group_sold",
    "group_popular_from_percent",
    "group_average_margin",
    "currency",
    "as_of",
];

/// One row per dish, group by group; what is the whole group's stands beside each of them. Dishes that are not counted
/// follow those that are.
pub fn menu_mix(kitchen: &Kitchen, costing: &Costing, mix: &MenuMix) -> String {
    let mut rows = Vec::new();
    for group in groups(kitchen, mix) {
        let ends = || {
            [
                CsvCell::figure(group.sold),
                CsvCell::figure(group.popular_from_percent),
                CsvCell::figure(group.average_margin),
                CsvCell::text(&kitchen.settings.currency),
                CsvCell::day(costing.scenario.date),
            ]
        };
        for dish in &group.dishes {
            let [sold, popular_from, average, currency, as_of] = ends();
            rows.push([
                CsvCell::text(group.name),
                CsvCell::text(dish.name),
                CsvCell::figure(Some(dish.sold)),
                CsvCell::figure(dish.sold_percent),
                CsvCell::figure(dish.margin),
                CsvCell::figure(dish.margin_in_all),
                CsvCell::of(dish.class),
                CsvCell::word(dish.to_try.unwrap_or_default()),
                CsvCell::word(if dish.made_of_trim { "yes" } else { "no" }),
                CsvCell::figure(dish.margin_at_buy_in),
                CsvCell::of(dish.class_at_buy_in),
                CsvCell::default(),
                sold,
                popular_from,
                average,
                currency,
                as_of,
            ]);
        }
        for dish in &group.not_counted {
            let [sold, popular_from, average, currency, as_of] = ends();
            let mut row: [CsvCell; 17] = Default::default();
            let [group_name, name, .., because, at, from, mean, money, day] = &mut row;
            (*group_name, *name) = (CsvCell::text(group.name), CsvCell::text(dish.name));
            *because = CsvCell::of(Some(dish.because));
            (*at, *from, *mean, *money, *day) = (sold, popular_from, average, currency, as_of);
            rows.push(row);
        }
    }
    table(&COLUMNS, rows.into_iter())
}

//! Food-cost control as tidy tables: the periods, and what was counted item by item.

use super::{CsvCell, table};
use crate::analysis::FoodControl;
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::results::counted_use::{CountedMoneyResult, count_lack};
use crate::results::food_control::{counted, periods, standard};
use crate::results::value::Figure;
use crate::results::word::Word;

const COLUMNS: [&str; 29] = [
    "period",
    "first_day",
    "last_day",
    "opening",
    "purchases",
    "transfers_in",
    "transfers_out",
    "closing",
    "food_consumed",
    "staff_meals",
    "comps",
    "trim_sold",
    "food_sold",
    "sales",
    "food_cost_percent",
    "waste",
    "portions",
    "standard_cost",
    "standard_percent",
    "variance",
    "variance_points",
    "waste_points",
    "unexplained",
    "unexplained_points",
    "no_standard",
    "counted_gap",
    "currency",
    "priced_on",
    "as_of",
];

/// One row per period; the standard stands beside the one that it is of.
pub fn food_control(kitchen: &Kitchen, costing: &Costing, control: &FoodControl) -> String {
    let standard = standard(kitchen, control);
    let rows = periods(kitchen, control).map(|period| {
        let of = standard.as_ref();
        [
            CsvCell::text(period.period),
            period.first_day.map(|day| CsvCell::day(day.0)).unwrap_or_default(),
            period.last_day.map(|day| CsvCell::day(day.0)).unwrap_or_default(),
            CsvCell::figure(period.opening),
            CsvCell::figure(period.purchases),
            CsvCell::figure(period.transfers_in),
            CsvCell::figure(period.transfers_out),
            CsvCell::figure(period.closing),
            CsvCell::figure(period.food_consumed),
            CsvCell::figure(period.staff_meals),
            CsvCell::figure(period.comps),
            CsvCell::figure(period.trim_sold),
            CsvCell::figure(period.food_sold),
            CsvCell::figure(period.sales),
            CsvCell::figure(period.food_cost_percent),
            CsvCell::figure(period.waste),
            CsvCell::figure(of.and_then(|of| of.portions)),
            CsvCell::figure(of.and_then(|of| of.cost)),
            CsvCell::figure(of.and_then(|of| of.food_cost_percent)),
            CsvCell::figure(of.and_then(|of| of.variance)),
            CsvCell::figure(of.and_then(|of| of.variance_points)),
            CsvCell::figure(of.and_then(|of| of.waste_points)),
            CsvCell::figure(of.and_then(|of| of.unexplained)),
            CsvCell::figure(of.and_then(|of| of.unexplained_points)),
            CsvCell::of(control.standard.as_ref().err().copied().map(Word)),
            CsvCell::number(control.counted.as_ref().and_then(|counted| Some(counted.all?.gap))),
            CsvCell::text(&kitchen.settings.currency),
            CsvCell::day(control.priced_on),
            CsvCell::day(costing.scenario.date),
        ]
    });
    table(&COLUMNS, rows)
}

const ITEM_COLUMNS: [&str; 23] = [
    "item",
    "unit",
    "opening",
    "purchases",
    "transfers_in",
    "transfers_out",
    "closing",
    "used",
    "standard_use",
    "opening_price",
    "price",
    "opening_value",
    "closing_value",
    "actual_cost",
    "standard_cost",
    "gap",
    "of_price",
    "of_mix",
    "of_use",
    "waste",
    "lacking",
    "currency",
    "priced_on",
];

/// One row per counted item.
pub fn counted_items(kitchen: &Kitchen, costing: &Costing, control: &FoodControl) -> String {
    let counted = counted(kitchen, costing, control);
    let items = counted.into_iter().flat_map(|counted| counted.items);
    let rows = items.map(|item| {
        let of = |figure: fn(&CountedMoneyResult) -> Figure| CsvCell::figure(item.money.as_ref().map(figure));
        let lacking = item.lacking.iter().map(|cell| format!("{} {}", cell.column, count_lack(cell.because.0)));
        [
            CsvCell::text(item.name),
            CsvCell::text(&item.unit),
            CsvCell::figure(item.opening),
            CsvCell::figure(item.purchases),
            CsvCell::figure(item.transfers_in),
            CsvCell::figure(item.transfers_out),
            CsvCell::figure(item.closing),
            CsvCell::figure(item.used),
            CsvCell::figure(item.standard_use),
            CsvCell::figure(item.opening_price),
            CsvCell::figure(item.price),
            CsvCell::figure(item.opening_value),
            CsvCell::figure(item.closing_value),
            of(|money| money.actual_cost),
            of(|money| money.standard_cost),
            of(|money| money.gap),
            of(|money| money.of_price),
            of(|money| money.of_mix),
            of(|money| money.of_use),
            of(|money| money.waste),
            CsvCell::text(&lacking.collect::<Vec<String>>().join("; ")),
            CsvCell::text(&kitchen.settings.currency),
            CsvCell::day(control.priced_on),
        ]
    });
    table(&ITEM_COLUMNS, rows)
}

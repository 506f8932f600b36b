//! Food-cost control as a tidy table.

use super::{CsvCell, table};
use crate::analysis::FoodControl;
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::results::food_control::{periods, standard};
use crate::results::word::Word;

const COLUMNS: [&str; 25] = [
    "period",
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
    "currency",
    "as_of",
];

/// One row per period; the standard stands beside the one that it is of.
pub fn food_control(kitchen: &Kitchen, costing: &Costing, control: &FoodControl) -> String {
    let standard = standard(kitchen, control);
    let rows = periods(kitchen, control).map(|period| {
        let of = standard.as_ref();
        [
            CsvCell::text(period.period),
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
            CsvCell::text(&kitchen.settings.currency),
            CsvCell::day(costing.scenario.date),
        ]
    });
    table(&COLUMNS, rows)
}

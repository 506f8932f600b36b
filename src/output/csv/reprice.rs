//! New prices as a tidy table: one row per dish that moved and item that drove it. The rows of a dish add up to its
//! change.

use super::Cell;
use super::table;
use crate::results::changes::Changes;
use crate::results::reprice::dishes;

const COLUMNS: [&str; 13] = [
    "dish",
    "portion_cost_before",
    "portion_cost_now",
    "change",
    "worth",
    "food_cost_percent_before",
    "food_cost_percent_now",
    "target_percent",
    "price_at_target_now",
    "driver",
    "driver_change",
    "driver_credit",
    "as_of",
];

/// The table.
pub fn reprice(changes: &Changes<'_>) -> String {
    let as_of = changes.now.scenario.date;
    let rows = dishes(changes).into_iter().flat_map(|dish| {
        let head = [
            Cell::text(dish.name),
            Cell::figure(Some(dish.before.portion_cost)),
            Cell::figure(Some(dish.now.portion_cost)),
            Cell::figure(Some(dish.change)),
            Cell::figure(dish.worth),
            Cell::figure(dish.before.food_cost_percent),
            Cell::figure(dish.now.food_cost_percent),
            Cell::figure(dish.target_percent),
            Cell::figure(dish.now.price_at_target),
        ];
        let mut drivers: Vec<(Cell, Cell, Cell)> = Vec::new();
        match &dish.drivers {
            Some(known) => {
                drivers.extend(
                    known
                        .iter()
                        .map(|one| (Cell::text(one.item), Cell::figure(Some(one.change)), Cell::of(one.credit))),
                );
                let rest = [("many small ones", dish.together), ("no one item", dish.other)];
                let rest = rest.into_iter().filter(|(_, change)| change.is_some_and(|change| !change.0.is_zero()));
                drivers.extend(rest.map(|(name, change)| (Cell::word(name), Cell::figure(change), Cell::default())));
            }
            None => drivers.push(Default::default()),
        }
        drivers.into_iter().map(move |(driver, change, credit)| {
            let [a, b, c, d, e, f, g, h, i] = head.clone();
            [a, b, c, d, e, f, g, h, i, driver, change, credit, Cell::day(as_of)]
        })
    });
    table(&COLUMNS, rows)
}

//! New prices as a tidy table: one row per dish that moved and item that drove it. The rows of a dish add up to its
//! change.

use super::CsvCell;
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
    let rows =
        dishes(changes).into_iter().flat_map(|dish| {
            let head = [
                CsvCell::text(dish.name),
                CsvCell::figure(Some(dish.before.portion_cost)),
                CsvCell::figure(Some(dish.now.portion_cost)),
                CsvCell::figure(Some(dish.change)),
                CsvCell::figure(dish.worth),
                CsvCell::figure(dish.before.food_cost_percent),
                CsvCell::figure(dish.now.food_cost_percent),
                CsvCell::figure(dish.target_percent),
                CsvCell::figure(dish.now.price_at_target),
            ];
            let mut drivers: Vec<(CsvCell, CsvCell, CsvCell)> = Vec::new();
            match &dish.drivers {
                Some(known) => {
                    drivers.extend(known.iter().map(|one| {
                        (CsvCell::text(one.item), CsvCell::figure(Some(one.change)), CsvCell::of(one.credit))
                    }));
                    let rest = [("many small ones", dish.together), ("no one item", dish.other)];
                    let rest = rest.into_iter().filter(|(_, change)| change.is_some_and(|change| !change.0.is_zero()));
                    drivers.extend(
                        rest.map(|(name, change)| (CsvCell::word(name), CsvCell::figure(change), CsvCell::default())),
                    );
                }
                None => drivers.push(Default::default()),
            }
            drivers.into_iter().map(move |(driver, change, credit)| {
                let [a, b, c, d, e, f, g, h, i] = head.clone();
                [a, b, c, d, e, f, g, h, i, driver, change, credit, CsvCell::day(as_of)]
            })
        });
    table(&COLUMNS, rows)
}

//! What new prices do, as a tidy table: one row per dish that moved and item that drove it. The rows of a dish add up to its
//! change.

use super::{number, percent, table, text};
use crate::report::changes::Changes;

const COLUMNS: [&str; 12] = [
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
    "as_of",
];

/// The table.
pub fn reprice(changes: &Changes<'_>) -> String {
    let as_of = changes.now.scenario.date.to_string();
    let rows = changes.effects.dishes.iter().flat_map(|effect| {
        let dish = changes.new.dishes.get(effect.dish);
        let head = [
            dish.map(|dish| text(&dish.name)).unwrap_or_default(),
            number(Some(effect.was.portion_cost)),
            number(Some(effect.now.portion_cost)),
            number(Some(effect.change)),
            number(effect.worth.as_ref().ok().copied()),
            percent(effect.was.food_cost),
            percent(effect.now.food_cost),
            percent(dish.and_then(|dish| dish.target)),
            number(effect.now.price_at_target),
        ];
        let mut drivers: Vec<(String, String)> = Vec::new();
        match &effect.drivers {
            Ok(known) => {
                drivers.extend(known.items.iter().map(|one| (text(changes.item(one.item)), number(Some(one.change)))));
                let rest = [("many small ones", known.together), ("no one item", known.other)];
                let rest = rest.into_iter().filter(|(_, change)| !change.is_zero());
                drivers.extend(rest.map(|(name, change)| (name.to_owned(), number(Some(change)))));
            }
            Err(_) => drivers.push((String::new(), String::new())),
        }
        let as_of = as_of.clone();
        drivers.into_iter().map(move |(driver, change)| {
            let [a, b, c, d, e, f, g, h, i] = head.clone();
            [a, b, c, d, e, f, g, h, i, driver, change, as_of.clone()]
        })
    });
    table(&COLUMNS, rows)
}

//! New prices as a tidy table: one row per dish that moved and item that drove it. The rows of a dish add up to its
//! change.

use super::Cell;
use super::table;
use crate::results::changes::Changes;
use crate::results::word::Word;

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
    let rows = changes.effects.dishes.iter().flat_map(|effect| {
        let dish = changes.new.dishes.get(effect.dish);
        let head = [
            Cell::text(dish.map(|dish| dish.name.as_str()).unwrap_or_default()),
            Cell::number(Some(effect.was.portion_cost)),
            Cell::number(Some(effect.now.portion_cost)),
            Cell::number(Some(effect.change)),
            Cell::number(effect.worth.as_ref().ok().copied()),
            Cell::percent(effect.was.food_cost),
            Cell::percent(effect.now.food_cost),
            Cell::percent(dish.and_then(|dish| dish.target)),
            Cell::number(effect.now.price_at_target),
        ];
        let mut drivers: Vec<(Cell, Cell, Cell)> = Vec::new();
        match &effect.drivers {
            Ok(known) => {
                let cells = |name: &str, change| (Cell::text(name), Cell::number(Some(change)), Cell::default());
                drivers.extend(known.items.iter().map(|one| {
                    let (name, change, _) = cells(changes.item(one.item), one.change);
                    (name, change, Cell::of(changes.by_credit(one).map(Word)))
                }));
                let rest = [("many small ones", known.together), ("no one item", known.other)];
                drivers.extend(
                    rest.into_iter().filter(|(_, change)| !change.is_zero()).map(|(name, change)| cells(name, change)),
                );
            }
            Err(_) => drivers.push((Cell::text(""), Cell::number(None), Cell::default())),
        }
        drivers.into_iter().map(move |(driver, change, credit)| {
            let [a, b, c, d, e, f, g, h, i] = head.clone();
            [a, b, c, d, e, f, g, h, i, driver, change, credit, Cell::day(as_of)]
        })
    });
    table(&COLUMNS, rows)
}

//! Items missing from a list: what the kitchen buys of that supplier.

use super::candidates::Sorted;
use super::past::Past;
use super::{Delisted, PriceList};
use crate::problem::names::Names;

/// The items whose newest price is of one of the suppliers and of which their lists say nothing.
pub(super) fn of(past: &Past<'_>, sorted: &Sorted, list: &PriceList) -> Vec<Delisted> {
    let mut missing = Vec::new();
    let unknown = list.unknown.iter().filter_map(|unknown| list.rows.get(unknown.row));
    let names: Names = unknown.map(|row| row.item.as_str()).filter(|name| !name.is_empty()).collect();
    for (id, item) in past.items() {
        let Some((before, row)) = past.newest_of_all(item) else { continue };
        if sorted.seen.contains(&id) || !sorted.is_whose(&row.supplier) {
            continue;
        }
        let price = match row.date.given() {
            Some(date) => format!("The price of {date} stays in use"),
            None => "The price in the book stays in use".to_owned(),
        };
        let question = names.did_you_mean(&item.name);
        let what_to_do = match question {
            Some(_) => format!("{price}. If that is it, write its name in Also called, or its code in Code."),
            None => format!("{price}. Ask whether “{}” still sells it, or under which code.", row.supplier),
        };
        missing.push(Delisted { item: id, before, question, what_to_do });
    }
    missing
}

//! The plan, the stock list and the counts with their names found. A name that is not there is a problem of its row alone.

use std::collections::HashMap;

use super::lookups::{Asker, Lookups};
use crate::kitchen::days::Days;
use crate::kitchen::menu::Dish;
use crate::kitchen::plan::{OnHand, OnOrder, Plan, Planned, Served, StockCount};
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::{Entries, Field, NameKey};
use crate::problem::names::Names;
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// Lists what is planned. A row without portions plans nothing.
pub(super) fn list(entries: &Entries, dishes: &[Dish], lookups: &Lookups, problems: &mut Vec<Problem>) -> Plan {
    let mut named: HashMap<NameKey, usize> = HashMap::new();
    for (index, dish) in dishes.iter().enumerate() {
        named.entry(NameKey::of(&dish.name)).or_insert(index);
    }
    let dish_names: Names = dishes.iter().map(|dish| dish.name.as_str()).collect();
    let (days, day_of) = Days::of(entries.plan.iter().map(|row| (row.day.as_str(), row.date)));
    let mut plan = Plan { days, ..Plan::default() };
    for (index, row) in entries.plan.iter().enumerate() {
        let dish = named.get(&NameKey::of(&row.dish)).copied().map(Served::Dish);
        let served = dish.or_else(|| lookups.recipe_named(&row.dish).map(Served::Recipe));
        if served.is_none() {
            let help = dish_names
                .did_you_mean(&row.dish)
                .unwrap_or_else(|| "Add it to the menu, or correct the spelling.".to_owned());
            let message = format!("there is no dish called “{}”", row.dish);
            problems.push(Fault::new(Code::NameUnknown, message, help).at(row.input.place(Column::Dish)));
        }
        match (served, row.portions.given()) {
            (Some(served), Some(portions)) => {
                let day = day_of.get(index).copied().unwrap_or_default();
                plan.rows.push(Planned { served, portions: *portions, day, row: index });
            }
            _ if row.portions == Field::Blank => {}
            _ => plan.unread.push(index),
        }
    }
    plan
}

/// Lists what is on hand.
pub(super) fn stock(entries: &Entries, lookups: &mut Lookups, problems: &mut Vec<Problem>) -> Vec<OnHand> {
    let mut stock = Vec::new();
    for (index, row) in entries.stock.iter().enumerate() {
        match lookups.find(&row.item, Asker::Other) {
            Ok(_) if row.on_hand == Field::Blank => {}
            Ok(source) => stock.push(OnHand { source, amount: row.on_hand.given().cloned(), row: index }),
            Err(fault) => problems.push(fault.at(row.input.place(Column::Item))),
        }
    }
    stock
}

/// Lists what is on order: of a part or recipe that is sold under the same name too, what is bought. A name that is not
/// there is told by the stock.
pub(super) fn on_order(entries: &Entries, lookups: &mut Lookups, problems: &mut Vec<Problem>) -> Vec<OnOrder> {
    let mut all = Vec::new();
    for (index, row) in entries.stock.iter().enumerate().filter(|(_, row)| row.on_order != Field::Blank) {
        let Ok(source) = lookups.find(&row.item, Asker::Other) else { continue };
        let bought = match source {
            IngredientSource::Bought(item) => Some(item),
            _ => lookups.bought(&row.item),
        };
        match bought {
            Some(item) => all.push(OnOrder { item, amount: row.on_order.given().cloned(), row: index }),
            None => {
                let message = format!("“{}” is on order, and no price row of this name says what is bought", row.item);
                let help = "Name what is ordered as it is called in the price list, or clear On order.";
                problems.push(Fault::new(Code::NameUnknown, message, help).at(row.input.place(Column::OnOrder)));
            }
        }
    }
    all
}

/// Lists what was counted.
pub(super) fn counts(entries: &Entries, lookups: &mut Lookups, problems: &mut Vec<Problem>) -> Vec<StockCount> {
    let mut counts = Vec::new();
    for (row, count) in entries.counts.iter().enumerate() {
        match lookups.find(&count.item, Asker::Other) {
            Ok(source) => counts.push(StockCount { source, row }),
            Err(fault) => problems.push(fault.at(count.input.place(Column::Item))),
        }
    }
    counts
}

//! Price history of the bought items whose prices moved most: what the supplier of the price in use has asked for each.

use schemars::JsonSchema;
use serde::Serialize;

use super::display_units::base_unit;
use super::value::{Day, Figure, percent};
use crate::analysis::price_history::{Histories, History};
use crate::costing::Costing;
use crate::kitchen::Kitchen;

/// What one item has cost over time.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "PriceHistory")]
pub struct PriceHistory<'a> {
    /// The item.
    pub item: &'a str,
    /// The unit of its prices: g, ml, each, or the name of a kitchen's own measure.
    pub base_unit: String,
    /// Its newest price in % of its first.
    pub now_percent: Option<Figure>,
    /// What it cost on each of the days on which any item of the list moved, the oldest first; a day before its first price is not among them.
    pub prices: Vec<PriceOnDay>,
}

/// What an item cost from a day on.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "PriceOnDay")]
pub struct PriceOnDay {
    /// The day.
    pub from: Day,
    /// Money per base unit as purchased.
    pub unit_price: Option<Figure>,
    /// That in % of its first price.
    pub percent_of_first: Option<Figure>,
}

impl<'a> PriceHistory<'a> {
    /// The items whose price in use has moved since an older row, the one that moved most first.
    pub(crate) fn all(kitchen: &'a Kitchen, costing: &Costing) -> Vec<PriceHistory<'a>> {
        let Some(histories) = Histories::of(kitchen, costing) else { return Vec::new() };
        let items = histories.items.iter();
        items.filter_map(|history| PriceHistory::of(kitchen, costing, &histories, history)).collect()
    }

    fn of(kitchen: &'a Kitchen, costing: &Costing, all: &Histories, history: &History) -> Option<Self> {
        let days = all.days.iter().zip(&history.on);
        let prices = days.filter_map(|(day, on)| {
            let (row, over) = (*on)?;
            let cost = costing.rows.get(row)?.as_ref()?;
            let unit_price = cost.ap.unit_cost().ok().map(Figure);
            Some(PriceOnDay { from: Day(*day), unit_price, percent_of_first: percent(over) })
        });
        Some(PriceHistory {
            item: &kitchen.item(history.item)?.name,
            base_unit: base_unit(&costing.item(history.item)?.kind),
            now_percent: percent(history.now),
            prices: prices.collect(),
        })
    }
}

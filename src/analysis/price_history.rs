//! Price history of the items that moved most: what the supplier of the price in use has asked for each, over its first
//! price.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;

use crate::costing::price::bought::PriceFrom;
use crate::costing::price::in_use::{HistoryKey, RowState, history_of};
use crate::costing::{Costing, RowCost};
use crate::in_order::InOrder;
use crate::kitchen::price::{Item, Price};
use crate::kitchen::{Field, ItemId, Kitchen};
use crate::number::{Decimal, exact};

/// The most items and days: as many as can be told apart.
const MOST_ITEMS: usize = 5;
const MOST_DAYS: usize = 24;

/// Prices over time, side by side.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Histories {
    /// The days on which any of them moved, the oldest first.
    pub days: Vec<Date>,
    /// The items, the one that moved most first.
    pub items: Vec<History>,
}

/// What one item has cost.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct History {
    /// The item.
    pub item: ItemId,
    /// Beside the days the price row that counted, as an index into the entries, and its price over the first one's; `None`
    /// before that.
    pub on: Vec<Option<(usize, Decimal)>>,
    /// The first price row.
    pub first: usize,
    /// Its newest price over its first.
    pub now: Decimal,
}

impl Histories {
    /// Those of a kitchen's costing, up to its day; `None` where no price in use has moved since an older row.
    pub(crate) fn of(kitchen: &Kitchen, costing: &Costing) -> Option<Self> {
        let items = (0..kitchen.items.len()).map(ItemId::new).zip(&kitchen.items);
        let mut moved: Vec<Dated> = items.filter_map(|(id, item)| Dated::of(kitchen, costing, id, item)).collect();
        moved.put_in_order_by_key(|dated| (Reverse(dated.moved), dated.item));
        moved.truncate(MOST_ITEMS);
        let all: BTreeSet<Date> = moved.iter().flat_map(|dated| dated.prices.keys().copied()).collect();
        let days: Vec<Date> = all.iter().skip(all.len().saturating_sub(MOST_DAYS)).copied().collect();
        let items: Vec<History> = moved.into_iter().map(|dated| dated.over(&days)).collect();
        (!items.is_empty()).then_some(Histories { days, items })
    }
}

/// The dated prices of an item.
struct Dated {
    item: ItemId,
    /// The row that counts from a day on, and its price over the first.
    prices: BTreeMap<Date, (usize, Decimal)>,
    first: usize,
    now: Decimal,
    /// By how much the newest is apart from the first.
    moved: Decimal,
}

impl Dated {
    fn of(kitchen: &Kitchen, costing: &Costing, id: ItemId, item: &Item) -> Option<Self> {
        let PriceFrom::Row(in_use) = costing.item(id)?.from else { return None };
        let used = kitchen.entries.prices.get(in_use)?;
        let of = costing.rows.get(in_use)?.as_ref()?;
        let (supplier, code, pack) = history_of(used);
        let mut rows: BTreeMap<Date, (usize, &RowCost)> = BTreeMap::new();
        for index in &item.rows {
            let Some((row, Some(cost))) = kitchen.entries.prices.get(*index).zip(costing.rows.get(*index)) else {
                continue;
            };
            let history: HistoryKey = history_of(row);
            let priced = matches!(row.price, Field::Given(Price::Money(_))) && cost.kind == of.kind;
            let told_otherwise = costing.row_states.get(*index) == Some(&RowState::Contradicted);
            let Some(date) = row.date.given().copied().filter(|date| *date <= costing.scenario.date) else { continue };
            if !priced || told_otherwise || history.0 != supplier || history.1 != code {
                continue;
            }
            // Of several of one day the one in use counts, else that of its pack.
            let better = *index == in_use || (history.2 == pack && rows.get(&date).is_none_or(|(at, _)| *at != in_use));
            if better || !rows.contains_key(&date) {
                rows.insert(date, (*index, cost));
            }
        }
        let (first, cost) = *rows.values().next()?;
        let price = |cost: &RowCost| cost.ap.unit_cost().ok();
        let from = price(cost).filter(|price| !price.is_zero())?;
        let mut prices = BTreeMap::new();
        for (date, (row, cost)) in rows {
            prices.insert(date, (row, exact::div(price(cost)?, from).ok()?));
        }
        let now = prices.values().next_back()?.1;
        let moved = exact::sub(now, Decimal::ONE).ok()?.abs();
        (prices.len() > 1 && !moved.is_zero()).then_some(Dated { item: id, prices, first, now, moved })
    }

    /// The price on each of the days.
    fn over(self, days: &[Date]) -> History {
        let on = days.iter().map(|day| self.prices.range(..=*day).next_back().map(|(_, price)| *price)).collect();
        History { item: self.item, on, first: self.first, now: self.now }
    }
}

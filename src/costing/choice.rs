//! Which price row of an item counts on the day: the newest of each history, the preferred supplier's, else the most
//! recent, ties to the cheapest per EP unit.

mod suppliers;

use indexmap::IndexMap;
use jiff::civil::Date;

use super::bought::{self, ItemCost, PriceFrom, RowCost};
use super::kind::Kind;
use super::rate::Rate;
use super::scenario::Scenario;
use crate::kitchen::price::{Item, Price, PriceRow};
use crate::kitchen::settings::Setting;
use crate::kitchen::{Field, Kitchen, NameKey};
use crate::number::Decimal;
use crate::problem::{Code, Fault, Problem, THERE};
use crate::schema::Column;

/// Why a price row is used or not.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RowState {
    /// It is the price in use.
    InUse,
    /// A newer price of the same pack has replaced it.
    Older,
    /// It begins after the costing date.
    Later,
    /// Another supplier or pack is preferred or newer.
    Other,
    /// Another row of the same day is cheaper per EP unit.
    Dearer,
    /// It could not be read.
    Broken,
}

impl RowState {
    /// In words.
    pub fn word(self) -> &'static str {
        match self {
            RowState::InUse => "in use",
            RowState::Older => "older price",
            RowState::Later => "not yet",
            RowState::Other => "not chosen",
            RowState::Dearer => "dearer",
            RowState::Broken => "not read",
        }
    }
}

/// What a price list comes to.
pub(super) struct Priced {
    /// Every price row per unit.
    pub(super) rows: Vec<Option<RowCost>>,
    /// Why every price row is used or not.
    pub(super) states: Vec<RowState>,
    /// The items.
    pub(super) items: Vec<Option<ItemCost>>,
    /// The problems met.
    pub(super) problems: Vec<Problem>,
}

/// All price rows and items.
pub(super) fn all(kitchen: &Kitchen, scenario: &Scenario) -> Priced {
    let mut problems = Vec::new();
    let volumes = kitchen.settings.volumes;
    let known = !kitchen.settings.is_broken(Setting::Volumes);
    let mut rows: Vec<Option<RowCost>> = Vec::with_capacity(kitchen.entries.prices.len());
    for row in &kitchen.entries.prices {
        let priced = known || !bought::varies(row);
        rows.push(if priced { bought::row_cost(row, volumes, &mut problems) } else { None });
    }
    let mut states: Vec<RowState> =
        rows.iter().map(|row| if row.is_some() { RowState::Other } else { RowState::Broken }).collect();
    let mut items = Vec::with_capacity(kitchen.items.len());
    for item in &kitchen.items {
        let mut choice = Choice { kitchen, scenario, rows: &rows, states: &mut states, problems: &mut problems };
        items.push(choice.item(item));
    }
    Priced { rows, states, items, problems }
}

/// Rows of one item's supplier, code and pack: one price history.
pub type HistoryKey = (NameKey, String, String);

/// The history that a price row belongs to, among those of its item.
pub fn history_of(row: &PriceRow) -> HistoryKey {
    (NameKey::of(&row.supplier), row.code.to_lowercase(), pack_key(row))
}

/// The choice among the price rows of items.
struct Choice<'a> {
    kitchen: &'a Kitchen,
    scenario: &'a Scenario,
    rows: &'a [Option<RowCost>],
    states: &'a mut Vec<RowState>,
    problems: &'a mut Vec<Problem>,
}

impl<'a> Choice<'a> {
    fn row(&self, index: usize) -> Option<&'a PriceRow> {
        self.kitchen.entries.prices.get(index)
    }

    fn set(&mut self, index: usize, state: RowState) {
        if let Some(slot) = self.states.get_mut(index)
            && (*slot != RowState::Broken || state == RowState::InUse)
        {
            *slot = state;
        }
    }

    /// What an item costs by the row that counts. `None` when a reported problem stops it.
    fn item(&mut self, item: &Item) -> Option<ItemCost> {
        if item.broken {
            return None;
        }
        if item.rows.is_empty() {
            return self.without_rows(item);
        }
        let no_day = self.kitchen.settings.is_broken(Setting::CostingDate);
        let mut histories: IndexMap<HistoryKey, Vec<usize>> = IndexMap::new();
        for index in &item.rows {
            let row = self.row(*index)?;
            // Without a costing date, which of dated prices counts would be a guess.
            if row.date.is_broken() || row.preferred.is_broken() || (no_day && row.date.given().is_some()) {
                return None;
            }
            histories.entry(history_of(row)).or_default().push(*index);
        }
        let mut current = Vec::new();
        for rows in histories.values() {
            match self.newest(rows) {
                Newest::Row(index) => current.push(index),
                Newest::None => {}
                Newest::Stop => return None,
            }
        }
        if current.is_empty() {
            self.no_price(item);
            return None;
        }
        let chosen = self.choose(item, &histories, current)?;
        self.finish(item, chosen, &histories)
    }

    fn without_rows(&mut self, item: &Item) -> Option<ItemCost> {
        if let Some(paid) = &item.test_price {
            let (kind, per) = Kind::of(&paid.per, self.kitchen.settings.volumes);
            let ap = Rate { money: paid.price, per };
            return Some(ItemCost {
                from: PriceFrom::TestRow(paid.row),
                kind,
                ap,
                row_yield: None,
                reference: Field::Blank,
            });
        }
        item.is_water.then_some(ItemCost {
            from: PriceFrom::Water,
            kind: Kind::Volume,
            ap: Rate { money: Decimal::ZERO, per: Decimal::ONE },
            row_yield: None,
            reference: Field::Blank,
        })
    }

    /// The newest row on or before the day. A blank date is the oldest; two rows of one day must agree.
    fn newest(&mut self, rows: &[usize]) -> Newest {
        let day = |index: &usize| self.row(*index).and_then(|row| row.date.given().copied());
        let (past, later): (Vec<usize>, Vec<usize>) =
            rows.iter().copied().partition(|index| day(index).is_none_or(|date| date <= self.scenario.date));
        let newest = past.iter().map(day).max();
        let (mut now, older): (Vec<usize>, Vec<usize>) =
            past.iter().copied().partition(|index| Some(day(index)) == newest);
        later.into_iter().for_each(|index| self.set(index, RowState::Later));
        older.into_iter().for_each(|index| self.set(index, RowState::Older));
        let Some(first) = now.first().copied() else { return Newest::None };
        let others = now.split_off(1);
        for other in others {
            let (Some(a), Some(b)) = (self.row(first), self.row(other)) else { continue };
            if a.price == b.price && a.per == b.per && a.trim_yield == b.trim_yield {
                // The same price again; what it says of allergens counts as much.
                continue;
            }
            let when = b.date.given().map_or_else(|| "no date".to_owned(), Date::to_string);
            self.problems.push(
                Fault::new(
                    Code::PriceRowTwice,
                    format!("“{}” has another price for the same pack and {when} at {THERE}", b.item),
                    "Give the newer row its Date, or delete the wrong one.",
                )
                .speaking_of(a.input.place(Column::Price))
                .at(b.input.place(Column::Price)),
            );
            return Newest::Stop;
        }
        Newest::Row(first)
    }

    fn no_price(&mut self, item: &Item) {
        let Some(row) = item.rows.first().and_then(|index| self.row(*index)) else { return };
        self.problems.push(
            Fault::new(
                Code::PriceMissing,
                format!("“{}” has no price on or before {}", item.name, self.scenario.date),
                "Add a price row of that day or before, or cost a later day.",
            )
            .at(row.input.place(Column::Date)),
        );
    }

    fn finish(&mut self, item: &Item, chosen: usize, histories: &IndexMap<HistoryKey, Vec<usize>>) -> Option<ItemCost> {
        let row = self.row(chosen)?;
        let mut cost = self.rows.get(chosen)?.clone()?;
        let mut from = chosen;
        if row.price == Field::Given(Price::Market) {
            let history = histories.values().find(|rows| rows.contains(&chosen))?;
            (from, cost) = self.last_dated(item, chosen, history)?;
        }
        self.set(from, RowState::InUse);
        self.check_age(item, from);
        let row_yield = bought::stated_yield(self.kitchen, self.scenario.date, item, chosen);
        let ap = cost.ap;
        let reference = bought::stated_reference(self.kitchen, self.scenario.date, item, chosen);
        Some(ItemCost { from: PriceFrom::Row(from), kind: cost.kind, ap, row_yield, reference })
    }

    /// The row with the last price before a market price.
    fn last_price(&self, market: usize, history: &[usize]) -> Option<usize> {
        let day = |index: &usize| self.row(*index).and_then(|row| row.date.given().copied());
        let limit = day(&market).unwrap_or(self.scenario.date);
        let priced =
            |index: &usize| matches!(self.row(*index).map(|row| &row.price), Some(Field::Given(Price::Money(_))));
        let before = |index: &usize| day(index).is_none_or(|date| date <= limit);
        history.iter().copied().filter(|index| priced(index) && before(index)).max_by_key(day)
    }

    /// The last dated price that a market price falls back on.
    fn last_dated(&mut self, item: &Item, market: usize, history: &[usize]) -> Option<(usize, RowCost)> {
        let last = self.last_price(market, history);
        let place = self.row(market)?.input.place(Column::Price);
        let Some(last) = last else {
            self.problems.push(
                Fault::new(
                    Code::PriceMissing,
                    format!("“{}” is at market price and has no dated price before", item.name),
                    "Type the price paid, or add a row with the last price and its Date.",
                )
                .at(place),
            );
            return None;
        };
        let known = self.row(last)?;
        self.problems.push(
            Fault::new(
                Code::PriceIsMarket,
                format!("“{}” is at market price; the last price, at {THERE}, is used", item.name),
                "Type today's price when you know it.",
            )
            .speaking_of(known.input.place(Column::Price))
            .at(place),
        );
        Some((last, self.rows.get(last)?.clone()?))
    }

    fn check_age(&mut self, item: &Item, index: usize) {
        let Some(row) = self.row(index) else { return };
        let Some(date) = row.date.given() else { return };
        let Ok(age) = date.until(self.scenario.date) else { return };
        let days = age.get_days();
        if Decimal::from(days) > self.kitchen.settings.price_age {
            self.problems.push(
                Fault::new(
                    Code::PriceOld,
                    format!("the price of “{}” is {days} days old", item.name),
                    format!(
                        "Ask for a new price, or raise the setting Price age (now {} days).",
                        self.kitchen.settings.price_age
                    ),
                )
                .at(row.input.place(Column::Date)),
            );
        }
    }
}

enum Newest {
    Row(usize),
    None,
    Stop,
}

/// A pack by what it says, so that `6/5 lb` and `6 / 5 LB` are one.
pub fn pack_key(row: &PriceRow) -> String {
    match &row.pack {
        Field::Given(pack) => pack.read_as.to_lowercase(),
        _ => [Column::Pack, Column::PackCount, Column::UnitSize, Column::SizeUnit]
            .map(|column| row.input.text(column).to_lowercase())
            .join("/"),
    }
}

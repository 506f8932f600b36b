//! Price in use, the row of an item that counts on the day: of those that have begun and not ended the newest of each
//! history, the preferred supplier's, else the most recent, ties to the cheapest per EP unit, then per AP unit, then by
//! name.
//!
//! A row at fault stops its item when it would be the one in use, or when that cannot be told; otherwise it is left out. The
//! order of rows decides nothing.

mod among_suppliers;
mod cheapest;
mod conflicts;
mod remarks;

use super::bought::{self, ItemCost, PriceFrom, Rival, RowCost};
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::edible_portion::{ComparisonScale, EdibleCosts};
use crate::costing::rate::Rate;
use crate::costing::scenario::Scenario;
use crate::kitchen::price::{Item, Price, PriceRow};
use crate::kitchen::settings::Setting;
use crate::kitchen::{Field, Kitchen, NameKey};
use crate::number::Decimal;
use crate::problem::Problem;
use crate::schema::Column;
use among_suppliers::{Assumed, Assumptions, BothPreferred, Pool};

/// Why a price row is used or not.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum RowState {
    /// It is the price in use.
    InUse,
    /// A newer price of the same pack has replaced it.
    Older,
    /// It begins after the costing date.
    Later,
    /// Its last day was before the costing date.
    Ended,
    /// Another supplier or pack is preferred or newer.
    Other,
    /// Another row of the same day is cheaper per EP unit.
    Dearer,
    /// It says otherwise than another row of its supplier, code, pack and date.
    Contradicted,
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
            RowState::Ended => "ended",
            RowState::Other => "not chosen",
            RowState::Dearer => "dearer",
            RowState::Contradicted => "contradicted",
            RowState::Broken => "not read",
        }
    }
}

/// What a price list comes to.
pub(crate) struct Priced {
    /// Every price row per unit.
    pub(crate) rows: Vec<Option<RowCost>>,
    /// Why every price row is used or not.
    pub(crate) states: Vec<RowState>,
    /// The items.
    pub(crate) items: Vec<Option<ItemCost>>,
    /// The problems met.
    pub(crate) problems: Vec<Problem>,
}

/// All price rows and items.
pub(crate) fn all(kitchen: &Kitchen, scenario: &Scenario) -> Priced {
    let mut problems = Vec::new();
    let known = !kitchen.settings.is_broken(Setting::Volumes);
    let mut rows: Vec<Option<RowCost>> = Vec::with_capacity(kitchen.entries.prices.len());
    for row in &kitchen.entries.prices {
        let priced = known || !bought::varies(row);
        rows.push(if priced { bought::row_cost(row, &kitchen.settings, &mut problems) } else { None });
    }
    let mut states: Vec<RowState> = kitchen
        .entries
        .prices
        .iter()
        .zip(&rows)
        .map(|(row, cost)| {
            let read = cost.is_some() && !row.date.is_broken() && !row.until.is_broken() && !row.preferred.is_broken();
            if read { RowState::Other } else { RowState::Broken }
        })
        .collect();
    let mut items = Vec::with_capacity(kitchen.items.len());
    for item in &kitchen.items {
        let mut choice = RowChoice { kitchen, scenario, rows: &rows, states: &mut states, problems: &mut problems };
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
struct RowChoice<'a> {
    kitchen: &'a Kitchen,
    scenario: &'a Scenario,
    rows: &'a [Option<RowCost>],
    states: &'a mut Vec<RowState>,
    problems: &'a mut Vec<Problem>,
}

/// A row that is chosen.
struct ChosenRow {
    /// The row, by its place among the rows of the item.
    at: usize,
    /// The row whose price counts: at a market price that of the last one.
    priced: usize,
    /// How it was compared.
    scale: ComparisonScale,
    /// The rows that it was compared with, by place.
    rivals: Vec<ComparedRow>,
}

/// A row as it is compared with others of its day.
struct ComparedRow {
    at: usize,
    /// The row whose price it goes by.
    priced: usize,
    /// How it is compared.
    scale: ComparisonScale,
    /// Whether it comes first where both cost the same.
    wins_ties: bool,
}

/// Why no row is chosen.
enum NoPrice {
    /// The reason has been reported.
    Reported,
    /// It is this, which has not.
    Because(Box<Problem>),
    /// No row counts on the day.
    NoRow,
}

impl<'a> RowChoice<'a> {
    /// What an item costs by the row that counts. `None` when a reported problem stops it.
    fn item(&mut self, item: &Item) -> Option<ItemCost> {
        if item.broken {
            return None;
        }
        if item.rows.is_empty() {
            return self.without_rows(item);
        }
        let kitchen = self.kitchen;
        let day = self.scenario.date;
        let usable = |index: usize| self.states.get(index).is_some_and(|state| *state != RowState::Broken);
        let mut pool = Pool::of(&kitchen.entries.prices, &item.rows, day, usable, history_of);
        conflicts::mark(&mut pool, day, self.problems);
        self.note_states(&pool);
        // Without a costing date, which of dated prices counts would be a guess.
        if kitchen.settings.is_broken(Setting::CostingDate) && pool.all().any(|(_, entry)| is_dated(entry.row)) {
            return None;
        }
        let by_row = EdibleCosts::of(kitchen, day, item);
        let offers = Offers { item, rows: self.rows, pool: &pool, by_row: &by_row };
        let certain = offers.is_certain().and_then(|certain| if certain { Ok(()) } else { Err(NoPrice::Reported) });
        let chosen = match certain.and_then(|()| offers.choose(Assumptions::default())) {
            Ok(chosen) => chosen,
            Err(NoPrice::Reported) => return None,
            Err(NoPrice::Because(problem)) => {
                self.problems.push(*problem);
                return None;
            }
            Err(NoPrice::NoRow) => {
                self.problems.extend(remarks::no_price(&pool, item, day));
                return None;
            }
        };
        self.finish(item, &offers, &chosen)
    }

    fn without_rows(&self, item: &Item) -> Option<ItemCost> {
        let (from, kind, ap) = match &item.test_price {
            Some(paid) => {
                let (kind, per) = BaseUnitKind::of(&paid.per, self.kitchen.settings.volumes);
                (PriceFrom::TestRow(paid.row), kind, Rate { money: paid.price, per })
            }
            None if item.is_water => {
                (PriceFrom::Water, BaseUnitKind::Volume, Rate { money: Decimal::ZERO, per: Decimal::ONE })
            }
            None => return None,
        };
        let scale = ComparisonScale::PLAIN;
        Some(ItemCost { from, kind, ap, row_yield: None, reference: Field::Blank, scale, rivals: Vec::new() })
    }

    fn set(&mut self, index: usize, state: RowState) {
        if let Some(slot) = self.states.get_mut(index).filter(|slot| **slot != RowState::Broken) {
            *slot = state;
        }
    }

    /// Notes of every row why it is passed over, whatever stops the item.
    fn note_states(&mut self, pool: &Pool<'_>) {
        let current = pool.current_rows();
        for (at, entry) in pool.all() {
            if let Some(state) = pool.passed_over(at, &current) {
                self.set(entry.index, state);
            } else if entry.at_fault {
                self.set(entry.index, RowState::Contradicted);
            }
        }
    }

    fn finish(&mut self, item: &Item, offers: &Offers<'_>, chosen: &ChosenRow) -> Option<ItemCost> {
        let (entry, priced) = (offers.pool.get(chosen.at)?, offers.pool.get(chosen.priced)?);
        let by_row = self.rows.get(priced.index)?.as_ref()?;
        let day = self.scenario.date;
        let cost = offers.by_row.cost_by(entry.index, priced.index, by_row)?;
        for rival in &chosen.rivals {
            // A market price has no price of its own to be dearer by.
            if let Some(rival) = offers.pool.get(rival.at).filter(|rival| !is_market(rival.row)) {
                self.set(rival.index, RowState::Dearer);
            }
        }
        self.set(priced.index, RowState::InUse);
        if chosen.at != chosen.priced {
            self.problems.push(remarks::at_market(item, entry, priced));
        }
        self.problems.extend(remarks::ended(item, offers, chosen));
        self.problems.extend(remarks::old(self.kitchen, item, priced, day));
        if let Some(stated) = &offers.by_row.stated(entry.index) {
            self.problems.extend(remarks::lent(self.kitchen, item, entry, stated));
        }
        let rival = |rival: &ComparedRow| {
            let index = |at| offers.pool.get(at).map(|entry| entry.index);
            let (row, priced) = (index(rival.at)?, index(rival.priced)?);
            Some(Rival { row, priced, scale: rival.scale, wins_ties: rival.wins_ties })
        };
        let rivals = chosen.rivals.iter().filter_map(rival).collect();
        Some(ItemCost { scale: chosen.scale, rivals, ..cost })
    }
}

fn is_dated(row: &PriceRow) -> bool {
    row.date.given().is_some() || row.until.given().is_some()
}

fn is_market(row: &PriceRow) -> bool {
    row.price == Field::Given(Price::Market)
}

/// The price rows of one item with what they are compared by.
struct Offers<'a> {
    item: &'a Item,
    rows: &'a [Option<RowCost>],
    pool: &'a Pool<'a>,
    by_row: &'a EdibleCosts<'a>,
}

impl Offers<'_> {
    /// The row that counts.
    fn choose(&self, frame: Assumptions) -> Result<ChosenRow, NoPrice> {
        let left = self.pick(frame)?;
        let at_fault = |at: &usize| self.pool.get(*at).is_none_or(|entry| entry.at_fault);
        if left.iter().any(at_fault) {
            return Err(NoPrice::Reported);
        }
        match left.as_slice() {
            [] => Err(NoPrice::NoRow),
            [one] => {
                let priced = self.priced(*one, frame)?.ok_or_else(|| self.without_last_price(*one))?;
                Ok(ChosenRow { at: *one, priced, scale: ComparisonScale::PLAIN, rivals: Vec::new() })
            }
            several => self.cheapest(several, frame),
        }
    }

    fn pick(&self, frame: Assumptions) -> Result<Vec<usize>, NoPrice> {
        self.pool.pick(frame).map_err(|BothPreferred(first, second)| {
            let both = self.pool.get(first).zip(self.pool.get(second));
            match both {
                Some((first, second)) => NoPrice::Because(Box::new(remarks::both_preferred(self.item, first, second))),
                None => NoPrice::Reported,
            }
        })
    }

    /// Whether the choice is certain: no row that leaves open when it counts, or whether its supplier is preferred, could
    /// change it.
    fn is_certain(&self) -> Result<bool, NoPrice> {
        /// How many rows are looked into. Nobody who has more wrong than this is helped by a figure.
        const MOST: usize = 64;
        let unclear = self.pool.unclear();
        if unclear.len() > MOST {
            return Ok(false);
        }
        let picked = if unclear.is_empty() { Vec::new() } else { self.pick(Assumptions::default())? };
        Ok(unclear.into_iter().all(|at| {
            let unknown = self.pool.get(at).is_some_and(|entry| entry.row.preferred.is_broken());
            let words: &[Option<bool>] = if unknown { &[None, Some(true), Some(false)] } else { &[None] };
            words.iter().all(|preferred| {
                let assumed = Some(Assumed { at, holds: true, preferred: *preferred });
                self.pool.pick(Assumptions { assumed, endless: false }).is_ok_and(|now| now == picked)
            })
        }))
    }

    /// The row whose price a row goes by: itself, or at a market price that of the last price before it; `None` when it has
    /// none.
    fn priced(&self, at: usize, frame: Assumptions) -> Result<Option<usize>, NoPrice> {
        if !self.pool.get(at).is_some_and(|entry| is_market(entry.row)) {
            return Ok(Some(at));
        }
        let last = self.pool.last_price(at, frame);
        match last.and_then(|last| self.pool.get(last)) {
            Some(entry) if entry.at_fault => Err(NoPrice::Reported),
            _ => Ok(last),
        }
    }

    fn without_last_price(&self, at: usize) -> NoPrice {
        match self.pool.get(at) {
            Some(entry) => NoPrice::Because(Box::new(remarks::never_priced(self.item, entry))),
            None => NoPrice::Reported,
        }
    }
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

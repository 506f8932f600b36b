//! Price rows and yields that were passed over for an item, each with the reason.
//!
//! Takes the choices that costing has made; makes none of its own.

use std::cmp::Reverse;
use std::collections::HashSet;

use jiff::civil::Date;

use crate::costing::price::bought::PriceFrom;
use crate::costing::price::in_use::{RowState, history_of};
use crate::costing::price::preferred_supplier::is_preferred;
use crate::costing::{Costing, ItemCost, YieldFrom};
use crate::in_order::InOrder;
use crate::kitchen::price::{Item, Price, PriceRow, TrimYield};
use crate::kitchen::{Field, ItemId, Kitchen, NameKey};
use crate::number::Decimal;

/// A price row that is not the one in use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PassedOver {
    /// The row, as an index into the entries.
    pub row: usize,
    /// Why it is not.
    pub why: WhyNot,
}

/// Why a price row is not in use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WhyNot {
    /// It begins after the costing date.
    Later,
    /// Its last day is past.
    Ended,
    /// There is a newer price of the same supplier and pack.
    Older,
    /// The supplier of the row in use is preferred.
    NotPreferred,
    /// The row in use, of another supplier or pack, is newer.
    NewerElsewhere,
    /// Of the same day, it costs more for what is left of it after trimming.
    Dearer,
    /// Of the same day it costs no less, and the other comes first by name.
    NoCheaper,
    /// It says the market's price: the last price in money counts.
    Market,
    /// Of the same day and priced by another kind of unit, it cannot be compared.
    NotComparable,
    /// It says otherwise than another row of its supplier, pack and date.
    Contradicted,
    /// It could not be read.
    NotRead,
    /// No row of the item is in use.
    NoneInUse,
}

/// A yield that something states of an item.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StatedYield {
    /// What is left after trimming, as a fraction.
    pub fraction: Decimal,
    /// Who states it.
    pub from: YieldFrom,
}

/// The rows of an item that are not in use, the newest first.
pub(super) fn rows(kitchen: &Kitchen, costing: &Costing, id: ItemId) -> Vec<PassedOver> {
    let Some(item) = kitchen.item(id) else { return Vec::new() };
    let cost = costing.item(id);
    let used = cost.and_then(|cost| if let PriceFrom::Row(row) = cost.from { Some(row) } else { None });
    let others = item.rows.iter().copied().filter(|row| Some(*row) != used);
    let beside = used.and_then(|row| BesideUsed::of(kitchen, costing, item, cost, row));
    let reasons = RowPassedOver { kitchen, costing, beside };
    let mut rows: Vec<PassedOver> = others.filter_map(|row| Some(PassedOver { row, why: reasons.why(row)? })).collect();
    let date = |row: usize| kitchen.entries.prices.get(row).and_then(|row| row.date.given().copied());
    rows.put_in_order_by_key(|passed| (Reverse(date(passed.row)), passed.row));
    rows
}

struct RowPassedOver<'a> {
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    beside: Option<BesideUsed>,
}

impl RowPassedOver<'_> {
    fn why(&self, index: usize) -> Option<WhyNot> {
        let row = self.kitchen.entries.prices.get(index)?;
        Some(match self.costing.row_states.get(index)? {
            RowState::Later => WhyNot::Later,
            RowState::Ended => WhyNot::Ended,
            RowState::Broken => WhyNot::NotRead,
            RowState::Contradicted => WhyNot::Contradicted,
            RowState::Older => WhyNot::Older,
            RowState::InUse | RowState::Other | RowState::Dearer => match &self.beside {
                _ if row.price == Field::Given(Price::Market) => WhyNot::Market,
                None => WhyNot::NoneInUse,
                Some(used) => self.beside(index, row, used),
            },
        })
    }

    /// Why a current row is not in use beside the one that is.
    fn beside(&self, index: usize, row: &PriceRow, used: &BesideUsed) -> WhyNot {
        if self.costing.row_states.get(index) == Some(&RowState::Dearer) {
            let ties = used.rivals.contains(&index) && used.unit_cost == unit_cost(self.costing, index);
            return if ties { WhyNot::NoCheaper } else { WhyNot::Dearer };
        }
        if used.is_preferred && NameKey::of(&row.supplier) != used.supplier {
            return WhyNot::NotPreferred;
        }
        if row.date.given().copied() < used.since { WhyNot::NewerElsewhere } else { WhyNot::NotComparable }
    }
}

/// What the others stand beside: the row in use, looked at once.
struct BesideUsed {
    supplier: NameKey,
    is_preferred: bool,
    /// Since when it counts: where a market price calls for it, since that.
    since: Option<Date>,
    unit_cost: Option<Decimal>,
    rivals: HashSet<usize>,
}

impl BesideUsed {
    fn of(kitchen: &Kitchen, costing: &Costing, item: &Item, cost: Option<&ItemCost>, row: usize) -> Option<Self> {
        let used = kitchen.entries.prices.get(row)?;
        let day = costing.scenario.date;
        let rows = || item.rows.iter().filter_map(|row| kitchen.entries.prices.get(*row));
        let supplier = NameKey::of(&used.supplier);
        let theirs = rows().filter(|row| NameKey::of(&row.supplier) == supplier);
        let history = history_of(used);
        let calls = |row: &&PriceRow| {
            row.price == Field::Given(Price::Market) && row.has_begun(day) && history_of(row) == history
        };
        let called = rows().filter(calls).map(|row| row.date.given().copied());
        Some(BesideUsed {
            is_preferred: is_preferred(theirs, day),
            since: called.chain([used.date.given().copied()]).max().flatten(),
            unit_cost: unit_cost(costing, row),
            rivals: cost.into_iter().flat_map(|cost| &cost.rivals).map(|rival| rival.row).collect(),
            supplier,
        })
    }
}

fn unit_cost(costing: &Costing, row: usize) -> Option<Decimal> {
    costing.rows.get(row)?.as_ref()?.ap.unit_cost().ok()
}

/// The yields that are stated of an item, the one that serves it first: a trim test's, then the price row's, that of a
/// piece's two weights, a built-in food's; then those of other price rows.
pub(super) fn yields(kitchen: &Kitchen, costing: &Costing, id: ItemId) -> Vec<StatedYield> {
    let Some((item, cost)) = kitchen.item(id).zip(costing.item(id)) else { return Vec::new() };
    let mut all: Vec<StatedYield> = Vec::new();
    if let TrimYield::Main(part) = item.trim
        && let Some(tested) = costing.part(part)
    {
        all.push(StatedYield { fraction: tested.fraction, from: YieldFrom::Test(part) });
    }
    let lender = cost.row_yield.map(|(fraction, row)| {
        all.push(StatedYield { fraction, from: YieldFrom::PriceRow(row) });
        row
    });
    if let Some(piece) = costing.pieces.get(id.index()).and_then(|pieces| pieces.implied) {
        all.push(StatedYield { fraction: piece.fraction, from: YieldFrom::Piece(piece.row) });
    }
    if let Field::Given((food, _)) = &cost.reference {
        let fraction = food.food().map_or(Decimal::ONE, crate::food::Food::trim_yield);
        all.push(StatedYield { fraction, from: YieldFrom::Reference(*food) });
    }
    let others = item.rows.iter().copied().filter(|row| Some(*row) != lender);
    all.extend(others.filter_map(|row| {
        let fraction = *kitchen.entries.prices.get(row)?.trim_yield.given()?;
        Some(StatedYield { fraction, from: YieldFrom::PriceRow(row) })
    }));
    all
}

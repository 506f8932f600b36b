//! Switches to another supplier or pack, and what each would save: the price in use against the cheapest current price,
//! per edible unit.
//!
//! Takes the kitchen with the new prices; the current rows are those that the costing passed over on the day, neither older
//! nor later ones. A market price is no offer, and neither is a pack that its supplier's newer prices of the item no longer
//! name: when packs shrink, the old one would always be cheaper.

use std::cmp::Reverse;
use std::collections::HashMap;

use jiff::civil::Date;

use super::basket::Basket;
use super::before_and_after::Pair;
use super::compare::{LeftOut, at};
use crate::analysis::Lack;
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::edible_portion::EdibleCosts;
use crate::costing::price::bought::PriceFrom;
use crate::costing::price::in_use::history_of;
use crate::costing::price::preferred_supplier::is_preferred;
use crate::costing::{ItemCost, RowState};
use crate::in_order::InOrder;
use crate::kitchen::price::{Item, Price, PriceRow};
use crate::kitchen::{Field, ItemId, NameKey};
use crate::number::{Decimal, exact};

/// A dearer price in use and the cheapest other.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Switch {
    /// The item, by its id in the kitchen with the new prices.
    pub item: ItemId,
    /// The price row in use, as an index into that kitchen's entries.
    pub from: usize,
    /// The cheapest other current row, likewise.
    pub to: usize,
    /// Whether the row in use is its supplier's whom *Preferred* names.
    pub is_preferred: bool,
    /// Whether the other is another supplier's, and not another pack of the same.
    pub is_other_supplier: bool,
    /// The kind of base unit of the price in use.
    pub kind: BaseUnitKind,
    /// Money for one edible base unit at the price in use. Where a trim test gives the yield, of all rows alike, prices are
    /// compared as purchased.
    pub ep_from: Decimal,
    /// The same at the other.
    pub ep_to: Decimal,
    /// What one base unit saves.
    pub saving: Decimal,
    /// What the basket saves.
    pub worth: Result<Decimal, LeftOut>,
}

/// The switches that save anything, by worth over the basket; what is not known last.
pub(super) fn switches(pair: &Pair<'_>, basket: &Result<Basket, Lack>) -> Vec<Switch> {
    let found = pair.items().filter_map(|(old, new)| switch(pair, (old, new), basket));
    let mut switches: Vec<Switch> = found.collect();
    switches.put_in_order_by_key(|switch| (switch.worth.is_err(), Reverse(switch.worth.ok())));
    switches
}

fn switch(pair: &Pair<'_>, (old, new): (ItemId, ItemId), basket: &Result<Basket, Lack>) -> Option<Switch> {
    let (item, cost) = (pair.new.item(new)?, pair.now.item(new)?);
    let PriceFrom::Row(from) = cost.from else { return None };
    let by_row = EdibleCosts::of(pair.new, pair.now.scenario.date, item);
    let offers = SwitchOffers { pair, item, id: new, in_use: cost, by_row, newest: newest_days(pair, item) };
    let (ep_from, _) = offers.compared(cost)?;
    let others = item.rows.iter().copied().filter(|row| *row != from);
    let priced = others.filter_map(|row| {
        let price = offers.other(row)?;
        let (edible, as_purchased) = offers.compared(&price)?;
        let name = history_of(pair.new.entries.prices.get(row)?);
        Some(((edible, as_purchased, name), row))
    });
    // Of equals as the choice among suppliers has it.
    let ((ep_to, ..), to) = priced.min_by(|(one, ..), (other, ..)| one.cmp(other))?;
    let saving = exact::sub(ep_from, ep_to).ok().filter(|saving| *saving > Decimal::ZERO)?;
    let (row_from, row_to) = (pair.new.entries.prices.get(from)?, pair.new.entries.prices.get(to)?);
    Some(Switch {
        item: new,
        from,
        to,
        is_preferred: offers.is_preferred(row_from),
        is_other_supplier: NameKey::of(&row_from.supplier) != NameKey::of(&row_to.supplier),
        kind: cost.kind.clone(),
        ep_from,
        ep_to,
        saving,
        worth: offers.worth(old, basket, (saving, ep_from)),
    })
}

/// Every price row of an item that counts on the day, or has been replaced by then.
fn rows<'a>(pair: &'a Pair<'_>, item: &'a Item) -> impl Iterator<Item = &'a PriceRow> {
    let day = pair.now.scenario.date;
    let rows = item.rows.iter().filter_map(|index| pair.new.entries.prices.get(*index));
    rows.filter(move |row| row.has_begun(day) && !row.has_ended(day))
}

/// The newest day of each supplier's among them.
fn newest_days<'a>(pair: &'a Pair<'_>, item: &'a Item) -> HashMap<NameKey, Option<&'a Date>> {
    let mut newest = HashMap::new();
    for row in rows(pair, item) {
        let known = newest.entry(NameKey::of(&row.supplier)).or_insert(None);
        *known = row.date.given().max(*known);
    }
    newest
}

/// The prices of one item.
struct SwitchOffers<'a> {
    pair: &'a Pair<'a>,
    item: &'a Item,
    id: ItemId,
    in_use: &'a ItemCost,
    by_row: EdibleCosts<'a>,
    /// The day of the newest row of each supplier that has begun and not ended.
    newest: HashMap<NameKey, Option<&'a Date>>,
}

impl SwitchOffers<'_> {
    /// The price of another current row.
    fn other(&self, row: usize) -> Option<ItemCost> {
        let now = self.pair.now;
        if !matches!(now.row_states.get(row)?, RowState::Other | RowState::Dearer) {
            return None;
        }
        let entry = self.pair.new.entries.prices.get(row)?;
        if entry.price == Field::Given(Price::Market) || self.is_superseded(entry) {
            return None;
        }
        self.by_row.cost_by(row, row, now.rows.get(row)?.as_ref()?)
    }

    /// Whether its supplier has newer prices of the item.
    fn is_superseded(&self, row: &PriceRow) -> bool {
        self.newest.get(&NameKey::of(&row.supplier)).is_some_and(|newest| *newest > row.date.given())
    }

    /// What one base unit of the kind in use costs by a row: edible, and as purchased.
    fn compared(&self, price: &ItemCost) -> Option<(Decimal, Decimal)> {
        let (scale, _) = self.by_row.scale(price, &self.in_use.kind)?;
        self.by_row.compared(price, &scale).ok()
    }

    /// Whether a row's supplier is preferred.
    fn is_preferred(&self, row: &PriceRow) -> bool {
        let supplier = NameKey::of(&row.supplier);
        let of_supplier = rows(self.pair, self.item).filter(|row| NameKey::of(&row.supplier) == supplier);
        is_preferred(of_supplier, self.pair.now.scenario.date)
    }

    /// What the basket saves: of what its quantity costs at the price in use the share that one edible unit saves.
    fn worth(
        &self,
        old: ItemId,
        basket: &Result<Basket, Lack>,
        (saving, of): (Decimal, Decimal),
    ) -> Result<Decimal, LeftOut> {
        let quantity = basket.as_ref().map_err(|_| LeftOut::Outside)?.quantity(self.id);
        if quantity.is_zero() {
            return Ok(quantity);
        }
        let before = self.pair.was.item(old).ok_or(LeftOut::NoPriceBefore)?;
        let cost = at(self.pair.new, self.id, self.in_use, &before.kind, quantity)?;
        Ok(exact::div(exact::mul(cost, saving)?, of)?)
    }
}

//! Packs as they join measures: what a pack counts needs no weight, and a package word means what the packs on offer
//! say.
//!
//! Takes an item's price rows; gives the pack in use, and the fault of a word that means one thing to one supplier and
//! another to the next.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::convert::NoConversion;
use crate::costing::Costing;
use crate::costing::price::bought::{ItemCost, PriceFrom};
use crate::costing::price::in_use::RowState;
use crate::costing::price::preferred_supplier::is_preferred;
use crate::in_order::InOrder;
use crate::kitchen::price::{Item, PriceRow};
use crate::kitchen::{Field, Kitchen, NameKey};
use crate::measure::{Measured, Pack, Unit};
use crate::number::{Decimal, exact};
use crate::problem::{Code, Fault};

/// The pack of a price row where it says what was paid for. One that is billed by weight or volume is nominal.
fn of_row(row: &PriceRow) -> Option<&Pack> {
    row.pack.given().filter(|pack| !pack.nominal && !is_billed(row))
}

/// Whether the price is for a weight, a volume or so many pieces, whatever came.
fn is_billed(row: &PriceRow) -> bool {
    matches!(&row.per, Field::Given(Measured { unit: Unit::Standard(_), .. }))
}

/// The pack that an item's price is for, with its row.
pub(crate) fn in_use<'a>(kitchen: &'a Kitchen, cost: &ItemCost) -> Option<(usize, &'a Pack)> {
    let PriceFrom::Row(row) = cost.from else { return None };
    Some((row, of_row(kitchen.entries.prices.get(row)?)?))
}

/// The pack that says what its pieces weigh: that of the price, and also one of cans with their label weight, which is the
/// same however they are billed.
pub(crate) fn weighing<'a>(kitchen: &'a Kitchen, cost: &ItemCost) -> Option<(usize, &'a Pack)> {
    let PriceFrom::Row(row) = cost.from else { return None };
    let entry = kitchen.entries.prices.get(row)?;
    let labelled = || entry.pack.given().filter(|pack| is_billed(entry) && pack.is_labelled());
    Some((row, of_row(entry).or_else(labelled)?))
}

/// What a word means of a pack, so that two packs can be compared.
#[derive(Debug, PartialEq)]
enum PackMeaning {
    /// So many of something that is counted: cans of one size are one thing, whatever their labels say.
    Counted(Decimal, Unit),
    /// So much, and so many pieces.
    Amount(Decimal, Unit, Option<Decimal>),
}

/// That `unit` is no word which means something else in another current pack of the item's, of each supplier the newest; of the
/// preferred supplier's alone, where there is one.
///
/// # Errors
/// A [`NoConversion`] that lists what it means in each.
pub(crate) fn has_one_meaning(
    kitchen: &Kitchen,
    costing: &Costing,
    item: &Item,
    cost: &ItemCost,
    unit: &Unit,
) -> Result<(), NoConversion> {
    let Some((row, pack)) = in_use(kitchen, cost) else { return Ok(()) };
    if pack.packages(unit).is_none() {
        return Ok(());
    }
    let row_of = |index: usize| kitchen.entries.prices.get(index);
    let Some(supplier) = row_of(row).map(|row| NameKey::of(&row.supplier)) else { return Ok(()) };
    let is_of = |index: usize| row_of(index).is_some_and(|row| NameKey::of(&row.supplier) == supplier);
    let rows_of = item.rows.iter().filter(|index| is_of(**index)).filter_map(|index| row_of(*index));
    let is_preferred = is_preferred(rows_of, costing.scenario.date);
    let is_current = |index: &usize| {
        let state = costing.row_states.get(*index);
        matches!(state, Some(RowState::InUse | RowState::Other | RowState::Dearer)) && (!is_preferred || is_of(*index))
    };
    let current: Vec<&PriceRow> =
        item.rows.iter().filter(|index| is_current(index)).filter_map(|index| row_of(*index)).collect();
    // A supplier who has changed the pack sells the new one.
    let mut newest: BTreeMap<NameKey, Option<Date>> = BTreeMap::new();
    for entry in &current {
        let day = newest.entry(NameKey::of(&entry.supplier)).or_default();
        *day = (*day).max(entry.date.given().copied());
    }
    let is_newest = |entry: &&PriceRow| {
        newest.get(&NameKey::of(&entry.supplier)).is_none_or(|day| entry.date.given().copied() >= *day)
    };
    let said = |rows: &mut dyn Iterator<Item = &PriceRow>| {
        let mut said: Vec<(PackMeaning, String)> = Vec::new();
        for entry in rows {
            let Some((meaning, words)) = of_row(entry).and_then(|pack| meaning(pack, unit, kitchen)) else { continue };
            let of = if entry.supplier.is_empty() { String::new() } else { format!(" of {}", entry.supplier) };
            if !said.iter().any(|(known, _)| *known == meaning) {
                said.push((meaning, format!("{words}{of}")));
            }
        }
        said
    };
    if said(&mut current.iter().copied().filter(is_newest)).len() < 2 {
        return Ok(());
    }
    let said = said(&mut current.iter().copied());
    let mut list: Vec<String> = said.into_iter().map(|(_, words)| words).collect();
    list.put_in_order();
    Err(NoConversion::Fault(Fault::new(
        Code::MeasureAmbiguous,
        format!("1 {} of “{}” may be {}", unit.name(), item.name, list.join(" or ")),
        format!(
            "Ask for it by weight, volume or piece; or type yes under Preferred on the rows of the supplier whose {} is \
             meant.",
            unit.name()
        ),
    )))
}

/// The note of a package word that was taken for the whole of a pack of several which does not say it.
pub(crate) fn assumed_whole(kitchen: &Kitchen, item: &Item, cost: &ItemCost, unit: &Unit) -> Option<Fault> {
    let (_, pack) = in_use(kitchen, cost)?;
    let all = pack.assumed_whole(unit)?;
    let unit = unit.name();
    Some(Fault::new(
        Code::PackageAssumed,
        format!("1 {unit} of “{}” was taken for its whole pack, {all}, which does not say {unit}", item.name),
        format!(
            "If a {unit} is less, ask for it by the piece, weight or volume. If it is all of it, write the word into the pack, such \
             as 1 {unit} {all}."
        ),
    ))
}

fn meaning(pack: &Pack, unit: &Unit, kitchen: &Kitchen) -> Option<(PackMeaning, String)> {
    let (count, all) = pack.packages(unit)?;
    let volumes = kitchen.settings.volumes;
    let base = |measured: &Measured| match measured.in_base(volumes) {
        Ok(Some((base, amount))) => Some((exact::div(amount, count).ok()?, base.unit())),
        Ok(None) => Some((exact::div(measured.amount, count).ok()?, measured.unit.clone())),
        Err(_) => None,
    };
    let pieces = pack.pieces.as_ref();
    let words = || exact::div(all.amount, count).ok().map(|amount| Measured::new(amount.normalize(), all.unit.clone()));
    if let Some(named) = pieces.filter(|pieces| matches!(pieces.unit, Unit::Own(_))) {
        let counted = if all.unit == named.unit { &all } else { named };
        let (amount, unit) = base(counted)?;
        return Some((PackMeaning::Counted(amount, unit), counted.to_string()));
    }
    let (amount, of) = base(&all)?;
    let pieces = pieces.filter(|_| !all.unit.is_count_like()).and_then(base).map(|(pieces, _)| pieces);
    Some((PackMeaning::Amount(amount, of, pieces), words()?.to_string()))
}

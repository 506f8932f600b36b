//! Moved prices: a new price beside the one that it succeeds, per unit and not per pack.

use super::candidates::Candidate;
use super::past::{MatchedBy, Past};
use super::{Change, Move};
use crate::costing::RowCost;
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::price::bought::{row_cost, varies};
use crate::costing::price::compare::rate_by;
use crate::costing::rate::Rate;
use crate::kitchen::Field;
use crate::kitchen::price::{Item, Price, PriceRow};
use crate::kitchen::settings::Setting;
use crate::measure::{Pack, Volumes};
use crate::number::{Decimal, Overflow, exact};
use crate::problem::Problem;

/// What moved, and what keeps the new price from being used at all.
pub(super) fn of(past: &Past<'_>, item: &Item, candidate: &Candidate) -> (Move, Vec<Problem>) {
    let settings = &past.kitchen.settings;
    let (row, id) = (&candidate.price, candidate.item);
    let usable = |index: usize| past.cost(index).is_some() && past.counts(index, candidate.date);
    let found = past.of_supplier(id, &candidate.history, candidate.date, usable);
    let found = found.or_else(|| Some((past.in_use(id, item)?, MatchedBy::Item)));
    let before = found.map(|(index, _)| index);
    let old = before.and_then(|index| past.cost(index)).cloned();
    let mut problems = Vec::new();
    let priced = !settings.is_broken(Setting::Volumes) || !varies(row);
    let is_market = row.price == Field::Given(Price::Market);
    let mut new = if priced { row_cost(row, settings, &mut problems) } else { None };
    let old_row = before.and_then(|index| past.row(index));
    let mut by = None;
    let change = match (&old, &new, old_row) {
        _ if is_market => {
            new = None;
            Change::Market
        }
        (None, ..) | (_, _, None) => Change::First,
        (_, None, _) => Change::NotComparable,
        (Some(was), Some(is), Some(old_row)) => {
            let packs: Vec<&Pack> = [row.pack.given(), old_row.pack.given()].into_iter().flatten().collect();
            match rate_by(item, row, is, &was.kind, &packs, settings.volumes) {
                None => Change::NotComparable,
                Some(rate) => {
                    let moved = ratio(was.ap, rate).and_then(|ratio| exact::sub(ratio, Decimal::ONE));
                    by = moved.ok().map(|by| by.normalize());
                    let pack = packs_apart(old_row, row, settings.volumes);
                    let is_new = found.is_some_and(|(_, by)| by == MatchedBy::Item)
                        && !candidate.history.0.is_empty()
                        && !past.knows(id, &candidate.history.0);
                    let change = if is_new { Change::NewSupplier } else { judged(was.ap, rate, pack) };
                    new = Some(RowCost { kind: was.kind.clone(), ap: rate });
                    change
                }
            }
        }
    };
    (Move { item: id, before, old, new, change, by }, problems)
}

/// The new price per unit divided by the old.
pub(super) fn ratio(old: Rate, new: Rate) -> Result<Decimal, Overflow> {
    exact::div(exact::mul(new.money, old.per)?, exact::mul(new.per, old.money)?)
}

/// How the pack changed, where both prices are for it.
type PackChange = Option<(std::cmp::Ordering, String, String)>;

fn judged(old: Rate, new: Rate, pack: PackChange) -> Change {
    use std::cmp::Ordering;
    let sides = (exact::mul(new.money, old.per), exact::mul(old.money, new.per));
    // What does not fit is told apart by its quotients as well as may be.
    let order = match sides {
        (Ok(new), Ok(old)) => new.cmp(&old),
        _ => new.unit_cost().unwrap_or(Decimal::MAX).cmp(&old.unit_cost().unwrap_or(Decimal::MAX)),
    };
    match (order, pack) {
        (Ordering::Equal, _) => Change::Same,
        (Ordering::Greater, Some((Ordering::Less, from, to))) => Change::SmallerPack { from, to },
        (Ordering::Less, Some((Ordering::Greater, from, to))) => Change::LargerPack { from, to },
        (Ordering::Greater, _) => Change::Rise,
        (Ordering::Less, _) => Change::Fall,
    }
}

/// Whether the new pack is smaller or larger than the old, and both as written; nothing when one price is not for its pack
/// or the two packs hold different kinds.
fn packs_apart(old: &PriceRow, new: &PriceRow, volumes: Volumes) -> PackChange {
    if old.per != Field::Blank || new.per != Field::Blank {
        return None;
    }
    let (from, to) = (old.pack.given()?, new.pack.given()?);
    let size = |pack: &Pack| -> Option<(BaseUnitKind, Decimal)> {
        let all = pack.content.as_ref().or(pack.pieces.as_ref())?;
        let (kind, factor) = BaseUnitKind::of(&all.unit, volumes);
        Some((kind, exact::mul(all.amount, factor).ok()?))
    };
    let ((kind, before), (other, now)) = (size(from)?, size(to)?);
    (kind == other).then(|| (now.cmp(&before), from.text.trim().to_owned(), to.text.trim().to_owned()))
}

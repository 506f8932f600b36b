//! Which of several rows of one day is the cheapest: per EP unit by each row's own yield, then per AP unit, then the first
//! by supplier, code and pack.

use std::cmp::Ordering;

use super::pool::Frame;
use super::{Chosen, Compared, Offers, Stop, told};
use crate::costing::kind::Kind;
use crate::costing::rate::Rate;
use crate::kitchen::Field;
use crate::kitchen::price::Trim;
use crate::number::Decimal;

/// A row with what it costs.
struct Offer {
    at: usize,
    priced: usize,
    kind: Kind,
    ep: Decimal,
    ap: Decimal,
}

impl Offers<'_> {
    /// The cheapest of `rows`. A market price stands for the last price before it; without one it cannot be the cheapest.
    pub(super) fn cheapest(&self, rows: &[usize], frame: Frame) -> Result<Chosen, Stop> {
        let mut offers = Vec::with_capacity(rows.len());
        for at in rows {
            if let Some(priced) = self.priced(*at, frame)? {
                offers.push(self.offer(*at, priced)?);
            }
        }
        offers.sort_by(|a, b| self.by_name(a.at, b.at));
        let Some(best) = offers.iter().min_by(|a, b| (a.ep, a.ap).cmp(&(b.ep, b.ap))) else {
            let first = rows.iter().copied().min_by(|a, b| self.by_name(*a, *b));
            return Err(first.map_or(Stop::Reported, |at| self.without_last_price(at)));
        };
        if let Some(other) = offers.iter().find(|offer| offer.kind != best.kind) {
            return Err(self.not_comparable(best, other));
        }
        let mut rivals: Vec<Compared> = offers
            .iter()
            .filter(|offer| offer.at != best.at)
            .map(|offer| {
                let wins_ties = self.by_name(offer.at, best.at).is_lt();
                Compared { at: offer.at, priced: offer.priced, wins_ties }
            })
            .collect();
        rivals.sort_by_key(|rival| rival.at);
        Ok(Chosen { at: best.at, priced: best.priced, rivals })
    }

    /// By supplier, code and pack.
    fn by_name(&self, one: usize, other: usize) -> Ordering {
        let key = |at: usize| self.pool.get(at).map(|entry| &entry.key);
        key(one).cmp(&key(other))
    }

    fn offer(&self, at: usize, priced: usize) -> Result<Offer, Stop> {
        let entry = self.pool.get(priced).ok_or(Stop::Reported)?;
        // What does not fit cannot be compared, and might be the one to use.
        let cost = self.rows.get(entry.index).and_then(Option::as_ref).ok_or(Stop::Reported)?;
        let unit_cost = |rate: Rate| rate.unit_cost().map_err(|_| Stop::Reported);
        let ep = unit_cost(cost.ap.after_yield(self.compared_by(at)?).map_err(|_| Stop::Reported)?)?;
        Ok(Offer { at, priced, kind: cost.kind.clone(), ep, ap: unit_cost(cost.ap)? })
    }

    /// The yield by which a row is compared with others of its day. Where a trim test speaks it does so for all of them,
    /// so they are compared as purchased.
    fn compared_by(&self, at: usize) -> Result<Decimal, Stop> {
        let index = self.pool.get(at).ok_or(Stop::Reported)?.index;
        match (&self.item.trim, self.yields.of_row(index).map(|stated| stated.value)) {
            (Trim::Main(_), _) | (_, None | Some(Field::Blank)) => Ok(Decimal::ONE),
            (_, Some(Field::Given(fraction))) => Ok(fraction),
            (_, Some(Field::Broken)) => Err(Stop::Reported),
        }
    }

    fn not_comparable(&self, best: &Offer, other: &Offer) -> Stop {
        // Told at the later of the two.
        let (first, second) = if best.at < other.at { (best, other) } else { (other, best) };
        match self.pool.get(first.at).zip(self.pool.get(second.at)) {
            Some((a, b)) => Stop::Because(Box::new(told::not_comparable(
                self.item,
                (a, first.kind.word()),
                (b, second.kind.word()),
            ))),
            None => Stop::Reported,
        }
    }
}

//! Cheapest of several rows of one day: per EP unit by each row's own yield, then per AP unit, then the first
//! by supplier, code and pack. Rows by unlike measures are compared per gram where the kitchen's measures join them.

use std::cmp::Ordering;

use super::{ChosenRow, ComparedRow, NoPrice, Offers};
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::edible_portion::ComparisonScale;
use crate::costing::price::in_use::among_suppliers::Assumptions;
use crate::costing::price::in_use::remarks;
use crate::costing::{ItemCost, MeasureFrom};
use crate::in_order::InOrder;
use crate::number::Decimal;
use crate::problem::Problem;

/// A row with what it costs.
struct Offer {
    at: usize,
    priced: usize,
    scale: ComparisonScale,
    ep: Decimal,
    ap: Decimal,
}

impl Offers<'_> {
    /// The cheapest of `rows`. A market price stands for the last price before it; without one it cannot be the cheapest.
    pub(super) fn cheapest(&self, rows: &[usize], frame: Assumptions) -> Result<ChosenRow, NoPrice> {
        let mut rows = rows.to_vec();
        rows.put_in_order_by(|a, b| self.by_name(*a, *b));
        let mut costs = Vec::with_capacity(rows.len());
        for at in &rows {
            if let Some(priced) = self.priced(*at, frame)? {
                costs.push(((*at, priced), self.cost(*at, priced)?));
            }
        }
        let Some(lead) = costs.first() else {
            return Err(rows.first().map_or(NoPrice::Reported, |at| self.without_last_price(*at)));
        };
        // Prices by unlike measures are compared by weight.
        let are_unlike = costs.iter().any(|(_, cost)| cost.kind != lead.1.kind);
        let kind = if are_unlike { &BaseUnitKind::Mass } else { &lead.1.kind };
        let mut offers = Vec::with_capacity(costs.len());
        for (row, cost) in &costs {
            match (self.offer(*row, cost, kind)?, are_unlike) {
                (Some(offer), _) => offers.push(offer),
                (None, true) => {
                    // Of packs of the preferred supplier that nothing joins, the one that bears the mark is meant.
                    let marked = self.pool.marked(&rows, frame);
                    if !marked.is_empty() && marked.len() < rows.len() {
                        return self.cheapest(&marked, frame);
                    }
                    let other = costs.iter().find(|(_, other)| other.kind != cost.kind).unwrap_or(lead);
                    return Err(self.not_comparable((row.0, &cost.kind), of(other)));
                }
                (None, false) => return Err(NoPrice::Reported),
            }
        }
        let Some(best) = offers.iter().min_by(|a, b| (a.ep, a.ap).cmp(&(b.ep, b.ap))) else {
            return Err(NoPrice::Reported);
        };
        let mut rivals: Vec<ComparedRow> = offers
            .iter()
            .filter(|offer| offer.at != best.at)
            .map(|offer| {
                let wins_ties = self.by_name(offer.at, best.at).is_lt();
                ComparedRow { at: offer.at, priced: offer.priced, scale: offer.scale, wins_ties }
            })
            .collect();
        rivals.put_in_order_by_key(|rival| rival.at);
        Ok(ChosenRow { at: best.at, priced: best.priced, scale: best.scale, rivals })
    }

    /// By supplier, code and pack.
    fn by_name(&self, one: usize, other: usize) -> Ordering {
        let key = |at: usize| self.pool.get(at).map(|entry| &entry.key);
        key(one).cmp(&key(other))
    }

    fn cost(&self, at: usize, priced: usize) -> Result<ItemCost, NoPrice> {
        let (entry, of) = self.pool.get(at).zip(self.pool.get(priced)).ok_or(NoPrice::Reported)?;
        // What does not fit cannot be compared, and might be the one to use.
        let cost = self.rows.get(of.index).and_then(Option::as_ref).ok_or(NoPrice::Reported)?;
        self.by_row.cost_by(entry.index, of.index, cost).ok_or(NoPrice::Reported)
    }

    /// A row by base units of `kind`; `None` where nothing of the kitchen's own joins them.
    fn offer(
        &self,
        (at, priced): (usize, usize),
        cost: &ItemCost,
        kind: &BaseUnitKind,
    ) -> Result<Option<Offer>, NoPrice> {
        let Some((scale, through)) = self.by_row.scale(cost, kind) else { return Ok(None) };
        // A published can or a borrowed measure is too rough to choose a supplier by.
        if through.iter().any(|from| matches!(from, MeasureFrom::Can(_) | MeasureFrom::Reference(_))) {
            return Ok(None);
        }
        let (ep, ap) = self.by_row.compared(cost, &scale).map_err(|_| self.untold(cost))?;
        Ok(Some(Offer { at, priced, scale, ep, ap }))
    }

    /// What could not be told of a row that might be the one to use.
    fn untold(&self, cost: &ItemCost) -> NoPrice {
        let (_, problems) = self.by_row.pieces(cost);
        let told = problems.into_iter().find(Problem::is_error);
        told.map_or(NoPrice::Reported, |problem| NoPrice::Because(Box::new(problem)))
    }

    fn not_comparable(&self, one: (usize, &BaseUnitKind), other: (usize, &BaseUnitKind)) -> NoPrice {
        // Told at the later of the two.
        let (first, second) = if one.0 < other.0 { (one, other) } else { (other, one) };
        match self.pool.get(first.0).zip(self.pool.get(second.0)) {
            Some((a, b)) => {
                let problem = remarks::not_comparable(self.item, (a, first.1.word()), (b, second.1.word()));
                NoPrice::Because(Box::new(problem))
            }
            None => NoPrice::Reported,
        }
    }
}

/// A row with the kind it is priced by.
fn of((row, cost): &((usize, usize), ItemCost)) -> (usize, &BaseUnitKind) {
    (row.0, &cost.kind)
}

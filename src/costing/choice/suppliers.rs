//! Which of several suppliers' and packs' newest prices counts: the preferred supplier's, else the most recent, ties to
//! the cheapest per EP unit.

use std::collections::HashMap;

use indexmap::IndexMap;
use jiff::civil::Date;

use super::{Choice, HistoryKey, RowState};
use crate::costing::bought;
use crate::costing::kind::Kind;
use crate::costing::rate::Rate;
use crate::kitchen::price::{Item, Price, Trim};
use crate::kitchen::{Field, NameKey};
use crate::number::Decimal;
use crate::problem::{Code, Fault, THERE};
use crate::schema::Column;

impl Choice<'_> {
    /// The preferred supplier's row, else the most recent, ties to the cheapest per EP unit.
    pub(super) fn choose(
        &mut self,
        item: &Item,
        histories: &IndexMap<HistoryKey, Vec<usize>>,
        current: Vec<usize>,
    ) -> Option<usize> {
        let preferred = self.preferred(item, histories)?;
        let mut candidates = current;
        let marked: Vec<usize> = histories.values().filter(|rows| self.is_marked(rows)).flatten().copied().collect();
        if let Some(supplier) = preferred {
            let of_supplier =
                |index: &usize| self.row(*index).is_some_and(|row| NameKey::of(&row.supplier) == supplier);
            if candidates.iter().any(&of_supplier) {
                candidates.retain(of_supplier);
            }
            // Rows that name no supplier have nothing but the mark itself in common.
            if supplier.is_empty() && candidates.iter().any(|index| marked.contains(index)) {
                candidates.retain(|index| marked.contains(index));
            }
        }
        let day = |index: &usize| self.row(*index).and_then(|row| row.date.given().copied());
        let newest = candidates.iter().map(day).max();
        candidates.retain(|index| Some(day(index)) == newest);
        if candidates.iter().any(|index| marked.contains(index)) {
            candidates.retain(|index| marked.contains(index));
        }
        if candidates.len() == 1 {
            return candidates.first().copied();
        }
        self.cheapest(item, &candidates, histories)
    }

    /// Whether the newest word of a history on *Preferred* is yes.
    fn is_marked(&self, history: &[usize]) -> bool {
        let said = history.iter().filter_map(|index| self.row(*index)).filter_map(|row| {
            let date = row.date.given().copied();
            Some((date, *row.preferred.given()?)).filter(|_| date.is_none_or(|date| date <= self.scenario.date))
        });
        said.max().is_some_and(|(_, yes)| yes)
    }

    /// The supplier whose newest word on it is *Preferred*; `Some(None)` when none is.
    fn preferred(&mut self, item: &Item, histories: &IndexMap<HistoryKey, Vec<usize>>) -> Option<Option<NameKey>> {
        let mut says: HashMap<NameKey, (Option<Date>, bool, usize)> = HashMap::new();
        for index in histories.values().flatten() {
            let Some(row) = self.row(*index) else { continue };
            let date = row.date.given().copied();
            let (Some(yes), true) = (row.preferred.given(), date.is_none_or(|date| date <= self.scenario.date)) else {
                continue;
            };
            let said = says.entry(NameKey::of(&row.supplier)).or_insert((date, *yes, *index));
            if (date, *yes) >= (said.0, said.1) {
                *said = (date, *yes, *index);
            }
        }
        let mut yes: Vec<(usize, NameKey)> =
            says.into_iter().filter(|(_, (_, yes, _))| *yes).map(|(key, (_, _, index))| (index, key)).collect();
        yes.sort();
        if let [first, second, ..] = yes.as_slice() {
            let (Some(a), Some(b)) = (self.row(first.0), self.row(second.0)) else { return None };
            self.problems.push(
                Fault::new(
                    Code::PreferredTwice,
                    format!("both “{}” and “{}” are preferred for “{}”", a.supplier, b.supplier, item.name),
                    "Leave Preferred on one supplier's row.",
                )
                .at(b.input.place(Column::Preferred)),
            );
            return None;
        }
        Some(yes.pop().map(|(_, key)| key))
    }

    fn cheapest(
        &mut self,
        item: &Item,
        candidates: &[usize],
        histories: &IndexMap<HistoryKey, Vec<usize>>,
    ) -> Option<usize> {
        let mut best: Option<(Decimal, usize, Kind)> = None;
        for index in candidates {
            // A market price stands for the last price before it; without one it cannot be the cheapest.
            let mut priced = *index;
            if self.row(*index)?.price == Field::Given(Price::Market) {
                let history = histories.values().find(|rows| rows.contains(index))?;
                let Some(last) = self.last_price(*index, history) else { continue };
                priced = last;
            }
            // A broken row among equals might be the one to use.
            let cost = self.rows.get(priced)?.as_ref()?;
            let ep = cost.ap.after_yield(self.compared_by(item, *index)).and_then(Rate::unit_cost).ok()?;
            match &best {
                Some((_, other, kind)) if *kind != cost.kind => {
                    let (Some(a), Some(b)) = (self.row(*other), self.row(*index)) else { return None };
                    self.problems.push(
                        Fault::new(
                            Code::PricesNotComparable,
                            format!(
                                "“{}” is priced by {} at {THERE} and by {} here, on the same day",
                                item.name,
                                kind.word(),
                                cost.kind.word()
                            ),
                            "Type yes in Preferred on the row to use.",
                        )
                        .speaking_of(a.input.place(Column::Price))
                        .at(b.input.place(Column::Price)),
                    );
                    return None;
                }
                Some((cheapest, ..)) if *cheapest <= ep => {}
                _ => best = Some((ep, *index, cost.kind.clone())),
            }
        }
        for index in candidates {
            // A market price has no price of its own to be dearer by.
            if self.row(*index)?.price != Field::Given(Price::Market) {
                self.set(*index, RowState::Dearer);
            }
        }
        best.map(|(_, index, _)| index).or_else(|| candidates.first().copied())
    }

    /// The yield by which a row is compared with others of its day. Where a trim test speaks it does so for all of them,
    /// so they are compared as purchased.
    fn compared_by(&self, item: &Item, row: usize) -> Decimal {
        match item.trim {
            Trim::Main(_) => Decimal::ONE,
            _ => {
                let stated = bought::stated_yield(self.kitchen, self.scenario.date, item, row);
                stated.map_or(Decimal::ONE, |(fraction, _)| fraction)
            }
        }
    }
}

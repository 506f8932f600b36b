//! What is bought: the row in use, what it costs, and the yield that rules.

use std::cmp::Reverse;

use super::super::fraction::{Fraction, whole};
use super::super::kitchen::breakdowns::{Input, Role};
use super::super::kitchen::measures::{Basis, Gauge, Measure};
use super::super::kitchen::prices::{PriceRow, Sold, TODAY, piece_unit};
use super::super::kitchen::{Item, Kitchen};
use super::super::unit::Dim;
use super::{Costs, Known, Lack, TestCost};

/// Where a yield is from, as the results name it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum YieldFrom {
    Line,
    Test,
    PriceRow,
    Piece,
    None,
}

impl YieldFrom {
    pub fn text(self) -> &'static str {
        match self {
            YieldFrom::Line => "line",
            YieldFrom::Test => "test",
            YieldFrom::PriceRow => "price row",
            YieldFrom::Piece => "piece",
            YieldFrom::None => "none",
        }
    }
}

/// What breaking down a bought item says of its yield.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trim {
    /// No test, or several of which none rules.
    Nothing,
    /// The one main of the one trim test.
    Main {
        test: usize,
        part: usize,
    },
    SeveralMains,
}

/// On or before today, and not ended.
fn holds(row: &PriceRow) -> bool {
    row.date.is_none_or(|date| date <= TODAY) && row.until.is_none_or(|until| TODAY <= until)
}

/// Of the rows in `tier` that state a yield and are not of a day to come, the newest; of equally new ones the lowest.
fn stated<'a>(rows: impl Iterator<Item = &'a PriceRow>) -> Option<Fraction> {
    let stating = rows.filter(|row| row.date.is_none_or(|date| date <= TODAY));
    let yields = stating.filter_map(|row| Some((Reverse(row.date), row.yields.as_ref()?.value.clone())));
    yields.min().map(|(_, yields)| yields)
}

/// The yield of a price row: its own, else that of the same supplier and code, else of the supplier, else of any.
fn row_yield(item: &Item, row: &PriceRow) -> Option<Fraction> {
    let own = row.yields.as_ref().map(|yields| yields.value.clone());
    let rows = || item.rows.iter();
    own.or_else(|| stated(rows().filter(|other| other.supplier == row.supplier && other.code == row.code)))
        .or_else(|| stated(rows().filter(|other| other.supplier == row.supplier)))
        .or_else(|| stated(rows()))
}

impl Costs<'_> {
    fn item(&self, item: usize) -> &Item {
        &self.kitchen.items[item]
    }

    /// What the pack of a row costs.
    fn money(&self, row: &PriceRow) -> Fraction {
        let within = self.kitchen.settings.price_tax.as_ref().map(|house| row.tax.as_ref().unwrap_or(house));
        let mut money = &row.price.value / (whole(1) + within.map_or_else(|| whole(0), |tax| tax.value.clone()));
        if let Some(further) = &row.further {
            money += &further.value;
        }
        if let Some(credit) = &row.credit {
            money -= &credit.value;
        }
        money
    }

    /// The row in use: of the preferred supplier where there is one, the newest, then the cheapest edible, then the
    /// cheapest as purchased, then by name.
    pub fn row(&self, at: usize) -> Known<&PriceRow> {
        let item = self.item(at);
        let held: Vec<&PriceRow> = item.rows.iter().filter(|row| holds(row)).collect();
        let preferred = held.iter().find(|row| row.preferred).map(|row| row.supplier);
        // Rows that name no supplier have nothing but the mark in common: it is said of that code and pack.
        let marked =
            |row: &PriceRow| held.iter().any(|one| one.preferred && (one.code, &one.pack) == (row.code, &row.pack));
        let is_meant =
            |row: &PriceRow, supplier: &str| row.supplier == supplier && (!supplier.is_empty() || marked(row));
        let of = held.iter().copied().filter(|row| preferred.is_none_or(|supplier| is_meant(row, supplier)));
        let ap = |row: &PriceRow| {
            let per = [Dim::Weight, Dim::Volume, Dim::Count].into_iter().find_map(|dim| row.buys.of(dim).cloned());
            self.money(row) / per.unwrap_or_else(|| whole(1))
        };
        // Where a test or a piece's edible weight rules, it is one yield for all rows.
        let one_yield = matches!(self.trim(at), Trim::Main { .. }) || self.edible_piece(at).is_some();
        let edible = |row: &PriceRow| {
            // What cannot be told of a row stops the item, which the kitchens leave out.
            let own = || row_yield(item, row).or_else(|| self.implied(at, row).ok().flatten());
            let yields = if one_yield { None } else { own() };
            ap(row) / yields.unwrap_or_else(|| whole(1))
        };
        let name = |row: &PriceRow| (row.supplier, row.code, format!("{:?}", row.pack));
        of.min_by_key(|row| (Reverse(row.date), edible(row), ap(row), name(row))).ok_or(Lack("no price holds"))
    }

    /// Money for one base unit of this dimension as purchased, where the row's pack says so.
    pub fn ap_cost(&self, item: usize, dim: Dim) -> Known<Option<Fraction>> {
        let row = self.row(item)?;
        Ok(row.buys.of(dim).map(|qty| self.money(row) / qty))
    }

    /// The trim test of a bought item.
    pub fn trim(&self, item: usize) -> Trim {
        let mut tests = (0..self.kitchen.breakdowns.len()).filter(|test| {
            let test = &self.kitchen.breakdowns[*test];
            !test.cooking && test.input == Input::Bought(item)
        });
        let (Some(test), None) = (tests.next(), tests.next()) else {
            return Trim::Nothing;
        };
        let parts = &self.kitchen.breakdowns[test].parts;
        let mut mains = (0..parts.len()).filter(|part| parts[*part].role == Role::Main);
        match (mains.next(), mains.next()) {
            (Some(part), None) => Trim::Main { test, part },
            _ => Trim::SeveralMains,
        }
    }

    /// A counted measure's row of this basis.
    pub fn piece_row(&self, item: usize, name: &str, basis: Basis) -> Option<&Measure> {
        let mut rows = self.item(item).measures.iter();
        rows.find(|row| matches!(row.gauge, Gauge::Piece(of) if of == name) && row.basis == basis)
    }

    /// The edible weight of the piece by which an item that is sold by count is priced.
    pub fn edible_piece(&self, item: usize) -> Option<Fraction> {
        let by_count = self.item(item).sold == Sold::Count;
        by_count.then(|| self.piece_row(item, "each", Basis::Ep)).flatten().map(|row| row.weighs.base())
    }

    /// What a counted measure weighs as purchased, as the pack, an AP row or a test's count says it.
    pub fn piece_ap_said(&self, item: usize, name: &str) -> Known<Option<Fraction>> {
        self.piece_ap_by(item, self.row(item)?, name)
    }

    /// The same by the pack of one of its price rows.
    fn piece_ap_by(&self, item: usize, by: &PriceRow, name: &str) -> Known<Option<Fraction>> {
        let of = self.item(item);
        let counted = name == piece_unit(of.sold);
        if counted && let (Some(grams), Some(pieces)) = (&by.buys.grams, &by.buys.pieces) {
            return Ok(Some(grams / pieces));
        }
        if let Some(row) = self.piece_row(item, name, Basis::Ap) {
            return Ok(Some(row.weighs.base()));
        }
        if name != "each" {
            return Ok(None);
        }
        let counts = |kitchen: &Kitchen| {
            let tests = kitchen.breakdowns.iter().filter(|test| test.input == Input::Bought(item));
            let mut said = tests.filter_map(|test| {
                let counted = || test.runs.iter().filter_map(|run| Some((run.weight.base(), run.count?)));
                let pieces: i64 = counted().map(|(_, count)| count).sum();
                let grams = counted().fold(whole(0), |sum, (grams, _)| sum + grams);
                (pieces > 0).then(|| grams / whole(pieces))
            });
            (said.next(), said.next())
        };
        match counts(self.kitchen) {
            (said, None) => Ok(said),
            (_, Some(_)) => Err(Lack("two tests weigh a piece")),
        }
    }

    /// The yield that a counted measure's edible weight beside its weight as purchased implies in the pack of a price
    /// row; the lower of several.
    fn implied(&self, item: usize, by: &PriceRow) -> Known<Option<Fraction>> {
        let mut lowest: Option<Fraction> = None;
        for row in &self.item(item).measures {
            let Gauge::Piece(name) = row.gauge else { continue };
            if row.basis == Basis::Ap || name == "pinch" {
                continue;
            }
            if let Some(ap) = self.piece_ap_by(item, by, name)? {
                let yields = row.weighs.base() / ap;
                lowest = Some(lowest.map_or_else(|| yields.clone(), |low| low.min(yields.clone())));
            }
        }
        Ok(lowest)
    }

    /// The yield that rules where the line has none of its own.
    pub fn item_yield(&self, item: usize) -> Known<(Fraction, YieldFrom)> {
        match self.trim(item) {
            Trim::Main { test, part } => {
                // What depends on a test at fault is stopped, if only its yield is asked for.
                if let Some(TestCost { cost: Err(lack), .. }) = self.tests.get(test) {
                    return Err(*lack);
                }
                let test = &self.kitchen.breakdowns[test];
                return Ok((super::breakdowns::weight(&test.parts[part]) / test.weight_in(), YieldFrom::Test));
            }
            Trim::SeveralMains => return Err(Lack("several mains")),
            Trim::Nothing => {}
        }
        let row = self.row(item)?;
        if let Some(yields) = row_yield(self.item(item), row) {
            return Ok((yields, YieldFrom::PriceRow));
        }
        Ok(match self.implied(item, self.row(item)?)? {
            Some(yields) => (yields, YieldFrom::Piece),
            None => (whole(1), YieldFrom::None),
        })
    }

    /// What a counted measure weighs as purchased: as said, else its edible weight ÷ the yield that rules.
    pub fn piece_ap(&self, item: usize, name: &str) -> Known<Option<Fraction>> {
        if let Some(said) = self.piece_ap_said(item, name)? {
            return Ok(Some(said));
        }
        match self.piece_row(item, name, Basis::Ep) {
            Some(row) => Ok(Some(row.weighs.base() / self.item_yield(item)?.0)),
            None => Ok(None),
        }
    }
}

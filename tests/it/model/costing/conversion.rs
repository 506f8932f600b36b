//! From a cook's measure to the unit of a price.

use super::super::fraction::{Fraction, whole};
use super::super::kitchen::lines::{Line, LineUnit};
use super::super::kitchen::measures::{Basis, Gauge, Measure};
use super::super::kitchen::prices::{Sold, piece_unit};
use super::super::unit::{Dim, Unit};
use super::bought::Trim;
use super::made::LineCost;
use super::{Base, Costs, Known, Lack, YieldFrom};

/// Grams in a millilitre, by the row that serves: of the prep asked for, else of none; of the line's basis, else of the
/// other; in the line's unit, else in the nearest by ratio, the larger of two; for grams, in the largest.
pub fn density(rows: &[Measure], prep: &str, basis: Basis, unit: Option<Unit>) -> Option<(Fraction, Basis)> {
    let volumes = || {
        rows.iter().filter_map(|row| match row.gauge {
            Gauge::Volume(of) => Some((row, of.size())),
            Gauge::Piece(_) => None,
        })
    };
    let asked = volumes().any(|(row, _)| row.prep == prep);
    let of_prep = || volumes().filter(|(row, _)| row.prep == if asked { prep } else { "" });
    let own = of_prep().any(|(row, _)| row.basis == basis);
    let of_basis = of_prep().filter(|(row, _)| (row.basis == basis) == own);
    let far = |size: &Fraction| {
        let Some(unit) = unit else { return whole(0) };
        let times = size / unit.size();
        if times < whole(1) { times.recip() } else { times }
    };
    let nearest = of_basis.min_by_key(|(_, size)| (far(size), -size.clone()));
    nearest.map(|(row, size)| (row.weighs.base() / size, row.basis))
}

/// What is asked for, in base units of its own kind.
enum Asked {
    /// Grams or millilitres.
    Measured(Dim, Fraction),
    /// So many of a counted measure.
    Pieces(&'static str, Fraction),
}

impl Costs<'_> {
    /// A line of something bought.
    pub(super) fn bought_line(&self, item: usize, line: &Line, qty: &Fraction) -> Known<LineCost> {
        let basis = line.basis.unwrap_or(line.unit.usual_basis());
        let piece = piece_unit(self.kitchen.items[item].sold);
        let asked = match line.unit {
            LineUnit::Unit(unit) if unit.dim == Dim::Count => Asked::Pieces("each", qty * unit.size()),
            LineUnit::Unit(unit) => {
                let more = line.and.as_ref().map_or_else(|| whole(0), |(num, unit)| &num.value * unit.size());
                Asked::Measured(unit.dim, qty * unit.size() + more)
            }
            LineUnit::Piece(name) => Asked::Pieces(name, qty.clone()),
            LineUnit::Case(_) => return self.packs(item, qty.clone()),
            LineUnit::Package(_) => {
                let packages = self.row(item)?.buys.packages.clone().ok_or(Lack("no packages"))?;
                return self.packs(item, qty / packages);
            }
            _ => return Err(Lack("no such unit of what is bought")),
        };
        match basis {
            Basis::Ap => self.as_purchased(item, line, asked, piece),
            Basis::Ep => self.edible(item, line, asked, piece),
        }
    }

    /// So many of the pieces that the pack counts, at their share of its price; in grams where the pack weighs them.
    fn counted(&self, item: usize, qty: Fraction) -> Known<Base> {
        let buys = &self.row(item)?.buys;
        let per_piece = self.ap_cost(item, Dim::Count)?.ok_or(Lack("no count"))?;
        if let (Some(grams), Some(pieces)) = (&buys.grams, &buys.pieces) {
            let piece = grams / pieces;
            return Ok(Base { dim: Dim::Weight, qty: qty * &piece, unit_cost: per_piece / piece });
        }
        Ok(Base { dim: Dim::Count, qty, unit_cost: per_piece })
    }

    /// So many packs, whole or not.
    fn packs(&self, item: usize, packs: Fraction) -> Known<LineCost> {
        let buys = &self.row(item)?.buys;
        let dim = [Dim::Weight, Dim::Volume, Dim::Count].into_iter().find(|dim| buys.of(*dim).is_some());
        let dim = dim.ok_or(Lack("an empty pack"))?;
        let qty = buys.of(dim).ok_or(Lack("an empty pack"))? * packs;
        let unit_cost = self.ap_cost(item, dim)?.ok_or(Lack("an empty pack"))?;
        Ok(LineCost::ap(Base { dim, qty, unit_cost }))
    }

    /// In the price's unit, what so many grams as purchased are.
    fn grams_ap(&self, item: usize, line: &Line, grams: Fraction) -> Known<LineCost> {
        if let Some(unit_cost) = self.ap_cost(item, Dim::Weight)? {
            return Ok(LineCost::ap(Base { dim: Dim::Weight, qty: grams, unit_cost }));
        }
        if let Some(unit_cost) = self.ap_cost(item, Dim::Count)? {
            let piece = self.piece_ap(item, "each")?.ok_or(Lack("no weight of a piece"))?;
            return Ok(LineCost::ap(Base { dim: Dim::Count, qty: grams / piece, unit_cost }));
        }
        let unit_cost = self.ap_cost(item, Dim::Volume)?.ok_or(Lack("no price"))?;
        let rows = &self.kitchen.items[item].measures;
        let (density, of) = density(rows, line.prep, Basis::Ap, None).ok_or(Lack("no volume row"))?;
        let mut millilitres = grams / density;
        if of == Basis::Ep {
            millilitres /= self.item_yield(item)?.0;
        }
        Ok(LineCost::ap(Base { dim: Dim::Volume, qty: millilitres, unit_cost }))
    }

    fn as_purchased(&self, item: usize, line: &Line, asked: Asked, piece: &str) -> Known<LineCost> {
        let rows = &self.kitchen.items[item].measures;
        match asked {
            Asked::Measured(Dim::Volume, millilitres) => {
                if let Some(unit_cost) = self.ap_cost(item, Dim::Volume)? {
                    return Ok(LineCost::ap(Base { dim: Dim::Volume, qty: millilitres, unit_cost }));
                }
                let (density, of) = density(rows, line.prep, Basis::Ap, unit(line)).ok_or(Lack("no volume row"))?;
                let grams = millilitres * density;
                // Of what is priced by the piece, the piece's edible weight holds the yield.
                if let (Basis::Ep, Some(piece)) = (of, self.edible_piece(item)) {
                    return Ok(LineCost::ap(self.counted(item, grams / piece)?));
                }
                let grams = if of == Basis::Ep { grams / self.item_yield(item)?.0 } else { grams };
                self.grams_ap(item, line, grams)
            }
            Asked::Measured(_, grams) => self.grams_ap(item, line, grams),
            // What the pack counts needs no weight.
            Asked::Pieces(name, qty) if name == piece && self.row(item)?.buys.pieces.is_some() => {
                let base = self.counted(item, qty)?;
                Ok(LineCost::ap(base))
            }
            Asked::Pieces(name, qty) => {
                let weighs = match self.piece_row(item, name, Basis::Ap) {
                    Some(row) => row.weighs.base(),
                    None => self.piece_ap(item, name)?.ok_or(Lack("no weight of a piece"))?,
                };
                self.grams_ap(item, line, qty * weighs)
            }
        }
    }

    /// A line in edible quantity: through the item's trim test, else at the price ÷ the yield.
    fn edible(&self, item: usize, line: &Line, asked: Asked, piece: &str) -> Known<LineCost> {
        let rows = &self.kitchen.items[item].measures;
        let sold = self.kitchen.items[item].sold;
        // Of what is priced by the piece, the piece's edible weight rules.
        let edible_piece = if sold == Sold::Count { self.piece_row(item, "each", Basis::Ep) } else { None };
        let own = line.yields.as_ref().filter(|_| edible_piece.is_none());
        let (yields, from) = match own {
            Some(own) => (own.value.clone(), YieldFrom::Line),
            None => self.item_yield(item)?,
        };
        let grams = match asked {
            Asked::Measured(Dim::Volume, millilitres) => {
                if let Some(ap) = self.ap_cost(item, Dim::Volume)? {
                    let base = Base { dim: Dim::Volume, qty: millilitres, unit_cost: ap / &yields };
                    return Ok(LineCost::ep(base, yields, from));
                }
                let (density, of) = density(rows, line.prep, Basis::Ep, unit(line)).ok_or(Lack("no volume row"))?;
                if of == Basis::Ap { millilitres * density * &yields } else { millilitres * density }
            }
            Asked::Measured(_, grams) => {
                if let Some(ap) = self.ap_cost(item, Dim::Volume)? {
                    let (density, of) = density(rows, line.prep, Basis::Ep, None).ok_or(Lack("no volume row"))?;
                    let millilitres = grams / density;
                    let qty = if of == Basis::Ap { millilitres * &yields } else { millilitres };
                    let base = Base { dim: Dim::Volume, qty, unit_cost: ap / &yields };
                    return Ok(LineCost::ep(base, yields, from));
                }
                grams
            }
            Asked::Pieces(name, qty) => match self.piece_row(item, name, Basis::Ep) {
                Some(row) => qty * row.weighs.base(),
                None => {
                    if from != YieldFrom::Test && name == piece && self.row(item)?.buys.pieces.is_some() {
                        let base = self.counted(item, qty)?;
                        let base = Base { unit_cost: base.unit_cost / &yields, ..base };
                        return Ok(LineCost::ep(base, yields, from));
                    }
                    // Pieces ÷ yield as purchased, of which the yield is left: as many grams as the pieces weigh whole.
                    qty * self.piece_ap(item, name)?.ok_or(Lack("no weight of a piece"))?
                }
            },
        };
        if let (YieldFrom::Test, Trim::Main { test, part }) = (from, self.trim(item)) {
            let base = Base { dim: Dim::Weight, qty: grams, unit_cost: self.part_per_gram(test, part)? };
            return Ok(LineCost::ep(base, yields, from));
        }
        if let Some(ap) = self.ap_cost(item, Dim::Weight)? {
            let base = Base { dim: Dim::Weight, qty: grams, unit_cost: ap / &yields };
            return Ok(LineCost::ep(base, yields, from));
        }
        let ap = self.ap_cost(item, Dim::Count)?.ok_or(Lack("no price"))?;
        if let Some(row) = edible_piece {
            let base = Base { dim: Dim::Count, qty: grams / row.weighs.base(), unit_cost: ap };
            return Ok(LineCost { yields: None, ..LineCost::ep(base, yields, from) });
        }
        let weighs = self.piece_ap(item, "each")?.ok_or(Lack("no weight of a piece"))?;
        let base = Base { dim: Dim::Count, qty: grams / weighs, unit_cost: ap / &yields };
        Ok(LineCost::ep(base, yields, from))
    }
}

/// The unit of a line that is measured by volume.
fn unit(line: &Line) -> Option<Unit> {
    match line.unit {
        LineUnit::Unit(unit) if unit.dim == Dim::Volume => Some(unit),
        _ => None,
    }
}

//! What measures weigh: cups of several preps, pieces and bunches, as purchased and edible.

use super::super::dice::Dice;
use super::super::fraction::{Num, whole};
use super::super::unit::{Amount, CUP, Dim, G, LB, OZ, QT, TBSP, Unit};
use super::prices::Sold;

/// As purchased, or what is left after trimming.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    Ap,
    Ep,
}

impl Basis {
    pub fn text(self) -> &'static str {
        match self {
            Basis::Ap => "AP",
            Basis::Ep => "EP",
        }
    }
}

/// What a measure is counted in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Gauge {
    /// A measure of volume.
    Volume(Unit),
    /// A piece, a bunch, a can, a pinch.
    Piece(&'static str),
}

impl Gauge {
    pub fn name(self) -> &'static str {
        match self {
            Gauge::Volume(unit) => unit.name,
            Gauge::Piece(name) => name,
        }
    }

    /// The basis of a row that does not say.
    fn usual(self) -> Basis {
        match self {
            Gauge::Piece(name) if name != "pinch" => Basis::Ap,
            _ => Basis::Ep,
        }
    }
}

/// A row of Measures.
#[derive(Debug, Clone)]
pub struct Measure {
    pub gauge: Gauge,
    /// How it is cut; empty for the measure as such.
    pub prep: &'static str,
    /// What one weighs or, for what is sold by volume, holds.
    pub weighs: Amount,
    pub basis: Basis,
    /// Whether the basis is typed.
    pub says_basis: bool,
    /// Which way of writing a measure with its prep.
    pub form: usize,
}

impl Measure {
    /// As typed: `cup, diced`.
    pub fn text(&self) -> String {
        let name = self.gauge.name();
        match (self.prep, self.form) {
            ("", _) => name.to_owned(),
            (prep, 1) => format!("{name} {prep}"),
            (prep, 2) => format!("{name} ({prep})"),
            (prep, 3) => format!("{prep} {name}"),
            (prep, _) => format!("{name}, {prep}"),
        }
    }

    /// Whether it says what one holds rather than what it weighs.
    pub fn is_volume(&self) -> bool {
        self.weighs.unit.dim == Dim::Volume
    }
}

pub const PREPS: [&str; 2] = ["sliced", "diced"];

fn row(dice: &mut Dice<'_>, gauge: Gauge, prep: &'static str, weighs: Amount, basis: Basis) -> Measure {
    let says_basis = basis != gauge.usual() || dice.chance(30);
    let form = dice.below(4);
    Measure { gauge, prep, weighs, basis, says_basis, form }
}

fn grams(n: i64) -> Amount {
    Amount::new(Num::whole(n), G)
}

/// Rows that say what a volume of it weighs, all of one density or of densities that differ.
fn volumes(dice: &mut Dice<'_>, rows: &mut Vec<Measure>) {
    let density = dice.of(&[150, 236, 90]);
    // All preps as purchased too, or none: whether a line prefers its prep or its basis nothing says.
    let as_purchased = dice.chance(25);
    let preps: &[&str] = if dice.chance(40) { &["", "sliced", "diced"] } else { &[""] };
    for (at, prep) in preps.iter().enumerate() {
        let cup = grams(density + i64::try_from(at).unwrap() * 20);
        rows.push(row(dice, Gauge::Volume(CUP), prep, cup, Basis::Ep));
        if prep.is_empty() && dice.chance(35) {
            // 16 tablespoons to the cup: now and then far from the cup's density.
            let weighs = Amount::new(Num::hundredths(dice.of(&[density * 100 / 16, density * 8])), G);
            rows.push(row(dice, Gauge::Volume(TBSP), prep, weighs, Basis::Ep));
        }
        if prep.is_empty() && dice.chance(20) {
            let weighs = grams(density * dice.of(&[4, 5]));
            rows.push(row(dice, Gauge::Volume(QT), prep, weighs, Basis::Ep));
        }
        if as_purchased {
            let weighs = grams(density + dice.of(&[30, 60]));
            rows.push(row(dice, Gauge::Volume(CUP), prep, weighs, Basis::Ap));
        }
    }
}

/// A counted measure's rows: as purchased, edible, or both.
fn pieces(dice: &mut Dice<'_>, name: &'static str, rows: &mut Vec<Measure>) {
    let ap = dice.of(&[120, 100, 250]);
    let which = dice.below(3);
    if which != 1 {
        rows.push(row(dice, Gauge::Piece(name), "", grams(ap), Basis::Ap));
    }
    if which != 0 {
        let ep = ap * dice.of(&[90, 100, 75]) / 100;
        rows.push(row(dice, Gauge::Piece(name), "", grams(ep), Basis::Ep));
    }
}

/// The rows of a bought item.
pub fn of_bought(dice: &mut Dice<'_>, sold: Sold) -> Vec<Measure> {
    let mut rows = Vec::new();
    match sold {
        Sold::Weight | Sold::CatchWeight => {
            if dice.chance(50) {
                volumes(dice, &mut rows);
            }
            if dice.chance(50) {
                pieces(dice, "each", &mut rows);
            }
            if dice.chance(30) {
                pieces(dice, "bunch", &mut rows);
            }
        }
        Sold::Volume => {
            if dice.chance(60) {
                volumes(dice, &mut rows);
            }
        }
        Sold::Count => {
            if dice.chance(70) {
                pieces(dice, "each", &mut rows);
                if dice.chance(40) {
                    volumes(dice, &mut rows);
                }
            }
        }
        Sold::CountAndWeight => {
            if dice.chance(50) {
                let weighs = grams(dice.of(&[75, 60, 50]));
                rows.push(row(dice, Gauge::Piece("each"), "", weighs, Basis::Ep));
            }
            if dice.chance(40) {
                volumes(dice, &mut rows);
            }
        }
        Sold::Cans => {
            if dice.chance(60) {
                let drained =
                    Amount { and: Some((Num::whole(dice.of(&[8, 2])), OZ)), ..Amount::new(Num::whole(4), LB) };
                rows.push(row(dice, Gauge::Piece("#10 can"), "", drained, Basis::Ep));
            }
        }
    }
    if dice.chance(25) {
        let weighs = Amount::new(Num::hundredths(dice.of(&[40, 25])), G);
        if !matches!(sold, Sold::Volume | Sold::Count) {
            rows.push(row(dice, Gauge::Piece("pinch"), "", weighs, Basis::Ep));
        }
    }
    rows
}

/// The rows of a part or a recipe: nothing of it is trimmed, so all are edible.
pub fn of_own(dice: &mut Dice<'_>) -> Vec<Measure> {
    let mut rows = Vec::new();
    if dice.chance(40) {
        volumes(dice, &mut rows);
        rows.retain(|row| row.basis == Basis::Ep);
    }
    if dice.chance(30) {
        rows.push(Measure { says_basis: true, ..row(dice, Gauge::Piece("each"), "", grams(40), Basis::Ep) });
    }
    debug_assert!(rows.iter().all(|row| row.weighs.base() > whole(0)));
    rows
}

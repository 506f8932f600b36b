//! What is bought: packs in many notations, suppliers, price histories, promotions and yields.

use jiff::civil::{Date, date};

use super::super::dice::Dice;
use super::super::fraction::{Fraction, Num, whole};
use super::super::unit::{Amount, CWT, Dim, EACH, FL_OZ, GAL, KG, LB, LITRE, ML, OZ, PT, QT, Unit};

/// By what an item is sold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sold {
    Weight,
    Volume,
    Count,
    /// Counted packs whose weight is known: `140 ct 35 lb`.
    CountAndWeight,
    /// Cans with their label weight.
    Cans,
    /// By the pound or kilo; what the pack says is about.
    CatchWeight,
}

/// What a price pays for, in base units.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Buys {
    pub grams: Option<Fraction>,
    pub millilitres: Option<Fraction>,
    pub pieces: Option<Fraction>,
    /// What one innermost package holds of each of the former, as a share of the pack.
    pub packages: Option<Fraction>,
}

/// A row of the price list.
#[derive(Debug, Clone)]
pub struct PriceRow {
    /// As typed under Pack, or under Pack count, Unit size and Size unit.
    pub pack: Result<String, [String; 3]>,
    pub price: Num,
    pub per: &'static str,
    pub supplier: &'static str,
    pub code: &'static str,
    pub date: Option<Date>,
    pub until: Option<Date>,
    pub yields: Option<Num>,
    pub preferred: bool,
    pub buys: Buys,
    pub further: Option<Num>,
    pub credit: Option<Num>,
    pub tax: Option<Num>,
}

/// The day on which every kitchen is costed: `support::options`.
pub const TODAY: Date = date(2026, 11, 20);
const DAYS: [Date; 4] = [date(2026, 11, 1), date(2026, 10, 5), date(2026, 11, 12), date(2026, 9, 9)];
const FUTURE: Date = date(2026, 11, 27);
pub const SUPPLIERS: [&str; 4] = ["Alder Provisions", "", "Birch & Daughters", "Cedar Wharf"];
const CODES: [&str; 3] = ["", "70012", "QX-9"];
/// Tenths of a percent, several of them often met.
const YIELDS: [i64; 6] = [900, 800, 1000, 625, 335, 900];

impl Buys {
    fn weighs(size: &Amount, times: i64) -> Self {
        Buys { grams: Some(size.base() * whole(times)), packages: Some(whole(times)), ..Buys::default() }
    }

    fn holds(size: &Amount, times: i64) -> Self {
        Buys { millilitres: Some(size.base() * whole(times)), packages: Some(whole(times)), ..Buys::default() }
    }

    /// The pack's own quantity of this dimension.
    pub fn of(&self, dim: Dim) -> Option<&Fraction> {
        match dim {
            Dim::Weight => self.grams.as_ref(),
            Dim::Volume => self.millilitres.as_ref(),
            Dim::Count => self.pieces.as_ref(),
        }
    }
}

/// A pack as typed and what it holds.
fn pack(dice: &mut Dice<'_>, sold: Sold) -> (Result<String, [String; 3]>, &'static str, Buys) {
    let amount = |num: Num, unit: Unit| Amount::new(num, unit);
    match sold {
        Sold::Weight => {
            let n = dice.of(&[6, 1, 12, 4]);
            let size = dice.of(&[5, 10, 25]);
            let (text, buys) = match dice.below(9) {
                0 => (format!("{size} lb"), Buys::weighs(&amount(Num::whole(size), LB), 1)),
                1 => (format!("{n}/{size} lb"), Buys::weighs(&amount(Num::whole(size), LB), n)),
                2 => (
                    format!("{n}x2.5kg"),
                    Buys::weighs(&amount(Num { text: "2.5".into(), ..Num::hundredths(250) }, KG), n),
                ),
                3 => (format!("1/{size}#"), Buys::weighs(&amount(Num::whole(size), LB), 1)),
                4 => (format!("{n}/16 oz"), Buys::weighs(&amount(Num::whole(16), OZ), n)),
                5 => ("2 1/2 lb".into(), Buys::weighs(&amount(Num::mixed(2, 1, 2), LB), 1)),
                6 => ("4/6/8 oz".into(), Buys::weighs(&amount(Num::whole(8), OZ), 24)),
                7 => (format!("{size} lb bag"), Buys::weighs(&amount(Num::whole(size), LB), 1)),
                _ => {
                    let split = [n.to_string(), size.to_string(), "lb".to_owned()];
                    return (Err(split), "", Buys::weighs(&amount(Num::whole(size), LB), n));
                }
            };
            let per = if text.contains("bag") { "" } else { dice.of(&["", "", "CS", "case"]) };
            (Ok(text), per, buys)
        }
        Sold::Volume => {
            let n = dice.of(&[4, 1, 12, 6]);
            let (text, buys) = match dice.below(7) {
                0 => (format!("{n}/1 gal"), Buys::holds(&amount(Num::whole(1), GAL), n)),
                1 => (format!("{n} x 750 ml"), Buys::holds(&amount(Num::whole(750), ML), n)),
                2 => {
                    ("1.5 L".into(), Buys::holds(&amount(Num { text: "1.5".into(), ..Num::hundredths(150) }, LITRE), 1))
                }
                3 => ("half gal".into(), Buys::holds(&amount(Num::mixed(0, 1, 2), GAL), 1)),
                4 => ("12/1/2 pt".into(), Buys::holds(&amount(Num::mixed(0, 1, 2), PT), 12)),
                5 => (format!("{n}/32 fl oz"), Buys::holds(&amount(Num::whole(32), FL_OZ), n)),
                _ => {
                    let split = [n.to_string(), "2".to_owned(), "qt".to_owned()];
                    return (Err(split), "", Buys::holds(&amount(Num::whole(2), QT), n));
                }
            };
            (Ok(text), "", buys)
        }
        Sold::Count => {
            let n = dice.of(&[24, 100, 12, 30, 500]);
            let (text, pieces) = match dice.below(4) {
                0 => (format!("{n} ct"), n),
                1 => (format!("{n} count"), n),
                2 => (format!("{n} dz"), n * 12),
                _ => (format!("{n}/cs"), n),
            };
            (Ok(text), "", Buys { pieces: Some(whole(pieces)), ..Buys::default() })
        }
        Sold::CountAndWeight => {
            let n = dice.of(&[140, 88, 60]);
            let size = dice.of(&[35, 40, 25]);
            let text = if dice.chance(40) { format!("{n}ct {size}#") } else { format!("{n} ct {size} lb") };
            let grams = Amount::new(Num::whole(size), LB).base();
            (Ok(text), "", Buys { pieces: Some(whole(n)), grams: Some(grams), ..Buys::default() })
        }
        Sold::Cans => {
            let n = dice.of(&[6, 1, 12]);
            let ounces = dice.of(&[10, 9, 4]);
            let label = Amount { and: Some((Num::whole(ounces), OZ)), ..Amount::new(Num::whole(6), LB) };
            let text = format!("{n}/#10 ({})", label.text());
            (Ok(text), "", Buys { pieces: Some(whole(n)), grams: Some(label.base() * whole(n)), ..Buys::default() })
        }
        Sold::CatchWeight => {
            let text = dice.of(&["10 lb CW", "", "2/10 lb avg", "14-16 lb avg", "12/up"]);
            let unit = dice.of(&[LB, KG, LB, CWT]);
            (Ok(text.to_owned()), unit.name, Buys { grams: Some(unit.size()), ..Buys::default() })
        }
    }
}

/// What is typed and read as the same pack by whoever compares packs.
fn same_pack(a: &PriceRow, b: &PriceRow) -> bool {
    a.buys == b.buys || a.pack == b.pack
}

/// The rows of one item. No two of them speak of one supplier, code, pack and day.
pub fn rows(dice: &mut Dice<'_>, sold: Sold) -> Vec<PriceRow> {
    let mut rows: Vec<PriceRow> = Vec::new();
    let several = dice.of(&[1, 1, 2, 3, 5]);
    let one_pack = dice.chance(50) || matches!(sold, Sold::CountAndWeight | Sold::Cans);
    let preferred = dice.chance(45).then(|| dice.of(&SUPPLIERS[..3]));
    let dated = dice.chance(80);
    let first_pack = pack(dice, sold);
    let mut price = Num::dollars(dice.between(150, 9000));
    for at in 0..several {
        let (pack, per, buys) = if one_pack || at == 0 { first_pack.clone() } else { pack(dice, sold) };
        // The same price again, now and then: ties.
        if dice.chance(70) {
            price = Num::dollars(dice.between(150, 9000));
        }
        let supplier = dice.of(&SUPPLIERS);
        let row = PriceRow {
            pack,
            price: price.clone(),
            per,
            supplier,
            code: dice.of(&CODES),
            date: (dated && dice.chance(85)).then(|| if dice.chance(6) { FUTURE } else { dice.of(&DAYS) }),
            until: None,
            yields: dice.chance(40).then(|| Num::percent(dice.of(&YIELDS))),
            preferred: preferred == Some(supplier) && dice.chance(80),
            buys,
            further: (dice.chance(10)).then(|| Num::dollars(dice.between(10, 300))),
            credit: (dice.chance(10)).then(|| Num::dollars(dice.between(10, 120))),
            tax: (dice.chance(10)).then(|| Num::percent(dice.of(&[0, 55, 190]))),
        };
        let until = dice.chance(15).then(|| dice.of(&[date(2026, 11, 19), TODAY, date(2026, 11, 14)]));
        let row = PriceRow { until: until.filter(|until| row.date.is_none_or(|date| date <= *until)), ..row };
        let taken = |other: &PriceRow| {
            other.supplier == row.supplier && other.code == row.code && other.date == row.date && same_pack(other, &row)
        };
        if !rows.iter().any(taken) {
            rows.push(row);
        }
    }
    rows
}

/// Pieces, for those who ask what a count is of.
pub fn piece_unit(sold: Sold) -> &'static str {
    if sold == Sold::Cans { "#10 can" } else { EACH.name }
}

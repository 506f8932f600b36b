//! Quantity, weight and extension of an invoice's line, which prove what its price is for.

use super::per::Per;
use super::reader::Reader;
use crate::kitchen::Field;
use crate::kitchen::price::Price;
use crate::measure::{Dimension, Measured, Pack, Unit, Volumes, parse_money};
use crate::number::{Decimal, decimal, exact, plain};
use crate::problem::{Code, Fault};
use crate::schema::{Column, Typed, Value};

/// What was shipped and billed; `None` where a cell is blank or no number.
#[derive(Debug, Clone, Copy)]
pub(super) struct Billed {
    pub(super) qty: Option<Decimal>,
    pub(super) weight: Option<Decimal>,
    pub(super) extended: Option<Decimal>,
}

impl Billed {
    /// Whether so many times `price` are the extension, to the cent.
    fn comes_to(self, times: Option<Decimal>, price: Decimal) -> bool {
        let all = times.and_then(|times| exact::mul(times, price).ok());
        all.zip(self.extended).is_some_and(|(all, extended)| is_within(all, extended, CENT))
    }
}

/// A cent: amounts on an invoice are rounded to it.
pub(super) const CENT: Decimal = Decimal::from_parts(1, 0, 0, false, 2);

/// Whether two amounts differ by no more than `most`.
pub(super) fn is_within(a: Decimal, b: Decimal, most: Decimal) -> bool {
    exact::sub(a, b).is_ok_and(|off| off.abs() <= most)
}

impl Reader<'_> {
    /// A number that is there to prove others; one that cannot be read proves nothing.
    pub(super) fn proof(&self, column: Column) -> Option<Decimal> {
        match &self.input.typed(column).value {
            Value::Number(number) => Some(*number),
            Value::Text(text) => {
                let marks = self.marks(column);
                let money = || parse_money(text, marks).ok().map(|money| money.amount);
                decimal::parse(text, marks).ok().or_else(money)
            }
            _ => None,
        }
    }

    pub(super) fn billed(&self) -> Billed {
        let not_zero = |column| self.proof(column).filter(|number| !number.is_zero());
        Billed { qty: not_zero(Column::Qty), weight: not_zero(Column::Weight), extended: not_zero(Column::Extended) }
    }

    /// What the price is for, once pack, quantity, weight and extension have been heard.
    pub(super) fn settle_per(&mut self, price: &mut Field<Price>, pack: &Field<Pack>, per: &Per) -> Field<Measured> {
        let Some(Price::Money(amount)) = price.given().copied() else {
            return match per.of_pack(pack) {
                Some(per) => per,
                None => self.per_ambiguous(pack),
            };
        };
        let billed = self.billed();
        let pack_given = pack.given();
        let one = pack_given.and_then(Pack::one_unit);
        let units = one.as_ref().map(|(count, _)| *count);
        let of_units = units.zip(billed.qty).and_then(|(count, qty)| exact::mul(count, qty).ok());
        let by_pack = billed.comes_to(billed.qty, amount);
        let by_weight = billed.comes_to(billed.weight, amount);
        let by_unit = billed.comes_to(of_units, amount);
        let checks = billed.extended.is_some() && (billed.qty.is_some() || billed.weight.is_some());
        match (per.of_pack(pack), per) {
            (Some(Field::Broken), _) => Field::Broken,
            (None, _) if by_unit && !by_pack => self.proven(one),
            (None, _) => match self.weighed(&billed, pack_given, one.as_ref()) {
                Some(true) => self.proven(one),
                Some(false) => Field::Blank,
                None => self.per_ambiguous(pack),
            },
            (Some(Field::Given(measured)), _) => {
                let within = billed.qty.and_then(|qty| exact::mul(qty, content_in(pack_given, &measured.unit)?).ok());
                let fits = by_pack || by_weight || by_unit || billed.comes_to(within, amount);
                if checks && !fits && measured.amount == Decimal::ONE {
                    *price = self.extension_disagrees(&billed, amount);
                }
                Field::Given(measured)
            }
            (Some(Field::Blank), _) => {
                let nominal = pack_given.is_some_and(|pack| pack.nominal);
                let part = billed.qty.is_some_and(|qty| !qty.fract().is_zero());
                if (by_weight && !by_pack) || (nominal && by_pack && part) {
                    return self.by_weight(pack_given);
                }
                if checks && !by_pack && pack_given.is_some() {
                    *price = self.extension_disagrees(&billed, amount);
                }
                Field::Blank
            }
        }
    }

    /// One unit of the pack, of which the extension or the weight says that the price is for it.
    fn proven(&mut self, one: Option<(Decimal, Measured)>) -> Field<Measured> {
        let Some((_, one)) = one else { return Field::Blank };
        self.input.set(Column::Per, Typed::text(one.to_string()));
        Field::Given(one)
    }

    /// Whether what was shipped weighed as many single units as were billed (`true`) or as many packs (`false`); `None`
    /// where the weight says neither.
    fn weighed(&self, billed: &Billed, pack: Option<&Pack>, one: Option<&(Decimal, Measured)>) -> Option<bool> {
        let unit = self.weight_unit(pack)?;
        let shipped = exact::div(billed.weight?, billed.qty?).ok()?;
        let is = |measured: &Measured| {
            let grams = measured.unit.grams().and_then(|size| exact::mul(measured.amount, size).ok());
            let weighed = unit.grams().and_then(|size| exact::mul(shipped, size).ok());
            let most = Decimal::new(5, 3);
            grams.zip(weighed).is_some_and(|(grams, weighed)| {
                exact::mul(grams, most).is_ok_and(|most| is_within(grams, weighed, most))
            })
        };
        if is(&one?.1) {
            return Some(true);
        }
        pack?.content.as_ref().filter(|content| is(content)).map(|_| false)
    }

    /// The unit of the column Weight: of its header, of what the table's weights prove, of the pack.
    fn weight_unit(&self, pack: Option<&Pack>) -> Option<Unit> {
        let of_header = self.default_of(Column::Weight).and_then(Unit::parse);
        let of_pack = || Some(pack?.content.as_ref()?.unit.clone());
        let unit = of_header.or_else(|| self.weighed_in()).or_else(of_pack)?;
        (unit.dimension() == Dimension::Mass).then_some(unit)
    }

    /// A price for one of the unit of weight, which is put in *Per*.
    fn by_weight(&mut self, pack: Option<&Pack>) -> Field<Measured> {
        let Some(unit) = self.weight_unit(pack) else {
            let weight = self.input.text(Column::Weight);
            let fault = Fault::new(
                Code::UnitMissing,
                format!("the price is for the weight {weight}, which has no unit"),
                "Name the column Weight (lb), or type lb in Per.",
            );
            return self.fail(Column::Weight, fault);
        };
        self.input.set(Column::Per, Typed::text(unit.to_string()));
        Field::Given(Measured::new(Decimal::ONE, unit))
    }

    fn per_ambiguous(&mut self, pack: &Field<Pack>) -> Field<Measured> {
        let Field::Given(pack) = pack else { return Field::Broken };
        let column = if self.input.typed(Column::Per).is_blank() { Column::Price } else { Column::Per };
        let word = match self.input.text(Column::Per) {
            text if text.is_empty() => "EACH".to_owned(),
            text if Unit::parse(&text) == Some(Unit::each()) => "EACH".to_owned(),
            text => text.trim().to_uppercase(),
        };
        let fault = Fault::new(
            Code::PerAmbiguous,
            format!("{word} may mean the pack of {} or one piece of it", pack.read_as),
            format!(
                "Leave Per blank if the price is for the whole pack; if it is for one piece, also make the pack that piece, \
                 such as {}.",
                pack.one_unit().map_or_else(|| "1 each".to_owned(), |(_, one)| one.to_string())
            ),
        );
        self.fail(column, fault)
    }

    fn extension_disagrees(&mut self, billed: &Billed, price: Decimal) -> Field<Price> {
        let said = |number: Option<Decimal>| number.map(plain).unwrap_or_default();
        let shipped = match (billed.qty, billed.weight) {
            (Some(_), Some(_)) => format!("{} × {} or × {}", plain(price), said(billed.qty), said(billed.weight)),
            (qty, weight) => format!("{} × {}", plain(price), said(qty.or(weight))),
        };
        let fault = Fault::new(
            Code::ExtensionDisagrees,
            format!("{shipped} is not {}, which the line comes to", said(billed.extended)),
            "Look at the invoice: correct the price, the quantity or what the line comes to, or clear what is in doubt.",
        );
        self.fail(Column::Extended, fault)
    }
}

/// How much of `unit` the pack holds.
pub(super) fn content_in(pack: Option<&Pack>, unit: &Unit) -> Option<Decimal> {
    let content = pack?.content.as_ref()?;
    let (base, all) = content.in_base(Volumes::Us).ok()??;
    let (own, size) = unit.to_base(Volumes::Us)?;
    if base == own { exact::div(all, size).ok() } else { None }
}

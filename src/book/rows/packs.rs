//! Packs that prices are for: the pack in one cell or in parts, and *Per*.

use super::reader::{Content, Reader};
use crate::kitchen::Field;
use crate::kitchen::price::Price;
use crate::measure::{Measured, Pack, QuantityText, Unit, number_fault, parse_pack, parse_quantity};
use crate::number::{Decimal, NumberFault, plain};
use crate::problem::{Code, Fault};
use crate::schema::{Column, Typed};

impl Reader<'_> {
    /// The pack, the price and what one price is for.
    pub(super) fn bought(&mut self, says_pack: bool) -> (Field<Pack>, Field<Price>, Field<Measured>) {
        let (price, price_per) = self.price();
        let mut pack = self.pack();
        let mut per = self.per(price_per.clone());
        if says_pack || pack != Field::Blank || per != Field::Blank {
            self.check_pack(&mut pack, &mut per);
        }
        self.tidy_per(price_per, &per);
        (pack, price, per)
    }

    fn pack(&mut self) -> Field<Pack> {
        let whole = self.whole_pack();
        let parts = self.pack_in_parts();
        match (whole, parts) {
            (Field::Broken, _) | (_, Field::Broken) => Field::Broken,
            (whole, Field::Blank) => whole,
            (Field::Blank, parts) => parts,
            (Field::Given(whole), Field::Given(parts)) => {
                let agree = whole.content == parts.content && (whole.pieces == parts.pieces || parts.pieces.is_none());
                if agree {
                    return Field::Given(whole);
                }
                let fault = Fault::new(
                    Code::PackConflict,
                    format!("Pack says {}, the columns beside it say {}", whole.read_as, parts.read_as),
                    "Keep one of the two.",
                );
                self.fail(Column::Pack, fault)
            }
        }
    }

    fn whole_pack(&mut self) -> Field<Pack> {
        let text = match self.content(Column::Pack) {
            Content::Blank => return Field::Blank,
            Content::Broken => return Field::Broken,
            Content::Date(date) => {
                let fault = self.is_a_date(Column::Pack, date, Code::PackIsADate);
                return self.fail(Column::Pack, fault);
            }
            Content::Number(number, _) => match self.default_of(Column::Pack) {
                Some(unit) => {
                    let text = format!("{} {unit}", plain(number));
                    self.input.set(Column::Pack, Typed::text(text.clone()));
                    text
                }
                None => {
                    let fault = self.unit_missing(Column::Pack, &plain(number));
                    return self.fail(Column::Pack, fault);
                }
            },
            Content::Text(text) => text,
        };
        match parse_pack(&text, self.marks(Column::Pack)) {
            Ok(pack) => Field::Given(pack),
            Err(fault) => self.fail(Column::Pack, fault),
        }
    }

    /// A pack from Pack count, Unit size and Size unit.
    fn pack_in_parts(&mut self) -> Field<Pack> {
        let count = match self.number(Column::PackCount) {
            Field::Broken => return Field::Broken,
            field => field.given().copied(),
        };
        let unit = match self.text(Column::SizeUnit) {
            None => return Field::Broken,
            Some(text) if text.is_empty() => None,
            Some(text) => Some(text),
        };
        let header_unit = self.default_of(Column::UnitSize).map(str::to_owned);
        let size = match self.content(Column::UnitSize) {
            Content::Blank => None,
            Content::Broken => return Field::Broken,
            Content::Date(date) => {
                let fault = self.is_a_date(Column::UnitSize, date, Code::PackIsADate);
                return self.fail(Column::UnitSize, fault);
            }
            Content::Number(number, _) => Some(QuantityText::Number(number)),
            // `6`, `#10`, `CAN`: the size names the can.
            Content::Text(text) => match Unit::parse(&text).filter(Unit::is_numbered_can) {
                Some(can) => Some(QuantityText::Measured(Measured::new(Decimal::ONE, can))),
                None => match parse_quantity(&text, self.marks(Column::UnitSize)) {
                    Ok(size) => Some(size),
                    Err(fault) => return self.fail(Column::UnitSize, fault),
                },
            },
        };
        let unit = match (&size, unit, header_unit) {
            // The header speaks of the sizes that stand under it.
            (Some(QuantityText::Number(_)), None, Some(of_header)) => {
                self.input.set(Column::SizeUnit, Typed::text(of_header.clone()));
                Some(of_header)
            }
            (_, unit, _) => unit,
        };
        let size = match (size, unit) {
            (None, None) if count.is_none() => return Field::Blank,
            (None, Some(unit)) => match self.size_unit(&unit) {
                Some(unit) => Measured::new(Decimal::ONE, unit),
                None => return Field::Broken,
            },
            (Some(QuantityText::Number(number)), Some(unit)) => match self.size_unit(&unit) {
                Some(unit) => {
                    self.tidy_number(Column::UnitSize, number);
                    Measured::new(number, unit)
                }
                None => return Field::Broken,
            },
            (Some(QuantityText::Measured(measured)), unit) => {
                let header_unit = self.default_of(Column::UnitSize).map(Unit::read);
                let others = [unit.as_deref().map(Unit::read), header_unit];
                let same =
                    |other: &Unit| *other == measured.unit || (measured.unit.is_numbered_can() && other.is_plain_can());
                if let Some(other) = others.into_iter().flatten().find(|other| !same(other)) {
                    let fault = self.says_otherwise(Column::UnitSize, &measured.unit, &other);
                    return self.fail_against_header(Column::UnitSize, fault);
                }
                measured
            }
            (Some(QuantityText::Number(size)), None) => {
                let size = plain(size);
                let all = count.map_or_else(|| size.clone(), |count| format!("{} × {size}", plain(count)));
                let fault = Fault::new(
                    Code::UnitMissing,
                    format!("the pack is {all}, without a unit"),
                    format!("Fill {}, such as lb, gal or each.", self.header(Column::SizeUnit)),
                );
                return self.fail(Column::UnitSize, fault);
            }
            _ => {
                let fault = Fault::new(
                    Code::PackNotUnderstood,
                    "the pack's columns do not say what one unit holds",
                    "Fill Unit size and Size unit, or write the pack in one cell such as 6/5 lb.",
                );
                return self.fail(Column::UnitSize, fault);
            }
        };
        match Pack::from_parts(count, size) {
            Ok(pack) => Field::Given(pack),
            Err(fault) => self.fail(Column::PackCount, fault),
        }
    }

    fn size_unit(&mut self, text: &str) -> Option<Unit> {
        let unit = Unit::parse(text);
        if unit.is_none() {
            self.report(Column::SizeUnit, unit_unknown(text));
        }
        unit
    }

    /// What one price is for; blank, `case` and the like mean the pack.
    fn per(&mut self, behind_slash: Option<String>) -> Field<Measured> {
        let Some(typed) = self.text(Column::Per) else { return Field::Broken };
        let column = if typed.is_empty() { Column::Price } else { Column::Per };
        let text = match (typed.is_empty(), behind_slash) {
            (true, None) => return Field::Blank,
            (true, Some(per)) => per,
            (false, Some(per)) if Unit::read(&per) != Unit::read(&typed) => {
                let fault = Fault::new(
                    Code::UnitTwice,
                    format!("the price is per {per}, but Per says {typed}"),
                    "Keep one of the two.",
                );
                self.keep_header(Column::Price);
                return self.fail(Column::Per, fault);
            }
            (false, _) => typed,
        };
        let bare = text.trim().trim_start_matches("per ").trim_start_matches('/').trim().to_owned();
        let for_pack =
            matches!(bare.to_lowercase().trim_end_matches('.'), "case" | "cs" | "ca" | "pack" | "pk" | "pkg");

        if for_pack {
            Field::Blank
        } else if let Some(unit) = Unit::parse(&bare) {
            Field::Given(Measured::new(Decimal::ONE, unit))
        } else {
            match parse_quantity(&bare, self.marks(Column::Per)) {
                Ok(QuantityText::Measured(measured)) if measured.amount > Decimal::ZERO => Field::Given(measured),
                _ => self.fail(column, unit_unknown(&bare)),
            }
        }
    }

    /// A price needs a pack that says what was paid for, or a *Per*.
    fn check_pack(&mut self, pack: &mut Field<Pack>, per: &mut Field<Measured>) {
        match (&*pack, &*per) {
            (Field::Blank, Field::Blank) => {
                let fault = Fault::new(
                    Code::PackMissing,
                    "the price does not say what it is for",
                    "Type the pack, such as 50 lb, or a unit in Per.",
                );
                *pack = self.fail(Column::Pack, fault);
            }
            (Field::Given(given), Field::Blank) if given.nominal => {
                let fault = Fault::new(
                    Code::PackNominal,
                    format!("the pack {} is nominal: what was paid depends on what it weighed", given.text.trim()),
                    "Type the price per weight and its unit in Per, such as lb; or the weight that was billed.",
                );
                *pack = self.fail(Column::Pack, fault);
            }
            (Field::Given(given), Field::Given(unit)) if unit.unit == Unit::each() && given.is_of_several() => {
                let fault = Fault::new(
                    Code::PerAmbiguous,
                    format!("EACH may mean the pack of {} or one piece of it", given.read_as),
                    format!(
                        "Leave Per blank if the price is for the whole pack; if it is for one piece, also make the pack \
                         that piece, such as {}.",
                        given.one_of_several().map_or_else(|| "1 each".to_owned(), |one| one.to_string())
                    ),
                );
                let column = if self.input.typed(Column::Per).is_blank() { Column::Price } else { Column::Per };
                *per = self.fail(column, fault);
            }
            _ => {}
        }
    }

    /// Moves what stands behind the price's slash into its own column, once it is understood.
    fn tidy_per(&mut self, behind_slash: Option<String>, per: &Field<Measured>) {
        let (Some(behind), false) = (behind_slash, per.is_broken()) else { return };
        if let Field::Given(money) = self.money_text(Column::Price) {
            let sign = money.sign.unwrap_or_default();
            self.set_money(Column::Price, money.amount, sign, money.signed);
            if self.input.typed(Column::Per).is_blank() {
                self.input.set(Column::Per, Typed::text(behind));
            }
        }
    }
}

/// The fault of a unit that is not known.
pub(super) fn unit_unknown(text: &str) -> Fault {
    if text.trim().is_empty() {
        return number_fault(text, NumberFault::NotANumber);
    }
    Fault::new(
        Code::UnitUnknown,
        format!("“{}” is not a unit that parings knows", text.trim()),
        "Write a unit such as lb, oz, kg, g, gal, qt, cup, l, ml, each or dozen.",
    )
}

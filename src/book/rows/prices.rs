//! Rows of a price list.

use super::fields::Money;
use super::reader::{Content, Reader};
use crate::food::{Stated, allergens};
use crate::kitchen::price::{Price, PriceRow};
use crate::kitchen::{Field, Reference};
use crate::measure::{Measured, Pack, Unit, is_market, parse_pack, parse_quantity};
use crate::measure::{QuantityText, number_fault};
use crate::number::{BareRule, Decimal, NumberFault, plain};
use crate::problem::{Code, Fault};
use crate::schema::{Column, Typed};

/// Reads a price row; `None` when it has no item.
pub(super) fn row(mut reader: Reader<'_>) -> Option<PriceRow> {
    let item = reader.name(Column::Item)?;
    if let (Some(group), true) = (reader.group.clone(), reader.input.typed(Column::Group).is_blank()) {
        reader.input.set(Column::Group, Typed::text(group));
    }
    let reference = reader.reference();
    let preferred = reader.yes_no(Column::Preferred);
    let aliases = reader.text(Column::AlsoCalled).unwrap_or_default();
    let aliases = aliases.split(';').map(str::trim).filter(|alias| !alias.is_empty()).map(str::to_owned).collect();
    Some(PriceRow { reference, preferred, aliases, ..supplied(reader, item, true) })
}

/// Reads a row of a supplier's list; `None` when it has neither item nor code. Only what a supplier knows is read. Where
/// the list has no column for packs (`says_pack`), a price without one is no fault yet: the book may know it.
pub(super) fn of_list(mut reader: Reader<'_>, says_pack: bool) -> Option<PriceRow> {
    let by_code = reader.input.typed(Column::Item).is_blank() && !reader.input.typed(Column::Code).is_blank();
    let item = if by_code { String::new() } else { reader.name(Column::Item)? };
    Some(supplied(reader, item, says_pack))
}

/// What a supplier knows of `item`.
fn supplied(mut reader: Reader<'_>, item: String, says_pack: bool) -> PriceRow {
    let (pack, price, per) = reader.bought(says_pack);
    PriceRow {
        item,
        pack,
        price,
        per,
        supplier: reader.text(Column::Supplier).unwrap_or_default(),
        code: reader.text(Column::Code).unwrap_or_default(),
        date: reader.date(Column::Date),
        trim_yield: reader.trim_yield(),
        reference: Field::Blank,
        preferred: Field::Blank,
        aliases: Vec::new(),
        allergens: reader.stated(Column::Allergens),
        may_contain: reader.stated(Column::MayContain),
        input: reader.input,
    }
}

impl Reader<'_> {
    /// The pack, the price and what one price is for.
    fn bought(&mut self, says_pack: bool) -> (Field<Pack>, Field<Price>, Field<Measured>) {
        let (price, price_per) = self.price();
        let mut pack = self.pack();
        let mut per = self.per(price_per.clone());
        if says_pack || pack != Field::Blank || per != Field::Blank {
            self.check_pack(&mut pack, &mut per);
        }
        self.tidy_per(price_per, &per);
        (pack, price, per)
    }

    /// The built-in food to borrow from.
    fn reference(&mut self) -> Field<Reference> {
        let Some(text) = self.text(Column::ReferenceFood).filter(|text| !text.is_empty()) else { return Field::Blank };
        if let Some(food) = Reference::named(&text) {
            return Field::Given(food);
        }
        let help = match Reference::near(&text, |_| true) {
            Some(near) => format!("Write one of its names, such as {near}, or leave it blank."),
            None => "Look for its name with parings food, or leave it blank.".to_owned(),
        };
        let fault = Fault::new(Code::ReferenceUnknown, format!("no built-in food is called “{text}”"), help);
        self.fail(Column::ReferenceFood, fault)
    }

    /// The price, and what stands behind its slash.
    fn price(&mut self) -> (Field<Price>, Option<String>) {
        if let Content::Text(text) = self.content(Column::Price)
            && is_market(&text)
        {
            return (Field::Given(Price::Market), None);
        }
        match self.money_text(Column::Price) {
            Field::Given(Money { amount, .. }) if amount < Decimal::ZERO => {
                let fault = Fault::new(
                    Code::PriceNegative,
                    format!("the price is {}", plain(amount)),
                    "A credit note is no price: type what the pack costs.",
                );
                (self.fail(Column::Price, fault), None)
            }
            Field::Given(Money { amount, per, .. }) => (Field::Given(Price::Money(amount)), per),
            Field::Blank => {
                let fault = Fault::new(
                    Code::PriceMissing,
                    "this row has no price",
                    "Type what the pack costs, or MKT for a market price.",
                );
                (self.fail(Column::Price, fault), None)
            }
            Field::Broken => (Field::Broken, None),
        }
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

    fn trim_yield(&mut self) -> Field<Decimal> {
        match self.percent(Column::Yield, BareRule::UpToOne) {
            Field::Given(fraction) if fraction > Decimal::ONE => {
                let seen = self.input.text(Column::Yield);
                let fault = Fault::new(
                    Code::YieldTooHigh,
                    format!("the yield is {seen}, but trimming cannot add weight"),
                    Self::percent_help(
                        fraction,
                        "Type at most 100%. What swells in cooking belongs in a recipe line's Yield or a cooking test.",
                    ),
                );
                self.fail(Column::Yield, fault)
            }
            Field::Given(fraction) if fraction.is_zero() => {
                let fault = Fault::new(
                    Code::YieldZero,
                    "the yield is zero: nothing would be left",
                    "Type what is left after trimming, such as 85%, or leave it blank.",
                );
                self.fail(Column::Yield, fault)
            }
            field => field,
        }
    }

    /// What an allergen column states; `None` for a blank one.
    fn stated(&mut self, column: Column) -> Option<Stated> {
        let text = self.text(column)?;
        let stated = allergens::read(&text)?;
        if stated.shellfish {
            self.report(
                column,
                Fault::new(
                    Code::ShellfishWide,
                    "shellfish was read as crustaceans and molluscs, both",
                    "Write crustaceans or molluscs to say which.",
                ),
            );
        }
        for word in &stated.unknown {
            let fault = Fault::new(
                Code::AllergenUnknown,
                format!("“{word}” is not one of the listed allergens; it is carried along as written"),
                format!("The listed ones are: {}.", allergens::codes().join(", ")),
            );
            self.report(column, fault);
        }
        Some(stated)
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

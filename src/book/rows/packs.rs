//! Packs that prices are for: the pack in one cell or in parts, and *Per*.

use super::reader::{CellContent, Reader};
use crate::kitchen::Field;
use crate::kitchen::price::Price;
use crate::measure::{Measured, Pack, QuantityText, Unit, did_you_mean, number_fault, parse_pack, parse_quantity};
use crate::number::{Decimal, NumberFault, plain};
use crate::problem::{Code, Fault};
use crate::schema::{Column, Typed, Value};

impl Reader<'_> {
    /// The pack, the price and what one price is for.
    pub(super) fn bought(&mut self, says_pack: bool) -> (Field<Pack>, Field<Price>, Field<Measured>) {
        self.settle_columns();
        let (mut price, price_per) = self.price();
        let mut said = self.per(price_per.clone());
        let by_pound = price == Field::Blank && !self.input.typed(Column::PoundPrice).is_blank();
        let mut pack = self.pack(said.is_by_amount() || by_pound);
        self.layered(&mut pack);
        self.second_price(&pack, &mut said, &mut price);
        if price == Field::Blank {
            price = self.price_missing();
        }
        let mut per = self.settle_per(&mut price, &pack, &said);
        if says_pack || pack != Field::Blank || per != Field::Blank {
            self.check_pack(&mut pack, &mut per);
        }
        self.glaze(&pack);
        self.ounces(&pack);
        self.tidy_per(price_per, &per);
        (pack, price, per)
    }

    /// Gives the cells of a row the columns that they have by what stands in them: a unit beside a full pack says what the
    /// price is for; a bare number under `Pack` is the size beside a unit and the count beside a size; a pack may stand
    /// where a list has its unit.
    fn settle_columns(&mut self) {
        use Column as C;
        let blank = |reader: &Self, column| reader.input.typed(column).is_blank();
        if !blank(self, C::Pack) {
            let bare = self.is_bare_number(C::Pack);
            let (counted, unit) = (!blank(self, C::PackCount), !blank(self, C::SizeUnit));
            let is_size = || bare || unit || Unit::parse(&self.input.text(C::Pack)).is_some();
            if bare && !counted && !blank(self, C::UnitSize) {
                self.move_cell(C::PackCount, C::Pack);
            } else if blank(self, C::UnitSize) && ((counted && is_size()) || (bare && unit)) {
                self.move_cell(C::UnitSize, C::Pack);
            }
        }
        if blank(self, C::SizeUnit) || !blank(self, C::Per) {
            return;
        }
        let text = self.input.text(C::SizeUnit);
        let unit = Unit::parse(&text);
        let in_parts = !blank(self, C::PackCount) || !blank(self, C::UnitSize);
        if !blank(self, C::Pack) && !in_parts {
            self.move_cell(C::Per, C::SizeUnit);
        } else if !blank(self, C::UnitSize) && !self.is_bare_number(C::UnitSize) {
            let can = Unit::parse(&self.input.text(C::UnitSize)).is_some_and(|size| size.is_numbered_can());
            if can && unit.as_ref().is_some_and(Unit::is_plain_can) {
                return;
            }
            if unit.is_none_or(|unit| unit == Unit::each() || unit.is_package()) {
                self.move_cell(C::Per, C::SizeUnit);
            }
        } else if unit.is_none() && !in_parts && text.contains(|c: char| c.is_ascii_digit()) {
            self.move_cell(C::Pack, C::SizeUnit);
        } else if unit.is_some_and(|unit| unit.is_whole_pack()) && !in_parts && self.has_pack_column {
            // A case of nobody knows what.
            self.move_cell(C::Per, C::SizeUnit);
        }
    }

    fn is_bare_number(&self, column: Column) -> bool {
        match &self.input.typed(column).value {
            Value::Number(_) => true,
            Value::Text(text) => text.trim().chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ',')),
            _ => false,
        }
    }

    /// The pack. Where the price goes by an amount of its own, one that is not understood is not needed.
    fn pack(&mut self, by_amount: bool) -> Field<Pack> {
        let whole = self.whole_pack(by_amount);
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

    fn whole_pack(&mut self, by_amount: bool) -> Field<Pack> {
        let text = match self.amount(Column::Pack) {
            CellContent::Blank => return Field::Blank,
            CellContent::Broken => return Field::Broken,
            CellContent::Date(date) => {
                let fault = self.is_a_date(Column::Pack, date, Code::PackIsADate);
                return self.fail(Column::Pack, fault);
            }
            CellContent::Number(number, _) => match self.default_of(Column::Pack) {
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
            CellContent::Text(text) => text,
        };
        let fault = match parse_pack(&text, self.marks(Column::Pack)) {
            Ok(pack) => return Field::Given(pack),
            Err(fault) => fault,
        };
        if let Some(counted) = self.counted_case(&text, &fault) {
            return Field::Given(counted);
        }
        if !by_amount || fault.code == Code::PackIsADate {
            return self.fail(Column::Pack, fault);
        }
        // A range of weights is a nominal pack, as it must be beside a price by weight.
        if let Ok(pack) = parse_pack(&format!("{text} avg"), self.marks(Column::Pack)) {
            return Field::Given(pack);
        }
        let lower = text.to_lowercase();
        if ["net", "glaze", "drain", "dr wt", "dw"].iter().any(|word| lower.contains(word)) {
            return self.fail(Column::Pack, fault);
        }
        let fault = Fault::new(
            Code::PackPassedOver,
            format!("the pack “{}” was not understood, and the price does not need it", text.trim()),
            "Nothing to do, unless a recipe counts by that pack: then write it such as 6/5 lb.",
        );
        self.report(Column::Pack, fault);
        Field::Blank
    }

    /// `24's` beside a word for the whole pack: so many to the case.
    fn counted_case(&self, text: &str, fault: &Fault) -> Option<Pack> {
        let whole = Unit::parse(&self.input.text(Column::Per)).is_some_and(|unit| unit.is_whole_pack());
        let count = plural_count(text).filter(|_| whole && fault.code == Code::PackIsAGrade)?;
        let mut pack = Pack::from_parts(None, Measured::new(count, Unit::each())).ok()?;
        text.clone_into(&mut pack.text);
        Some(pack)
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
        let size = match self.amount(Column::UnitSize) {
            CellContent::Blank => None,
            CellContent::Broken => return Field::Broken,
            CellContent::Date(date) => {
                let fault = self.is_a_date(Column::UnitSize, date, Code::PackIsADate);
                return self.fail(Column::UnitSize, fault);
            }
            CellContent::Number(number, _) => Some(QuantityText::Number(number)),
            // `6`, `#10`, `CAN`: the size names the can.
            CellContent::Text(text) if plural_count(&text).is_some() => {
                plural_count(&text).map(|count| QuantityText::Measured(Measured::new(count, Unit::each())))
            }
            CellContent::Text(text) => match Unit::parse(&text) {
                Some(unit) => Some(QuantityText::Measured(Measured::new(Decimal::ONE, unit))),
                None => match parse_quantity(&text, self.marks(Column::UnitSize)) {
                    Ok(size) => Some(size),
                    Err(fault) => {
                        // One pack's size may be written as packs are: `30s`, `ca. 2 kg`.
                        let alone = count.is_none_or(|count| count == Decimal::ONE) && unit.is_none();
                        return match parse_pack(&text, self.marks(Column::UnitSize)) {
                            Ok(pack) if alone => Field::Given(pack),
                            _ => self.fail(Column::UnitSize, fault),
                        };
                    }
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

/// The 30 of `30s` and `30's`.
fn plural_count(text: &str) -> Option<Decimal> {
    let digits = text.trim().to_lowercase();
    let digits = digits.strip_suffix('s')?.trim_end_matches(['\'', '’', ' ']);
    let plain = !digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit());
    digits.parse().ok().filter(|_| plain)
}

/// The fault of a unit that is not known.
pub(super) fn unit_unknown(text: &str) -> Fault {
    if text.trim().is_empty() {
        return number_fault(text, NumberFault::NotANumber);
    }
    Fault::new(
        Code::UnitUnknown,
        format!("“{}” is not a unit that parings knows", text.trim()),
        format!("{}Write a unit such as lb, oz, kg, g, gal, qt, cup, l, ml, each or dozen.", did_you_mean(text)),
    )
}

//! Fields of a quantity with its unit: in one cell, or in two, or with the unit in the column's header.

use super::reader::{CellContent, Reader};
use crate::kitchen::Field;
use crate::measure::{Measured, QuantityText, Unit};
use crate::measure::{compound_in_base, compound_in_first, parse_quantity, parse_several};
use crate::number::{Decimal, as_held, plain};
use crate::problem::{Code, Fault};
use crate::schema::{Column, Typed, Value};

/// A quantity cell and the unit beside it.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Quantity {
    /// With its unit.
    Measured(Measured),
    /// A number without a unit anywhere.
    Bare(Decimal),
    /// No number: `to taste`, or a unit cell alone.
    Words(String),
}

/// Begins a quantity that is a question: what a line as typed left open, until somebody types the answer over it.
pub(super) const OPEN: char = '?';

/// Whether a spreadsheet's number holds all of it, so that writing it as a number loses nothing; a third is left as it
/// was typed.
pub(super) fn is_held(number: Decimal) -> bool {
    as_held(number) == number
}

impl Reader<'_> {
    /// The text of a quantity cell; a number as typed.
    fn quantity_text(&mut self, column: Column) -> Field<QuantityText> {
        match self.amount(column) {
            CellContent::Blank => Field::Blank,
            CellContent::Broken => Field::Broken,
            CellContent::Date(date) => {
                let fault = self.is_a_date(column, date, Code::CellIsADate);
                self.fail(column, fault)
            }
            CellContent::Number(number, _) if number < Decimal::ZERO => {
                let fault = self.below_zero(column, &plain(number));
                self.fail(column, fault)
            }
            CellContent::Number(number, _) => Field::Given(QuantityText::Number(number)),
            CellContent::Text(text) if text.starts_with(OPEN) => {
                let question = text.trim_start_matches(OPEN).trim();
                let fault = Fault::new(
                    Code::LineUnclear,
                    format!("{} is an open question: {question}", self.header(column)),
                    "Type one number and one unit, such as 3 lb; or to taste if it need not be costed.",
                );
                self.fail(column, fault)
            }
            CellContent::Text(text) => match parse_quantity(&text, self.marks(column)) {
                Ok(quantity) => Field::Given(quantity),
                Err(fault) => self.fail(column, fault),
            },
        }
    }

    /// A quantity whose unit may stand in `unit_column` or in the header's brackets. Tidied into the two columns.
    pub(super) fn quantity(&mut self, column: Column, unit_column: Column) -> Field<Quantity> {
        let unit_typed = match self.unit_beside(unit_column) {
            Field::Broken => return Field::Broken,
            Field::Blank => None,
            Field::Given(unit) => Some(unit),
        };
        let header_unit = self.default_of(column).map(Unit::read);
        let own = match self.quantity_text(column) {
            Field::Broken => return Field::Broken,
            Field::Blank => {
                return match &unit_typed {
                    Some(unit) if unit.is_unmeasured() => Field::Given(Quantity::Words(unit.name())),
                    _ => Field::Blank,
                };
            }
            Field::Given(QuantityText::Unmeasured(words)) => return Field::Given(Quantity::Words(words)),
            Field::Given(QuantityText::Number(number)) => {
                self.tidy_number(column, number);
                let unit = match (unit_typed, header_unit) {
                    (Some(own), Some(other)) if own != other => {
                        let fault = self.says_otherwise(column, &own, &other);
                        return self.fail_against_header(column, fault);
                    }
                    (unit, header_unit) => unit.or(header_unit),
                };
                let Some(unit) = unit else { return Field::Given(Quantity::Bare(number)) };
                if self.input.typed(unit_column).is_blank() {
                    self.input.set(unit_column, Typed::text(unit.name()));
                }
                return Field::Given(Quantity::Measured(Measured::new(number, unit)));
            }
            Field::Given(QuantityText::Measured(measured)) => measured,
            Field::Given(QuantityText::Compound(parts)) => match self.added_up(column, &parts) {
                Ok(measured) => measured,
                Err(fault) => return self.fail(column, fault),
            },
        };
        if let Some(other) = unit_typed.filter(|other| *other != own.unit) {
            let fault = self.says_otherwise(column, &own.unit, &other);
            return self.fail(column, fault);
        }
        if let Some(other) = header_unit.filter(|other| *other != own.unit) {
            let fault = self.says_otherwise(column, &own.unit, &other);
            return self.fail_against_header(column, fault);
        }
        if is_held(own.amount) {
            // `oz wt` keeps its wt: a bare oz of a liquid would be a fluid one.
            let typed = self.input.text(column).to_lowercase();
            let weight = own.unit.is_bare_ounce() && (typed.contains("wt") || typed.contains("weight"));
            let unit = if weight { "oz wt".to_owned() } else { own.unit.name() };
            self.input.set(column, Typed::number(own.amount));
            self.input.set(unit_column, Typed::text(unit));
        }
        Field::Given(Quantity::Measured(own))
    }

    /// Writes a number that was understood back as one, where nothing of it is lost.
    pub(super) fn tidy_number(&mut self, column: Column, number: Decimal) {
        if is_held(number) {
            let shown = self.input.typed(column).shown.clone();
            self.input.set(column, Typed { value: Value::Number(number), shown });
        }
    }

    pub(super) fn unit_beside(&mut self, column: Column) -> Field<Unit> {
        match self.text(column) {
            None => Field::Broken,
            Some(text) if text.is_empty() => Field::Blank,
            Some(text) => Field::Given(Unit::read(&text)),
        }
    }

    pub(super) fn says_otherwise(&self, column: Column, own: &Unit, other: &Unit) -> Fault {
        Fault::new(
            Code::UnitTwice,
            format!(
                "{} is in {}, but its column or the unit beside it says {}",
                self.header(column),
                own.name(),
                other.name()
            ),
            "Keep one of the two units.",
        )
    }

    /// A compound as one amount: in its first unit where that is exact, else in base units.
    pub(super) fn added_up(&self, column: Column, parts: &[Measured]) -> Result<Measured, Fault> {
        let unit = parts.first().map(|part| part.unit.clone());
        let sum = compound_in_first(parts, self.volumes)
            .and_then(|first| Ok((first, compound_in_base(parts, self.volumes)?)));
        match (sum, unit) {
            (Ok((Some(amount), _)), Some(unit)) => Ok(Measured::new(amount, unit)),
            (Ok((None, Some((base, amount)))), _) => Ok(Measured::new(amount, base.unit())),
            _ => Err(Fault::new(
                Code::NumberOutOfRange,
                format!("{} cannot be added up", self.header(column)),
                "Write it in one unit.",
            )),
        }
    }

    /// A count in its own unit, else in that of its row or its header; nothing wants no unit.
    pub(super) fn counted(&mut self, column: Column, beside: Option<&Unit>) -> Field<Measured> {
        let number = match self.quantity_text(column) {
            Field::Blank => return Field::Blank,
            Field::Broken => return Field::Broken,
            Field::Given(QuantityText::Measured(own)) => return Field::Given(own),
            Field::Given(QuantityText::Compound(parts)) => {
                return match self.added_up(column, &parts) {
                    Ok(own) => Field::Given(own),
                    Err(fault) => self.fail(column, fault),
                };
            }
            Field::Given(QuantityText::Unmeasured(words)) => {
                let message = format!("{} is “{words}”, where a count is wanted", self.header(column));
                let fault = Fault::new(Code::NotANumber, message, "Type how much was counted, such as 12 lb, or 0.");
                return self.fail(column, fault);
            }
            Field::Given(QuantityText::Number(number)) => number,
        };
        let of_header = self.default_of(column).map(Unit::read).filter(|_| beside.is_none());
        match (beside.cloned(), of_header) {
            (None, Some(unit)) => {
                // What the header says is not written back.
                self.input.set(column, Typed::text(format!("{} {}", plain(number), unit.name())));
                Field::Given(Measured::new(number, unit))
            }
            (unit, _) => {
                self.tidy_number(column, number);
                match unit {
                    Some(unit) => Field::Given(Measured::new(number, unit)),
                    None if number.is_zero() => Field::Given(Measured::new(number, Unit::each())),
                    None => {
                        let fault = self.unit_missing(column, &plain(number));
                        self.fail(column, fault)
                    }
                }
            }
        }
    }

    /// One quantity with its unit in one cell, such as `8 fl oz`; a number takes the header's unit.
    pub(super) fn measured(&mut self, column: Column) -> Field<Measured> {
        match self.several(column) {
            Field::Given(mut all) if all.len() == 1 => all.pop().map_or(Field::Broken, Field::Given),
            Field::Given(_) => {
                let fault = Fault::new(
                    Code::NotANumber,
                    format!("{} is “{}”, where one quantity is wanted", self.header(column), self.input.text(column)),
                    "Keep one of the quantities.",
                );
                self.fail(column, fault)
            }
            Field::Blank => Field::Blank,
            Field::Broken => Field::Broken,
        }
    }

    /// One quantity that may be none; a number without a unit takes the header's, else that of the unit beside it.
    pub(super) fn measured_beside(&mut self, column: Column, unit_column: Column) -> Field<Measured> {
        let beside = match self.default_of(column) {
            Some(_) => None,
            None => self.unit_beside(unit_column).given().cloned(),
        };
        let part = match self.quantity_text(column) {
            Field::Given(part) => part,
            Field::Blank => return Field::Blank,
            Field::Broken => return Field::Broken,
        };
        match (part, beside) {
            (QuantityText::Number(number), Some(unit)) => {
                self.tidy_number(column, number);
                Field::Given(Measured::new(number, unit))
            }
            (QuantityText::Measured(none), _) if none.amount.is_zero() => Field::Given(none),
            (part, _) => match self.one_of(column, part) {
                Ok(measured) => Field::Given(measured),
                Err(fault) if fault.code == Code::UnitTwice => self.fail_against_header(column, fault),
                Err(fault) => self.fail(column, fault),
            },
        }
    }

    /// One quantity, or one in two measures: `3 qt, 2.9 kg`.
    pub(super) fn several(&mut self, column: Column) -> Field<Vec<Measured>> {
        let parts = match self.amount(column) {
            CellContent::Text(text) => match parse_several(&text, self.marks(column)) {
                Ok(parts) => parts,
                Err(fault) => return self.fail(column, fault),
            },
            CellContent::Number(number, _) if number < Decimal::ZERO => {
                let fault = self.below_zero(column, &plain(number));
                return self.fail(column, fault);
            }
            CellContent::Number(number, _) => vec![QuantityText::Number(number)],
            CellContent::Date(date) => {
                let fault = self.is_a_date(column, date, Code::CellIsADate);
                return self.fail(column, fault);
            }
            CellContent::Blank => return Field::Blank,
            CellContent::Broken => return Field::Broken,
        };
        let mut all = Vec::new();
        for part in parts {
            match self.one_of(column, part) {
                Ok(measured) => all.push(measured),
                Err(fault) if fault.code == Code::UnitTwice => return self.fail_against_header(column, fault),
                Err(fault) => return self.fail(column, fault),
            }
        }
        Field::Given(all)
    }

    pub(super) fn one_of(&mut self, column: Column, part: QuantityText) -> Result<Measured, Fault> {
        let default = self.default_of(column).map(Unit::read);
        let measured = match part {
            QuantityText::Number(amount) => match default.clone() {
                Some(unit) => {
                    self.input.set(column, Typed::text(format!("{} {}", plain(amount), unit.name())));
                    Measured::new(amount, unit)
                }
                None => return Err(self.unit_missing(column, &plain(amount))),
            },
            QuantityText::Measured(measured) => measured,
            QuantityText::Compound(parts) => self.added_up(column, &parts)?,
            QuantityText::Unmeasured(words) => {
                return Err(Fault::new(
                    Code::NotANumber,
                    format!("{} is “{words}”, where a quantity is wanted", self.header(column)),
                    "Write a number and a unit, such as 3 qt.",
                ));
            }
        };
        if let Some(default) = default.filter(|default| *default != measured.unit) {
            return Err(self.says_otherwise(column, &measured.unit, &default));
        }
        if measured.amount <= Decimal::ZERO {
            return Err(Fault::new(
                Code::NumberOutOfRange,
                format!("{} is {measured}", self.header(column)),
                "Type an amount above zero.",
            ));
        }
        Ok(measured)
    }

    /// The fault of a number that needs a unit.
    pub(super) fn unit_missing(&self, column: Column, number: &str) -> Fault {
        let header = self.header(column);
        Fault::new(
            Code::UnitMissing,
            format!("{header} is {number}, without a unit"),
            format!("Write the unit too, such as {number} lb or {number} each."),
        )
    }
}

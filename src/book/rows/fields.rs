//! Fields of one number: plain, percent, money; dates; yes and no.
//!
//! A number typed as text counts as a spreadsheet would hold it, to 15 significant digits, so that it is the same number
//! when the book is written and read again.

use jiff::civil::Date;

use super::reader::{CellContent, Reader};
use crate::book::dates;
use crate::kitchen::Field;
use crate::measure::{MoneyText, Unit, currency, number_fault, parse_money};
use crate::number::percent::hundredth;
use crate::number::{BareRule, Decimal, PercentText, as_held, decimal, parse_percent, plain};
use crate::problem::{Code, Fault};
use crate::schema::{Column, Shown, Typed, Value};

/// A money cell.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct MoneyCell {
    /// The amount.
    pub(super) amount: Decimal,
    /// What stands behind its slash.
    pub(super) per: Option<String>,
    /// Whether it says that it is money, by a sign or its format.
    pub(super) signed: bool,
    /// The sign, where one is shown.
    pub(super) sign: Option<String>,
}

/// What the brackets of a money column's header say: the sign, and what the money is per: `$`, `€/kg`, `per lb`, `lb`.
fn of_header(text: &str) -> (Option<String>, Option<String>) {
    let (sign, per) = match text.split_once('/') {
        Some((sign, per)) => (sign.trim(), Some(per.trim())),
        None => match text.strip_prefix("per ") {
            Some(per) => ("", Some(per.trim())),
            None if Unit::parse(text).is_some() => ("", Some(text)),
            None => (text.trim(), None),
        },
    };
    let known = currency::code_of(sign).is_some();
    (Some(sign.to_owned()).filter(|_| known), per.filter(|per| !per.is_empty()).map(str::to_owned))
}

/// The digits that a spreadsheet's number holds.
const HELD_DIGITS: usize = 15;

impl Reader<'_> {
    /// The fault of a date where something else was meant.
    pub(super) fn is_a_date(&self, column: Column, date: Date, code: Code) -> Fault {
        let (day, month) = (date.day(), date.month());
        let typed = if day == month { format!("{month}/{day}") } else { format!("{month}/{day} or {day}/{month}") };
        Fault::new(
            code,
            format!(
                "{} holds the date {date}; {typed} was probably typed and the spreadsheet made a date of it",
                self.header(column)
            ),
            if column == Column::Pack {
                // Typed again as it was, it would lack its unit.
                format!("Type it again with its unit, such as {month}/{day} lb: the spreadsheet leaves that alone.")
            } else {
                format!("Format the cell as text and type it again, or put an apostrophe first: '{month}/{day}.")
            },
        )
    }

    /// A plain number.
    pub(super) fn number(&mut self, column: Column) -> Field<Decimal> {
        let number = match self.amount(column) {
            CellContent::Blank => return Field::Blank,
            CellContent::Broken => return Field::Broken,
            CellContent::Date(date) => {
                let fault = self.is_a_date(column, date, Code::CellIsADate);
                return self.fail(column, fault);
            }
            CellContent::Number(number, _) => number,
            CellContent::Text(text) => match decimal::parse(&text, self.marks(column)) {
                Ok(number) => {
                    let number = self.held(column, number, &text);
                    self.input.set(column, Typed::number(number));
                    number
                }
                Err(fault) => return self.fail(column, number_fault(&text, fault)),
            },
        };
        Field::Given(number)
    }

    /// A number that was typed as `text`, as a spreadsheet holds it; told where digits that were typed are lost.
    fn held(&mut self, column: Column, number: Decimal, text: &str) -> Decimal {
        let held = as_held(number);
        let typed = text.bytes().filter(u8::is_ascii_digit).count();
        if held != number && typed > HELD_DIGITS {
            let fault = Fault::new(
                Code::DigitsCut,
                format!("{} is {text}, of which a spreadsheet keeps {HELD_DIGITS} digits", self.header(column)),
                "Nothing to do, unless so many digits were meant: no spreadsheet program can hold them.",
            );
            self.report(column, fault);
        }
        held
    }

    /// A number that cannot be below zero.
    pub(super) fn count(&mut self, column: Column) -> Field<Decimal> {
        match self.number(column) {
            Field::Given(number) if number < Decimal::ZERO => {
                let fault = self.below_zero(column, &plain(number));
                self.fail(column, fault)
            }
            field => field,
        }
    }

    /// The fault of a negative amount.
    pub(super) fn below_zero(&self, column: Column, text: &str) -> Fault {
        Fault::new(
            Code::NumberOutOfRange,
            format!("{} is {text}", self.header(column)),
            format!("{} cannot be below zero.", self.header(column)),
        )
    }

    /// A percentage as a fraction, by its format, its sign, or the rule for bare numbers.
    pub(super) fn percent(&mut self, column: Column, rule: BareRule) -> Field<Decimal> {
        let bare = match self.content(column) {
            CellContent::Blank => return Field::Blank,
            CellContent::Broken => return Field::Broken,
            CellContent::Date(date) => {
                let fault = self.is_a_date(column, date, Code::CellIsADate);
                return self.fail(column, fault);
            }
            CellContent::Number(number, Shown::Percent) => return self.fraction(column, number),
            CellContent::Number(number, _) => number,
            CellContent::Text(text) => match parse_percent(&text, self.marks(column)) {
                Ok(PercentText::Fraction(fraction)) => {
                    let fraction = self.held(column, fraction, &text);
                    return self.fraction(column, fraction);
                }
                Ok(PercentText::Bare(number)) => {
                    let number = self.held(column, number, &text);
                    self.input.set(column, Typed::number(number));
                    number
                }
                Err(fault) => return self.fail(column, number_fault(&text, fault)),
            },
        };
        let header_says = self.default_of(column).is_some_and(|default| default.contains('%'));
        let read = if header_says {
            hundredth(bare).map(|fraction| Some((fraction, false)))
        } else {
            rule.read(bare).map(|read| read.map(|read| (read.fraction, read.doubtful)))
        };
        match read {
            Ok(Some((fraction, doubtful))) => {
                if doubtful {
                    // Left a bare number, so that the doubt is met again in what is written back.
                    self.doubtful(column, bare, fraction);
                    return Field::Given(fraction);
                }
                self.fraction(column, fraction)
            }
            Ok(None) => {
                let fault = self.must_say(column, bare);
                self.fail(column, fault)
            }
            Err(_) => {
                // What the header says is said at the cell, so that it is met again in what is written back.
                let text = if header_says { format!("{}%", plain(bare)) } else { plain(bare) };
                self.input.set(column, Typed::text(text.clone()));
                self.fail(column, number_fault(&text, crate::number::NumberFault::TooLarge))
            }
        }
    }

    fn fraction(&mut self, column: Column, fraction: Decimal) -> Field<Decimal> {
        let fraction = as_held(fraction);
        self.input.set(column, Typed { value: Value::Number(fraction), shown: Shown::Percent });
        if fraction < Decimal::ZERO {
            let fault = self.below_zero(column, &plain(fraction));
            return self.fail(column, fault);
        }
        Field::Given(fraction)
    }

    fn doubtful(&mut self, column: Column, bare: Decimal, fraction: Decimal) {
        let percent = fraction.checked_mul(Decimal::ONE_HUNDRED).map(plain).unwrap_or_default();
        let header = self.header(column);
        self.report(
            column,
            Fault::new(
                Code::PercentDoubtful,
                format!("{header} is {}, which was read as {percent} %", plain(bare)),
                "Write a percent sign to be sure, such as 85%.",
            ),
        );
    }

    /// The fault of a bare number that may be a percentage or money.
    pub(super) fn must_say(&self, column: Column, bare: Decimal) -> Fault {
        let header = self.header(column);
        Fault::new(
            Code::PercentUnclear,
            format!("{header} is {}, which may be a percentage or money", plain(bare)),
            "Write a percent sign or a currency sign, such as 5% or $1.40.",
        )
    }

    /// What to type, `help`, for a percentage that cannot be right. A cell that was formatted as a percentage before a
    /// number was typed into it may show 50 as 5000 %.
    pub(super) fn percent_help(fraction: Decimal, help: &str) -> String {
        let meant = plain(fraction);
        if fraction < Decimal::TEN { help.to_owned() } else { format!("If {meant}% is meant, type {meant}%. {help}") }
    }

    /// A percentage from above zero to 100 %.
    pub(super) fn share(&mut self, column: Column, rule: BareRule, zero: bool) -> Field<Decimal> {
        match self.percent(column, rule) {
            Field::Given(fraction) if fraction > Decimal::ONE || (fraction.is_zero() && !zero) => {
                let seen = self.input.text(column);
                let header = self.header(column);
                let from = if zero { "from 0 %" } else { "above 0 %" };
                let fault = Fault::new(
                    Code::NumberOutOfRange,
                    format!("{header} is {seen}"),
                    Self::percent_help(fraction, &format!("{header} must be {from} up to 100 %.")),
                );
                self.fail(column, fault)
            }
            field => field,
        }
    }

    /// Money, whatever its sign and slash say.
    pub(super) fn money_text(&mut self, column: Column) -> Field<MoneyCell> {
        let (header_sign, header_per) = self.default_of(column).map(of_header).unwrap_or_default();
        let money = match self.content(column) {
            CellContent::Blank => return Field::Blank,
            CellContent::Broken => return Field::Broken,
            CellContent::Date(date) => {
                let fault = self.is_a_date(column, date, Code::CellIsADate);
                return self.fail(column, fault);
            }
            CellContent::Number(amount, Shown::Money(sign)) => {
                MoneyCell { amount, per: None, signed: true, sign: Some(sign) }
            }
            CellContent::Number(amount, shown) => {
                if shown == Shown::Percent {
                    let seen = self.input.text(column);
                    let header = self.header(column);
                    let fault = Fault::new(
                        Code::NotANumber,
                        format!("{header} is {seen}, a percentage where money is wanted"),
                        "Type the amount of money and format the cell as money.",
                    );
                    return self.fail(column, fault);
                }
                if let Some(sign) = &header_sign {
                    // Said at the cell, what the header says is not lost.
                    self.set_money(column, amount, sign.clone(), true);
                }
                MoneyCell { amount, per: None, signed: header_sign.is_some(), sign: header_sign.clone() }
            }
            CellContent::Text(text) => match parse_money(&text, self.marks(column)) {
                Ok(MoneyText { amount, sign, per }) => {
                    let amount = self.held(column, amount, &text);
                    let signed = sign.is_some() || header_sign.is_some();
                    let sign = sign.or_else(|| header_sign.clone());
                    if per.is_none() {
                        self.set_money(column, amount, sign.clone().unwrap_or_default(), signed);
                    }
                    MoneyCell { amount, per, signed, sign }
                }
                Err(fault) => return self.fail(column, fault),
            },
        };
        if let Some(Err(fault)) = money.sign.as_ref().map(|sign| self.sign(column, sign)) {
            // The header may have said the sign.
            return if header_sign.is_some() {
                self.fail_against_header(column, fault)
            } else {
                self.fail(column, fault)
            };
        }
        if let (Some(own), Some(other)) = (&money.sign, &header_sign)
            && own != other
            && !own.is_empty()
        {
            let fault = Fault::new(
                Code::UnitTwice,
                format!("{} is in {own}, but its column says {other}", self.header(column)),
                "Keep one of the two signs.",
            );
            return self.fail_against_header(column, fault);
        }
        Field::Given(MoneyCell { per: money.per.or(header_per), ..money })
    }

    /// Writes an understood amount back as a number.
    pub(super) fn set_money(&mut self, column: Column, amount: Decimal, sign: String, signed: bool) {
        let shown = if signed { Shown::Money(sign) } else { Shown::Plain };
        self.input.set(column, Typed { value: Value::Number(amount), shown });
    }

    /// Money that cannot be negative and is not per anything.
    pub(super) fn money(&mut self, column: Column) -> Field<Decimal> {
        match self.money_text(column) {
            Field::Given(money) => {
                if let Some(per) = money.per {
                    let fault = Fault::new(
                        Code::NotANumber,
                        format!("{} says “per {per}”, which is not used here", self.header(column)),
                        "Type the amount alone.",
                    );
                    return self.fail_against_header(column, fault);
                }
                if money.amount < Decimal::ZERO {
                    let fault = self.below_zero(column, &plain(money.amount));
                    return self.fail(column, fault);
                }
                Field::Given(money.amount)
            }
            Field::Blank => Field::Blank,
            Field::Broken => Field::Broken,
        }
    }

    /// A date: a date cell, `2026-11-20`, `20 Nov 2026`, or one with slashes that can be read in one way only.
    pub(super) fn date(&mut self, column: Column) -> Field<Date> {
        let text = match self.content(column) {
            CellContent::Blank => return Field::Blank,
            CellContent::Broken => return Field::Broken,
            CellContent::Date(date) => return Field::Given(date),
            CellContent::Number(number, _) => plain(number),
            CellContent::Text(text) => text,
        };
        match dates::parse(&text) {
            Some(date) => {
                self.input.set(column, Typed { value: Value::Date(date), shown: Shown::Date });
                Field::Given(date)
            }
            None => {
                let header = self.header(column);
                let fault = match dates::readings(&text).as_slice() {
                    [one, other] => Fault::new(
                        Code::NotADate,
                        format!("{header} is “{text}”, which may be {one} or {other}"),
                        format!("Write {one} or {other}, whichever it is, or format the cell as a date."),
                    ),
                    [one] => Fault::new(
                        Code::NotADate,
                        format!("{header} is “{text}”, which is no date that can be read in one way only"),
                        format!("If it is {one}, write that, or format the cell as a date."),
                    ),
                    _ => Fault::new(
                        Code::NotADate,
                        format!("{header} is “{text}”, which is no date that can be read in one way only"),
                        "Write it as 2026-11-20, or format the cell as a date.",
                    ),
                };
                self.fail(column, fault)
            }
        }
    }

    /// Yes or no; blank is neither.
    pub(super) fn yes_no(&mut self, column: Column) -> Field<bool> {
        let Some(text) = self.text(column) else { return Field::Broken };
        match text.to_lowercase().as_str() {
            "" => Field::Blank,
            "yes" | "y" | "true" | "x" | "1" | "✓" | "✔" => Field::Given(true),
            "no" | "n" | "false" | "0" | "-" => Field::Given(false),
            _ => {
                let fault = Fault::new(
                    Code::NotYesNo,
                    format!("{} is “{text}”", self.header(column)),
                    "Type yes or no, or leave it blank.",
                );
                self.fail(column, fault)
            }
        }
    }
}

//! Rows of the yield-test table.

use super::amounts::Quantity;
use super::fields::MoneyCell;
use super::instead;
use super::packs::unit_unknown;
use super::reader::{CellContent, Reader};
use crate::kitchen::Field;
use crate::kitchen::reuse::{Otherwise, PerWeight};
use crate::kitchen::yield_test::{Charged, InsteadOf, JointMethod, Role, TestKind, TestRow, TestWeight, ValueGiven};
use crate::measure::{Base, Dimension, Measured, QuantityText, Unit, Volumes};
use crate::number::percent::PercentText;
use crate::number::{BareRule, Decimal, parse_percent, plain};
use crate::problem::{Code, Fault, suggest};
use crate::schema::{Column, Shown, Typed, Value};

/// Reads a row; `None` when it names no test or part.
pub(super) fn row(mut reader: Reader<'_>) -> Option<TestRow> {
    let test = reader.name(Column::Test)?;
    let part = reader.name(Column::Part)?;
    let role = reader.role();
    let weight = reader.weight();
    let charge = reader.charge();
    let unit = weight.given().map(|weight| (weight.unit.clone(), weight.unit_grams));
    let row = TestRow {
        test,
        part,
        date: reader.date(Column::Date),
        run: reader.text(Column::Run).unwrap_or_default(),
        role,
        kind: reader.test_kind(),
        value: reader.value(charge.given().copied()),
        further_cost: reader.per_unit(Column::FurtherCost, unit.as_ref()),
        price: reader.per_unit(Column::Price, unit.as_ref()),
        instead_of: reader.instead_of(),
        otherwise: reader.otherwise(),
        eaten: reader.share(Column::Eaten, BareRule::BelowOne, true),
        keeps: reader.count(Column::Keeps),
        weight,
        charge,
        input: reader.input,
    };
    Some(row)
}

/// The word of `words` that `text` is, letters only compared.
fn word<T: Copy>(text: &str, words: &[(&str, T)]) -> Option<T> {
    let letters = |text: &str| text.chars().filter(|c| c.is_alphanumeric()).collect::<String>().to_lowercase();
    let wanted = letters(text);
    words.iter().find(|(word, _)| letters(word) == wanted).map(|(_, meaning)| *meaning)
}

const ROLES: &[(&str, Role)] = &[
    ("as purchased", Role::AsPurchased),
    ("AP", Role::AsPurchased),
    ("added", Role::Added),
    ("main", Role::Main),
    ("by-product", Role::ByProduct),
    ("byproducts", Role::ByProduct),
    ("waste", Role::Waste),
];

const CHARGES: &[(&str, Charged)] = &[
    ("free", Charged::Free),
    ("fraction", Charged::Fraction),
    ("price", Charged::Price),
    ("market", Charged::Market),
    ("by weight", Charged::Joint(JointMethod::Weight)),
    ("by sales value", Charged::Joint(JointMethod::SalesValue)),
    ("net realizable value", Charged::Joint(JointMethod::NetRealizableValue)),
    ("net realisable value", Charged::Joint(JointMethod::NetRealizableValue)),
];

impl Reader<'_> {
    fn role(&mut self) -> Field<Role> {
        let Some(text) = self.text(Column::Role) else { return Field::Broken };
        match word(&text, ROLES) {
            Some(role) => Field::Given(role),
            None => {
                let near = suggest::did_you_mean(&text, ROLES.iter().map(|(word, _)| *word)).unwrap_or_default();
                let found =
                    if text.is_empty() { "there is no role".to_owned() } else { format!("the role is “{text}”") };
                let help = format!("{near} Type as purchased, added, main, by-product or waste.");
                self.fail(Column::Role, Fault::new(Code::RoleUnknown, found, help.trim()))
            }
        }
    }

    fn test_kind(&mut self) -> Field<TestKind> {
        let Some(text) = self.text(Column::Kind) else { return Field::Broken };
        match text.to_lowercase().as_str() {
            "" => Field::Blank,
            "trim" | "trimming" | "butcher" => Field::Given(TestKind::Trim),
            "cooking" | "cook" | "cooked" => Field::Given(TestKind::Cooking),
            _ => {
                let fault = Fault::new(
                    Code::TestNotUnderstood,
                    format!("the kind of test is “{text}”"),
                    "Type trim or cooking, or leave it blank for trim.",
                );
                self.fail(Column::Kind, fault)
            }
        }
    }

    fn charge(&mut self) -> Field<Charged> {
        let Some(text) = self.text(Column::ChargedAs) else { return Field::Broken };
        if text.is_empty() {
            return Field::Blank;
        }
        match word(&text, CHARGES) {
            Some(charge) => Field::Given(charge),
            None => {
                let near = suggest::did_you_mean(&text, CHARGES.iter().map(|(word, _)| *word)).unwrap_or_default();
                let help = format!(
                    "{near} Type free, fraction, price, market, by weight, by sales value or net realizable value."
                );
                self.fail(
                    Column::ChargedAs,
                    Fault::new(Code::ChargeUnknown, format!("“{text}” is no way of charging"), help.trim()),
                )
            }
        }
    }

    /// A weight with its unit; a count beside it where given: `12 each, 15 lb`.
    fn weight(&mut self) -> Field<TestWeight> {
        if let Field::Given(both) = self.count_and_weight() {
            return both;
        }
        match self.quantity(Column::Weight, Column::Unit) {
            Field::Given(Quantity::Measured(measured)) => match grams(&measured) {
                Some((grams, unit_grams)) => {
                    Field::Given(TestWeight { grams, count: None, unit: measured.unit, unit_grams })
                }
                None => self.not_a_weight(&measured.to_string()),
            },
            Field::Given(Quantity::Bare(number)) => {
                let fault = self.unit_missing(Column::Weight, &plain(number));
                self.fail(Column::Weight, fault)
            }
            Field::Given(Quantity::Words(words)) => self.not_a_weight(&words),
            Field::Blank => self.not_a_weight("blank"),
            Field::Broken => Field::Broken,
        }
    }

    fn not_a_weight<T>(&mut self, found: &str) -> Field<T> {
        let fault = Fault::new(
            Code::TestNotUnderstood,
            format!("the weight is {found}"),
            "Weigh it, and type the weight with its unit, such as 2 lb 8 oz. What is nothing is 0 lb.",
        );
        self.fail(Column::Weight, fault)
    }

    /// `12 each, 15 lb`. Blank when the cell is anything else.
    fn count_and_weight(&mut self) -> Field<Field<TestWeight>> {
        let Value::Text(text) = &self.input.typed(Column::Weight).value else { return Field::Blank };
        let parts = match crate::measure::parse_several(text, self.marks(Column::Weight)) {
            Ok(parts) if parts.len() == 2 => parts,
            _ => return Field::Blank,
        };
        let parts: Vec<Measured> = parts.into_iter().filter_map(|part| self.part_of_weight(part)).collect();
        let weight = parts.iter().find_map(|part| grams(part).map(|grams| (part, grams)));
        let count = parts.iter().find_map(pieces);
        Field::Given(match (weight, count) {
            (Some((part, _)), Some(_)) if self.weighed_otherwise(&part.unit) => Field::Broken,
            (Some((part, (grams, unit_grams))), Some(count)) => {
                Field::Given(TestWeight { grams, count: Some(count), unit: part.unit.clone(), unit_grams })
            }
            _ => {
                let seen = self.input.text(Column::Weight);
                self.not_a_weight(&seen)
            }
        })
    }

    /// One of the two measures of a weight cell.
    fn part_of_weight(&self, part: QuantityText) -> Option<Measured> {
        match part {
            QuantityText::Measured(measured) => Some(measured),
            QuantityText::Compound(parts) => self.added_up(Column::Weight, &parts).ok(),
            QuantityText::Number(_) | QuantityText::Unmeasured(_) => None,
        }
    }

    /// Whether the column's header or the unit beside the weight says another unit than the weight's own.
    fn weighed_otherwise(&mut self, own: &Unit) -> bool {
        let beside = self.text(Column::Unit).filter(|text| !text.is_empty()).map(|text| Unit::read(&text));
        if let Some(other) = beside.filter(|other| other != own) {
            let fault = self.says_otherwise(Column::Weight, own, &other);
            self.report(Column::Weight, fault);
            return true;
        }
        let header = self.default_of(Column::Weight).map(Unit::read);
        let Some(other) = header.filter(|other| other != own) else { return false };
        let fault = self.says_otherwise(Column::Weight, own, &other);
        self.fail_against_header::<()>(Column::Weight, fault);
        true
    }

    /// A percentage, money (with a unit of its own or not), or a bare number.
    fn value(&mut self, charge: Option<Charged>) -> Field<ValueGiven> {
        let bare = match self.content(Column::Value) {
            CellContent::Blank => return Field::Blank,
            CellContent::Broken => return Field::Broken,
            CellContent::Date(date) => {
                let fault = self.is_a_date(Column::Value, date, Code::CellIsADate);
                return self.fail(Column::Value, fault);
            }
            CellContent::Number(number, Shown::Percent) => return self.not_negative(number, ValueGiven::Percent),
            CellContent::Number(_, Shown::Money(_)) => {
                return match self.money_text(Column::Value) {
                    Field::Given(MoneyCell { amount, .. }) => self.money_value(amount, None),
                    _ => Field::Broken,
                };
            }
            CellContent::Number(number, _) => number,
            CellContent::Text(text) => {
                if let Ok(PercentText::Fraction(fraction)) = parse_percent(&text, self.marks(Column::Value)) {
                    self.input.set(Column::Value, Typed { value: Value::Number(fraction), shown: Shown::Percent });
                    return self.not_negative(fraction, ValueGiven::Percent);
                }
                match self.money_text(Column::Value) {
                    Field::Given(MoneyCell { amount, per: None, signed: false, .. }) => amount,
                    Field::Given(MoneyCell { amount, per, .. }) => return self.money_value(amount, per),
                    _ => return Field::Broken,
                }
            }
        };
        match charge {
            Some(Charged::Fraction) => match self.percent(Column::Value, BareRule::UpToOne) {
                Field::Given(fraction) => Field::Given(ValueGiven::Percent(fraction)),
                _ => Field::Broken,
            },
            _ => self.not_negative(bare, ValueGiven::Bare),
        }
    }

    fn money_value(&mut self, amount: Decimal, per: Option<String>) -> Field<ValueGiven> {
        let per = match per.map(|per| (Unit::parse(&per), per)) {
            None => None,
            Some((Some(unit), _)) => Some(unit),
            Some((None, text)) => return self.fail(Column::Value, unit_unknown(&text)),
        };
        self.not_negative(amount, |amount| ValueGiven::Money { amount, per })
    }

    fn not_negative(&mut self, number: Decimal, make: impl FnOnce(Decimal) -> ValueGiven) -> Field<ValueGiven> {
        if number < Decimal::ZERO {
            let fault = self.below_zero(Column::Value, &plain(number));
            return self.fail(Column::Value, fault);
        }
        Field::Given(make(number))
    }

    /// Money per Unit; a unit behind its slash must be the row's own.
    fn per_unit(&mut self, column: Column, unit: Option<&(Unit, Decimal)>) -> Field<Decimal> {
        match self.money_text(column) {
            Field::Given(MoneyCell { amount, per, signed, sign }) => {
                if amount < Decimal::ZERO {
                    let fault = self.below_zero(column, &plain(amount));
                    return self.fail(column, fault);
                }
                let same = per.as_deref().is_none_or(|per| unit.is_some_and(|(unit, _)| *unit == Unit::read(per)));
                if !same {
                    let fault = Fault::new(
                        Code::UnitTwice,
                        format!(
                            "{} is per {}, but the row's weight is in another unit",
                            self.header(column),
                            per.unwrap_or_default()
                        ),
                        "Give the money per the unit of the weight.",
                    );
                    return self.fail_against_header(column, fault);
                }
                if per.is_some() {
                    self.set_money(column, amount, sign.unwrap_or_default(), signed);
                }
                Field::Given(amount)
            }
            Field::Blank => Field::Blank,
            Field::Broken => Field::Broken,
        }
    }

    fn instead_of(&mut self) -> Field<InsteadOf> {
        let Some(text) = self.text(Column::InsteadOf) else { return Field::Broken };
        if text.is_empty() {
            return Field::Blank;
        }
        match instead::parse(&text, self.marks(Column::InsteadOf)) {
            Ok(instead) => Field::Given(instead),
            Err(fault) => self.fail(Column::InsteadOf, fault),
        }
    }

    fn otherwise(&mut self) -> Field<Otherwise> {
        let Some(text) = self.text(Column::Otherwise) else { return Field::Broken };
        let lower = text.to_lowercase();
        if lower.is_empty() {
            return Field::Blank;
        }
        if matches!(lower.as_str(), "binned" | "bin") {
            return Field::Given(Otherwise::Binned);
        }
        let sold = lower.strip_prefix("sold").map(|rest| rest.trim_start_matches(" at").trim().to_owned());
        let money = sold.and_then(|text| crate::measure::parse_money(&text, self.marks(Column::Otherwise)).ok());
        let sign = money.as_ref().and_then(|money| money.sign.clone()).unwrap_or_default();
        if let Err(fault) = self.sign(Column::Otherwise, &sign) {
            return self.fail(Column::Otherwise, fault);
        }
        let priced = money.and_then(|money| {
            let unit = Unit::parse(&money.per?)?;
            let (grams, _) = grams(&Measured::new(Decimal::ONE, unit))?;
            let sold = PerWeight { money: money.amount, grams };
            (money.amount >= Decimal::ZERO).then_some(Otherwise::Sold(sold))
        });
        match priced {
            Some(sold) => Field::Given(sold),
            None => {
                let fault = Fault::new(
                    Code::TestNotUnderstood,
                    format!("“{text}” does not say what happens to it when it is not used"),
                    "Type binned, or sold and the price per weight, such as sold 0.80 / lb.",
                );
                self.fail(Column::Otherwise, fault)
            }
        }
    }
}

/// Grams of a weight, and of one of its unit; `None` when it is no weight.
fn grams(measured: &Measured) -> Option<(Decimal, Decimal)> {
    if measured.unit.dimension() != Dimension::Mass {
        return None;
    }
    let one = measured.unit.grams()?;
    Some((crate::number::exact::mul(measured.amount, one).ok()?, one))
}

/// Pieces of a count.
fn pieces(measured: &Measured) -> Option<Decimal> {
    // Counts do not depend on the setting Volumes.
    match measured.in_base(Volumes::Us) {
        Ok(Some((Base::Each, pieces))) => Some(pieces),
        _ => None,
    }
}

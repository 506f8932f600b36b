//! Quantities as a cell holds them: `1 1/2`, `3/4 lb`, `38 lb 12 oz`, `to taste`.
//!
//! Takes text and the column's decimal marks; gives amounts with their units, exactly, or a fault.

use super::base::{Base, Volumes};
use super::compound::descends;
use super::dated::date_as_text;
use super::number_fault::number_fault;
use super::unit::Unit;
use super::words::can_size;
use crate::number::exact::mul;
use crate::number::leading::leading;
use crate::number::text::{clean, is_too_long, vulgar};
use crate::number::{Decimal, Marks, Overflow, decimal, plain};
use crate::problem::{Code, Fault};

/// An amount with its unit.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Measured {
    /// How many of the unit; never negative.
    pub amount: Decimal,
    /// The unit.
    pub unit: Unit,
}

impl Measured {
    /// `amount` of `unit`.
    pub fn new(amount: Decimal, unit: Unit) -> Self {
        Measured { amount, unit }
    }

    /// The amount in grams, millilitres or pieces; `None` for a kitchen's own measure.
    ///
    /// # Errors
    /// [`Overflow`] when the amount in base units does not fit a decimal.
    pub fn in_base(&self, volumes: Volumes) -> Result<Option<(Base, Decimal)>, Overflow> {
        match self.unit.to_base(volumes) {
            Some((base, size)) => Ok(Some((base, mul(self.amount, size)?))),
            None => Ok(None),
        }
    }
}

impl std::fmt::Display for Measured {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} {}", plain(self.amount), self.unit)
    }
}

/// What a quantity cell says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum QuantityText {
    /// A number alone; its unit stands elsewhere or is missing.
    Number(Decimal),
    /// One amount with its unit.
    Measured(Measured),
    /// Several amounts that add up, of one kind, the largest unit first: `38 lb 12 oz`.
    Compound(Vec<Measured>),
    /// No amount: `to taste`, `as needed`, `pinch`; empty for a blank cell. Lower case, singular.
    Unmeasured(String),
}

/// Texts that say outright that nothing is measured.
const UNMEASURED: &[&str] = &[
    "to taste",
    "taste",
    "tt",
    "t.t.",
    "as needed",
    "as required",
    "as req'd",
    "as reqd",
    "as desired",
    "as necessary",
    "q.s.",
    "q.s",
    "qs",
    "-",
];

/// The name of an unmeasured quantity: blank, `to taste`, `a pinch`; `None` for anything else.
pub fn unmeasured(text: &str) -> Option<String> {
    let text = clean(text).to_lowercase();
    let word = text.strip_prefix("a ").unwrap_or(&text);
    let word = word.strip_suffix(" of").unwrap_or(word);
    if text == "-" || text.is_empty() {
        Some(String::new())
    } else if UNMEASURED.contains(&text.as_str()) {
        Some(text)
    } else {
        let unit = Unit::parse(word)?;
        unit.is_unmeasured().then(|| unit.name())
    }
}

/// Reads one quantity.
///
/// # Errors
/// [`Code::RangeGiven`] for `3-4`, [`Code::CellIsADate`] for `6-May`, [`Code::NumberAmbiguous`], [`Code::NumberOutOfRange`], [`Code::UnitUnknown`] for
/// what is no unit or has two meanings, [`Code::UnitMissing`] for `38 lb 12`, [`Code::NotANumber`] for the rest.
pub fn parse_quantity(text: &str, marks: Marks) -> Result<QuantityText, Fault> {
    if is_too_long(text) {
        return Err(not_understood(text));
    }
    if let Some(name) = unmeasured(text) {
        return Ok(QuantityText::Unmeasured(name));
    }
    let plain_text = clean(text);
    if let Some((day, month)) = date_as_text(&plain_text) {
        return Err(is_a_date(text, day, month));
    }
    let Some((number, rest)) = leading(&plain_text) else {
        return Err(not_understood(text));
    };
    let amount = amount(text, number, marks_before(rest, marks))?;
    let rest = rest.trim();
    if rest.is_empty() || rest == "." {
        return Ok(QuantityText::Number(amount));
    }
    refuse_range(text, rest)?;
    if is_one_own_measure(rest) {
        return Ok(QuantityText::Measured(Measured::new(amount, Unit::read(rest))));
    }
    // `2 400 g tins`: the space may part two numbers as well as thousands.
    let is_parted = number.contains(' ') && !number.contains('/') && !number.contains(|c| vulgar(c).is_some());
    if is_parted && rest.find(|c: char| c.is_ascii_digit()).is_none() && Unit::parse(rest).is_none() {
        return Err(two_numbers(text));
    }
    let mut parts = Vec::new();
    let (mut amount_here, mut rest) = (amount, rest);
    loop {
        let end = rest.find(|c: char| c.is_ascii_digit() || vulgar(c).is_some()).unwrap_or(rest.len());
        let (words, after) = rest.split_at_checked(end).unwrap_or((rest, ""));
        let words = words.trim_end_matches([' ', ',']);
        let words = if after.is_empty() { words } else { without_joint(words) };
        if words.is_empty() {
            return Err(two_numbers(text));
        }
        refuse_range_between(text, words, after)?;
        parts.push(Measured::new(amount_here, unit(text, words)?));
        if after.is_empty() {
            break;
        }
        let (number, next) = leading(after).ok_or_else(|| not_understood(text))?;
        amount_here = self::amount(text, number, marks_before(next, marks))?;
        rest = next.trim_start();
        if rest.is_empty() {
            return Err(Fault::new(
                Code::UnitMissing,
                format!("the {number} in “{}” has no unit", text.trim()),
                "Write its unit behind it, such as 38 lb 12 oz.",
            ));
        }
        refuse_range(text, rest)?;
    }
    match <[Measured; 1]>::try_from(parts) {
        Ok([one]) => Ok(QuantityText::Measured(one)),
        Err(parts) if descends(&parts) => Ok(QuantityText::Compound(parts)),
        Err(_) => Err(not_understood(text)),
    }
}

/// The unit before what joins it to the next amount: `cup` of `cup plus`.
fn without_joint(words: &str) -> &str {
    let words = words.trim_end_matches([' ', ',', '&', '+']);
    [" and", " plus"].iter().find_map(|joint| words.strip_suffix(joint)).unwrap_or(words).trim_end()
}

/// What is known of the decimal mark of a number that `after` follows: pounds may say it where nothing else does.
pub(super) fn marks_before(after: &str, marks: Marks) -> Marks {
    let after = after.trim_start_matches([' ', '-']);
    let end = after.find(|c: char| !c.is_alphabetic()).unwrap_or(after.len());
    let word = if after.starts_with('#') { "#" } else { after.get(..end).unwrap_or("") };
    let pounds = || Unit::parse(word).is_some_and(|unit| unit.is_pound());
    if marks == Marks::Unknown && !word.is_empty() && pounds() { Marks::Pounds } else { marks }
}

/// The number of a quantity, which is not negative.
fn amount(text: &str, number: &str, marks: Marks) -> Result<Decimal, Fault> {
    let amount = decimal::parse(number, marks).map_err(|fault| match fault {
        crate::number::NumberFault::NotANumber => not_understood(text),
        fault => number_fault(text, fault),
    })?;
    if amount < Decimal::ZERO {
        return Err(Fault::new(
            Code::NumberOutOfRange,
            format!("“{}” is less than nothing", text.trim()),
            "Write a quantity of zero or more.",
        ));
    }
    Ok(amount)
}

/// What stands in no measure's name.
const NO_NAME: &[char] =
    &['/', ',', ';', ':', '(', ')', '[', ']', '=', '+', '&', '~', '*', '×', '@', '%', '$', '€', '£'];

/// The unit that `words` name.
fn unit(text: &str, words: &str) -> Result<Unit, Fault> {
    let words = words.trim_end_matches(['.', ' ']);
    let words = words.strip_suffix(" of").unwrap_or(words);
    if words.to_lowercase().trim_end_matches('.') == "bu" {
        return Err(Fault::new(
            Code::UnitUnknown,
            format!("“bu” in “{}” may be a bunch or a bushel", text.trim()),
            "Write bunch or bushel.",
        ));
    }
    if let Some(unit) = Unit::parse(words) {
        return Ok(unit);
    }
    let is_name = words.starts_with(char::is_alphabetic) && !words.contains(NO_NAME);
    if is_name {
        // `l.s` has lost its plural now.
        let own = Unit::own(words);
        return Ok(Unit::parse(&own.name()).unwrap_or(own));
    }
    Err(Fault::new(
        Code::UnitUnknown,
        format!("“{words}” in “{}” is not a unit", text.trim()),
        "Write a number and one unit, such as 2 cups; how it is cut belongs under Prep.",
    ))
}

/// A can of a numbered size, a scoop or ladle, or a measure with inches in its name: digits that are no amount.
fn is_one_own_measure(rest: &str) -> bool {
    rest.contains('"') || can_size(&rest.to_lowercase()).is_some() || Unit::parse(rest).is_some()
}

fn refuse_range(text: &str, rest: &str) -> Result<(), Fault> {
    let after = ["-", "~", "to ", "or "].iter().find_map(|joint| rest.strip_prefix(joint));
    match after.map(str::trim_start).and_then(leading) {
        Some(_) => Err(number_fault(text, crate::number::NumberFault::RangeGiven)),
        None => Ok(()),
    }
}

/// `3 lb - 4 lb`, `3 lb to 4 lb`.
fn refuse_range_between(text: &str, words: &str, after: &str) -> Result<(), Fault> {
    let joined = words.ends_with('-') || words.ends_with(" to") || words.ends_with(" or");
    if joined && !after.is_empty() {
        return Err(number_fault(text, crate::number::NumberFault::RangeGiven));
    }
    Ok(())
}

/// `1 28 oz can`.
fn two_numbers(text: &str) -> Fault {
    Fault::new(
        Code::NotANumber,
        format!("“{}” has two numbers before its unit", text.trim()),
        "Write what it comes to, such as 28 oz, or only how many and of what, such as 1 can.",
    )
}

/// `6-May`: what a spreadsheet made of `6/5` or `5/6`, kept as text.
fn is_a_date(text: &str, day: u32, month: u32) -> Fault {
    let typed = if day == month { format!("{month}/{day}") } else { format!("{month}/{day} or {day}/{month}") };
    Fault::new(
        Code::CellIsADate,
        format!("“{}” is a date; {typed} was probably typed and a spreadsheet made a date of it", text.trim()),
        "Type it again as a decimal number, such as 0.5, or format the cell as text first.",
    )
}

fn not_understood(text: &str) -> Fault {
    Fault::new(
        Code::NotANumber,
        format!("“{}” is not a quantity", text.trim()),
        "Write a number and a unit, such as 1 1/2 lb, 38 lb 12 oz or 6 each.",
    )
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use proptest::prelude::*;

    fn read(text: &str) -> String {
        match parse_quantity(text, Marks::Unknown) {
            Ok(quantity) => said(&quantity),
            Err(fault) => fault.code.to_string(),
        }
    }

    pub(in crate::measure) fn said(quantity: &QuantityText) -> String {
        match quantity {
            QuantityText::Number(number) => plain(*number),
            QuantityText::Measured(one) => one.to_string(),
            QuantityText::Compound(parts) => parts.iter().map(Measured::to_string).collect::<Vec<_>>().join(" + "),
            QuantityText::Unmeasured(name) => format!("none: {name}"),
        }
    }

    #[test]
    fn quantities_as_people_type_them() {
        for (text, quantity) in [
            ("1.5", "1.5"),
            ("1 1/2", "1.5"),
            ("12 lb", "12 lb"),
            ("12lbs.", "12 lb"),
            ("40#", "40 lb"),
            ("40 # 8 oz", "40 lb + 8 oz"),
            ("1½ cups", "1.5 cup"),
            ("3/4 lb", "0.75 lb"),
            ("1-1/2 qt", "1.5 qt"),
            ("2 T", "2 tbsp"),
            ("2 t.", "2 tsp"),
            ("8 fl. oz.", "8 fl oz"),
            ("1 234,5 g", "1234.5 g"),
            ("1,234.5 g", "1234.5 g"),
            ("38 lb 12 oz", "38 lb + 12 oz"),
            ("38 lb, 12 oz", "38 lb + 12 oz"),
            ("38lb12oz", "38 lb + 12 oz"),
            ("1 qt 8 fl oz", "1 qt + 8 fl oz"),
            ("1 lb and 1 1/2 oz", "1 lb + 1.5 oz"),
            ("2 bunches", "2 bunch"),
            ("2 bunches of", "2 bunch"),
            ("3 #10 cans", "3 #10 can"),
            ("2 #16 scoops", "2 #16 scoop"),
            ("1 No. 8 disher", "1 #8 scoop"),
            ("4 oz ladle", "4 oz ladle"),
            ("2 4-oz ladles", "2 4 oz ladle"),
            ("1 2\" hotel pan", "1 2\" hotel pan"),
            ("2 dollops", "2 dollop"),
            ("2 pinches", "2 pinch"),
            ("1 imp pt", "1 imperial pt"),
            ("to taste", "none: to taste"),
            ("As Needed", "none: as needed"),
            ("a pinch of", "none: pinch"),
            ("Handful", "none: handful"),
            ("", "none: "),
            ("–", "none: "),
            ("0", "0"),
        ] {
            assert_eq!(read(text), quantity, "{text}");
        }
    }

    #[test]
    fn what_is_no_one_quantity_is_told_apart() {
        for (text, code) in [
            ("3-4", "range-given"),
            ("3–4 lb", "range-given"),
            ("3 to 4 lb", "range-given"),
            ("3 lb - 4 lb", "range-given"),
            ("3 lb to 4 lb", "range-given"),
            ("1/2-3/4 cup", "range-given"),
            ("1,234 g", "number-ambiguous"),
            ("-3 lb", "number-out-of-range"),
            ("1 bu", "unit-unknown"),
            ("bunch", "not-a-number"),
            ("some", "not-a-number"),
            ("6/5 lb", "not-a-number"),
            ("3 qt, 2.9 kg", "not-a-number"),
            ("12 oz 38 lb", "not-a-number"),
            ("38 lb 12", "unit-missing"),
            ("2 cups, sliced", "unit-unknown"),
            ("3 ?", "unit-unknown"),
            ("2 (28 oz) cans", "unit-unknown"),
        ] {
            assert_eq!(read(text), code, "{text}");
        }
    }

    proptest! {
        #[test]
        fn no_text_panics(text in "\\PC*", close in "[-0-9.,/½ #\"()a-zA-Z]{0,24}") {
            for text in [text, close] {
                let _ = parse_quantity(&text, Marks::Unknown);
                let _ = crate::measure::parse_several(&text, Marks::CommaDecimal);
                let _ = (Unit::parse(&text), Unit::own(&text));
            }
        }
    }
}

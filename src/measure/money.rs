//! Money as people type it: `$1,234.50`, `1.234,50 €`, `38.45/cs`, `(12.00)`, `USD 12`.
//!
//! Takes text and the column's decimal marks; gives the amount, the sign as typed and what it is per, or a fault.

use super::currency::{is_iso, signs};
use super::number_fault::number_fault;
use super::unit::Unit;
use crate::number::text::{clean, is_too_long, vulgar};
use crate::number::{Decimal, Marks, NumberFault, decimal};
use crate::problem::{Code, Fault};

/// An amount of money as a cell holds it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MoneyText {
    /// The amount; negative when it has a minus sign or stands in brackets.
    pub amount: Decimal,
    /// The currency sign or ISO code, as typed (a code in capitals).
    pub sign: Option<String>,
    /// What the amount is per: the text after a slash or `per`, such as `cs` or `lb`.
    pub per: Option<String>,
}

/// Whether a price cell says that the price is the market's: `MKT`, `market`, `market price`.
pub fn is_market(text: &str) -> bool {
    let text = clean(text).to_lowercase();
    matches!(
        text.trim_end_matches('.'),
        "mkt"
            | "market"
            | "market price"
            | "mkt price"
            | "mkt. price"
            | "call"
            | "call for price"
            | "on request"
            | "price on request"
    )
}

/// Reads an amount of money.
///
/// # Errors
/// [`Code::NotANumber`], [`Code::NumberAmbiguous`], [`Code::RangeGiven`] or [`Code::NumberOutOfRange`].
pub fn parse_money(text: &str, marks: Marks) -> Result<MoneyText, Fault> {
    if is_too_long(text) {
        return Err(not_money(text));
    }
    let plain = clean(text);
    let (money, per) = split_per(&plain);
    let (mut money, mut negative) = (money, false);
    if let Some(inner) = money.strip_prefix('(').and_then(|rest| rest.strip_suffix(')')) {
        (money, negative) = (inner.trim(), true);
    }
    let (mut sign, mut number) = take_sign(money);
    if let Some(inner) = number.strip_prefix('(').and_then(|rest| rest.strip_suffix(')')).filter(|_| !negative) {
        (number, negative) = (inner.trim(), true);
    }
    // `12,-` and `12.--` leave out the cents.
    number = ["--", "-"].iter().find_map(|dash| number.strip_suffix(dash)?.strip_suffix([',', '.'])).unwrap_or(number);
    if let Some(rest) = number.strip_suffix('-').or_else(|| number.strip_prefix('-')) {
        if negative {
            return Err(not_money(text));
        }
        (number, negative) = (rest.trim(), true);
        if sign.is_none() {
            (sign, number) = take_sign(number);
        }
    }
    if number.contains('/') || number.contains(|c| vulgar(c).is_some()) {
        return Err(not_money(text));
    }
    match decimal::parse(number, marks) {
        Ok(amount) => Ok(MoneyText { amount: if negative { -amount } else { amount }, sign, per }),
        Err(NumberFault::NotANumber) => for_unit(&plain, marks).ok_or_else(|| not_money(text)),
        Err(fault) => Err(number_fault(text, fault)),
    }
}

/// `$ 4.85 lb`: an amount with its sign or cents, and the unit that it is for.
fn for_unit(text: &str, marks: Marks) -> Option<MoneyText> {
    let (money, unit) = text.rsplit_once(' ')?;
    Unit::parse(unit).filter(|_| unit.chars().all(char::is_alphabetic))?;
    let read = parse_money(money, marks).ok().filter(|read| read.per.is_none())?;
    let is_money = read.sign.is_some() || read.amount.scale() == 2;
    is_money.then(|| MoneyText { per: Some(unit.to_owned()), ..read })
}

/// The money and what it is per. A slash between bare digits is no `per`.
fn split_per(text: &str) -> (&str, Option<String>) {
    let slash = text.rfind('/').map(|at| (at, 1)).filter(|(at, _)| text.get(..*at) != Some("S"));
    let word = text.to_ascii_lowercase().find(" per ").map(|at| (at, 5));
    let found = word.or(slash).and_then(|(at, length)| Some((text.get(..at)?.trim(), text.get(at + length..)?.trim())));
    // `3/4 lb` may be money per four pounds, or no money at all; `1.99/100 g` is plain.
    let is_fraction = |money: &str, per: &str| {
        per.starts_with(|c: char| c.is_ascii_digit()) && money.bytes().all(|b| b.is_ascii_digit())
    };
    match found {
        Some((money, per)) if word.is_none() && is_fraction(money, per) => (text, None),
        Some((money, per)) if per.contains(|c: char| c.is_alphabetic() || c == '#') => (money, Some(per.to_owned())),
        _ => (text, None),
    }
}

/// The currency sign or code at either end, and the rest.
fn take_sign(text: &str) -> (Option<String>, &str) {
    for sign in signs() {
        let rest = text.strip_prefix(sign).or_else(|| text.strip_suffix(sign));
        if let Some(rest) = rest.filter(|rest| !rest.contains(char::is_alphabetic)) {
            return (Some(sign.to_owned()), rest.trim());
        }
    }
    let letters = |c: char| c.is_ascii_alphabetic();
    let start = text.find(|c| !letters(c)).unwrap_or(text.len());
    let end = text.trim_end_matches(letters).len();
    for (code, rest) in [text.split_at_checked(start), text.split_at_checked(end).map(|(rest, code)| (code, rest))]
        .into_iter()
        .flatten()
    {
        let code = code.to_uppercase();
        if is_iso(&code) {
            // `USD $12`: the sign says no more than the code.
            let rest = rest.trim();
            let bare = signs().find_map(|sign| rest.strip_prefix(sign)).unwrap_or(rest);
            return (Some(code), bare.trim());
        }
    }
    (None, text)
}

fn not_money(text: &str) -> Fault {
    Fault::new(
        Code::NotANumber,
        format!("“{}” is not an amount of money", text.trim()),
        "Write an amount such as 12.50, $12.50 or 38.45/cs.",
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::number::plain;
    use proptest::prelude::*;

    fn read(text: &str) -> String {
        match parse_money(text, Marks::Unknown) {
            Ok(MoneyText { amount, sign, per }) => [Some(plain(amount)), sign, per.map(|per| format!("per {per}"))]
                .into_iter()
                .flatten()
                .collect::<Vec<_>>()
                .join(" "),
            Err(fault) => fault.code.to_string(),
        }
    }

    #[test]
    fn money_as_people_type_it() {
        for (text, money) in [
            ("12", "12"),
            ("$ 4.85 lb", "4.85 $ per lb"),
            ("1.35 ea", "1.35 per ea"),
            ("$1,234.50", "1234.5 $"),
            ("1.234,50 €", "1234.5 €"),
            ("€ 12,50", "12.5 €"),
            ("£3", "3 £"),
            ("38.45/cs", "38.45 per cs"),
            ("1.20 / lb", "1.2 per lb"),
            ("$0.45/kg", "0.45 $ per kg"),
            ("$4 per case", "4 $ per case"),
            ("4 per 100 g", "4 per 100 g"),
            ("1.99/100 g", "1.99 per 100 g"),
            ("0.80/#", "0.8 per #"),
            ("(12.00)", "-12"),
            ("($12.00)", "-12 $"),
            ("$(12.00)", "-12 $"),
            ("-$12", "-12 $"),
            ("$-12", "-12 $"),
            ("12.00-", "-12"),
            ("−3,5 €", "-3.5 €"),
            ("USD 12", "12 USD"),
            ("12 chf", "12 CHF"),
            ("USD $12.50", "12.5 USD"),
            ("US$ 12", "12 US$"),
            ("A$12", "12 A$"),
            ("149 kr", "149 kr"),
            ("12,- €", "12 €"),
            ("R 45.50", "45.5 R"),
            ("1'234.50 Fr.", "1234.5 Fr."),
        ] {
            assert_eq!(read(text), money, "{text}");
        }
    }

    #[test]
    fn what_is_no_money() {
        for (text, code) in [
            ("", "not-a-number"),
            ("abc", "not-a-number"),
            ("$", "not-a-number"),
            ("3/4", "not-a-number"),
            ("3/4 lb", "not-a-number"),
            ("12.50 lb", "not-a-number"),
            ("$½", "not-a-number"),
            ("99¢", "not-a-number"),
            ("-(12)", "not-a-number"),
            ("/lb", "not-a-number"),
            ("$1,234", "number-ambiguous"),
            ("3-4", "range-given"),
            ("$3-4", "range-given"),
        ] {
            assert_eq!(read(text), code, "{text}");
        }
        assert!(is_market("MKT") && is_market("Market price") && !is_market("12"));
    }

    proptest! {
        #[test]
        fn no_text_panics(text in "\\PC*", close in "[-0-9.,/()$€£A-Za-z ]{0,16}") {
            let _ = parse_money(&text, Marks::Unknown);
            let _ = parse_money(&close, Marks::CommaDecimal);
        }
    }
}

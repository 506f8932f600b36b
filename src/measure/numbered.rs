//! Scoops and ladles: units whose name says a number, and whose size follows from it.
//!
//! Takes names as cooks write them (`#16 scoop`, `No. 8 disher`, `4 oz ladle`); gives which tool it is and its number.

use super::catalogue::{Catalogue, Rule};
use super::words::singular;
use crate::number::leading::leading;
use crate::number::{Decimal, Marks, decimal};

/// What may stand before the number of a scoop.
const SIGNS: &[&str] = &["#", "number", "no.", "nos.", "no", "nr.", "nr", "size"];

/// The index of the tool that `name` names, and the number it bears.
pub(super) fn numbered(catalogue: &Catalogue, name: &str) -> Option<(usize, Decimal)> {
    let name = singular(&name.to_lowercase()).replace(['(', ')', ','], " ");
    let (before, last) = name.trim().rsplit_once(' ').unwrap_or(("", name.trim()));
    let (first, after) = name.trim().split_once(' ').unwrap_or((name.trim(), ""));
    let (index, rule, rest, is_first) = match catalogue.tool(last) {
        Some((index, rule)) => (index, rule, before, false),
        None => {
            let (index, rule) = catalogue.tool(first)?;
            (index, rule, after, true)
        }
    };
    let number = match rule {
        Rule::Divides => scoop(rest.trim(), is_first),
        Rule::Multiplies => ladle(catalogue, rest.trim(), is_first),
    }?;
    Some((index, number))
}

/// `#16`, `no. 8`, `size 12 portion`; behind the tool's name the sign may be missing: `scoop 16`.
fn scoop(text: &str, is_behind: bool) -> Option<Decimal> {
    let text = text.strip_suffix(" portion").unwrap_or(text);
    let signed = SIGNS.iter().find_map(|sign| text.strip_prefix(sign));
    let digits = match signed {
        Some(digits) => digits.trim(),
        None if is_behind => text,
        None => return None,
    };
    let number: u32 = digits.bytes().all(|b| b.is_ascii_digit()).then(|| digits.parse().ok())??;
    (1..=100).contains(&number).then(|| Decimal::from(number))
}

/// `4 oz`, `4-oz`, `1 1/2 fl oz`; without a number it is an ounce: `4 oz ladle` as a quantity is four of those.
fn ladle(catalogue: &Catalogue, text: &str, is_behind: bool) -> Option<Decimal> {
    let (number, unit) = match leading(text) {
        Some((number, unit)) => (decimal::parse(number, Marks::PointDecimal).ok()?, unit),
        None if is_behind => return None,
        None => (Decimal::ONE, text),
    };
    let unit = unit.trim_start_matches(['-', ' ']);
    let is_ounce = catalogue.unit(unit).and_then(|index| catalogue.units.get(index));
    let is_ounce = is_ounce.is_some_and(|entry| entry.id == "oz" || entry.id == "floz");
    (is_ounce && number > Decimal::ZERO && number <= Decimal::ONE_HUNDRED).then(|| number.normalize())
}

#[cfg(test)]
mod tests {
    use super::super::catalogue::catalogue;
    use super::*;

    #[test]
    fn scoops_and_ladles_as_cooks_write_them() {
        let read = |name: &str| {
            let (index, number) = numbered(catalogue(), name)?;
            Some((catalogue().units.get(index)?.id.as_str(), number.to_string()))
        };
        for (name, id, number) in [
            ("#16 scoop", "scoop", "16"),
            ("# 16 scoops", "scoop", "16"),
            ("No. 8 disher", "scoop", "8"),
            ("no 8 dishers", "scoop", "8"),
            ("number 30 dipper", "scoop", "30"),
            ("size 12 portion scoop", "scoop", "12"),
            ("Scoop #16", "scoop", "16"),
            ("scoop 16", "scoop", "16"),
            ("disher, No. 8", "scoop", "8"),
            ("4 oz ladle", "ladle", "4"),
            ("4-oz. ladles", "ladle", "4"),
            ("4 fl oz ladle", "ladle", "4"),
            ("1.5 oz ladle", "ladle", "1.5"),
            ("1 1/2 ounce ladle", "ladle", "1.5"),
            ("½ oz ladle", "ladle", "0.5"),
            ("8 oz spoodle", "ladle", "8"),
            ("ladle (6 oz)", "ladle", "6"),
            ("oz ladle", "ladle", "1"),
        ] {
            assert_eq!(read(name), Some((id, number.to_owned())), "{name}");
        }
        for name in ["scoop", "16 scoop", "#0 scoop", "#101 scoop", "#1/2 scoop", "ladle", "4 lb ladle", "ladle oz", ""]
        {
            assert_eq!(read(name), None, "{name}");
        }
    }
}

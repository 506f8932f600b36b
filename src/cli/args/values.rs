//! Values of flags, read from what was typed: percentages, money, days, headings. What is wrong is said with what to write.

use std::path::PathBuf;

use clap::builder::{OsStringValueParser, TypedValueParser};
use jiff::civil::Date;

use crate::kitchen::layout::{column_named, words};
use crate::number::{Decimal, exact};
use crate::schema::Column;

/// A step above nothing and up to all, as `5%` or `5`.
pub(super) fn step(text: &str) -> Result<Decimal, String> {
    let percent = text.trim().trim_end_matches('%').trim_end().parse::<Decimal>().ok();
    let fraction = percent.and_then(|percent| exact::div(percent, Decimal::ONE_HUNDRED).ok());
    let wanted = |fraction: &Decimal| *fraction >= Decimal::new(1, 3) && *fraction <= Decimal::ONE;
    fraction.filter(wanted).ok_or_else(|| "write a percentage from 0.1% to 100%, such as 10%".to_owned())
}

/// A column of ours and the heading under which a list has it, as `price=Net amt`.
pub(super) fn column(text: &str) -> Result<(Column, String), String> {
    let (word, heading) =
        text.split_once('=').ok_or("write the column, = and the list's heading, such as price=\"Net amt\"")?;
    let heading = heading.trim();
    if heading.is_empty() {
        return Err("write the list's heading behind the =, such as price=\"Net amt\"".to_owned());
    }
    column_named(word).map(|column| (column, heading.to_owned())).ok_or_else(|| {
        format!("“{}” is no column of a price list: {}", word.trim(), words().collect::<Vec<_>>().join(", "))
    })
}

/// By how much a price may move and still be taken: above nothing, as `50%` or `50`.
pub(super) fn bound(text: &str) -> Result<Decimal, String> {
    let percent = text.trim().trim_end_matches('%').trim_end().parse::<Decimal>().ok();
    let fraction = percent.and_then(|percent| exact::div(percent, Decimal::ONE_HUNDRED).ok());
    fraction
        .filter(|fraction| *fraction > Decimal::ZERO)
        .ok_or_else(|| "write a percentage above nothing, such as 50%".to_owned())
}

/// Money for an hour, above nothing.
pub(super) fn wage(text: &str) -> Result<Decimal, String> {
    let wage = text.trim().parse::<Decimal>().ok();
    wage.filter(|wage| *wage > Decimal::ZERO).ok_or_else(|| "write money for an hour, such as 18.50".to_owned())
}

/// A day as `YYYY-MM-DD`, nothing looser.
pub(super) fn day(text: &str) -> Result<Date, String> {
    let written = |date: &Date| date.to_string() == text;
    text.parse().ok().filter(written).ok_or_else(|| "write a day as YYYY-MM-DD, such as 2026-11-20".to_owned())
}

/// A path or a name, also one that says nothing: what is wrong with that is told as of any other name.
pub(super) fn maybe_empty() -> impl TypedValueParser<Value = PathBuf> {
    OsStringValueParser::new().map(PathBuf::from)
}

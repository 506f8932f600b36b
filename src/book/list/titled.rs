//! The days that stand in the titles of a list: since when its prices count, perhaps, or until when, or when it was
//! printed. So they are offered and never taken.

use jiff::civil::Date;

use super::headers::rows_above;
use crate::book::dates;
use crate::book::grid::Grid;
use crate::problem::{CellRef, Place};
use crate::schema::Value;

/// The most words that a date is written in: `20 November, 2026`.
const MOST_WORDS: usize = 4;

/// Every day in a title of the sheets, once, with the cell that it first stands in.
pub(super) fn days(grids: &[Grid]) -> Vec<(Date, Place)> {
    let mut days: Vec<(Date, Place)> = Vec::new();
    for grid in grids {
        for row in rows_above(grid) {
            for (at, typed) in row.cells() {
                let found = match &typed.value {
                    Value::Date(date) => vec![*date],
                    Value::Text(text) => in_text(text),
                    _ => Vec::new(),
                };
                for date in found {
                    if !days.iter().any(|(known, _)| *known == date) {
                        days.push((date, grid.place_of(CellRef::new(row.row, *at))));
                    }
                }
            }
        }
    }
    days
}

/// The days in a text; of one that can be read in two ways both.
fn in_text(text: &str) -> Vec<Date> {
    let words: Vec<&str> = text.split_whitespace().map(|word| word.trim_matches(['(', ')', ':', ';'])).collect();
    let mut days = Vec::new();
    let mut start = 0;
    while start < words.len() {
        // The longest run of words that is a date, so that `1 Nov 2026` is not read as less.
        let run = (1..=MOST_WORDS).rev().find_map(|length| {
            let run = words.get(start..start.saturating_add(length))?.join(" ");
            let run = run.trim_matches([',', '.', '(', ')']);
            let found = dates::parse(run).map_or_else(|| dates::readings(run), |date| vec![date]);
            (!found.is_empty()).then_some((length, found))
        });
        match run {
            Some((length, found)) => {
                days.extend(found);
                start = start.saturating_add(length);
            }
            None => start = start.saturating_add(1),
        }
    }
    days
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn days_are_found_among_words() {
        for (text, days) in [
            ("Prices from 1 November 2026", vec![date(2026, 11, 1)]),
            ("Price list (2026-11-01), all prices net.", vec![date(2026, 11, 1)]),
            ("Effective: Nov 1, 2026 to 30.11.2026", vec![date(2026, 11, 1), date(2026, 11, 30)]),
            // June or May.
            ("Valid from 5/6/2026", vec![date(2026, 5, 6), date(2026, 6, 5)]),
            ("Week 45, call 555 123 4567", vec![]),
            ("", vec![]),
        ] {
            assert_eq!(in_text(text), days, "{text}");
        }
    }
}

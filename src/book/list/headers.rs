//! Which row of a file that nobody knows is most likely its header row, and what to say of it.

use crate::book::grid::{Grid, GridRow};
use crate::measure::parse_money;
use crate::number::{Decimal, Marks};
use crate::schema::header::{is_known, read, same};
use crate::schema::{Column, Shown, TableKind, Typed, Value};

/// How many rows are looked at.
const MOST_ROWS: usize = 200;
/// How many rows below it say what a column holds.
const LOOK_BELOW: usize = 20;

/// The row of a sheet that looks most like a header row.
pub(super) struct Guess {
    /// Its zero-based row.
    pub row: u32,
    /// Its texts.
    pub headers: Vec<String>,
    /// The headings that are most likely the price's and the item's, where parings does not know them.
    likely: [(Column, Option<String>); 2],
}

/// Whether `text`, a heading of a file, is the one that somebody wrote as `wanted`.
pub(super) fn is_heading(text: &str, wanted: &str) -> bool {
    same(text, wanted) || same(&read(text).key, wanted)
}

/// The rows above the header row: above the first with two known headings, else above the one that looks most like it.
pub(super) fn rows_above(grid: &Grid) -> impl Iterator<Item = &GridRow> {
    let knows = |row: &GridRow| {
        row.cells().iter().filter(|(_, typed)| text_of(typed).is_some_and(is_known)).take(2).count() > 1
    };
    let first = grid.rows().iter().take(MOST_ROWS).find(|row| knows(row)).map(|row| row.row);
    let header = first.or_else(|| Guess::of(grid).map(|guess| guess.row)).unwrap_or(0);
    grid.rows().iter().take_while(move |row| row.row < header)
}

impl Guess {
    /// The row with the most texts that are no amounts, of equals the first; nothing on an empty sheet.
    pub fn of(grid: &Grid) -> Option<Guess> {
        let words = |row: &GridRow| row.cells().iter().filter(|(_, typed)| is_word(typed)).count();
        let (at, row) = grid
            .rows()
            .iter()
            .take(MOST_ROWS)
            .enumerate()
            .filter(|(_, row)| !row.cells().is_empty())
            .max_by_key(|(at, row)| (words(row), std::cmp::Reverse(*at)))?;
        let below = || grid.rows().iter().skip(at.saturating_add(1)).take(LOOK_BELOW);
        let has = |wanted: &[Column]| {
            row.cells().iter().filter_map(|(_, typed)| text_of(typed)).any(|text| {
                let means = read(text);
                means.meanings().iter().any(|m| m.kind == TableKind::Prices && wanted.contains(&m.column))
            })
        };
        let likely = |wanted: &[Column], fits: fn(&Typed) -> bool| {
            if has(wanted) {
                return None;
            }
            let score = |at: u32| below().filter(|row| fits(row.get(at))).count();
            let unknown = row.cells().iter().filter(|(_, typed)| text_of(typed).is_some_and(|text| !is_known(text)));
            let best = unknown.max_by_key(|(at, _)| (score(*at), std::cmp::Reverse(*at)))?;
            Some(best.1.seen())
        };
        Some(Guess {
            row: row.row,
            headers: row.cells().iter().map(|(_, typed)| typed.seen()).collect(),
            likely: [
                (Column::Price, likely(&[Column::Price], is_money)),
                (Column::Item, likely(&[Column::Item, Column::Code], is_word)),
            ],
        })
    }

    /// The options that would map what is missing.
    pub fn options(&self) -> Vec<String> {
        let option = |column: Column, heading: &str| {
            format!("--column {}=\"{heading}\"", TableKind::Prices.header(column).to_lowercase())
        };
        let found: Vec<String> =
            self.likely.iter().filter_map(|(column, heading)| Some(option(*column, heading.as_deref()?))).collect();
        if found.is_empty() { vec![option(Column::Price, "Net amt")] } else { found }
    }
}

fn text_of(typed: &Typed) -> Option<&str> {
    if let Value::Text(text) = &typed.value { Some(text) } else { None }
}

/// Whether a cell is words, and no number, amount or date.
fn is_word(typed: &Typed) -> bool {
    let letters = |text: &str| text.chars().any(char::is_alphabetic);
    text_of(typed).is_some_and(|text| letters(text) && !text.starts_with(|c: char| c.is_ascii_digit()))
}

/// Whether a cell may be what something costs: an amount with cents or a sign.
fn is_money(typed: &Typed) -> bool {
    let has_cents = |number: Decimal| !number.fract().is_zero();
    match &typed.value {
        Value::Number(number) => matches!(typed.shown, Shown::Money(_)) || has_cents(*number),
        Value::Text(text) => parse_money(text, Marks::Unknown)
            .is_ok_and(|money| money.sign.is_some() || has_cents(money.amount) || text.contains(['.', ','])),
        _ => false,
    }
}

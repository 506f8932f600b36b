//! Header rows of unknown files: which is most likely the one, and what to say of it.

use std::cmp::Reverse;
use std::collections::{BTreeMap, HashSet};

use crate::book::dates;
use crate::book::grid::{Grid, GridRow};
use crate::in_order::InOrder;
use crate::measure::{Unit, parse_money, parse_pack};
use crate::number::{Decimal, Marks};
use crate::problem::Choice;
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
    /// The columns of ours that none of its headings is known for, each with the headings that could be it, the likeliest
    /// first.
    likely: Vec<(Column, Vec<String>)>,
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
        let mut likely: Vec<(Column, Vec<(usize, String)>)> = Vec::new();
        let unknown = row.cells().iter().filter(|(_, typed)| text_of(typed).is_some_and(|text| !is_known(text)));
        for (at, typed) in unknown {
            let Some(column) = meaning(below().map(|row| row.get(*at))).filter(|column| !has(&[*column])) else {
                continue;
            };
            // What tells most rows apart is the likeliest name.
            let distinct: HashSet<String> = below().map(|row| row.get(*at).seen()).collect();
            let rank = if column == Column::Item { usize::MAX.saturating_sub(distinct.len()) } else { 0 };
            match likely.iter_mut().find(|(known, _)| *known == column) {
                Some((_, headings)) => headings.push((rank, typed.seen())),
                None => likely.push((column, vec![(rank, typed.seen())])),
            }
        }
        // In the order in which we write them.
        let order = |column: Column| TableKind::Prices.columns().iter().position(|def| def.column == column);
        likely.put_in_order_by_key(|(column, _)| (*column != Column::Price, order(*column)));
        let likely = likely.into_iter().map(|(column, mut headings)| {
            headings.put_in_order_by_key(|(rank, _)| *rank);
            (column, headings.into_iter().map(|(_, heading)| heading).collect())
        });
        Some(Guess {
            row: row.row,
            headers: row.cells().iter().map(|(_, typed)| typed.seen()).collect(),
            likely: likely.collect(),
        })
    }

    /// The choice that would map what is missing: for every column of ours each heading that it could be; the price alone
    /// where none looks like one.
    pub fn columns(self) -> Choice {
        let name = |column: Column| TableKind::Prices.header(column).to_lowercase();
        let mut likely: Vec<(String, Vec<String>)> =
            self.likely.into_iter().map(|(column, headings)| (name(column), headings)).collect();
        if likely.is_empty() {
            likely.push((name(Column::Price), Vec::new()));
        }
        Choice::Columns(likely)
    }
}

/// What a column holds by most of its cells; `None` where that does not show.
fn meaning<'a>(cells: impl Iterator<Item = &'a Typed>) -> Option<Column> {
    let mut counts: BTreeMap<Column, usize> = BTreeMap::new();
    let mut filled = 0_usize;
    for typed in cells.filter(|typed| !typed.is_blank()) {
        filled = filled.saturating_add(1);
        if let Some(column) = meaning_of(typed) {
            let count = counts.entry(column).or_default();
            *count = count.saturating_add(1);
        }
    }
    let (column, count) = counts.into_iter().max_by_key(|(column, count)| (*count, Reverse(*column)))?;
    (count.saturating_mul(2) > filled).then_some(column)
}

fn meaning_of(typed: &Typed) -> Option<Column> {
    let text = typed.seen();
    let text = text.trim();
    let has_digit = text.chars().any(|c| c.is_ascii_digit());
    if matches!(typed.value, Value::Date(_)) || dates::parse(text).is_some() || !dates::readings(text).is_empty() {
        Some(Column::Date)
    } else if is_money(typed) {
        Some(Column::Price)
    } else if Unit::parse(text).is_some() {
        Some(Column::Per)
    } else if has_digit && text.contains(char::is_alphabetic) && parse_pack(text, Marks::Unknown).is_ok() {
        Some(Column::Pack)
    } else if is_code(text) {
        Some(Column::Code)
    } else if is_word(typed) {
        Some(Column::Item)
    } else {
        None
    }
}

/// Whether a text is a supplier's code: one word with digits, three of them where there is nothing else.
fn is_code(text: &str) -> bool {
    const LONGEST: usize = 20;
    let digits = text.chars().filter(char::is_ascii_digit).count();
    let one_word = text.chars().all(|c| c.is_alphanumeric() || matches!(c, '-' | '.' | '_' | '/' | '#'));
    let bare = text.chars().all(|c| c.is_ascii_digit());
    one_word && text.len() <= LONGEST && digits > 0 && (!bare || digits >= 3)
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

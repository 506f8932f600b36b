//! Rows of a table as they were typed: what holds as long as nobody has changed, cleared, taken out or added one, so that a
//! reading that was drawn from them can say when it no longer stands.

use indexmap::IndexMap;

use crate::kitchen::InputRow;
use crate::number::plain;
use crate::results::figures::sum_and_squares;
use crate::schema::{Column, Value};
use crate::workbook::cells::formula::{Formula, Outcome, YES, in_quotes, literal};
use crate::workbook::layout::{Slot, TableLayout};

/// A function takes 255 arguments (ECMA-376 part 1, 18.17, as programs read it).
const MOST_CONDITIONS: usize = 200;
/// The most bytes of them, so that what stands round them has room.
const LONGEST: usize = 7_500;
/// Rows of a table that are looked for one by one; each is looked for among all.
pub(super) const MOST_ROWS: usize = 400;

/// What stands where they do not hold.
pub(super) const AGAIN: &str = "cost again";

/// Whether all of a piece's conditions hold, in a word. An error in one, of words for a number, is another figure than the one
/// that was.
pub(super) fn says_whether(piece: &str) -> Formula {
    let text = format!("IF(IFERROR(AND({piece}),FALSE),\"{YES}\",\"{AGAIN}\")");
    Formula::bare(text, Outcome::Text(YES.to_owned()))
}

/// Conditions one behind the other, as many as a formula holds.
pub(super) fn pieces(holds: &[String]) -> Vec<String> {
    let mut pieces: Vec<(usize, String)> = Vec::new();
    for one in holds {
        match pieces.last_mut() {
            Some((count, piece)) if *count < MOST_CONDITIONS && piece.len().saturating_add(one.len()) < LONGEST => {
                piece.push(',');
                piece.push_str(one);
                *count = count.saturating_add(1);
            }
            _ => pieces.push((1, one.clone())),
        }
    }
    pieces.into_iter().map(|(_, piece)| piece).collect()
}

/// A column of a table, as formulas of another sheet read it.
fn range(table: &TableLayout, column: Column) -> Option<String> {
    table.all(Slot::Input(column), "")
}

/// The column of names before others.
fn named(table: &TableLayout, columns: &[Column]) -> impl Iterator<Item = Column> {
    std::iter::once(table.kind.name_column()).chain(columns.to_vec())
}

/// How many names and amounts there are.
fn counted(table: &TableLayout, rows: &[&InputRow], columns: &[Column]) -> Vec<String> {
    let filled = |column: Column| rows.iter().filter(|row| !row.typed(column).is_blank()).count().saturating_add(1);
    named(table, columns)
        .filter_map(|column| Some(format!("COUNTA({})={}", range(table, column)?, filled(column))))
        .collect()
}

/// What holds of a table as long as its rows are what they are, in whatever order: how many there are, and that each is there
/// with its name and what stands in these columns.
pub(super) fn as_they_were(table: &TableLayout, rows: &[&InputRow], columns: &[Column]) -> Vec<String> {
    let all: Vec<Column> = named(table, columns).collect();
    counted(table, rows, columns).into_iter().chain(there(table, rows, &all)).collect()
}

/// What holds of a longer table of words: how many there are, and how often each is said in this column.
pub(super) fn said_as_often(table: &TableLayout, rows: &[&InputRow], column: Column) -> Vec<String> {
    let often: Vec<String> = there(table, rows, &[column]).take(MOST_ROWS).collect();
    counted(table, rows, &[column]).into_iter().chain(often).collect()
}

/// That what rows say in these columns is said as often as it was.
fn there(table: &TableLayout, rows: &[&InputRow], columns: &[Column]) -> impl Iterator<Item = String> {
    let says = |row: &InputRow, column: Column| {
        let range = range(table, column)?;
        let value = match &row.typed(column).value {
            Value::Text(text) => literal(text)?,
            Value::Number(number) => plain(*number),
            Value::Date(day) => format!("DATE({},{},{})", day.year(), day.month(), day.day()),
            // Below the rows all is blank.
            _ if columns.len() < 2 => return None,
            _ => in_quotes(""),
        };
        Some(format!("({range}={value})"))
    };
    let mut times: IndexMap<String, usize> = IndexMap::new();
    for row in rows {
        let said: Vec<String> = columns.iter().filter_map(|column| says(row, *column)).collect();
        if !said.is_empty() {
            let seen = times.entry(said.join("*")).or_default();
            *seen = seen.saturating_add(1);
        }
    }
    times.into_iter().map(|(said, times)| format!("SUMPRODUCT({said}*1)={times}"))
}

/// What holds of a longer table's names and amounts: how many there are, the sum of the amounts, and that of their squares.
pub(super) fn unchanged(table: &TableLayout, rows: &[&InputRow], amount: Column) -> Vec<String> {
    let mut all = counted(table, rows, &[amount]);
    let numbers = rows.iter().filter_map(|row| match row.typed(amount).value {
        Value::Number(number) => Some(number),
        _ => None,
    });
    if let (Some(range), Some((sum, squares))) = (range(table, amount), sum_and_squares(numbers)) {
        all.push(format!("ROUND(SUM({range})-{},6)=0", plain(sum)));
        all.push(format!("ROUND(SUMSQ({range})-{},6)=0", plain(squares)));
    }
    all
}

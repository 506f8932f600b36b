//! The price rows of a supplier's list.

use super::marks::{marks_of, marks_of_book};
use super::notes::ReadingNotes;
use super::reader::Reader;
use super::{catch_weights, most_seen, one_of_each, prices, weights};
use crate::book::{Found, SheetTables, Table};
use crate::kitchen::list::ListRow;
use crate::measure::{Volumes, currency};
use crate::problem::Problem;
use crate::schema::{Column, TableKind};

/// Columns of which a list that says what its prices are for has at least one.
const FOR_WHAT: &[Column] = &[Column::Pack, Column::PackCount, Column::UnitSize, Column::SizeUnit, Column::Per];

/// Reads the price rows on the sheets of a list, each with the problems of its cells; and the problems of rows that are no
/// price rows. `currency` is the book's; where it has none, the list's amounts must agree among themselves.
pub fn rows(sheets: &[SheetTables<'_>], currency: Option<&str>, volumes: Volumes) -> (Vec<ListRow>, Vec<Problem>) {
    let (rows, problems, notes) = read_in(sheets, currency.map(str::to_owned), volumes);
    if currency.is_none()
        && let Some(code) = most_seen(&notes)
        && notes.signs.iter().any(|seen| !currency::fits(&seen.sign, &code))
    {
        let (rows, problems, _) = read_in(sheets, Some(code), volumes);
        return (rows, problems);
    }
    (rows, problems)
}

fn read_in(
    sheets: &[SheetTables<'_>],
    currency: Option<String>,
    volumes: Volumes,
) -> (Vec<ListRow>, Vec<Problem>, ReadingNotes) {
    let mut notes = ReadingNotes { currency, marks: marks_of_book(sheets), ..ReadingNotes::default() };
    let (mut rows, mut others) = (Vec::new(), Vec::new());
    let found = sheets.iter().flat_map(|sheet| sheet.found.iter());
    let tables = found.filter_map(|found| if let Found::Table(table) = found { Some(table) } else { None });
    for table in tables.filter(|table| table.kind == TableKind::Prices) {
        let marks = marks_of(table);
        let says_pack = says_pack(table);
        notes.weighed_in = weights::unit_of(table);
        let mut of_table = Vec::new();
        for row in &table.rows {
            let read = prices::of_list(Reader::of_row(table, row, &marks, volumes, &mut notes), says_pack);
            let mut problems = std::mem::take(&mut notes.problems);
            match read {
                Some(row) => of_table.push(ListRow { row, problems }),
                None => others.append(&mut problems),
            }
        }
        let averaged = catch_weights::averaged(&of_table.iter().map(|row| &row.row).collect::<Vec<_>>());
        rows.extend(one_of_each(of_table, averaged, &mut notes, |row| &mut row.row));
        others.append(&mut notes.problems);
    }
    (rows, others, notes)
}

fn says_pack(table: &Table<'_>) -> bool {
    FOR_WHAT.iter().any(|column| table.heading(*column).is_some())
}

//! Decimal marks, as the numbers of a book and of each column of a table prove them.

use std::collections::HashMap;

use crate::book::{Found, SheetTables, Table};
use crate::number::{Marks, evidence};
use crate::schema::{Column, Typed, Value};

/// Which decimal mark each column shows.
pub(super) type ColumnMarks = HashMap<Column, Marks>;

/// What the numbers of all tables and cards of a book prove about decimal marks; nothing where they prove both.
pub(super) fn marks_of_book(sheets: &[SheetTables<'_>]) -> Marks {
    let mut known: Option<Marks> = None;
    let found = sheets.iter().flat_map(|sheet| &sheet.found);
    let mut take = |column: Column, typed: &Typed| -> bool {
        let (Value::Text(text), true) = (&typed.value, column.holds_numbers()) else { return true };
        match evidence(text).filter(|_| !text.ends_with(']')) {
            Some(proof) if known.is_some_and(|known| known != proof) => false,
            Some(proof) => {
                known = Some(proof);
                true
            }
            None => true,
        }
    };
    let mut table_agrees = |table: &Table<'_>| {
        table.rows.iter().all(|row| table.columns.iter().all(|head| take(head.column, table.cell(row, head.column))))
    };
    let mut labels = Vec::new();
    let mut loose = Vec::new();
    for found in found {
        let agrees = match found {
            Found::Table(table) => table_agrees(table),
            Found::Loose(card) => {
                loose.extend(card.lines.iter().flat_map(|line| &line.cells));
                true
            }
            Found::Card(card) => {
                labels.extend(&card.labels);
                card.lines.iter().all(&mut table_agrees)
            }
        };
        if !agrees {
            return Marks::Unknown;
        }
    }
    let loose = loose.into_iter().filter(|cell| cell.column != Column::Prep);
    if labels.into_iter().all(|label| take(label.label.column(), label.value))
        && loose.into_iter().all(|cell| take(Column::Qty, &cell.typed))
    {
        known.unwrap_or_default()
    } else {
        Marks::Unknown
    }
}

/// What the texts of every column prove about decimal marks. A column that proves both proves nothing.
pub(super) fn marks_of(table: &Table<'_>) -> ColumnMarks {
    let mut marks: HashMap<Column, Option<Marks>> = HashMap::new();
    for row in &table.rows {
        for heading in &table.columns {
            let Value::Text(text) = &table.cell(row, heading.column).value else { continue };
            if text.ends_with(']') {
                // What was put behind it may stand behind a number that was no text.
                continue;
            }
            let Some(proof) = evidence(text) else { continue };
            marks
                .entry(heading.column)
                .and_modify(|known| *known = known.filter(|known| *known == proof))
                .or_insert(Some(proof));
        }
    }
    marks.into_iter().filter_map(|(column, marks)| Some((column, marks?))).collect()
}

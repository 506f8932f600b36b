//! Near headers, and why they are none: the hint for a sheet on which no table was found.

use crate::book::find::header::{HeaderCell, header_cells};
use crate::book::find::headings::Headings;
use crate::book::find::titled_unit;
use crate::book::grid::Grid;
use crate::problem::CellRef;
use crate::schema::{Column, TableKind};

/// How many rows are looked at.
const MOST_ROWS: usize = 200;

/// What the row that comes nearest to a header lacks, or has too much; nothing when no row comes near.
pub(super) fn nearest_header(grid: &Grid, headings: &Headings) -> Option<(CellRef, String)> {
    grid.rows()
        .iter()
        .take(MOST_ROWS)
        .filter_map(|row| header_cells(row, headings).map(|cells| (row.row, cells)))
        .flat_map(|(row, cells)| {
            TableKind::ALL.iter().filter_map(move |kind| {
                let (known, at, hint) = miss(row, &cells, *kind)?;
                let more = if *kind == TableKind::Prices { what_for(grid, row, &cells) } else { None };
                Some((known, at, hint + &more.unwrap_or_default()))
            })
        })
        .max_by_key(|(known, ..)| *known)
        .map(|(_, at, hint)| (at, hint))
}

/// What to type where a title says what the prices below it are for. Rows may say otherwise, so it is not taken.
fn what_for(grid: &Grid, row: u32, cells: &[HeaderCell<'_>]) -> Option<String> {
    let (title, words, unit) = titled_unit(grid, row)?;
    let free = CellRef::new(row, cells.last()?.at.checked_add(1)?);
    Some(format!(
        " {title} says “{words}”: type Per in {free}, and {unit} below it in every row that says nothing else; where the row \
         does, its own unit, such as lb or each, or what the box holds, such as 10 lb."
    ))
}

/// How many headers of `kind` a row has, its first cell, and what keeps it from being one; `None` when it is far.
fn miss(row: u32, cells: &[HeaderCell<'_>], kind: TableKind) -> Option<(usize, CellRef, String)> {
    let signature = kind.signature();
    let has = |column: Column| cells.iter().any(|cell| cell.meaning(kind).is_some_and(|m| m.column == column));
    let known = cells.iter().filter(|cell| cell.meaning(kind).is_some()).count();
    let missing: Vec<Column> = signature.all.iter().copied().filter(|column| !has(*column)).collect();
    let lacks_choice = !signature.any.is_empty() && !signature.any.iter().any(|column| has(*column));
    if kind == TableKind::CardLines || known < 2 || missing.len() + usize::from(lacks_choice) > 1 {
        return None;
    }
    let start = CellRef::new(row, cells.first()?.at);
    let lacks = |what: String| format!("Row {} would be the header of {} with {what} too.", row + 1, kind.name());
    let quoted = |columns: &[Column]| -> Vec<String> {
        columns.iter().map(|column| format!("“{}”", kind.header(*column))).collect()
    };
    let hint = if !missing.is_empty() {
        lacks(quoted(&missing).join(", "))
    } else if lacks_choice {
        lacks(format!("one of {}", quoted(signature.any).join(", ")))
    } else {
        let extra = cells.iter().find(|cell| signature.none.iter().any(|column| cell.says(*column)))?;
        let (row, kind) = (row + 1, kind.name());
        format!(
            "Row {row} would be the header of {kind}, but for its column “{}”, which belongs elsewhere.",
            extra.text
        )
    };
    Some((known, start, hint))
}

//! What calamine, a library that reads workbooks on its own, makes of a file's cells.

use std::io::Cursor;

use calamine::{Data, Reader, open_workbook_auto_from_rs};
use parings::internals::Grid;
use parings::schema::{Typed, Value};

/// Asserts that calamine finds the same cells on the same sheets; gives how many were compared.
#[track_caller]
pub fn agrees(name: &str, bytes: &[u8], grids: &[Grid]) -> usize {
    let mut theirs = open_workbook_auto_from_rs(Cursor::new(bytes)).unwrap();
    let names: Vec<&str> = grids.iter().map(|grid| grid.place().sheet_name()).collect();
    assert_eq!(theirs.sheet_names(), names, "{name}");
    let mut compared = 0;
    for grid in grids {
        let range = theirs.worksheet_range(grid.place().sheet_name()).unwrap();
        let (row, column) = range.start().unwrap_or_default();
        let mut filled = 0;
        for (r, c, data) in range.used_cells() {
            let (row, column) = (row + u32::try_from(r).unwrap(), column + u32::try_from(c).unwrap());
            let typed = grid.get(row, column);
            if is_blank(data) && typed.is_blank() {
                continue;
            }
            filled += 1;
            assert!(same(data, typed), "{name}, row {row}, column {column}: {data:?} is read as {typed:?}");
        }
        assert_eq!(grid.rows().iter().map(|row| row.cells().len()).sum::<usize>(), filled, "{name}");
        compared += filled;
    }
    compared
}

fn is_blank(data: &Data) -> bool {
    matches!(data, Data::Empty) || matches!(data, Data::String(text) if text.trim().is_empty())
}

/// Whether a cell is the same: numbers to the 15 digits that are the user's.
fn same(data: &Data, typed: &Typed) -> bool {
    let number = |float: f64| match &typed.value {
        Value::Number(ours) => {
            format!("{:.14e}", float) == format!("{:.14e}", ours.to_string().parse::<f64>().unwrap())
        }
        _ => false,
    };
    match (data, &typed.value) {
        (Data::String(theirs), Value::Text(ours)) => theirs.trim() == ours,
        (Data::Bool(theirs), Value::Bool(ours)) => theirs == ours,
        (Data::Error(theirs), Value::Error(ours)) => theirs.to_string() == *ours,
        (Data::DateTime(theirs), Value::Date(ours)) => {
            theirs.to_ymd_hms_milli().0 == u16::try_from(ours.year()).unwrap()
                && (theirs.to_ymd_hms_milli().1, theirs.to_ymd_hms_milli().2)
                    == (u8::try_from(ours.month()).unwrap(), u8::try_from(ours.day()).unwrap())
        }
        (Data::DateTime(theirs), _) => number(theirs.as_f64()),
        (Data::DateTimeIso(theirs), Value::Date(ours)) => theirs.starts_with(&ours.to_string()),
        (Data::Int(theirs), _) => number(*theirs as f64),
        (Data::Float(theirs), _) => number(*theirs),
        _ => false,
    }
}

//! What was found in a book as JSON: every sheet with its tables and cards, and the problems.

use jiff::civil::Date;
use serde::Serialize;

use super::{FORMAT, ProblemJson, pretty, problem_json};
use crate::problem::Problem;
use crate::schema::{FoundTable, SheetFound, TableKind};

/// A whole check.
#[derive(Debug, Serialize)]
struct Report<'a> {
    parings: &'a str,
    format: u32,
    as_of: String,
    sheets: Vec<SheetJson<'a>>,
    problems: Vec<ProblemJson<'a>>,
}

#[derive(Debug, Serialize)]
struct SheetJson<'a> {
    file: &'a str,
    sheet: &'a str,
    tables: Vec<TableJson<'a>>,
}

#[derive(Debug, Serialize)]
struct TableJson<'a> {
    kind: &'static str,
    cell: String,
    name: Option<&'a str>,
    rows: usize,
}

/// The JSON of a check, pretty-printed, with a final line break. A sheet that was not read has no tables.
pub fn found(as_of: Date, sheets: &[SheetFound], problems: &[Problem]) -> String {
    let report = Report {
        parings: env!("CARGO_PKG_VERSION"),
        format: FORMAT,
        as_of: as_of.to_string(),
        sheets: sheets.iter().map(sheet_json).collect(),
        problems: problems.iter().map(problem_json).collect(),
    };
    pretty(&report)
}

fn sheet_json(sheet: &SheetFound) -> SheetJson<'_> {
    SheetJson {
        file: sheet.place.file_name(),
        sheet: sheet.place.sheet_name(),
        tables: sheet.tables.iter().map(table_json).collect(),
    }
}

fn table_json(table: &FoundTable) -> TableJson<'_> {
    TableJson {
        kind: if table.kind == TableKind::CardLines { "card" } else { table.kind.name() },
        cell: table.place.cell_ref().map(|cell| cell.to_string()).unwrap_or_default(),
        name: table.name.as_deref(),
        rows: table.rows,
    }
}

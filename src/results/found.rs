//! Tables found in a book: every sheet with its tables and cards, and the problems.

use jiff::civil::Date;
use schemars::JsonSchema;
use serde::Serialize;

use super::problem::ProblemResult;
use super::value::{Day, FormatVersion, VERSION};
use super::word::Word;
use crate::problem::Problem;
use crate::schema::{FoundTable, SheetFound, TableKind};

/// A whole check.
/// What was found in a book: `parings check --format json`.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "parings check")]
pub struct FoundResults<'a> {
    /// The version of the program.
    pub parings: &'a str,
    /// The version of this format.
    pub format: FormatVersion,
    /// The day whose prices count.
    pub as_of: Day,
    /// Every sheet of every file, in the order given.
    pub sheets: Vec<SheetResult<'a>>,
    /// Every problem of the book.
    pub problems: Vec<ProblemResult<'a>>,
}

/// A sheet.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Sheet")]
pub struct SheetResult<'a> {
    /// The file as it was given on the command line.
    pub file: &'a str,
    /// Its name; empty for a csv.
    pub sheet: &'a str,
    /// The tables found on it; empty where it was not read.
    pub tables: Vec<TableResult<'a>>,
}

/// A table that was found.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Table")]
pub struct TableResult<'a> {
    /// What it holds.
    pub kind: Word<TableKind>,
    /// Where its header row or card begins, such as A5.
    #[schemars(regex(pattern = r"^[A-Z]+[1-9][0-9]*$"))]
    pub cell: String,
    /// The recipe of a card; null for other tables.
    pub name: Option<&'a str>,
    /// How many rows it has.
    pub rows: usize,
}

/// What was found in a book. A sheet that was not read has no tables.
pub fn found<'a>(as_of: Date, sheets: &'a [SheetFound], problems: &'a [Problem]) -> FoundResults<'a> {
    FoundResults {
        parings: VERSION,
        format: FormatVersion,
        as_of: Day(as_of),
        sheets: sheets.iter().map(sheet_json).collect(),
        problems: problems.iter().map(ProblemResult::of).collect(),
    }
}

fn sheet_json(sheet: &SheetFound) -> SheetResult<'_> {
    SheetResult {
        file: sheet.place.file_name(),
        sheet: sheet.place.sheet_name(),
        tables: sheet.tables.iter().map(table_json).collect(),
    }
}

fn table_json(table: &FoundTable) -> TableResult<'_> {
    TableResult {
        kind: Word(table.kind),
        cell: table.place.cell_ref().map(|cell| cell.to_string()).unwrap_or_default(),
        name: table.name.as_deref(),
        rows: table.rows,
    }
}

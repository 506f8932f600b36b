//! Problems with their cells.

use schemars::JsonSchema;
use serde::Serialize;

use super::word::Word;
use crate::problem::{Code, Problem, Severity};

/// A problem in the book.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Problem")]
pub struct ProblemResult<'a> {
    /// Which kind.
    pub code: Word<Code>,
    /// How grave it is.
    pub severity: Word<Severity>,
    /// The file as it was given on the command line.
    pub file: &'a str,
    /// The sheet; empty in a csv, and where no one sheet is meant.
    pub sheet: &'a str,
    /// The cell, such as C14; empty where no one cell is meant.
    #[schemars(regex(pattern = r"^([A-Z]+[1-9][0-9]*)?$"))]
    pub cell: String,
    /// What was found.
    pub message: String,
    /// What to do about it.
    pub help: &'a str,
}

impl<'a> ProblemResult<'a> {
    pub(crate) fn of(problem: &'a Problem) -> Self {
        ProblemResult {
            code: Word(problem.code),
            severity: Word(problem.severity()),
            file: problem.place.file_name(),
            sheet: problem.place.sheet_name(),
            cell: problem.place.cell_ref().map(|cell| cell.to_string()).unwrap_or_default(),
            message: problem.message(),
            help: &problem.help,
        }
    }
}

//! Patch of a workbook that people made: rows put below a table of its own, everything else kept byte for byte.
//!
//! Takes the bytes of an xlsx or xlsm workbook and what is to be added where; gives its bytes with the rows. Parts that are
//! not concerned are copied as they are packed; in the others only the places that must change are cut out and replaced.

mod carried_formula;
mod package;
mod ranges;
mod sheet;
mod styles;
mod table_part;
mod tags;
mod workbook_part;

use crate::number::Decimal;
use package::Package;
use ranges::Growth;
use styles::StylesPart;
use workbook_part::WorkbookPart;

/// Why a workbook was not patched.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct NotPatched(pub String);

impl NotPatched {
    pub(super) fn damaged(error: impl std::fmt::Display) -> Self {
        NotPatched(format!("its parts could not be followed: {error}"))
    }
}

/// Rows to put below a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Addition {
    /// The sheet.
    pub sheet: String,
    /// The row of the table's headers, from zero.
    pub header: u32,
    /// Its last row.
    pub last: u32,
    /// Its first and last column.
    pub span: (u32, u32),
    /// Headers to add right of it, from the first free column on.
    pub headers: Vec<String>,
    /// The rows.
    pub rows: Vec<NewRow>,
}

/// A row to add.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct NewRow {
    /// Its cells by column, each column once.
    pub cells: Vec<NewCell>,
    /// Columns in which the formulas of the table's last row go on.
    pub goes_on: Vec<u32>,
}

/// A cell to add.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewCell {
    /// Its column, from zero.
    pub column: u32,
    /// What stands in it.
    pub content: NewContent,
    /// The row of the cell above that it is to look like: of its own kind, where there is one.
    pub like: Option<u32>,
}

/// What stands in a new cell.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NewContent {
    /// Text, never a formula.
    Text(String),
    /// A number.
    Number(Decimal),
    /// A share of one, shown as a percentage.
    Percent(Decimal),
    /// A day.
    Date(jiff::civil::Date),
    /// Yes or no.
    Bool(bool),
}

/// What was patched.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Patched {
    /// The workbook.
    pub bytes: Vec<u8>,
    /// Columns whose formulas could not go on in the new rows, by sheet and letters.
    pub left_blank: Vec<(String, String)>,
    /// Whether it may hold macros.
    pub macros: bool,
}

/// Whether a workbook may hold macros.
///
/// # Errors
/// [`NotPatched`] where it cannot be opened.
pub fn has_macros(bytes: &[u8]) -> Result<bool, NotPatched> {
    Ok(Package::open(bytes)?.has_macros())
}

/// The workbook with `additions`.
///
/// # Errors
/// [`NotPatched`] where the rows cannot be added without harm, with the reason.
pub fn patched(bytes: &[u8], additions: &[Addition]) -> Result<Patched, NotPatched> {
    let mut package = Package::open(bytes)?;
    let mut book = WorkbookPart::read(&mut package)?;
    let mut styles = StylesPart::read(&mut package, &book)?;
    let mut left_blank = Vec::new();
    // Of two tables on one sheet the second stands where it stood: nothing is moved.
    for addition in additions {
        let part = book.sheet(&addition.sheet)?;
        let growth = Growth::of(addition)?;
        let xml = package.text(&part)?;
        let done = sheet::with_rows(&xml, addition, &growth, &mut styles, book.from_1904)?;
        package.replace(&part, done.xml);
        left_blank.extend(done.left_blank.into_iter().map(|column| (addition.sheet.clone(), column)));
        table_part::grow(&mut package, &part, addition, &growth)?;
        book.grow_names(&addition.sheet, &growth);
    }
    styles.write(&mut package);
    let calculates = package.has_formulas(&book)?;
    book.write(&mut package, calculates)?;
    let macros = package.has_macros();
    Ok(Patched { bytes: package.written()?, left_blank, macros })
}

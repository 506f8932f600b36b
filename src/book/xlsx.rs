//! Reading xlsx and xlsm workbooks as streams of cells.
//!
//! Takes the bytes of a workbook; gives its worksheets as grids, hidden ones included, chart sheets left out. A
//! second pass over a sheet, for formulas that were saved without a result, is made only where it could matter.

use std::collections::{BTreeSet, HashMap};
use std::io::Cursor;

use calamine::{DataRef, Reader, SheetType, Xlsx, XlsxError, XlsxFormulaMetadata};

use crate::book::Source;
use crate::book::dates;
use crate::book::error::ReadError;
use crate::book::extent;
use crate::book::format;
use crate::book::grid::{Grid, GridBuilder, Room};
use crate::book::mend;
use crate::book::number::{self, Epoch};
use crate::book::repeats;
use crate::problem::{CellRef, Place};
use crate::schema::{Limits, Shown, Typed, Value};

/// A workbook over its bytes.
type Workbook<'a> = Xlsx<Cursor<&'a [u8]>>;

/// The worksheets of a workbook, in its order. `may_lack_values` tells of a sheet whether cells without a value could
/// matter on it, `may_hold_figures` whether it matters which cells are formulas; formulas among them are then handed on as
/// [`Value::Formula`].
///
/// # Errors
/// [`ReadError`] when it is damaged, no workbook, or has too many cells.
pub fn grids(
    source: &Source<'_>,
    limits: &Limits,
    may_lack_values: impl Fn(&Grid) -> bool,
    may_hold_figures: impl Fn(&Grid) -> bool,
) -> Result<Vec<Grid>, ReadError> {
    let asked = (may_lack_values, may_hold_figures);
    let mut first = XlsxReader::new(source.name, limits);
    let grids = first.workbook(source.bytes, &asked)?;
    if first.strange.is_empty() && first.malformed.is_none() {
        return Ok(grids);
    }
    drop(grids);
    // A newer error value (`#SPILL!`), or a value that is none of the kind that its cell says, leaves no position behind
    // when the reader meets it: read it as one it knows, or as the text that it is.
    let mended = mend::known_values(source, &first.strange, first.malformed.is_some())?;
    let mut second = XlsxReader::new(source.name, limits);
    let grids = second.workbook(&mended, &asked)?;
    match (second.strange.first(), second.malformed) {
        (None, None) => Ok(grids),
        (Some(error), _) => Err(ReadError::damaged(source.name, format_args!("the error value {error} is not known"))),
        (None, Some(what)) => Err(ReadError::damaged(source.name, what)),
    }
}

/// One reading of a file.
struct XlsxReader<'a> {
    file: &'a str,
    /// How much more may come.
    room: Room,
    /// Error values that the reader does not know.
    strange: BTreeSet<String>,
    /// What the reader says of a value that is none of the kind that its cell says.
    malformed: Option<String>,
}

impl<'f> XlsxReader<'f> {
    fn new(file: &'f str, limits: &Limits) -> Self {
        XlsxReader { file, room: Room::of(limits), strange: BTreeSet::new(), malformed: None }
    }

    /// The worksheets of a workbook.
    fn workbook(
        &mut self,
        bytes: &[u8],
        (may_lack_values, may_hold_figures): &(impl Fn(&Grid) -> bool, impl Fn(&Grid) -> bool),
    ) -> Result<Vec<Grid>, ReadError> {
        let mut workbook: Workbook<'_> = Xlsx::new(Cursor::new(bytes)).map_err(|error| self.failed(error))?;
        let names: Vec<String> = workbook
            .sheets_metadata()
            .iter()
            .filter(|sheet| sheet.typ == SheetType::WorkSheet)
            .map(|sheet| sheet.name.clone())
            .collect();
        let mut grids = Vec::with_capacity(names.len());
        for name in names {
            let Some(grid) = self.values(&mut workbook, &name)? else { continue };
            let grid = if may_lack_values(&grid) { self.formulas(&mut workbook, &name, grid)? } else { grid };
            let mut grid = grid;
            if may_hold_figures(&grid) {
                grid.note_formulas(self.formula_cells(&mut workbook, &name)?);
            }
            grids.push(grid);
        }
        Ok(grids)
    }

    /// What a failure of the reader means.
    fn failed(&self, error: XlsxError) -> ReadError {
        let file = self.file.to_owned();
        match error {
            XlsxError::Password => ReadError::PasswordProtected { file },
            XlsxError::RelationshipNotFound | XlsxError::FileNotFound(_) => {
                ReadError::NotASpreadsheet { file, what: "a zip archive without a workbook" }
            }
            error => ReadError::damaged(self.file, error),
        }
    }

    /// The values of a sheet; `None` for what is no worksheet after all.
    fn values(&mut self, workbook: &mut Workbook<'_>, name: &str) -> Result<Option<Grid>, ReadError> {
        let epoch = if workbook.has_1904_epoch() { Epoch::From1904 } else { Epoch::From1900 };
        let mut reader = match workbook.worksheet_cells_reader(name) {
            Ok(reader) => reader,
            Err(XlsxError::NotAWorksheet(_)) => return Ok(None),
            Err(error) => return Err(self.failed(error)),
        };
        let formats: Vec<Shown> = reader
            .styles()
            .iter()
            .map(|style| {
                style.number_format.as_ref().map_or(Shown::Plain, |f| format::shown(&f.format_code, f.format_id))
            })
            .collect();
        let mut builder = GridBuilder::new(Place::sheet(self.file, name), self.room);
        loop {
            let (cell, style) = match reader.next_cell_with_style_id() {
                Ok(Some(cell)) => cell,
                Ok(None) => break,
                Err(XlsxError::CellError(error)) => {
                    self.strange.insert(error);
                    continue;
                }
                Err(
                    error @ (XlsxError::Unrecognized { .. } | XlsxError::ParseFloat(_) | XlsxError::CellTAttribute(_)),
                ) => {
                    self.malformed = Some(error.to_string());
                    continue;
                }
                Err(error) => return Err(self.failed(error)),
            };
            let (row, column) = cell.get_position();
            let at = extent::cell(self.file, row, column)?;
            match cell.get_value() {
                DataRef::Empty => builder.mark_valueless(at),
                value => {
                    let shown = formats.get(style).unwrap_or(&Shown::Plain);
                    builder
                        .put(at, typed(value, shown, epoch))
                        .map_err(|full| ReadError::too_large(self.file, full))?;
                }
            }
        }
        self.room = builder.room();
        let grid = builder.finish();
        match grid.twice() {
            Some(cell) => {
                Err(ReadError::damaged(self.file, format_args!("it has two cells {cell}, of different values")))
            }
            None => Ok(Some(grid)),
        }
    }

    /// The cells of a sheet that are formulas.
    fn formula_cells(&self, workbook: &mut Workbook<'_>, name: &str) -> Result<Vec<CellRef>, ReadError> {
        let mut reader = workbook.worksheet_cells_reader(name).map_err(|error| self.failed(error))?;
        let mut cells = Vec::new();
        loop {
            match reader.next_cell_with_formula_metadata() {
                Ok(Some(cell)) if cell.formula.is_some() => {
                    cells.push(extent::cell(self.file, cell.pos.0, cell.pos.1)?)
                }
                Ok(Some(_))
                | Err(
                    XlsxError::CellError(_)
                    | XlsxError::Unrecognized { .. }
                    | XlsxError::ParseFloat(_)
                    | XlsxError::CellTAttribute(_),
                ) => {}
                Ok(None) => return Ok(cells),
                Err(error) => return Err(self.failed(error)),
            }
        }
    }

    /// Adds the formulas of a sheet that have no stored value to its `grid`.
    fn formulas(&mut self, workbook: &mut Workbook<'_>, name: &str, grid: Grid) -> Result<Grid, ReadError> {
        let mut reader = workbook.worksheet_cells_reader(name).map_err(|error| self.failed(error))?;
        let mut builder = GridBuilder::resume(grid, self.room);
        // A formula shared by many cells has its text at the first of them only.
        let mut shared: HashMap<usize, String> = HashMap::new();
        let mut repeating = Vec::new();
        loop {
            let cell = match reader.next_cell_with_formula_metadata() {
                Ok(Some(cell)) => cell,
                Ok(None) => break,
                Err(
                    XlsxError::CellError(_)
                    | XlsxError::Unrecognized { .. }
                    | XlsxError::ParseFloat(_)
                    | XlsxError::CellTAttribute(_),
                ) => continue,
                Err(error) => return Err(self.failed(error)),
            };
            let text = match cell.formula {
                Some(XlsxFormulaMetadata::Normal { formula }) => {
                    if cell.value == DataRef::Empty && repeats::may_repeat(&formula) {
                        repeating.push(extent::cell(self.file, cell.pos.0, cell.pos.1)?);
                    }
                    formula
                }
                Some(XlsxFormulaMetadata::Shared { shared_index, formula, .. }) => {
                    shared.insert(shared_index, formula.clone());
                    formula
                }
                Some(XlsxFormulaMetadata::SharedDerived { shared_index }) => {
                    shared.get(&shared_index).cloned().unwrap_or_default()
                }
                _ => continue,
            };
            if cell.value == DataRef::Empty {
                let typed = Typed { value: Value::Formula(text), shown: Shown::Plain };
                let at = extent::cell(self.file, cell.pos.0, cell.pos.1)?;
                builder.put(at, typed).map_err(|full| ReadError::too_large(self.file, full))?;
            }
        }
        self.room = builder.room();
        let mut grid = builder.finish();
        repeats::work_out(&mut grid, &repeating);
        Ok(grid)
    }
}

/// A cell's value with what its number format says.
fn typed(value: &DataRef<'_>, shown: &Shown, epoch: Epoch) -> Typed {
    let plain = |value| Typed { value, shown: Shown::Plain };
    match value {
        DataRef::Empty => Typed::BLANK,
        DataRef::String(text) => Typed::trimmed(text),
        DataRef::SharedString(text) => Typed::trimmed(text),
        DataRef::Bool(truth) => plain(Value::Bool(*truth)),
        DataRef::Error(error) => plain(Value::Error(error.to_string())),
        DataRef::Int(number) => Typed { value: Value::Number((*number).into()), shown: shown.clone() },
        DataRef::Float(number) => number::shown(*number, shown, epoch),
        DataRef::DateTime(date) if date.is_duration() => number::cell(date.as_f64(), Shown::Date),
        DataRef::DateTime(date) => number::serial(date.as_f64(), epoch),
        DataRef::DateTimeIso(text) => dates::iso(text),
        DataRef::DurationIso(text) => Typed::trimmed(text),
    }
}

#[cfg(test)]
mod tests;

//! A costed workbook in the hands of people: what they do to it, done to an independent spreadsheet engine's model.

use std::borrow::Cow;
use std::cmp::Ordering;
use std::io::Cursor;

use ironcalc::base::Model;
use ironcalc::base::cell::CellValue;
use ironcalc::base::types::{Cell, CellType, Style};

use super::text::{moved, redirected, shortened};
use crate::recalc::{Original, Value};

/// One thing that people do. Rows and columns are counted from one.
#[derive(Debug, Clone, PartialEq)]
pub enum Edit {
    /// Sorts the rows from the first to the last by a column, upwards or downwards.
    Sort { sheet: String, rows: (i32, i32), column: i32, down: bool },
    /// Sorts the first columns of the rows alone, up to the last one given.
    SortPart { sheet: String, rows: (i32, i32), last: i32, column: i32 },
    /// Copies the first columns of a row, up to the last one given, over those of another.
    Paste { sheet: String, from: i32, over: i32, last: i32 },
    /// Puts an empty row above a row.
    Insert { sheet: String, row: i32 },
    /// Takes a row out.
    Delete { sheet: String, row: i32 },
    /// Empties a cell.
    Clear { sheet: String, row: i32, column: i32 },
    /// Types a number into a cell, blank or not.
    Type { sheet: String, row: i32, column: i32, number: f64 },
    /// Types numbers into several cells of a sheet: row, column and number.
    TypeSeveral { sheet: String, cells: Vec<(i32, i32, f64)> },
    /// Types a line as another one stands, without what was figured beside it; into a row put in for it, or a blank one.
    Line { sheet: String, row: i32, like: i32, put_in: bool },
    /// Copies a whole row and puts the copy in, formulas and all.
    Copy { sheet: String, row: i32, like: i32 },
    /// Copies a row below it, formulas and all, and takes out another.
    Instead { sheet: String, like: i32, gone: i32 },
    /// Takes sheets out.
    DeleteSheets { sheets: Vec<String> },
    /// Types words into a cell.
    Say { sheet: String, row: i32, column: i32, words: String },
    /// Cuts a cell, row and column, and pastes it elsewhere.
    Cut { sheet: String, from: (i32, i32), to: (i32, i32) },
    /// Puts an empty column left of a column.
    InsertColumn { sheet: String, column: i32 },
    /// Takes a column out.
    DeleteColumn { sheet: String, column: i32 },
    /// Moves a column so many places to the right.
    MoveColumn { sheet: String, column: i32, by: i32 },
    /// Names a sheet anew.
    Rename { sheet: String, name: String },
    /// Copies a sheet as it is.
    CopySheet { sheet: String },
    /// One after the other.
    Then(Vec<Edit>),
}

/// A workbook that is being edited.
pub struct Played {
    model: Model<'static>,
}

impl Edit {
    /// The sheet that is edited; `None` where several are taken out.
    pub fn sheet(&self) -> Option<&str> {
        match self {
            Edit::Sort { sheet, .. }
            | Edit::SortPart { sheet, .. }
            | Edit::Paste { sheet, .. }
            | Edit::Insert { sheet, .. }
            | Edit::Delete { sheet, .. }
            | Edit::Clear { sheet, .. }
            | Edit::Type { sheet, .. }
            | Edit::TypeSeveral { sheet, .. }
            | Edit::Line { sheet, .. }
            | Edit::Copy { sheet, .. }
            | Edit::Say { sheet, .. }
            | Edit::Cut { sheet, .. }
            | Edit::InsertColumn { sheet, .. }
            | Edit::DeleteColumn { sheet, .. }
            | Edit::MoveColumn { sheet, .. }
            | Edit::Rename { sheet, .. }
            | Edit::CopySheet { sheet }
            | Edit::Instead { sheet, .. } => Some(sheet),
            Edit::Then(edits) => edits.first().and_then(Edit::sheet),
            Edit::DeleteSheets { .. } => None,
        }
    }
}

/// A cell as it stood: its sheet, row and column, and what was in it.
type Before = (u32, i32, i32, Option<Cell>);

/// A cell taken out of its row: its column, what is in it, and its formula as it will read.
type Lifted = (i32, Option<Cell>, Option<String>);

impl Played {
    /// Opens a workbook.
    pub fn open(bytes: &[u8]) -> Self {
        Played::of(&Original::read(bytes))
    }

    /// A fresh copy of a workbook.
    pub fn of(original: &Original) -> Self {
        Played { model: original.model() }
    }

    /// What stands in the one cell that an edit changes, to be put back: its place, and the cell if there is one. `None`
    /// where an edit moves more.
    pub fn before(&self, edit: &Edit) -> Option<Before> {
        let (Edit::Clear { sheet, row, column } | Edit::Type { sheet, row, column, .. }) = edit else { return None };
        let index = self.index(sheet).unwrap();
        let cell = self.model.workbook.worksheet(index).unwrap().cell(*row, *column).map(Cow::into_owned);
        Some((index, *row, *column, cell))
    }

    /// Puts back what stood in a cell; nothing is recalculated yet.
    pub fn put_back(&mut self, (index, row, column, cell): Before) {
        let data = &mut self.model.workbook.worksheet_mut(index).unwrap().sheet_data;
        match cell {
            Some(cell) => drop(data.set_cell(row, column, cell)),
            None => drop(data.remove_cell(row, column)),
        }
    }

    /// The sheets in order.
    pub fn sheets(&self) -> Vec<String> {
        self.model.workbook.get_worksheet_names()
    }

    fn index(&self, sheet: &str) -> Option<u32> {
        let at = self.model.workbook.worksheets.iter().position(|one| one.name == sheet);
        at.map(|at| u32::try_from(at).unwrap())
    }

    /// The last row and column in which something stands.
    pub fn extent(&self, sheet: &str) -> (i32, i32) {
        let index = self.index(sheet).unwrap();
        let data = &self.model.workbook.worksheet(index).unwrap().sheet_data;
        let filled = data.cells().filter(|(.., cell)| !matches!(cell.as_ref(), Cell::EmptyCell { .. }));
        filled.fold((0, 0), |(last, wide), (row, column, _)| (last.max(row), wide.max(column)))
    }

    /// What stands in a cell.
    pub fn value(&self, sheet: &str, row: i32, column: i32) -> Value {
        let Some(index) = self.index(sheet) else { return Value::Empty };
        let kind = self.model.get_cell_type(index, row, column).unwrap();
        match self.model.get_cell_value_by_index(index, row, column).unwrap() {
            CellValue::None => Value::Empty,
            CellValue::String(error) if kind == CellType::ErrorValue => Value::Error(error),
            CellValue::String(text) => Value::Text(text),
            CellValue::Number(number) => Value::Number(number),
            CellValue::Boolean(yes) => Value::Bool(yes),
        }
    }

    /// The text of a cell; empty where there is another thing.
    pub fn text(&self, sheet: &str, row: i32, column: i32) -> String {
        if let Value::Text(text) = self.value(sheet, row, column) { text } else { String::new() }
    }

    /// Whether a formula stands in a cell.
    pub fn is_formula(&self, sheet: &str, row: i32, column: i32) -> bool {
        self.index(sheet).is_some_and(|index| self.model.get_cell_formula(index, row, column).unwrap().is_some())
    }

    /// Whether a cell looks like one to type into: it has the ground on which the names of rows stand.
    pub fn is_input(&self, sheet: &str, row: i32, column: i32) -> bool {
        let ground = |column| self.style(sheet, row, column).fill;
        ground(column) == ground(1)
    }

    /// Whether what stands in a cell is shown as a date.
    pub fn is_date(&self, sheet: &str, row: i32, column: i32) -> bool {
        self.style(sheet, row, column).num_fmt.contains("yy")
    }

    fn style(&self, sheet: &str, row: i32, column: i32) -> Style {
        self.model.get_style_for_cell(self.index(sheet).unwrap(), row, column).unwrap()
    }

    /// The first cell that holds an error, on any sheet or on this one.
    pub fn error(&self, only: Option<&str>) -> Option<String> {
        let sheets = self.sheets().into_iter().zip(0..);
        sheets.filter(|(sheet, _)| only.is_none_or(|only| only == sheet)).find_map(|(sheet, index)| {
            let cells = self.model.workbook.worksheet(index).unwrap().sheet_data.cells();
            // Where a row is put in, the engine takes typed words such as #REF! for the error.
            let mut errors = cells.filter(|(row, column, cell)| {
                cell.get_type() == CellType::ErrorValue && self.is_formula(&sheet, *row, *column)
            });
            errors.next().map(|(row, column, _)| {
                format!("{sheet}, row {row}, column {column}: {}", self.value(&sheet, row, column))
            })
        })
    }

    /// Does what people do, and recalculates everything.
    pub fn play(&mut self, edit: &Edit) {
        self.make(edit);
        self.model.evaluate();
    }

    fn make(&mut self, edit: &Edit) {
        match edit {
            Edit::Then(edits) => edits.iter().for_each(|edit| self.make(edit)),
            Edit::Say { sheet, row, column, words } => {
                self.model.update_cell_with_text(self.index(sheet).unwrap(), *row, *column, words).unwrap();
            }
            Edit::Cut { sheet, from, to } => self.cut(sheet, *from, *to),
            Edit::InsertColumn { sheet, column } => {
                self.model.insert_columns(self.index(sheet).unwrap(), *column, 1).unwrap();
            }
            Edit::DeleteColumn { sheet, column } => {
                self.model.delete_columns(self.index(sheet).unwrap(), *column, 1).unwrap();
            }
            Edit::MoveColumn { sheet, column, by } => {
                self.model.move_columns_action(self.index(sheet).unwrap(), *column, 1, *by).unwrap();
            }
            Edit::Rename { sheet, name } => self.model.rename_sheet(sheet, name).unwrap(),
            Edit::CopySheet { sheet } => drop(self.model.duplicate_sheet(self.index(sheet).unwrap()).unwrap()),
            Edit::Sort { sheet, rows, column, down } => self.sort(sheet, *rows, i32::MAX, *column, *down),
            Edit::SortPart { sheet, rows, last, column } => self.sort(sheet, *rows, *last, *column, false),
            Edit::Paste { sheet, from, over, last } => {
                let index = self.index(sheet).unwrap();
                for column in 1..=*last {
                    let worksheet = self.model.workbook.worksheet_mut(index).unwrap();
                    match worksheet.cell(*from, column).map(Cow::into_owned) {
                        Some(cell) => drop(worksheet.sheet_data.set_cell(*over, column, cell)),
                        None => drop(worksheet.sheet_data.remove_cell(*over, column)),
                    }
                }
            }
            Edit::Insert { sheet, row } => self.model.insert_rows(self.index(sheet).unwrap(), *row, 1).unwrap(),
            Edit::Delete { sheet, row } => self.delete(sheet, *row),
            Edit::Clear { sheet, row, column } => {
                let index = self.index(sheet).unwrap();
                self.model.workbook.worksheet_mut(index).unwrap().cell_clear_contents(*row, *column).unwrap();
            }
            Edit::Type { sheet, row, column, number } => {
                self.model.update_cell_with_number(self.index(sheet).unwrap(), *row, *column, *number).unwrap();
            }
            Edit::TypeSeveral { sheet, cells } => {
                let index = self.index(sheet).unwrap();
                for (row, column, number) in cells {
                    self.model.update_cell_with_number(index, *row, *column, *number).unwrap();
                }
            }
            Edit::Line { sheet, row, like, put_in } => {
                if *put_in {
                    self.model.insert_rows(self.index(sheet).unwrap(), *row, 1).unwrap();
                }
                let like = if *put_in && like >= row { like + 1 } else { *like };
                self.copy(sheet, *row, like, false);
            }
            Edit::Copy { sheet, row, like } => {
                self.model.insert_rows(self.index(sheet).unwrap(), *row, 1).unwrap();
                self.copy(sheet, *row, if like >= row { like + 1 } else { *like }, true);
            }
            Edit::Instead { sheet, like, gone } => {
                self.model.insert_rows(self.index(sheet).unwrap(), like + 1, 1).unwrap();
                self.copy(sheet, like + 1, *like, true);
                let gone = if gone > like { gone + 1 } else { *gone };
                self.delete(sheet, gone);
            }
            Edit::DeleteSheets { sheets } => {
                for sheet in sheets {
                    if let Some(index) = self.index(sheet) {
                        let id = self.model.workbook.worksheet(index).unwrap().sheet_id;
                        self.model.workbook.defined_names.retain(|name| name.sheet_id != Some(id));
                        self.model.delete_sheet(index).unwrap();
                    }
                }
            }
        }
    }

    /// Takes out a row. Ranges that ended or began in it are shorter then, as in Excel and LibreOffice; this engine would
    /// have them lead nowhere.
    fn delete(&mut self, sheet: &str, row: i32) {
        self.rewrite(|formula, home| shortened(formula, home, sheet, row));
        self.model.delete_rows(self.index(sheet).unwrap(), row, 1).unwrap();
    }

    /// Writes formulas anew; each comes with the sheet on which it stands.
    fn rewrite(&mut self, anew: impl Fn(&str, &str) -> Option<String>) {
        for (home, at) in self.sheets().into_iter().zip(0..) {
            let cells = self.model.workbook.worksheet(at).unwrap().sheet_data.cells();
            let places: Vec<(i32, i32)> = cells.map(|(row, column, _)| (row, column)).collect();
            for (row, column) in places {
                let Some(formula) = self.model.get_cell_formula(at, row, column).unwrap() else { continue };
                if let Some(formula) = anew(&formula, &home) {
                    self.model.update_cell_with_formula(at, row, column, formula).unwrap();
                }
            }
        }
    }

    /// Moves a cell, and with it all references to it: so Excel, LibreOffice and others cut and paste. References to the cell
    /// that it is pasted over stay, as in LibreOffice.
    fn cut(&mut self, sheet: &str, from: (i32, i32), to: (i32, i32)) {
        let index = self.index(sheet).unwrap();
        self.rewrite(|formula, home| redirected(formula, home, sheet, from, to));
        let data = &mut self.model.workbook.worksheet_mut(index).unwrap().sheet_data;
        let cell = data.cell(from.0, from.1).map(Cow::into_owned);
        match cell {
            Some(cell) => drop(data.set_cell(to.0, to.1, cell)),
            None => drop(data.remove_cell(to.0, to.1)),
        }
        drop(data.remove_cell(from.0, from.1));
    }

    /// The cells of the row `like` in another one: all of them, or those that were typed.
    fn copy(&mut self, sheet: &str, row: i32, like: i32, all: bool) {
        let index = self.index(sheet).unwrap();
        let (_, wide) = self.extent(sheet);
        for column in 1..=wide {
            let formula = self.model.get_cell_formula(index, like, column).unwrap();
            if !all && (formula.is_some() || !self.is_input(sheet, like, column)) {
                continue;
            }
            let worksheet = self.model.workbook.worksheet_mut(index).unwrap();
            if let Some(cell) = worksheet.cell(like, column).map(Cow::into_owned) {
                worksheet.sheet_data.set_cell(row, column, cell);
            }
            if let Some(formula) = formula {
                self.model.update_cell_with_formula(index, row, column, moved(&formula, row - like)).unwrap();
            }
        }
    }

    /// Whether two cells have the same ground.
    pub fn has_ground_of(&self, sheet: &str, (row, column): (i32, i32), other: (i32, i32)) -> bool {
        self.style(sheet, row, column).fill == self.style(sheet, other.0, other.1).fill
    }

    /// The first column of our own: its header is slanted.
    pub fn first_own(&self, sheet: &str, header: i32) -> Option<i32> {
        let (_, wide) = self.extent(sheet);
        (1..=wide).find(|column| self.style(sheet, header, *column).font.i)
    }

    /// The cells of every row move with it, up to the column `end`.
    fn sort(&mut self, sheet: &str, (first, last): (i32, i32), end: i32, column: i32, down: bool) {
        self.model.evaluate();
        let index = self.index(sheet).unwrap();
        let mut order: Vec<(i32, Value)> = (first..=last).map(|row| (row, self.value(sheet, row, column))).collect();
        order.sort_by(|(_, a), (_, b)| compared(a, b, down));
        let wide = self.extent(sheet).1.min(end);
        let mut lifted: Vec<(i32, Vec<Lifted>)> = Vec::new();
        for (to, (from, _)) in (first..=last).zip(&order) {
            let cells = (1..=wide).map(|column| {
                let cell = self.model.workbook.worksheet(index).unwrap().cell(*from, column).map(Cow::into_owned);
                let formula = self.model.get_cell_formula(index, *from, column).unwrap();
                (column, cell, formula.map(|formula| moved(&formula, to - from)))
            });
            lifted.push((to, cells.collect()));
        }
        for (row, cells) in lifted {
            for (column, cell, formula) in cells {
                let data = &mut self.model.workbook.worksheet_mut(index).unwrap().sheet_data;
                match cell {
                    Some(cell) => drop(data.set_cell(row, column, cell)),
                    None => drop(data.remove_cell(row, column)),
                }
                if let Some(formula) = formula {
                    self.model.update_cell_with_formula(index, row, column, formula).unwrap();
                }
            }
        }
    }

    /// The workbook as a file.
    pub fn saved(&self) -> Vec<u8> {
        ironcalc::export::save_xlsx_to_writer(&self.model, Cursor::new(Vec::new())).unwrap().into_inner()
    }
}

/// Numbers before words, blanks last whichever way.
fn compared(a: &Value, b: &Value, down: bool) -> Ordering {
    let rank = |value: &Value| match value {
        Value::Number(_) => 0,
        Value::Text(text) if !text.is_empty() => 1,
        Value::Bool(_) => 2,
        Value::Error(_) => 3,
        _ => 4,
    };
    let blank = |value: &Value| rank(value) == 4;
    if blank(a) || blank(b) {
        return blank(a).cmp(&blank(b));
    }
    let order = rank(a).cmp(&rank(b)).then_with(|| match (a, b) {
        (Value::Number(a), Value::Number(b)) => a.total_cmp(b),
        (Value::Text(a), Value::Text(b)) => a.to_lowercase().cmp(&b.to_lowercase()),
        _ => Ordering::Equal,
    });
    if down { order.reverse() } else { order }
}

//! Recalculates workbooks with an independent spreadsheet engine and compares what it finds with what the file holds.
//!
//! It takes the bytes of an xlsx file. Formulas and stored values are read by calamine, the new values come from
//! ironcalc, which computes every formula from the constants alone: two programs that know nothing of ours.
//! [`assert_recalculates`] fails with a list a person can read; [`with_changes`] types other numbers into input cells,
//! recalculates, and lets a test read the figures that follow.

#![expect(
    clippy::disallowed_types,
    clippy::float_arithmetic,
    reason = "this is a spreadsheet's own arithmetic, compared within a tolerance"
)]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test helper stops the test that called it"
)]
#![allow(dead_code, reason = "a helper for several test modules")]

use std::fmt;
use std::io::Cursor;
use std::path::PathBuf;
use std::sync::atomic::{AtomicUsize, Ordering};

use calamine::{Data, Reader, Xlsx};
use ironcalc::base::Model;
use ironcalc::base::cell::CellValue;
use ironcalc::base::types::CellType;

/// Two numbers are the same figure when they differ by no more than this times the larger of them, or than this itself
/// when both are below one.
const TOLERANCE: f64 = 1e-9;

/// How many differences a failing test prints.
const SHOWN: usize = 40;

/// What stands in a cell.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// Nothing at all.
    Empty,
    /// A number; dates and times are numbers too.
    Number(f64),
    /// Text, which may be empty.
    Text(String),
    /// TRUE or FALSE.
    Bool(bool),
    /// An error such as `#DIV/0!`.
    Error(String),
}

impl Value {
    /// Whether both show the same figure: numbers within the tolerance, everything else exactly. A formula that gives
    /// `""` may be stored as nothing. Two errors are never the same figure, because an error is no figure.
    pub fn agrees(&self, other: &Value) -> bool {
        match (self, other) {
            (Value::Error(_), _) | (_, Value::Error(_)) => false,
            (Value::Number(a), Value::Number(b)) => (a - b).abs() <= TOLERANCE * 1f64.max(a.abs()).max(b.abs()),
            (Value::Empty, Value::Text(text)) | (Value::Text(text), Value::Empty) => text.is_empty(),
            (a, b) => a == b,
        }
    }
}

impl fmt::Display for Value {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Value::Empty => f.write_str("nothing"),
            Value::Number(number) => write!(f, "{number}"),
            Value::Text(text) => write!(f, "{text:?}"),
            Value::Bool(true) => f.write_str("TRUE"),
            Value::Bool(false) => f.write_str("FALSE"),
            Value::Error(error) => write!(f, "the error {error}"),
        }
    }
}

/// One formula cell, as stored and as recalculated.
#[derive(Debug, Clone, PartialEq)]
pub struct Recalculated {
    /// The sheet's name.
    pub sheet: String,
    /// The cell, `C7`.
    pub cell: String,
    /// The formula's text without the equals sign, as the file has it.
    pub formula: String,
    /// The value in the file.
    pub stored: Value,
    /// The value the engine finds.
    pub fresh: Value,
}

impl fmt::Display for Recalculated {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}!{}: the file holds {}, ", self.sheet, self.cell, self.stored)?;
        write!(f, "the engine finds {}, from ={}", self.fresh, self.formula)
    }
}

/// Every formula cell of a workbook, in sheet order and by rows.
pub fn recalculated(bytes: &[u8]) -> Vec<Recalculated> {
    let sheets = Sheets::open(bytes);
    let mut file: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).expect("calamine opens the file");
    let mut found = Vec::new();
    for sheet in file.sheet_names() {
        let formulas = file.worksheet_formula(&sheet).expect("the sheet's formulas can be read");
        let values = file.worksheet_range(&sheet).expect("the sheet's values can be read");
        let (top, left) = formulas.start().unwrap_or((0, 0));
        for (row, column, formula) in formulas.used_cells() {
            let (row, column) = (top + u32::try_from(row).unwrap(), left + u32::try_from(column).unwrap());
            if formula.is_empty() {
                continue;
            }
            let cell = cell_name(row, column);
            found.push(Recalculated {
                stored: values.get_value((row, column)).map_or(Value::Empty, stored_value),
                fresh: sheets.value(&sheet, &cell),
                sheet: sheet.clone(),
                cell,
                formula: formula.clone(),
            });
        }
    }
    found
}

/// Fails when the workbook has no formula, or when a formula's stored value is not what an independent engine finds, or
/// is an error. `name` is how the failure names the workbook.
#[track_caller]
pub fn assert_recalculates(bytes: &[u8], name: &str) {
    let formulas = assert_recalculates_if_any(bytes, name);
    assert!(formulas > 0, "{name} has no formulas: nothing was recalculated");
}

/// As [`assert_recalculates`], for a workbook that may have no formula; gives how many it has.
#[track_caller]
pub fn assert_recalculates_if_any(bytes: &[u8], name: &str) -> usize {
    keep(bytes);
    let cells = recalculated(bytes);
    let wrong: Vec<_> = cells.iter().filter(|cell| !cell.stored.agrees(&cell.fresh)).collect();
    if !wrong.is_empty() {
        let list: String = wrong.iter().take(SHOWN).map(|cell| format!("\n  {cell}")).collect();
        let more = if wrong.len() > SHOWN { "\n  …" } else { "" };
        panic!("{name}: {} of {} formulas do not land on their stored value:{list}{more}", wrong.len(), cells.len());
    }
    cells.len()
}

/// The tests whose workbooks another engine recalculates: the books worked by hand, and some of what people edit.
const KEPT_OF: [&str; 6] = ["analysis::", "cards::", "charges::", "measures::", "prices::", "hands::the_t"];

/// Where workbooks that this test recalculates are put for another engine, if anywhere: `PARINGS_KEEP_WORKBOOKS` names the
/// folder. Also the name of the test, as a file's.
fn kept_in() -> Option<(PathBuf, String)> {
    let folder = std::env::var_os("PARINGS_KEEP_WORKBOOKS")?;
    let test = std::thread::current().name()?.to_owned();
    KEPT_OF.iter().any(|one| test.starts_with(one)).then(|| (folder.into(), test.replace("::", ".")))
}

/// Whether workbooks of this test are kept at all, for those who would have to make one.
pub fn keeps() -> bool {
    kept_in().is_some()
}

/// Puts a workbook where another engine finds it.
pub fn keep(bytes: &[u8]) {
    static KEPT: AtomicUsize = AtomicUsize::new(0);
    if let Some((folder, test)) = kept_in() {
        let name = format!("{test}-{}.xlsx", KEPT.fetch_add(1, Ordering::Relaxed));
        std::fs::write(folder.join(name), bytes).unwrap();
    }
}

/// The workbook after other numbers were typed into input cells and everything was recalculated. Each change names a
/// sheet, a cell and the number; a cell that holds a formula is no input and stops the test.
#[track_caller]
pub fn with_changes(bytes: &[u8], changes: &[(&str, &str, f64)]) -> Sheets {
    let mut sheets = Sheets::open(bytes);
    sheets.type_numbers(changes);
    sheets
}

/// A workbook as the engine reads it: read once, for as many models as are edited, each in its own way.
pub struct Original(ironcalc::base::types::Workbook);

impl Original {
    /// Reads a workbook.
    #[track_caller]
    pub fn read(bytes: &[u8]) -> Self {
        let workbook = ironcalc::import::load_from_xlsx_bytes(bytes, "workbook", "en", "UTC");
        Original(workbook.unwrap_or_else(|error| panic!("the engine cannot open the file: {error}")))
    }

    /// A model of it, not recalculated yet.
    #[track_caller]
    pub fn model(&self) -> Model<'static> {
        Model::from_workbook(self.0.clone(), "en").expect("the engine takes the workbook")
    }
}

/// A recalculated workbook whose cells can be read.
pub struct Sheets {
    model: Model<'static>,
}

impl Sheets {
    /// Opens a workbook and recalculates all of it.
    #[track_caller]
    pub fn open(bytes: &[u8]) -> Self {
        let mut model = Original::read(bytes).model();
        model.evaluate();
        Sheets { model }
    }

    /// What stands in a cell.
    #[track_caller]
    pub fn value(&self, sheet: &str, cell: &str) -> Value {
        let (sheet, row, column) = self.place(sheet, cell);
        let kind = self.model.get_cell_type(sheet, row, column).expect("the cell can be read");
        match self.model.get_cell_value_by_index(sheet, row, column).expect("the cell can be read") {
            CellValue::None => Value::Empty,
            CellValue::String(error) if kind == CellType::ErrorValue => Value::Error(error),
            CellValue::String(text) => Value::Text(text),
            CellValue::Number(number) => Value::Number(number),
            CellValue::Boolean(yes) => Value::Bool(yes),
        }
    }

    /// The number in a cell; anything else stops the test.
    #[track_caller]
    pub fn number(&self, sheet: &str, cell: &str) -> f64 {
        match self.value(sheet, cell) {
            Value::Number(number) => number,
            other => panic!("{sheet}!{cell} holds {other}, not a number"),
        }
    }

    /// Every formula cell that holds an error, as `Sheet!C7: #DIV/0!`.
    pub fn errors(&self) -> Vec<String> {
        let names = self.model.workbook.get_worksheet_names();
        let cells = self.model.get_all_cells().into_iter();
        let named = cells.filter_map(|at| Some((names.get(at.index as usize)?, cell_name_of(at.row, at.column))));
        let errors = named.filter_map(|(sheet, cell)| match self.value(sheet, &cell) {
            Value::Error(error) => Some(format!("{sheet}!{cell}: {error}")),
            _ => None,
        });
        errors.collect()
    }

    /// What a formula comes to, typed into a cell far from all others.
    #[track_caller]
    pub fn formula(&mut self, formula: &str) -> f64 {
        const FAR: (u32, i32, i32) = (0, 5_000, 200);
        let typed = self.model.set_user_input(FAR.0, FAR.1, FAR.2, format!("={formula}"));
        typed.expect("the formula can be typed");
        self.model.evaluate();
        match self.model.get_cell_value_by_index(FAR.0, FAR.1, FAR.2).expect("the cell can be read") {
            CellValue::Number(number) => number,
            other => panic!("{formula} comes to {other:?}, not a number"),
        }
    }

    /// Types numbers into input cells and recalculates everything.
    #[track_caller]
    pub fn type_numbers(&mut self, changes: &[(&str, &str, f64)]) {
        self.put_numbers(changes);
        self.model.evaluate();
    }

    /// Types text into a cell and recalculates everything.
    #[track_caller]
    pub fn type_text(&mut self, sheet: &str, cell: &str, text: &str) {
        let (index, row, column) = self.place(sheet, cell);
        self.model.set_user_input(index, row, column, text.to_owned()).expect("the text can be typed");
        self.model.evaluate();
    }

    /// Types numbers into input cells; nothing is recalculated yet.
    #[track_caller]
    pub fn put_numbers(&mut self, changes: &[(&str, &str, f64)]) {
        for (sheet, cell, number) in changes {
            self.type_number(sheet, cell, *number);
        }
    }

    #[track_caller]
    fn type_number(&mut self, sheet: &str, cell: &str, number: f64) {
        let (index, row, column) = self.place(sheet, cell);
        let formula = self.model.get_cell_formula(index, row, column).expect("the cell can be read");
        assert!(formula.is_none(), "{sheet}!{cell} is no input: it holds {}", formula.unwrap_or_default());
        self.model.update_cell_with_number(index, row, column, number).expect("the number can be typed");
    }

    fn place(&self, sheet: &str, cell: &str) -> (u32, i32, i32) {
        let index = self.model.workbook.worksheets.iter().position(|one| one.name == sheet);
        let names = || self.model.workbook.get_worksheet_names();
        let index = index.unwrap_or_else(|| panic!("no sheet {sheet:?}, only {:?}", names()));
        let (row, column) = cell_place(cell).unwrap_or_else(|| panic!("{cell:?} is not a cell"));
        (u32::try_from(index).unwrap(), row, column)
    }
}

/// A stored value as calamine hands it over.
fn stored_value(data: &Data) -> Value {
    match data {
        Data::Empty => Value::Empty,
        Data::Int(number) => Value::Number(*number as f64),
        Data::Float(number) => Value::Number(*number),
        Data::DateTime(date) => Value::Number(date.as_f64()),
        Data::String(text) | Data::DateTimeIso(text) | Data::DurationIso(text) => Value::Text(text.clone()),
        Data::Bool(yes) => Value::Bool(*yes),
        Data::Error(error) => Value::Error(error.to_string()),
    }
}

/// `C7` for the row 6 and the column 2, counted from nought.
fn cell_name(row: u32, mut column: u32) -> String {
    let mut letters = Vec::new();
    loop {
        letters.push(char::from(b'A' + u8::try_from(column % 26).unwrap()));
        if column < 26 {
            break;
        }
        column = column / 26 - 1;
    }
    let letters: String = letters.iter().rev().collect();
    format!("{letters}{}", row + 1)
}

/// `C7` for the row 7 and the column 3, counted from one.
fn cell_name_of(row: i32, column: i32) -> String {
    cell_name(u32::try_from(row - 1).unwrap(), u32::try_from(column - 1).unwrap())
}

/// The row and the column of `C7`, counted from one.
fn cell_place(cell: &str) -> Option<(i32, i32)> {
    let digits = cell.find(|c: char| c.is_ascii_digit())?;
    let (letters, row) = cell.split_at(digits);
    let column = letters.bytes().try_fold(0i32, |column, letter| {
        letter.is_ascii_uppercase().then(|| column * 26 + i32::from(letter - b'A') + 1)
    })?;
    (column > 0).then_some((row.parse().ok()?, column))
}

#[cfg(test)]
mod tests {
    use rust_xlsxwriter::{Formula, Workbook};

    use super::*;

    /// A small bill: 12 lb at $3.50, usable 80 %, so 12 × 3.5 = 42 and 3.5 ÷ 0.8 = 4.375 a usable pound. Each formula
    /// is written with the result given for it.
    fn bill(total: &str, usable: &str, word: &str) -> Vec<u8> {
        let mut workbook = Workbook::new();
        let sheet = workbook.add_worksheet();
        sheet.set_name("What we pay").unwrap();
        for (row, number) in [(0, 12.0), (1, 3.5), (2, 0.8)] {
            sheet.write_number(row, 1, number).unwrap();
        }
        sheet.write_formula(3, 1, Formula::new("=B1*B2").set_result(total)).unwrap();
        let sheet = workbook.add_worksheet();
        sheet.set_name("Out").unwrap();
        sheet.write_formula(9, 27, Formula::new("='What we pay'!B2/'What we pay'!B3").set_result(usable)).unwrap();
        let standing = "=IF(AB10>4,\"over by \"&ROUND((AB10-4)*100,1)&\" cents\",\"\")";
        sheet.write_formula(10, 27, Formula::new(standing).set_result(word)).unwrap();
        workbook.save_to_buffer().unwrap()
    }

    #[test]
    fn a_true_bill_recalculates() {
        assert_recalculates(&bill("42", "4.375", "over by 37.5 cents"), "bill");
        let cells = recalculated(&bill("42", "4.375", "over by 37.5 cents"));
        let seen: Vec<_> = cells.iter().map(|cell| (cell.sheet.as_str(), cell.cell.as_str())).collect();
        assert_eq!(seen, [("What we pay", "B4"), ("Out", "AB10"), ("Out", "AB11")]);
    }

    #[test]
    #[should_panic(expected = "bill: 1 of 3 formulas do not land on their stored value:\n  \
                               What we pay!B4: the file holds 42.0000001, the engine finds 42, from =B1*B2")]
    fn a_planted_wrong_value_is_caught() {
        assert_recalculates(&bill("42.0000001", "4.375", "over by 37.5 cents"), "bill");
    }

    #[test]
    #[should_panic(expected = "Out!AB11: the file holds \"over by 37 cents\"")]
    fn a_planted_wrong_word_is_caught() {
        assert_recalculates(&bill("42", "4.375", "over by 37 cents"), "bill");
    }

    #[test]
    #[should_panic(expected = "has no formulas")]
    fn a_book_without_formulas_proves_nothing() {
        let mut workbook = Workbook::new();
        workbook.add_worksheet().write_number(0, 0, 1.0).unwrap();
        assert_recalculates(&workbook.save_to_buffer().unwrap(), "empty");
    }

    #[test]
    #[should_panic(expected = "the engine finds the error #DIV/0!")]
    fn an_error_is_caught_even_when_the_file_holds_it_too() {
        let mut workbook = Workbook::new();
        let sheet = workbook.add_worksheet();
        sheet.write_formula(0, 0, Formula::new("=1/0").set_result("#DIV/0!")).unwrap();
        assert_recalculates(&workbook.save_to_buffer().unwrap(), "broken");
    }

    #[test]
    fn the_difference_allowed_is_a_billionth() {
        let near = |a: f64, b: f64| Value::Number(a).agrees(&Value::Number(b));
        assert!(near(0.0, 9e-10) && !near(0.0, 2e-9), "below one it is absolute");
        assert!(near(1e6, 1e6 + 9e-4) && !near(1e6, 1e6 + 2e-3), "above one it is relative");
    }

    #[test]
    fn figures_follow_a_changed_input() {
        // $7 a pound at 70 % usable: 7 ÷ 0.7 = 10; 12 lb cost $84.
        let sheets = with_changes(
            &bill("42", "4.375", "over by 37.5 cents"),
            &[("What we pay", "B2", 7.0), ("What we pay", "B3", 0.7)],
        );
        assert_eq!(sheets.value("What we pay", "B4"), Value::Number(84.0));
        assert!(sheets.value("Out", "AB10").agrees(&Value::Number(10.0)));
        assert_eq!(sheets.value("Out", "AB11"), Value::Text("over by 600 cents".to_owned()));
        assert_eq!(sheets.errors(), Vec::<String>::new());
    }

    #[test]
    fn a_blank_yield_shows_as_an_error() {
        let sheets = with_changes(&bill("42", "4.375", "x"), &[("What we pay", "B3", 0.0)]);
        assert_eq!(sheets.errors(), ["Out!AB10: #DIV/0!", "Out!AB11: #DIV/0!"]);
    }

    #[test]
    #[should_panic(expected = "What we pay!B4 is no input: it holds =B1*B2")]
    fn a_formula_is_no_input() {
        with_changes(&bill("42", "4.375", "x"), &[("What we pay", "B4", 1.0)]);
    }

    /// What our sheets may say, with results worked by hand; A1 is blank, A2 shows `""`, A3 is 7, A4 is `abc`. LibreOffice
    /// was seen to agree. Text made of a number is rounded first: engines differ in how many digits they write.
    #[test]
    fn the_engine_knows_the_functions_we_write() {
        let cases = [
            ("ROUND(2.5,0)", "3"),
            ("ROUND(1.005,2)", "1.01"),
            ("ROUNDUP(ROUND(4.35/0.05,9),0)", "87"),
            ("MAX(0,ROUNDUP(ROUND(17.236-0.95,9),0))+0.95", "17.95"),
            ("IF(A1=\"\",\"blank\",1)", "blank"),
            ("IF(AND(ISNUMBER(A2),A3>0),A2/A3,\"\")", ""),
            ("IF(ROUND(A3-7,9)>0,\"over\",\"within\")", "within"),
            ("IFERROR(1/A1,\"\")", ""),
            ("IFERROR(A2+1,\"no number\")", "no number"),
            ("OR(ISNUMBER(A1),ISNUMBER(A2),ISNUMBER(A4))", "FALSE"),
            ("A1+A3", "7"),
            ("N(A2)+N(A4)+A3", "7"),
            ("SUM(A1:A4)", "7"),
            ("ABS(-A3)*5%", "0.35"),
            ("\"over by \"&ROUND(A3/3,2)", "over by 2.33"),
            ("TEXT(ROUND(0.125,2),\"0.00\")&\" lb\"", "0.13 lb"),
            ("TEXT(ROUND(0.30506,3),\"0.0%\")", "30.5%"),
        ];
        let mut workbook = Workbook::new();
        let sheet = workbook.add_worksheet();
        sheet.set_formula_result_default("");
        sheet.write_formula(1, 0, Formula::new("=IF(A1=\"\",\"\",A1)")).unwrap();
        sheet.write_number(2, 0, 7).unwrap();
        sheet.write_string(3, 0, "abc").unwrap();
        for (row, (formula, result)) in cases.iter().enumerate() {
            sheet.write_formula(row as u32, 2, Formula::new(format!("={formula}")).set_result(*result)).unwrap();
        }
        assert_recalculates(&workbook.save_to_buffer().unwrap(), "functions");
    }

    #[test]
    fn cells_are_named_as_a_spreadsheet_names_them() {
        for (row, column, name) in [(0, 0, "A1"), (9, 25, "Z10"), (0, 26, "AA1"), (6, 701, "ZZ7"), (0, 702, "AAA1")] {
            assert_eq!(cell_name(row, column), name);
            assert_eq!(cell_place(name), Some((row as i32 + 1, column as i32 + 1)));
        }
        assert_eq!(cell_place("7"), None);
        assert_eq!(cell_place("B"), None);
    }
}

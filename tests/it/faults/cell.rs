//! A cell as a test writes it: on a worksheet, or as a field of csv text.

use rust_xlsxwriter::{ExcelDateTime, Format, Formula, Worksheet};

use super::expect::LOST;

/// What may stand in a cell.
#[derive(Debug, Clone, Copy)]
pub enum Cell {
    Blank,
    Text(&'static str),
    Number(f64),
    Percent(f64),
    Money(f64),
    Date(u16, u8, u8),
    /// A part of a day, under a time's format.
    Time(f64),
    Bool(bool),
    Error(&'static str),
    /// A formula saved without its result.
    Formula(&'static str),
}

impl Cell {
    /// The cell of a word of the lists: `n:7`, `p:0.3` (a percentage), `m:9.5` (money), `d:2026-05-06`, `t:0.75` (a time),
    /// `b:true`, `e:#REF!`, `f:A1` (a formula); anything else is text, nothing is blank.
    pub fn of_word(word: &'static str) -> Cell {
        let number = |text: &str| text.parse::<f64>().unwrap();
        match word.split_once(':') {
            _ if word.is_empty() => Cell::Blank,
            Some(("n", text)) => Cell::Number(number(text)),
            Some(("p", text)) => Cell::Percent(number(text)),
            Some(("m", text)) => Cell::Money(number(text)),
            Some(("t", text)) => Cell::Time(number(text)),
            Some(("b", text)) => Cell::Bool(text == "true"),
            Some(("e", text)) => Cell::Error(text),
            Some(("f", text)) => Cell::Formula(text),
            Some(("d", text)) => {
                let parts: Vec<u16> = text.split('-').map(|part| part.parse().unwrap()).collect();
                Cell::Date(parts[0], parts[1] as u8, parts[2] as u8)
            }
            _ => Cell::Text(word),
        }
    }
}

/// Puts a cell on a sheet.
pub fn put(sheet: &mut Worksheet, row: u32, column: u16, cell: Cell) {
    let shown = |code: &str| Format::new().set_num_format(code);
    match cell {
        Cell::Blank => return,
        Cell::Text(text) => sheet.write_string(row, column, text).unwrap(),
        Cell::Number(number) => sheet.write_number(row, column, number).unwrap(),
        Cell::Percent(number) => sheet.write_number_with_format(row, column, number, &shown("0.0%")).unwrap(),
        Cell::Money(number) => sheet.write_number_with_format(row, column, number, &shown("$#,##0.00")).unwrap(),
        Cell::Date(year, month, day) => {
            let date = ExcelDateTime::from_ymd(year, month, day).unwrap();
            sheet.write_datetime_with_format(row, column, &date, &shown("d-mmm")).unwrap()
        }
        Cell::Time(part) => sheet.write_number_with_format(row, column, part, &shown("h:mm")).unwrap(),
        Cell::Bool(yes) => sheet.write_boolean(row, column, yes).unwrap(),
        Cell::Error(error) => sheet.write_formula(row, column, Formula::new("=1/0").set_result(error)).unwrap(),
        Cell::Formula(text) => sheet.write_formula(row, column, Formula::new(text).set_result(LOST)).unwrap(),
    };
}

/// The cell as a field of csv text.
pub fn csv_field(cell: Cell) -> String {
    let text = match cell {
        Cell::Blank => String::new(),
        Cell::Text(text) | Cell::Error(text) => text.to_owned(),
        Cell::Number(number) | Cell::Time(number) => number.to_string(),
        Cell::Percent(number) => format!("{}%", number * 100.0),
        Cell::Money(number) => format!("${number}"),
        Cell::Date(year, month, day) => format!("{year:04}-{month:02}-{day:02}"),
        Cell::Bool(yes) => yes.to_string().to_uppercase(),
        Cell::Formula(text) => format!("={text}"),
    };
    format!("\"{}\"", text.replace('"', "\"\""))
}

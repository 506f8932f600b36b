//! The pen the sample books and the templates are written with: cells by kind, and a sheet that is filled from the top
//! down.
//!
//! It takes rows of [`Cell`] and gives a workbook as a kitchen would keep it: money shown as money, percentages as
//! percentages and dates as dates, because that is how a reader knows them apart.

#![allow(
    clippy::disallowed_types,
    clippy::float_arithmetic,
    reason = "a spreadsheet's numbers are floats, and this writes a spreadsheet"
)]

use std::io::{Cursor, Read, Write};

use rust_xlsxwriter::{
    Color, DocProperties, ExcelDateTime, Format, FormatAlign, FormatBorder, Formula, Workbook, Worksheet, XlsxError,
};
use zip::result::ZipResult;

/// Quiet text.
pub const INK: Color = Color::RGB(0x22_2B_2B);
/// The one accent: titles and headers.
pub const ACCENT: Color = Color::RGB(0x2F_5D_50);
/// The ground of headings, and of what was typed: as in costed workbooks.
pub const PALE: Color = Color::RGB(0xFB_F6_E9);
/// Hairlines, as there.
pub const RULE: Color = Color::RGB(0xC9_C1_AC);

/// What is typed into one cell.
#[derive(Clone, Copy)]
pub enum Cell {
    /// Nothing.
    Blank,
    /// Text.
    Text(&'static str),
    /// A plain number.
    Number(f64),
    /// Money, with the number format that shows its currency.
    Money(f64, &'static str),
    /// A percentage, as its percent number: `84.0` is 84 %.
    Percent(f64),
    /// A calendar day: year, month, day.
    Day(u16, u8, u8),
    /// What was typed as `10/5` and is now a day: month and day of 2026, shown as the spreadsheet shows it.
    TurnedToDay(u8, u8),
    /// A formula that shows an error, `#REF!`.
    Error(&'static str),
    /// A formula saved by a program that does not calculate.
    Unfigured(&'static str),
}

impl From<&'static str> for Cell {
    fn from(text: &'static str) -> Self {
        if text.is_empty() { Cell::Blank } else { Cell::Text(text) }
    }
}

impl From<f64> for Cell {
    fn from(number: f64) -> Self {
        Cell::Number(number)
    }
}

impl From<i32> for Cell {
    fn from(number: i32) -> Self {
        Cell::Number(f64::from(number))
    }
}

/// Dollars and cents.
pub fn usd(dollars: f64) -> Cell {
    Cell::Money(dollars, "\"$\"#,##0.00")
}

/// So many per cent.
pub fn pct(percent: f64) -> Cell {
    Cell::Percent(percent)
}

/// A day of 2026.
pub fn day(month: u8, day: u8) -> Cell {
    Cell::Day(2026, month, day)
}

/// One row of cells: text, numbers and [`Cell`]s side by side, `""` for a blank.
macro_rules! row {
    ($($cell:expr),* $(,)?) => { &[$(Cell::from($cell)),*][..] };
}
pub(crate) use row;

/// What a book is printed on.
#[derive(Clone, Copy)]
pub enum Paper {
    /// In kitchens that weigh in pounds.
    Letter = 1,
    /// Everywhere else.
    A4 = 9,
}

/// The result of a formula whose result is taken out again before the file is done.
const UNFIGURED: &str = "not figured";

/// A book being written.
pub struct Book {
    workbook: Workbook,
    paper: Paper,
}

impl Book {
    /// A new book of an invented kitchen.
    pub fn new(title: &str, paper: Paper) -> Result<Self, XlsxError> {
        Book::about(title, "An invented kitchen; every name, quantity and price in it is made up.", paper)
    }

    /// A new book of this title, dated so that two runs give the same bytes.
    pub fn about(title: &str, comment: &str, paper: Paper) -> Result<Self, XlsxError> {
        let mut workbook = Workbook::new();
        let properties = DocProperties::new()
            .set_title(title)
            .set_comment(comment)
            .set_creation_datetime(&ExcelDateTime::from_ymd(2026, 11, 20)?);
        workbook.set_properties(&properties);
        Ok(Book { workbook, paper })
    }

    /// A new sheet with columns of these widths, in characters. `wide` sheets print on their side.
    pub fn sheet(&mut self, name: &str, widths: &[u16], wide: bool) -> Result<Page<'_>, XlsxError> {
        let sheet = self.workbook.add_worksheet();
        sheet.set_name(name)?.set_screen_gridlines(false).set_paper_size(self.paper as u8).set_print_fit_to_pages(1, 0);
        sheet.set_header("&L&\"Calibri,Regular\"&A&R&\"Calibri,Regular\"Page &P of &N");
        sheet.set_margins(0.5, 0.5, 0.7, 0.5, 0.3, 0.3);
        if wide {
            sheet.set_landscape();
        }
        for (column, width) in (0u16..).zip(widths) {
            sheet.set_column_width(column, f64::from(*width))?;
        }
        Ok(Page { sheet, row: 0 })
    }

    /// The finished file, with the formulas left without a result that were to be.
    pub fn bytes_with_unfigured(self) -> Result<Vec<u8>, XlsxError> {
        without_results(&self.bytes()?).map_err(|error| XlsxError::ParameterError(error.to_string()))
    }

    /// The finished file.
    pub fn bytes(mut self) -> Result<Vec<u8>, XlsxError> {
        self.workbook.save_to_buffer()
    }
}

/// A sheet being filled from the top down.
pub struct Page<'a> {
    sheet: &'a mut Worksheet,
    row: u32,
}

impl Page<'_> {
    /// A title row and, under it, a line that says what the sheet is for.
    pub fn title(&mut self, title: &str, about: &str) -> Result<(), XlsxError> {
        let bold = Format::new().set_bold().set_font_size(16).set_font_color(ACCENT);
        self.sheet.write_string_with_format(self.row, 0, title, &bold)?;
        self.sheet.set_row_height(self.row, 24)?;
        let quiet = Format::new().set_italic().set_font_color(INK);
        self.sheet.write_string_with_format(self.row + 1, 0, about, &quiet)?;
        self.row += 3;
        Ok(())
    }

    /// A table's header row. A name that begins with `>` stands to the right, over a column of numbers.
    pub fn header(&mut self, names: &[impl AsRef<str>]) -> Result<(), XlsxError> {
        let format = Format::new()
            .set_bold()
            .set_border_bottom(FormatBorder::Medium)
            .set_border_bottom_color(ACCENT)
            .set_align(FormatAlign::Bottom)
            .set_text_wrap();
        for (column, name) in (0u16..).zip(names.iter().map(AsRef::as_ref)) {
            match name.strip_prefix('>') {
                Some(name) => {
                    let right = format.clone().set_align(FormatAlign::Right);
                    self.sheet.write_string_with_format(self.row, column, name, &right)?
                }
                None => self.sheet.write_string_with_format(self.row, column, name, &inset(column, &format))?,
            };
        }
        self.row += 1;
        Ok(())
    }

    /// A table's header row that stays in view, and is printed on every page.
    pub fn lasting_header(&mut self, names: &[impl AsRef<str>], columns: u16) -> Result<(), XlsxError> {
        self.sheet.set_freeze_panes(self.row + 1, columns)?.set_repeat_rows(self.row, self.row)?;
        self.header(names)
    }

    /// A group heading: text in the first cell and nothing else.
    pub fn heading(&mut self, text: &str) -> Result<(), XlsxError> {
        let format = Format::new().set_bold().set_font_color(ACCENT).set_background_color(PALE);
        self.sheet.write_string_with_format(self.row, 0, text, &format)?;
        self.row += 1;
        Ok(())
    }

    /// Rows of a table.
    pub fn rows(&mut self, rows: &[&[Cell]]) -> Result<(), XlsxError> {
        self.lines(rows, None)
    }

    /// Rows of a table in which even text stands to the right in one column: `1/2` among the quantities.
    pub fn lines(&mut self, rows: &[&[Cell]], quantities: Option<u16>) -> Result<(), XlsxError> {
        let format = Format::new().set_border_bottom(FormatBorder::Hair).set_border_bottom_color(RULE);
        let right = format.clone().set_align(FormatAlign::Right);
        for row in rows {
            for (column, cell) in (0u16..).zip(*row) {
                match cell {
                    _ if quantities == Some(column) => self.put(column, *cell, &right)?,
                    Cell::Text(_) => self.put(column, *cell, &inset(column, &format))?,
                    _ => self.put(column, *cell, &format)?,
                }
            }
            self.row += 1;
        }
        Ok(())
    }

    /// A card: its name, its labels, its lines.
    pub fn card(&mut self, labels: &[&[Cell]], header: &[&str], lines: &[&[Cell]]) -> Result<(), XlsxError> {
        for (number, label) in labels.iter().enumerate() {
            let plain = Format::new().set_font_color(INK);
            let format = if number == 0 { plain.set_font_size(13).set_font_color(ACCENT).set_bold() } else { plain };
            if let (Some(name), Some(value)) = (label.first(), label.get(1)) {
                self.put(0, *name, &Format::new().set_font_color(INK))?;
                self.put(1, *value, &format.set_align(FormatAlign::Left))?;
                self.row += 1;
            }
        }
        self.header(header)?;
        self.lines(lines, Some(1))?;
        self.row += 2;
        Ok(())
    }

    /// Hides the row written last.
    pub fn hide_row(&mut self) -> Result<(), XlsxError> {
        self.sheet.set_row_hidden(self.row.saturating_sub(1))?;
        Ok(())
    }

    /// Hides the whole sheet.
    pub fn hide(&mut self) {
        self.sheet.set_hidden(true);
    }

    /// Leaves rows empty.
    pub fn skip(&mut self, rows: u32) {
        self.row += rows;
    }

    /// The next row to be filled, counted from zero.
    pub fn row(&self) -> u32 {
        self.row
    }

    /// The sheet itself, for what the pen does not know.
    pub fn sheet(&mut self) -> &mut Worksheet {
        self.sheet
    }

    /// Puts a cell into the row that is being filled.
    pub fn put(&mut self, column: u16, cell: Cell, format: &Format) -> Result<(), XlsxError> {
        let shown = |pattern: &str| format.clone().set_num_format(pattern);
        match cell {
            Cell::Blank => self.sheet.write_blank(self.row, column, format)?,
            Cell::Text(text) => self.sheet.write_string_with_format(self.row, column, text, format)?,
            Cell::Number(number) => self.sheet.write_number_with_format(self.row, column, number, format)?,
            Cell::Money(amount, pattern) => {
                self.sheet.write_number_with_format(self.row, column, amount, &shown(pattern))?
            }
            Cell::Percent(percent) => {
                let pattern = if percent.fract() == 0.0 { "0%" } else { "0.0%" };
                self.sheet.write_number_with_format(self.row, column, percent / 100.0, &shown(pattern))?
            }
            Cell::Day(year, month, day) => {
                let date = ExcelDateTime::from_ymd(year, month, day)?;
                self.sheet.write_datetime_with_format(self.row, column, &date, &shown("d mmm yyyy"))?
            }
            Cell::TurnedToDay(month, day) => {
                let date = ExcelDateTime::from_ymd(2026, month, day)?;
                self.sheet.write_datetime_with_format(self.row, column, &date, &shown("d-mmm"))?
            }
            Cell::Error(error) => {
                let lost = Formula::new(format!("={error}")).set_result(error);
                self.sheet.write_formula_with_format(self.row, column, lost, format)?
            }
            Cell::Unfigured(formula) => {
                let formula = Formula::new(formula).set_result(UNFIGURED);
                self.sheet.write_formula_with_format(self.row, column, formula, &shown("\"$\"#,##0.00"))?
            }
        };
        Ok(())
    }
}

/// Sets the text of every column but the first off from the number to its left.
fn inset(column: u16, format: &Format) -> Format {
    if column == 0 { format.clone() } else { format.clone().set_align(FormatAlign::Left).set_indent(1) }
}

/// The file without the results of the formulas that were to have none.
fn without_results(bytes: &[u8]) -> ZipResult<Vec<u8>> {
    let mut read = zip::ZipArchive::new(Cursor::new(bytes))?;
    let mut written = zip::ZipWriter::new(Cursor::new(Vec::new()));
    for at in 0..read.len() {
        let mut entry = read.by_index(at)?;
        let name = entry.name()?.into_owned();
        let mut content = Vec::new();
        entry.read_to_end(&mut content)?;
        if name.contains("worksheets/sheet") {
            let xml = String::from_utf8_lossy(&content).replace(&format!("<v>{UNFIGURED}</v>"), "");
            content = xml.into_bytes();
        }
        written.start_file(name, zip::write::SimpleFileOptions::default())?;
        written.write_all(&content)?;
    }
    Ok(written.finish()?.into_inner())
}

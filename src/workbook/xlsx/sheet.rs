//! Worksheets from their frames and rows, cell by cell.

use std::borrow::Cow;
use std::collections::HashMap;

use jiff::civil::Date;
use rust_xlsxwriter::{
    ConditionalFormatText, ConditionalFormatTextRule, ExcelDateTime, Format, Formula as Written, Url, Worksheet,
    XlsxError,
};

use super::format::{alert, format_of, tab};
use super::height::lines_of;
use crate::schema::fitting;
use crate::workbook::cells::formula::Outcome;
use crate::workbook::cells::number::{stored, to_float};
use crate::workbook::cells::row::{Cell, Content, Frame, Ink, Look, Row, Tab};
use crate::workbook::xlsx::charts;
use crate::workbook::xlsx::charts::{Noted, Stored};
use crate::workbook::xlsx::page_setup::Paper;

/// Writes sheets, one format for every kind of cell.
pub(super) struct Pen<'a> {
    formats: HashMap<(Ink, Look), Format>,
    paper: &'a Paper,
}

/// A sheet, and the values that its charts show.
pub(super) type Drawn = (Worksheet, Stored);

impl<'a> Pen<'a> {
    pub(super) fn new(paper: &'a Paper) -> Self {
        Pen { formats: HashMap::new(), paper }
    }

    /// The sheet of a frame with the rows that `rows` gives.
    pub(super) fn sheet(&mut self, frame: &Frame, rows: impl FnOnce(&mut dyn FnMut(Row))) -> Result<Drawn, XlsxError> {
        let mut sheet = Worksheet::new();
        sheet.set_name(&frame.name)?;
        // A formula whose result is empty text would else be stored as 0.
        sheet.set_formula_result_default("");
        for (column, width) in (0_u16..).zip(&frame.widths) {
            sheet.set_column_width(column, *width)?;
        }
        let mut failed = Ok(());
        let formats = &mut self.formats;
        let mut noted = Noted::of(&frame.name, &frame.pictures);
        let mut last_row = 0;
        rows(&mut |row| {
            last_row = last_row.max(row.row);
            let lines = lines_of(&row, &frame.widths);
            if lines > 1 && failed.is_ok() {
                failed = sheet.set_row_height(row.row, lines.saturating_mul(LINE_HEIGHT)).map(|_| ());
            }
            for cell in &row.cells {
                noted.take(row.row, cell);
                if failed.is_ok() {
                    failed = put(&mut sheet, row.row, cell, formats);
                }
            }
        });
        failed?;
        self.look(&mut sheet, frame)?;
        self.paper.set(&mut sheet, frame, last_row)?;
        for picture in &frame.pictures {
            charts::draw(&mut sheet, &frame.name, picture)?;
        }
        Ok((sheet, noted.stored().collect()))
    }

    /// What is seen on the screen besides the cells.
    fn look(&self, sheet: &mut Worksheet, frame: &Frame) -> Result<(), XlsxError> {
        if frame.frozen_rows > 0 {
            sheet.set_freeze_panes(frame.frozen_rows, 0)?;
        }
        sheet.set_screen_gridlines(frame.tab == Tab::Carried);
        if let Some(colour) = tab(frame.tab) {
            sheet.set_tab_color(colour);
        }
        if let Some((words, span)) = &frame.alert {
            let rule = ConditionalFormatText::new()
                .set_rule(ConditionalFormatTextRule::Contains(words.clone()))
                .set_format(alert());
            sheet.add_conditional_format(span.first, span.column, span.last, span.column, &rule)?;
        }
        Ok(())
    }
}

/// The height of a line of text in points, as spreadsheet programs have it.
const LINE_HEIGHT: u32 = 15;

fn put(
    sheet: &mut Worksheet,
    row: u32,
    cell: &Cell,
    formats: &mut HashMap<(Ink, Look), Format>,
) -> Result<(), XlsxError> {
    let format = &*formats.entry((cell.ink, cell.look.clone())).or_insert_with(|| format_of(cell.ink, &cell.look));
    let column = cell.column;
    match &cell.content {
        Content::Blank => sheet.write_blank(row, column, format)?,
        Content::Text(text) if matches!(cell.look, Look::Flowing(_)) => flow(sheet, row, cell, text, format)?,
        Content::Text(text) => sheet.write_string_with_format(row, column, written(text), format)?,
        Content::Number(number) => sheet.write_number_with_format(row, column, to_float(*number), format)?,
        Content::Bool(yes) => sheet.write_boolean_with_format(row, column, *yes, format)?,
        Content::Date(date) => match ExcelDateTime::from_ymd(year(*date), month(*date), day(*date)) {
            Ok(written) => sheet.write_datetime_with_format(row, column, &written, format)?,
            // A workbook's calendar begins in 1900.
            Err(_) => sheet.write_string_with_format(row, column, date.to_string(), format)?,
        },
        Content::Formula(formula) => {
            let result = match &formula.result {
                Outcome::Number(number) => stored(*number),
                Outcome::Text(text) => text.clone(),
            };
            sheet.write_formula_with_format(row, column, Written::new(&formula.text).set_result(result), format)?
        }
        Content::Link { text, sheet: to, cell } => {
            let target = format!("internal:'{}'!{cell}", to.replace('\'', "''"));
            // Of a link's own text the library makes an attribute as well, in which no XML may hold what a cell may.
            sheet.write_url_with_format(row, column, Url::new(target), format)?;
            sheet.write_string_with_format(row, column, written(text), format)?
        }
    };
    Ok(())
}

/// Text over several columns of one row.
fn flow<'s>(
    sheet: &'s mut Worksheet,
    row: u32,
    cell: &Cell,
    text: &str,
    format: &Format,
) -> Result<&'s mut Worksheet, XlsxError> {
    match cell.look {
        Look::Flowing(last) if last > cell.column => {
            sheet.merge_range(row, cell.column, row, last, "", format)?;
        }
        _ => {}
    }
    sheet.write_string_with_format(row, cell.column, written(text), format)
}

/// A text as it is handed to the library.
fn written(text: &str) -> Cow<'_, str> {
    let text = fitting(text);
    // The library takes what stands in these brackets for markup of its own and writes it as it is. A space behind it, which
    // no reader of ours keeps, makes it text like any other.
    if text.starts_with("<r>") && text.ends_with("</r>") { format!("{text} ").into() } else { text.into() }
}

pub(super) fn year(date: Date) -> u16 {
    u16::try_from(date.year()).unwrap_or_default()
}

pub(super) fn month(date: Date) -> u8 {
    u8::try_from(date.month()).unwrap_or_default()
}

pub(super) fn day(date: Date) -> u8 {
    u8::try_from(date.day()).unwrap_or_default()
}

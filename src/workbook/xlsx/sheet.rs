//! Worksheets: their rows written as XML by us, and of the library only the frame round them.

use std::collections::BTreeMap;
use std::ops::Range;

use jiff::civil::Date;
use rust_xlsxwriter::{
    Color, ConditionalFormatFormula, ConditionalFormatText, ConditionalFormatTextRule, ExcelDateTime, Format,
    FormatBorder, Formula as Written, Url, Worksheet, XlsxError,
};

use super::charts;
use super::charts::Noted;
use super::extent::Extent;
use super::format::{alert, tab};
use super::height::{height_of, uncut};
use super::notes;
use super::notes::CellNotes;
use super::page_setup::{PageSetup, Paper, Printed};
use super::piece::Piece;
use super::row_writer::RowWriter;
use super::strips::Strips;
use crate::workbook::cells::formula::Outcome;
use crate::workbook::cells::number::{stored, to_float};
use crate::workbook::cells::row::{Cell, Content, Frame, Ink, Row, Tab};

/// Rows of a sheet as they were drawn, with what the sheet is besides.
#[derive(Debug)]
pub(super) struct Drawn {
    pub(super) frame: Frame,
    pub(super) piece: Piece,
    pub(super) noted: Noted,
    pub(super) notes: CellNotes,
}

impl Drawn {
    /// The sheet of a frame with the rows that `rows` gives in any order, those of one number side by side.
    pub(super) fn of(
        frame: Frame,
        notes: CellNotes,
        rows: impl FnOnce(&mut dyn FnMut(Row)),
    ) -> Result<Drawn, XlsxError> {
        let mut written = RowWriter::of(notes.keys().copied(), true);
        let mut gathered: BTreeMap<u32, Vec<Cell>> = BTreeMap::new();
        rows(&mut |row| {
            let row = linked(row);
            written.know(&row.cells);
            gathered.entry(row.row).or_default().extend(row.cells);
        });
        let widths = frame.widths.clone();
        let strips = Strips::of(&frame, None);
        Drawn::written(written, frame, notes, |out| {
            gathered.into_iter().for_each(|(row, cells)| out(Row { row, cells: uncut(cells, &widths, &strips) }));
        })
    }

    /// A list with the rows that `rows` gives from the top down. `blocks` are the rows of the sheet of which none but those
    /// comes, in whole blocks (`row_writer::BLOCK`); the part that begins the sheet has its notes. `None` where others may come
    /// within a block.
    pub(super) fn of_list(
        frame: Frame,
        notes: CellNotes,
        blocks: Option<Range<u32>>,
        rows: impl FnOnce(&mut dyn FnMut(Row)),
    ) -> Result<Drawn, XlsxError> {
        let within = blocks.clone().unwrap_or_default();
        let noted = notes.keys().copied().filter(|(row, _)| within.contains(row));
        let written = RowWriter::of(noted, blocks.is_some());
        let begins = blocks.is_none_or(|blocks| blocks.start == 0);
        Drawn::written(written, frame, if begins { notes } else { CellNotes::new() }, rows)
    }

    fn written(
        mut written: RowWriter,
        frame: Frame,
        notes: CellNotes,
        rows: impl FnOnce(&mut dyn FnMut(Row)),
    ) -> Result<Drawn, XlsxError> {
        let mut noted = Noted::of(&frame.name, &frame.pictures);
        let mut failed = Ok(());
        rows(&mut |row| {
            if failed.is_err() {
                return;
            }
            let row = linked(row);
            let height = height_of(&row, &frame.widths);
            noted.take(&row);
            failed = written.put(row, height);
        });
        failed?;
        Ok(Drawn { piece: written.piece(), frame, noted, notes })
    }
}

/// A row whose readings that lead elsewhere look like it.
fn linked(mut row: Row) -> Row {
    for cell in &mut row.cells {
        if cell.ink == Ink::Reading && matches!(cell.content, Content::Link { .. }) {
            cell.ink = Ink::Link;
        }
    }
    row
}

/// What a sheet is besides its rows.
#[derive(Debug)]
pub(super) struct Sheet {
    pub(super) frame: Frame,
    pub(super) noted: Noted,
    pub(super) notes: CellNotes,
    /// The cells that it fills.
    pub(super) extent: Option<Extent>,
    /// Whether any of its cells leads to another.
    pub(super) leads: bool,
    pub(super) merged: Vec<(u32, u16, u16)>,
    /// The rows that are higher than usual, and how high in points.
    pub(super) heights: Vec<(u32, u32)>,
}

impl Sheet {
    /// How it comes to paper.
    pub(super) fn page(&self, paper: &Paper) -> (PageSetup, Printed) {
        paper.page(&self.frame, self.last(), &self.heights)
    }

    /// Its last row and column.
    fn last(&self) -> (u32, u16) {
        self.extent.map_or((0, 0), |extent| extent.last)
    }

    /// What its frame looks like, where another sheet may have the same: where nothing in it is the sheet's own but its name,
    /// the cells that it fills and those that share a text.
    pub(super) fn plain_look(&self, page: &PageSetup) -> Option<PlainLook> {
        let Frame { widths, frozen_rows, frozen_columns, tab, .. } = &self.frame;
        let own = !self.frame.pictures.is_empty()
            || !self.noted.cells.is_empty()
            || !self.notes.is_empty()
            || self.frame.alert.is_some()
            || is_in_groups(&self.frame, self.last().0);
        let frozen = (*frozen_rows, *frozen_columns);
        (!own).then(|| PlainLook { widths: widths.clone(), frozen, tab: *tab, leads: self.leads, page: page.clone() })
    }

    /// The library's sheet with everything but the rows, where they lead and which cells share a text. Of cells it has those
    /// that charts are drawn from.
    pub(super) fn framed(&self, page: &PageSetup) -> Result<Worksheet, XlsxError> {
        let frame = &self.frame;
        let mut sheet = Worksheet::new();
        sheet.set_name(&frame.name)?;
        for (column, width) in (0_u16..).zip(&frame.widths) {
            sheet.set_column_width(column, *width)?;
        }
        // Where notes and charts come to lie is measured in them.
        if !self.notes.is_empty() || !frame.pictures.is_empty() {
            for (row, height) in &self.heights {
                sheet.set_row_height(*row, *height)?;
            }
        }
        if self.leads {
            // A specimen, in whose place the sheet's own are put: the library would hold each of them in a dozen texts.
            sheet.write_url_with_format(0, 0, Url::new("internal:A1"), &Format::new())?;
        }
        for (row, cell) in &self.noted.cells {
            put(&mut sheet, *row, cell)?;
        }
        look(&mut sheet, frame)?;
        apart(&mut sheet, frame, self.last())?;
        page.set(&mut sheet)?;
        for picture in &frame.pictures {
            charts::draw(&mut sheet, &frame.name, picture)?;
        }
        notes::put(&mut sheet, &self.notes)?;
        Ok(sheet)
    }

    /// The cells that the sheet says it fills, notes among them: `A1:H20`.
    pub(super) fn dimension(&self) -> Option<Extent> {
        self.notes
            .keys()
            .fold(self.extent, |extent, (row, column)| Extent::joined(extent, Some(Extent::of(*row, *column))))
    }
}

/// What a frame looks like that is the same for many sheets: what is seen besides the cells, and how it comes to paper.
#[derive(Debug, PartialEq, Eq, Hash)]
pub(super) struct PlainLook {
    widths: Vec<u16>,
    frozen: (u32, u16),
    tab: Tab,
    leads: bool,
    page: PageSetup,
}

/// What is seen on the screen besides the cells.
fn look(sheet: &mut Worksheet, frame: &Frame) -> Result<(), XlsxError> {
    if frame.frozen_rows > 0 || frame.frozen_columns > 0 {
        sheet.set_freeze_panes(frame.frozen_rows, frame.frozen_columns)?;
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

/// Has a line drawn above every group of a table, by the names in its first column, wherever its rows are moved to.
fn apart(sheet: &mut Worksheet, frame: &Frame, (last_row, last_column): (u32, u16)) -> Result<(), XlsxError> {
    if !is_in_groups(frame, last_row) {
        return Ok(());
    }
    let line = Format::new().set_border_top(FormatBorder::Thin).set_border_top_color(LINE);
    let rule = ConditionalFormatFormula::new().set_rule("=AND($A3<>\"\",$A3<>$A2)").set_format(line);
    sheet.add_conditional_format(2, 0, last_row, last_column, &rule)?;
    Ok(())
}

const LINE: Color = Color::RGB(0x2F_5D_50);

/// Whether the groups of a table are told apart.
fn is_in_groups(frame: &Frame, last_row: u32) -> bool {
    /// In long lists programs would be slow over it.
    const MOST: u32 = 5_000;
    !frame.page.groups.is_empty() && frame.tab == Tab::Inputs && (2..=MOST).contains(&last_row)
}

/// Gives the library a cell that a chart is drawn from.
fn put(sheet: &mut Worksheet, row: u32, cell: &Cell) -> Result<(), XlsxError> {
    let column = cell.column;
    match &cell.content {
        Content::Text(text) | Content::Link { text, .. } => sheet.write_string(row, column, text)?,
        Content::Number(number) => sheet.write_number(row, column, to_float(*number))?,
        Content::Formula(formula) => {
            let result = match &formula.result {
                Outcome::Number(number) => stored(*number),
                Outcome::Text(text) => text.clone(),
            };
            sheet.write_formula(row, column, Written::new(formula.whole()).set_result(result))?
        }
        Content::Blank | Content::Date(_) | Content::Bool(_) => sheet,
    };
    Ok(())
}

/// A day as a workbook counts it; `None` before its calendar begins.
pub(super) fn days(date: Date) -> Option<String> {
    // The library takes the day before the first as well, for times of day.
    let counted = (date.year() >= 1900).then(|| ExcelDateTime::from_ymd(year(date), month(date), day(date)).ok())??;
    Some(counted.to_excel().to_string())
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

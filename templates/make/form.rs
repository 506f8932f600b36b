//! A table to fill in: its header with a note on every cell, the example's rows, and empty rows that are ready.
//!
//! Only so many rows are drawn as fit on paper; number formats hold for the whole column and drop-down lists for
//! [`LIST_ROWS`] rows, so that typing on below the lines works as well.

use std::iter::repeat;

use rust_xlsxwriter::{
    DataValidation, DataValidationErrorStyle, DataValidationRule, Format, FormatAlign, FormatBorder, Formula,
    IgnoreError, Note, XlsxError,
};

use super::columns::{Column, Others, Shape};
use super::pen::{Book, Cell, PALE, Page, RULE};
use super::region::Region;

/// The rows below a header in which a drop-down list stands.
pub const LIST_ROWS: u32 = 200;

/// A sheet with one table.
pub struct Form<'a> {
    /// Its name, which is its title too.
    pub name: &'a str,
    /// What it is for, in one line.
    pub about: &'a str,
    /// Whether it prints on its side.
    pub wide: bool,
    /// Its columns.
    pub columns: &'a [Column],
    /// The rows of the example.
    pub example: &'a [Vec<Cell>],
    /// How many empty rows are drawn.
    pub empty: u32,
}

impl Form<'_> {
    /// Adds the sheet to `book`.
    pub fn add(&self, book: &mut Book, region: Region) -> Result<(), XlsxError> {
        let widths: Vec<u16> = self.columns.iter().map(|column| column.width).collect();
        let mut page = book.sheet(self.name, &widths, self.wide)?;
        let breaks = strips(&widths);
        if self.wide && !breaks.is_empty() {
            page.sheet().set_print_scale(SCALE).set_vertical_page_breaks(&breaks)?.set_repeat_columns(0, 0)?;
        }
        for (at, column) in (0..).zip(self.columns) {
            page.sheet().set_column_format(at, &bare(at, column.shape, region))?;
        }
        page.title(self.name, self.about)?;
        let header = page.row();
        page.lasting_header(&heads(self.columns), 1)?;
        notes(&mut page, header, self.columns)?;
        rows(&mut page, region, self.columns, self.example, self.empty)?;
        lists(&mut page, header + 1, self.columns, LIST_ROWS)
    }
}

/// The scale at which a form that is wider than a page is printed, in per cent: letters of 11 points come to 9.35.
const SCALE: u16 = 85;

/// The columns before which a form that lies is divided, so that its letters stay large enough; the first column stands again
/// on every strip. None where one page is wide enough.
fn strips(widths: &[u16]) -> Vec<u32> {
    /// What the narrower paper lying, Letter, leaves in characters: 10 inches of 72 points, 5.55 a character, at 82 % and, a
    /// little less for programs that measure otherwise, at 85 %.
    const WHOLE: u16 = 158;
    const STRIP: u16 = 149;
    let mut breaks = Vec::new();
    // A column is a little wider than its letters.
    let widths = || widths.iter().map(|width| width + 1);
    if widths().sum::<u16>() <= WHOLE {
        return breaks;
    }
    let first = widths().next().unwrap_or_default();
    let mut used = 0;
    for (at, width) in (0u32..).zip(widths()) {
        if used + width > STRIP {
            breaks.push(at);
            used = first;
        }
        used += width;
    }
    breaks
}

/// The headers as the pen takes them: `>` before those that stand to the right.
pub fn heads(columns: &[Column]) -> Vec<String> {
    let head = |column: &Column| format!("{}{}", if column.shape.is_right() { ">" } else { "" }, column.name);
    columns.iter().map(head).collect()
}

/// Puts the notes on the header cells in row `header`.
pub fn notes(page: &mut Page<'_>, header: u32, columns: &[Column]) -> Result<(), XlsxError> {
    for (at, column) in (0..).zip(columns) {
        note(page, header, at, column.note)?;
    }
    Ok(())
}

/// Puts a note on a cell, large enough for its text.
pub fn note(page: &mut Page<'_>, row: u32, column: u16, text: &str) -> Result<(), XlsxError> {
    // About 36 characters of the note's small type fit on a line of this width.
    let lines: u32 = text.lines().map(|line| u32::try_from(line.len()).unwrap_or(0) / 36 + 1).sum();
    let note = Note::new(text).add_author_prefix(false).set_width(250).set_height(16 * lines + 16);
    page.sheet().insert_note(row, column, &note)?;
    Ok(())
}

/// The rows of the example on a pale ground, then empty rows.
pub fn rows(
    page: &mut Page<'_>,
    region: Region,
    columns: &[Column],
    example: &[Vec<Cell>],
    empty: u32,
) -> Result<(), XlsxError> {
    let first = page.row();
    for row in example {
        for ((at, column), cell) in (0..).zip(columns).zip(row.iter().copied().chain(repeat(Cell::Blank))) {
            page.put(at, cell, &ruled(at, column.shape, region).set_background_color(PALE).set_italic())?;
        }
        page.skip(1);
    }
    for _ in 0..empty {
        for (at, column) in (0..).zip(columns) {
            page.put(at, Cell::Blank, &ruled(at, column.shape, region))?;
        }
        page.skip(1);
    }
    for (at, column) in (0..).zip(columns) {
        if matches!(column.shape, Shape::AsTyped | Shape::Amount) {
            page.sheet().ignore_error_range(first, at, first + LIST_ROWS, at, IgnoreError::NumberStoredAsText)?;
        }
    }
    Ok(())
}

/// Puts the drop-down lists of `columns`, and the check of percentages, into `rows` rows from `first` on.
pub fn lists(page: &mut Page<'_>, first: u32, columns: &[Column], rows: u32) -> Result<(), XlsxError> {
    for (at, column) in (0..).zip(columns) {
        if !column.choices.is_empty() {
            let list = choice(column.choices, column.others)?;
            page.sheet().add_data_validation(first, at, first + rows - 1, at, &list)?;
        }
        if !column.typed_in.is_empty() {
            page.sheet().add_data_validation(first, at, first + rows - 1, at, &typed(column.typed_in))?;
        }
        if column.shape == Shape::Percent {
            page.sheet().add_data_validation(first, at, first + rows - 1, at, &percentage()?)?;
        }
    }
    Ok(())
}

/// A drop-down list of what was typed in `cells`; other words are as good.
pub fn typed(cells: &str) -> DataValidation {
    DataValidation::new().allow_list_formula(Formula::new(cells)).show_error_message(false)
}

/// A drop-down list, and what is said of other words.
pub fn choice(words: &[&str], others: Others) -> Result<DataValidation, XlsxError> {
    let list = DataValidation::new().allow_list_strings(words)?;
    match others {
        Others::Taken => Ok(list.show_error_message(false)),
        Others::Doubted => list
            .set_error_style(DataValidationErrorStyle::Warning)
            .set_error_title("Not in the list")?
            .set_error_message("This word is not in the list. Keep it if it is what you mean."),
        Others::Refused => list
            .set_error_title("Not one of the words")?
            .set_error_message("Choose a word from the list, or clear the cell."),
    }
}

/// Asks whether more than 100 % is meant: some programs take 80, typed without a sign, for 8000 %.
pub fn percentage() -> Result<DataValidation, XlsxError> {
    DataValidation::new()
        .allow_decimal_number(DataValidationRule::LessThanOrEqualTo(1.0))
        .set_error_style(DataValidationErrorStyle::Warning)
        .set_error_title("More than 100%?")?
        .set_error_message("Type a percentage with its sign, such as 80%. Keep it if more than 100% is meant.")
}

/// The format of a cell to fill in, in the column at `at`, with a hairline under it.
pub fn ruled(at: u16, shape: Shape, region: Region) -> Format {
    bare(at, shape, region).set_border_bottom(FormatBorder::Hair).set_border_bottom_color(RULE)
}

/// How what is typed is kept and shown. Words keep clear of what stands to their left, as their header does.
fn bare(at: u16, shape: Shape, region: Region) -> Format {
    let words = if at == 0 { Format::new() } else { Format::new().set_indent(1) };
    let right = Format::new().set_align(FormatAlign::Right);
    match shape {
        Shape::Free => words,
        Shape::AsTyped => words.set_num_format("@"),
        Shape::Amount => right.set_num_format("@"),
        Shape::Money => right.set_num_format(region.money_format()),
        Shape::Percent => right.set_num_format("0%"),
        Shape::Day => right.set_num_format("yyyy-mm-dd"),
        Shape::Number => right,
    }
}

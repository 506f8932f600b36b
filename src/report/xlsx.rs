//! The costed workbook: every sheet's rows rendered with one set of formats.

use std::collections::HashMap;

use jiff::civil::{Date, DateTime};
use rust_xlsxwriter::{
    Color, DocProperties, ExcelDateTime, Format, FormatAlign, FormatBorder, Formula as Written, Url, Workbook,
    Worksheet, XlsxError,
};

use crate::costing::Costing;
use crate::kitchen::{Kitchen, RecipeId};
use crate::problem::Problem;
use crate::report::context::Context;
use crate::report::formula::Outcome;
use crate::report::in_force::SettingsLayout;
use crate::report::layout::Layout;
use crate::report::number::{stored, to_float};
use crate::report::problems::{Counts, land};
use crate::report::row::{Cell, Content, Frame, Ink, Look, Row};
use crate::report::sheets::{cards, carried, lists, plain, prices, problems, settings, summary, table, tests, working};
use crate::report::stamp;
use crate::schema::{CarriedSheet, TableKind, marker};

/// How hard the workbook is packed: a tenth larger than at the usual 6, in little more than half the time.
const PACKED: u8 = 2;

/// Why a workbook could not be made.
#[derive(Debug, thiserror::Error)]
#[error("the costed workbook could not be made: {0}")]
pub struct WriteError(#[from] XlsxError);

/// What a workbook is made from.
#[derive(Debug, Clone, Copy)]
pub struct Book<'a> {
    /// The kitchen.
    pub kitchen: &'a Kitchen,
    /// Its costing.
    pub costing: &'a Costing,
    /// All problems.
    pub problems: &'a [Problem],
    /// Sheets carried over.
    pub carried: &'a [CarriedSheet],
    /// The files that the figures come from.
    pub origins: &'a [String],
}

/// The workbook's bytes.
///
/// # Errors
/// [`WriteError`] when it has more rows or sheets than a workbook can hold.
pub fn write(book: Book<'_>, at: DateTime) -> Result<Vec<u8>, WriteError> {
    let layout = Layout::of(book.kitchen, book.carried);
    let settings_layout = SettingsLayout::of(book.kitchen);
    let mark = marker::text(stamp::VERSION, book.origins);
    let context = Context {
        kitchen: book.kitchen,
        costing: book.costing,
        layout: &layout,
        settings: &settings_layout,
        mark: &mark,
    };
    let landed = land(book.kitchen, &layout, &settings_layout, book.carried, book.problems);
    let counts = Counts::of(landed.iter().map(|problem| problem.severity));

    let paper = paper(&book.kitchen.settings.currency);
    let mut pen = Pen { workbook: Workbook::new(), formats: HashMap::new(), paper };
    pen.workbook.set_zip_compression_level(PACKED);
    pen.sheet(&summary::frame(), |out| summary::rows(&context, &counts, out))?;
    for kind in [TableKind::Menu, TableKind::Plan] {
        pen.table(&context, kind)?;
    }
    match &layout.lists {
        None => {
            for (index, card) in layout.recipes.iter().enumerate() {
                pen.sheet(&cards::frame(card), |out| cards::rows(&context, RecipeId::new(index), out))?;
            }
        }
        Some(lists) => {
            pen.sheet(&table::frame(&lists.facts), |out| lists::facts(&context, lists, out))?;
            for (sheet, recipes) in &lists.sheets {
                pen.sheet(&table::frame(sheet), |out| lists::lines(&context, sheet, recipes.clone(), out))?;
            }
        }
    }
    pen.table(&context, TableKind::RecipeLines)?;
    for kind in [TableKind::Prices, TableKind::Measures, TableKind::YieldTests, TableKind::Stock, TableKind::Control] {
        pen.table(&context, kind)?;
    }
    pen.sheet(&settings::frame(), |out| settings::rows(&context, out))?;
    for (sheet, name) in book.carried.iter().zip(&layout.carried) {
        pen.sheet(&carried::frame(name), |out| carried::rows(&context, sheet, out))?;
    }
    pen.sheet(&problems::frame(), |out| problems::rows(&context, &landed, &counts, out))?;
    pen.sheet(&working::frame(), |out| working::rows(&context, out))?;
    pen.stamp(at)?;
    Ok(pen.workbook.save_to_buffer()?)
}

/// Writes sheets, one format for every kind of cell.
struct Pen {
    workbook: Workbook,
    formats: HashMap<(Ink, Look), Format>,
    paper: u8,
}

/// Letter where it is used (common practice, no source), A4 elsewhere; numbers of ECMA-376 part 1, 18.3.1.63.
fn paper(currency: &str) -> u8 {
    const LETTER: u8 = 1;
    const A4: u8 = 9;
    if matches!(currency, "USD" | "CAD" | "MXN") { LETTER } else { A4 }
}

impl Pen {
    fn table(&mut self, context: &Context<'_>, kind: TableKind) -> Result<(), XlsxError> {
        let Some(layout) = context.layout.table(kind) else { return Ok(()) };
        self.sheet(&table::frame(layout), |out| match kind {
            TableKind::Prices => prices::rows(context, layout, out),
            TableKind::YieldTests => tests::rows(context, layout, out),
            _ => plain::rows(context, layout, out),
        })
    }

    fn sheet(&mut self, frame: &Frame, rows: impl FnOnce(&mut dyn FnMut(Row))) -> Result<(), XlsxError> {
        let sheet = self.workbook.add_worksheet();
        sheet.set_name(&frame.name)?;
        // A formula whose result is empty text would else be stored as 0.
        sheet.set_formula_result_default("");
        for (column, width) in (0_u16..).zip(&frame.widths) {
            sheet.set_column_width(column, *width)?;
        }
        if frame.frozen_rows > 0 {
            sheet.set_freeze_panes(frame.frozen_rows, 0)?;
        }
        sheet.set_landscape().set_print_fit_to_pages(1, 0).set_paper_size(self.paper);
        let mut failed = Ok(());
        let formats = &mut self.formats;
        rows(&mut |row| {
            let lines = lines_of(&row, &frame.widths);
            if lines > 1 && failed.is_ok() {
                failed = sheet.set_row_height(row.row, lines.saturating_mul(LINE_HEIGHT)).map(|_| ());
            }
            for cell in &row.cells {
                if failed.is_ok() {
                    failed = put(sheet, row.row, cell, formats);
                }
            }
        });
        failed
    }

    fn stamp(&mut self, at: DateTime) -> Result<(), XlsxError> {
        let created = ExcelDateTime::from_ymd(year(at.date()), month(at.date()), day(at.date()))?.and_hms(
            u16::try_from(at.hour()).unwrap_or_default(),
            u8::try_from(at.minute()).unwrap_or_default(),
            u8::try_from(at.second()).unwrap_or_default(),
        )?;
        let properties =
            DocProperties::new().set_creation_datetime(&created).set_custom_property(stamp::PROPERTY, stamp::VERSION);
        self.workbook.set_properties(&properties);
        Ok(())
    }
}

fn year(date: Date) -> u16 {
    u16::try_from(date.year()).unwrap_or_default()
}

fn month(date: Date) -> u8 {
    u8::try_from(date.month()).unwrap_or_default()
}

fn day(date: Date) -> u8 {
    u8::try_from(date.day()).unwrap_or_default()
}

/// The height of a line of text in points, as spreadsheet programs have it.
const LINE_HEIGHT: u32 = 15;

/// How many lines the longest wrapped text of a row takes. Not every program makes room for them by itself. A width counts
/// figures, and letters are narrower than those: six go where five figures do, with some room left (measured by eye).
fn lines_of(row: &Row, widths: &[u16]) -> u32 {
    let lines = row.cells.iter().filter(|cell| cell.look == Look::Wrapped).filter_map(|cell| {
        let Content::Text(text) = &cell.content else { return None };
        let width = usize::from(*widths.get(usize::from(cell.column))?).saturating_mul(6) / 5;
        Some(text.chars().count().div_ceil(width.max(1)))
    });
    lines.max().and_then(|lines| u32::try_from(lines).ok()).unwrap_or(1).min(20)
}

fn put(
    sheet: &mut Worksheet,
    row: u32,
    cell: &Cell,
    formats: &mut HashMap<(Ink, Look), Format>,
) -> Result<(), XlsxError> {
    let format = &*formats.entry((cell.ink, cell.look.clone())).or_insert_with(|| format_of(cell.ink, &cell.look));
    let column = cell.column;
    match &cell.content {
        Content::Text(text) => sheet.write_string_with_format(row, column, fitting(text), format)?,
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
            sheet.write_url_with_format(row, column, Url::new(target).set_text(fitting(text)), format)?
        }
    };
    Ok(())
}

/// The most characters that a cell holds (ECMA-376 part 1, 3.17.2 as programs keep it).
const MOST_CHARACTERS: usize = 32_767;

fn fitting(text: &str) -> String {
    if text.encode_utf16().count() <= MOST_CHARACTERS {
        return text.to_owned();
    }
    let mut used = 0_usize;
    text.chars()
        .take_while(|c| {
            used = used.saturating_add(c.len_utf16());
            used <= MOST_CHARACTERS
        })
        .collect()
}

/// Inputs stand on a pale ground, readings are slanted, figures are upright on white: three kinds, told apart in print.
fn format_of(ink: Ink, look: &Look) -> Format {
    const ACCENT: Color = Color::RGB(0x2F_5D_50);
    const GROUND: Color = Color::RGB(0xFB_F6_E9);
    let plain = with_look(Format::new(), look);
    match ink {
        Ink::Input => plain.set_background_color(GROUND).set_border(FormatBorder::Hair).set_unlocked(),
        Ink::Reading => plain.set_italic(),
        Ink::Figure | Ink::Plain => plain,
        Ink::Title => plain.set_bold().set_font_size(14).set_font_color(ACCENT),
        Ink::Header => plain.set_bold().set_border_bottom(FormatBorder::Thin).set_text_wrap(),
        Ink::OwnHeader => plain.set_bold().set_italic().set_border_bottom(FormatBorder::Thin).set_text_wrap(),
        Ink::Label => plain.set_bold(),
    }
}

fn with_look(format: Format, look: &Look) -> Format {
    match look {
        Look::General => format,
        // The region's own currency format: the cell shows money and names no sign.
        Look::Money(sign) if sign.is_empty() => format.set_num_format_index(7),
        Look::Money(sign) => format.set_num_format(format!("{}#,##0.00##", in_quotes(sign))),
        Look::UnitCost(sign) => format.set_num_format(format!("{}#,##0.000000", in_quotes(sign))),
        Look::Percent(0) => format.set_num_format("0%"),
        Look::Percent(places) => {
            format.set_num_format(format!("0.{}%", "0".repeat(usize::try_from(*places).unwrap_or_default())))
        }
        Look::Quantity => format.set_num_format("#,##0.###"),
        Look::Date => format.set_num_format("yyyy-mm-dd"),
        Look::Fraction => format.set_num_format("# ??/??"),
        Look::Words => format.set_indent(1),
        Look::Wrapped => format.set_text_wrap().set_align(FormatAlign::Top),
    }
}

/// A currency sign as a number format quotes it; a code stands a space apart.
fn in_quotes(sign: &str) -> String {
    if sign.is_empty() {
        return String::new();
    }
    let space = if sign.chars().count() > 1 { " " } else { "" };
    format!("\"{}\"{space}", sign.replace('"', ""))
}

//! Charts drawn with the library, and the values that they show kept for viewers that do not calculate.
//!
//! A viewer that does not recalculate draws a chart from the values stored in it. The library stores those of plain
//! cells and leaves those of formulas empty, so the results are noted while the cells are written, by the very text of
//! the range, and put in when the workbook is bound (`stored`).

use std::collections::HashMap;

use rust_xlsxwriter::{
    Chart, ChartAxisCrossing, ChartAxisLabelPosition, ChartFont, ChartFormat, ChartLegendPosition, ChartLine,
    ChartSolidFill, ChartType, Color, Worksheet, XlsxError,
};

use super::format::number_format;
use crate::problem::place::column_letters;
use crate::workbook::cells::chart::{Picture, PictureKind, Span, Tint};
use crate::workbook::cells::formula::{Formula, Outcome, quoted};
use crate::workbook::cells::number::stored;
use crate::workbook::cells::row::{Cell, Content, Row};

/// The stored values of every range that a chart is drawn from, by the text of the range.
pub(super) type Stored = HashMap<String, Vec<Option<String>>>;

/// Collects the cells that charts are drawn from, and the figures among them.
#[derive(Debug, Default)]
pub(super) struct Noted {
    names: Vec<Span>,
    spans: Vec<(Span, String, Vec<Option<String>>)>,
    /// The cells with their rows.
    pub(super) cells: Vec<(u32, Cell)>,
}

impl Noted {
    /// Nothing yet of `pictures`, which stand on `sheet`.
    pub(super) fn of(sheet: &str, pictures: &[Picture]) -> Self {
        let spans = pictures.iter().flat_map(|picture| picture.series.iter().map(|series| series.values));
        let empty = |span: Span| vec![None; span.last.saturating_sub(span.first).saturating_add(1) as usize];
        Noted {
            names: pictures.iter().map(|picture| picture.names).collect(),
            spans: spans.map(|span| (span, range(sheet, span), empty(span))).collect(),
            cells: Vec::new(),
        }
    }

    /// Notes the cells of a row.
    pub(super) fn take(&mut self, row: &Row) {
        if self.names.is_empty() {
            return;
        }
        for cell in &row.cells {
            let mut drawn = self.names.iter().any(|span| span.place(row.row, cell.column).is_some());
            for (span, _, values) in &mut self.spans {
                let slot = span.place(row.row, cell.column).and_then(|at| values.get_mut(at));
                drawn = drawn || slot.is_some();
                let number = match &cell.content {
                    Content::Number(number) => Some(number),
                    Content::Formula(Formula { result: Outcome::Number(number), .. }) => Some(number),
                    _ => None,
                };
                if let (Some(slot), Some(number)) = (slot, number) {
                    *slot = Some(stored(*number));
                }
            }
            if drawn {
                self.cells.push((row.row, cell.clone()));
            }
        }
    }

    /// What was noted.
    pub(super) fn stored(&mut self) -> impl Iterator<Item = (String, Vec<Option<String>>)> {
        let any = |values: &[Option<String>]| values.iter().any(Option::is_some);
        let spans = std::mem::take(&mut self.spans).into_iter();
        spans.filter(move |(.., values)| any(values)).map(|(_, range, values)| (key(&range), values))
    }
}

/// A range as the library writes it into a chart, whose quotes depend on the name.
pub(super) fn key(range: &str) -> String {
    range.replace('\'', "")
}

/// `'Trim'!$C$4:$C$9`.
fn range(sheet: &str, span: Span) -> String {
    let letters = column_letters(u32::from(span.column));
    let (first, last) = (u64::from(span.first).saturating_add(1), u64::from(span.last).saturating_add(1));
    format!("{}!${letters}${first}:${letters}${last}", quoted(sheet))
}

/// Draws a picture on its sheet, whose name is `name`.
pub(super) fn draw(sheet: &mut Worksheet, name: &str, picture: &Picture) -> Result<(), XlsxError> {
    let mut chart = Chart::new(match picture.kind {
        PictureKind::Bars => ChartType::Bar,
        PictureKind::Shares => ChartType::BarStacked,
        PictureKind::Lines => ChartType::Line,
    });
    chart.title().set_name(&picture.title).set_font(ChartFont::new().set_size(12).set_bold().set_color(DARK));
    for series in &picture.series {
        let colour = colour(series.tint);
        let drawn = chart.add_series();
        drawn.set_name(&series.name).set_categories(range(name, picture.names).as_str());
        drawn.set_values(range(name, series.values).as_str());
        let mut format = ChartFormat::new();
        if picture.kind == PictureKind::Lines {
            format.set_line(ChartLine::new().set_color(colour).set_width(2.25));
        } else {
            format.set_solid_fill(ChartSolidFill::new().set_color(colour));
            drawn.set_gap(60);
        }
        drawn.set_format(&mut format);
    }
    chart.set_width(picture.size.0).set_height(picture.size.1);
    if picture.series.len() > 1 {
        chart.legend().set_position(ChartLegendPosition::Bottom);
    } else {
        chart.legend().set_hidden();
    }
    let lying = picture.kind != PictureKind::Lines;
    let names = if lying { chart.y_axis() } else { chart.x_axis() };
    if lying {
        // The first name at the top, the figures still at the bottom, and names clear of bars that go to the left.
        names.set_reverse().set_crossing(ChartAxisCrossing::Max).set_label_position(ChartAxisLabelPosition::Low);
    }
    if let Some(text) = &picture.axes.1 {
        names.set_name(text);
    }
    if let Some(format) = number_format(&picture.names_look) {
        names.set_num_format(format);
    }
    names.set_major_gridlines(false);
    let figures = if lying { chart.x_axis() } else { chart.y_axis() };
    if let Some(format) = number_format(&picture.look) {
        figures.set_num_format(format);
    }
    if let Some(text) = &picture.axes.0 {
        figures.set_name(text);
    }
    figures.set_major_gridlines(true).set_major_gridlines_line(ChartLine::new().set_color(HAIR).set_width(0.5));
    sheet.insert_chart(picture.at.0, picture.at.1, &chart)?;
    Ok(())
}

const DARK: Color = Color::RGB(0x26_32_2E);
const HAIR: Color = Color::RGB(0xD9_D6_CD);

fn colour(tint: Tint) -> Color {
    match tint {
        Tint::Deep => Color::RGB(0x2F_5D_50),
        Tint::Middle => Color::RGB(0x6F_A3_91),
        Tint::Pale => Color::RGB(0xC4_DB_D0),
        Tint::Grey => Color::RGB(0xB4_B0_A5),
        Tint::Warm => Color::RGB(0xD1_8F_3C),
    }
}

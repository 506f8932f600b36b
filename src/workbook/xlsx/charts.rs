//! Charts drawn with the library, and the values that they show kept for viewers that do not calculate.
//!
//! A viewer that does not recalculate draws a chart from the values stored in it. The library stores those of plain
//! cells and leaves those of formulas empty, so the results are noted while the cells are written, by the very text of
//! the range, and put in when the workbook is bound (`stored`).

use std::collections::HashMap;

use rust_xlsxwriter::{
    Chart, ChartAxisCrossing, ChartAxisLabelPosition, ChartDataLabel, ChartFont, ChartFormat, ChartLegendPosition,
    ChartLine, ChartLineDashType, ChartSolidFill, ChartType, Color, Worksheet, XlsxError,
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
    chart.set_alt_text(alternative(&picture.told));
    for (series, nth) in picture.series.iter().zip(0_usize..) {
        let colour = colour(series.tint);
        let drawn = chart.add_series();
        drawn.set_name(&series.name).set_categories(range(name, picture.names).as_str());
        drawn.set_values(range(name, series.values).as_str());
        let mut format = ChartFormat::new();
        if picture.kind == PictureKind::Lines {
            // Told apart by more than colour.
            let dashes = [ChartLineDashType::Solid, ChartLineDashType::Dash, ChartLineDashType::SquareDot];
            let dash = dashes.into_iter().cycle().nth(nth).unwrap_or(ChartLineDashType::Solid);
            format.set_line(ChartLine::new().set_color(colour).set_width(2.25).set_dash_type(dash));
        } else {
            // Light ones stand out from the paper by their edge.
            format.set_solid_fill(ChartSolidFill::new().set_color(colour));
            format.set_border(ChartLine::new().set_color(DARK).set_width(0.5));
            drawn.set_gap(60);
            // One colour of few bars has room for its figures.
            if picture.kind == PictureKind::Bars && picture.series.len() == 1 {
                let mut label = ChartDataLabel::new();
                label.show_value();
                if let Some(format) = number_format(&picture.look) {
                    label.set_num_format(format);
                }
                drawn.set_data_label(&label);
            }
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

/// The text that stands for a chart: no longer than a program takes (common practice, no source: 255 characters).
fn alternative(told: &str) -> String {
    const MOST: usize = 255;
    let mut text = String::new();
    for c in told.chars().filter(|c| !c.is_control()) {
        if text.encode_utf16().count().saturating_add(c.len_utf16()) >= MOST {
            text.push('…');
            break;
        }
        text.push(c);
    }
    text
}

const DARK: Color = Color::RGB(0x26_32_2E);
const HAIR: Color = Color::RGB(0xD9_D6_CD);

fn colour(tint: Tint) -> Color {
    Color::RGB(rgb(tint))
}

/// Red, green and blue of a tint, a byte each.
fn rgb(tint: Tint) -> u32 {
    match tint {
        Tint::Deep => 0x2F_5D_50,
        Tint::Middle => 0x4F_85_73,
        Tint::Pale => 0xCF_E3_DA,
        Tint::Grey => 0x6B_5F_52,
        Tint::Warm => 0xF5_DC_AE,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance (WCAG 2.2, definition of that name), of which grey is made.
    #[allow(clippy::float_arithmetic, clippy::disallowed_types, reason = "the standard's own formula is one of floats")]
    fn luminance(rgb: u32) -> f64 {
        let channel = |shift: u32| {
            let share = f64::from((rgb >> shift) & 0xFF) / 255.0;
            if share <= 0.04045 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * channel(16) + 0.7152 * channel(8) + 0.0722 * channel(0)
    }

    #[allow(clippy::float_arithmetic, clippy::disallowed_types, reason = "the standard's own formula is one of floats")]
    fn contrast(one: u32, other: u32) -> f64 {
        let (one, other) = (luminance(one), luminance(other));
        (one.max(other) + 0.05) / (one.min(other) + 0.05)
    }

    #[test]
    fn neighbours_are_told_apart_in_grey() {
        // WCAG 2.2, 1.4.11: parts of a picture stand out from those beside them by 3 to 1. Black on white is 21 to 1.
        assert!((contrast(0, 0xFF_FF_FF) - 21.0).abs() < 1e-9);
        let shares = [Tint::Deep, Tint::Pale, Tint::Middle, Tint::Warm, Tint::Grey];
        let side_by_side = [Tint::Deep, Tint::Pale];
        for pair in shares.windows(2).chain(side_by_side.windows(2)) {
            let found = contrast(rgb(pair[0]), rgb(pair[1]));
            assert!(found >= 3.0, "{pair:?}: {found:.2}");
        }
        // Lines and the edges of bars, on white paper.
        for tint in [Tint::Deep, Tint::Middle, Tint::Grey] {
            assert!(contrast(rgb(tint), 0xFF_FF_FF) >= 3.0, "{tint:?}");
        }
        assert!(contrast(0x26_32_2E, 0xFF_FF_FF) >= 3.0);
    }

    #[test]
    fn what_stands_for_a_chart_is_cut_to_what_a_program_takes() {
        let text = alternative(&"🥕".repeat(300));
        assert!(text.encode_utf16().count() <= 255 && text.ends_with('…'), "{text}");
        assert_eq!(alternative("Bars: soup 30 %"), "Bars: soup 30 %");
    }
}

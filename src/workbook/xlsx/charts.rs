//! Charts drawn with the library, and the values that they show kept for viewers that do not calculate.
//!
//! A viewer that does not recalculate draws a chart from the values stored in it. The library stores those of plain
//! cells and leaves those of formulas empty, so the results are noted while the cells are written, by the very text of
//! the range, and put in when the workbook is bound (`stored`).

use std::collections::HashMap;

use rust_xlsxwriter::ChartDataLabelPosition::{Center, InsideBase, Left, Right};
use rust_xlsxwriter::{
    Chart, ChartAxisCrossing, ChartAxisLabelPosition, ChartDataLabel, ChartFont, ChartFormat, ChartLegendPosition,
    ChartLine, ChartMarker, ChartSolidFill, ChartType, Color, Worksheet, XlsxError,
};

use super::format::number_format;
use super::palette;
use crate::problem::place::column_letters;
use crate::workbook::cells::chart::{Labels, Picture, PictureKind, Series, Span, Tint};
use crate::workbook::cells::formula::{Formula, Outcome, quoted};
use crate::workbook::cells::number::{stored, to_float};
use crate::workbook::cells::row::{Cell, Content, Row};
use crate::workbook::cells::unprintable::is_unprintable;

/// How far below the top of its row a picture stands, in pixels.
const OFF_THE_EDGE: u32 = 3;

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
        let series = pictures.iter().flat_map(|picture| &picture.series);
        let spans = series.flat_map(|series| [Some(series.values), series.across]).flatten();
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
            let names = self.names.iter().any(|span| span.place(row.row, cell.column).is_some());
            let mut drawn = names;
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
            match &cell.content {
                // The library keeps names that are typed, and takes those of formulas for numbers.
                Content::Formula(Formula { result: Outcome::Text(name), .. }) if names => {
                    self.cells.push((row.row, Cell { content: Content::Text(name.clone()), ..cell.clone() }));
                }
                _ if drawn => self.cells.push((row.row, cell.clone())),
                _ => {}
            }
        }
    }

    /// What was noted.
    pub(super) fn stored(&mut self) -> impl Iterator<Item = (String, Vec<Option<String>>)> {
        let any = |values: &[Option<String>]| values.iter().any(Option::is_some);
        let spans = std::mem::take(&mut self.spans).into_iter();
        spans.filter(move |(.., values)| any(values)).map(|(_, range, values)| (range_key(&range), values))
    }
}

/// A range as the library writes it into a chart, whose quotes depend on the name.
pub(super) fn range_key(range: &str) -> String {
    range.replace('\'', "")
}

/// `'Trim'!$C$4:$C$9`.
fn range(sheet: &str, span: Span) -> String {
    let letters = column_letters(u32::from(span.column));
    let (first, last) = (u64::from(span.first).saturating_add(1), u64::from(span.last).saturating_add(1));
    match first == last {
        // As the library writes it.
        true => format!("{}!${letters}${first}", quoted(sheet)),
        false => format!("{}!${letters}${first}:${letters}${last}", quoted(sheet)),
    }
}

/// Draws a picture on its sheet, whose name is `name`.
pub(super) fn draw(sheet: &mut Worksheet, name: &str, picture: &Picture) -> Result<(), XlsxError> {
    let mut chart = Chart::new(match picture.kind {
        PictureKind::Bars => ChartType::Bar,
        PictureKind::Shares => ChartType::BarStacked,
        PictureKind::Lines => ChartType::Line,
        PictureKind::Points => ChartType::Scatter,
    });
    chart.title().set_name(&picture.title).set_font(ChartFont::new().set_size(12).set_bold().set_color(palette::DARK));
    chart.set_alt_text(alternative(&picture.told));
    for series in &picture.series {
        let drawn = chart.add_series();
        match series.named_by {
            Some((row, column)) => drawn.set_name(format!("={}", range(name, Span::cell(row, column))).as_str()),
            None => drawn.set_name(&series.name),
        };
        drawn.set_categories(range(name, series.across.unwrap_or(picture.names)).as_str());
        drawn.set_values(range(name, series.values).as_str());
        drawn.set_format(&mut format_of(picture.kind, series.tint));
        if picture.kind == PictureKind::Points {
            drawn.set_marker(&point(series.tint));
        } else if let Tint::Line(nth) = series.tint {
            let mut marker = ChartMarker::new();
            marker.set_type(palette::marker(nth)).set_size(6);
            drawn.set_marker(&marker);
        } else {
            drawn.set_gap(60);
        }
        if let Some(label) = label(picture, series) {
            drawn.set_data_label(&label);
        }
    }
    chart.set_width(picture.size.0).set_height(picture.size.1);
    key(&mut chart, picture);
    let lying = matches!(picture.kind, PictureKind::Bars | PictureKind::Shares);
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
    if let Some(begins) = picture.begins {
        figures.set_min(to_float(begins));
    }
    figures.set_major_gridlines(true).set_major_gridlines_line(ChartLine::new().set_color(HAIR).set_width(0.5));
    // A frame on the very edge of its row is drawn on the page before, where one ends there.
    sheet.insert_chart_with_offset(picture.at.0, picture.at.1, &chart, 0, OFF_THE_EDGE)?;
    Ok(())
}

/// How figures of a tint are drawn.
fn format_of(kind: PictureKind, tint: Tint) -> ChartFormat {
    let mut format = ChartFormat::new();
    match tint {
        Tint::Line(nth) if kind == PictureKind::Points => {
            let mut line = ChartLine::new();
            line.set_color(palette::DARK).set_width(1).set_dash_type(palette::dash(nth));
            format.set_line(&line);
        }
        _ if kind == PictureKind::Points => {
            format.set_line(ChartLine::new().set_hidden(true));
        }
        Tint::Unseen => {
            format.set_no_fill().set_no_border();
        }
        Tint::Line(nth) => {
            // Told apart by more than colour.
            let mut line = ChartLine::new();
            line.set_color(palette::colour(tint)).set_width(2.25).set_dash_type(palette::dash(nth));
            format.set_line(&line);
        }
        _ => {
            format.set_solid_fill(ChartSolidFill::new().set_color(palette::colour(tint)));
            // Parts of one bar are parted by their edges, a single one stands out from the paper by it.
            let width = if kind == PictureKind::Shares { 0.25 } else { 0.5 };
            format.set_border(ChartLine::new().set_color(palette::edge(tint)).set_width(width));
        }
    }
    format
}

/// The mark of a point; none of what is not seen, and of the ends of lines.
fn point(tint: Tint) -> ChartMarker {
    let mut marker = ChartMarker::new();
    match tint {
        Tint::Line(_) | Tint::Unseen => marker.set_none(),
        _ => marker.set_type(palette::marker(0)).set_size(8).set_format(
            ChartFormat::new()
                .set_solid_fill(ChartSolidFill::new().set_color(palette::colour(tint)))
                .set_border(ChartLine::new().set_color(palette::edge(tint)).set_width(0.5)),
        ),
    };
    marker
}

/// The figures of a series that stand in the picture.
fn label(picture: &Picture, series: &Series) -> Option<ChartDataLabel> {
    let plain = number_format(&picture.look).unwrap_or_else(|| "General".to_owned());
    let mut label = ChartDataLabel::new();
    label.show_value();
    let mut font = ChartFont::new();
    // A picture of points is as wide as the page, which makes it smaller.
    font.set_size(if picture.kind == PictureKind::Points { 10 } else { 9 }).set_color(palette::DARK);
    match series.labels {
        Labels::None => return None,
        Labels::Behind => {
            label.set_num_format(&plain);
        }
        Labels::Within(least) => {
            font.set_color(palette::ink_on(series.tint));
            label.set_num_format(format!("[>={}]{plain};\"\"", stored(least))).set_position(Center);
        }
        // Behind a carrier that begins where the bar ends.
        Labels::Added => {
            label.set_num_format(format!("+{plain};;")).set_position(InsideBase);
        }
        Labels::TakenOff => {
            label.set_num_format(format!("\"−\"{plain};;")).set_position(InsideBase);
        }
        Labels::NameRight | Labels::NameLeft => {
            let position = if series.labels == Labels::NameRight { Right } else { Left };
            label = ChartDataLabel::new();
            label.show_series_name().set_position(position);
            if series.tint == Tint::Unseen {
                font.set_italic();
            }
        }
    }
    label.set_font(&font);
    Some(label)
}

/// The key, where there is more than one thing to name.
fn key(chart: &mut Chart, picture: &Picture) {
    // Programs do not agree which of several entries one is that is taken out: there signs tell what is what.
    if picture.series.len() < 2 || picture.series.iter().any(|series| series.tint == Tint::Unseen) {
        chart.legend().set_hidden();
    } else {
        chart.legend().set_position(ChartLegendPosition::Bottom);
    }
}

/// The text that stands for a chart: no longer than a program takes (common practice, no source: 255 characters).
fn alternative(told: &str) -> String {
    const MOST: usize = 255;
    let mut text = String::new();
    for c in told.chars().filter(|c| !is_unprintable(*c)) {
        if text.encode_utf16().count().saturating_add(c.len_utf16()) >= MOST {
            text.push('…');
            break;
        }
        text.push(c);
    }
    text
}

const HAIR: Color = Color::RGB(0xD9_D6_CD);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_stands_for_a_chart_is_cut_to_what_a_program_takes() {
        let text = alternative(&"🥕".repeat(300));
        assert!(text.encode_utf16().count() <= 255 && text.ends_with('…'), "{text}");
        assert_eq!(alternative("Bars: soup 30 %"), "Bars: soup 30 %");
    }
}

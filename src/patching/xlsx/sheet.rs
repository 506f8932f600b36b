//! Sheet part with rows put below a table: new cells styled as those above, and what ends with the table grown with it.

mod rows;

use std::collections::BTreeSet;

use jiff::civil::{Date, date};

use super::ranges::{CellRange, Growth};
use super::styles::{Shows, StylesPart};
use super::tags::{Splice, Tag, TagKind, spliced, tags};
use super::{Addition, NewCell, NewContent, NewRow, NotPatched, carried_formula, ranges};
use crate::in_order::InOrder;
use crate::problem::place::column_letters;
use crate::results::figures::percent_in_full;
use crate::workbook::cells::number::stored;
use crate::workbook::xlsx::xml::{is_to_be_kept, push_text};
use rows::{CellPart, RowPart, SheetRows};

/// The most bytes of a sheet whose tags are held at once.
const MOST_BYTES: usize = 100_000_000;

/// A sheet with its new rows.
pub(super) struct Done {
    pub xml: String,
    /// The letters of columns whose formulas could not go on.
    pub left_blank: Vec<String>,
}

/// The sheet with the rows of `addition`.
///
/// # Errors
/// [`NotPatched`] where something stands in the way.
pub(super) fn with_rows(
    xml: &str,
    addition: &Addition,
    growth: &Growth,
    styles: &mut StylesPart,
    from_1904: bool,
) -> Result<Done, NotPatched> {
    if xml.len() > MOST_BYTES {
        return Err(NotPatched("its sheet of prices is larger than 100 MB".to_owned()));
    }
    let all = tags(xml)?;
    let rows = SheetRows::read(xml, &all, addition, growth)?;
    in_the_way(&all, addition, growth, &rows)?;
    let template =
        rows.get(addition.last).ok_or_else(|| NotPatched("the table's last row was not found".to_owned()))?;
    let mut writer = Writer { growth, rows: &rows, template, styles, from_1904, left_blank: BTreeSet::new() };
    let mut cuts = Vec::new();
    if !addition.headers.is_empty() {
        cuts.push(writer.headers(xml, addition)?);
    }
    for (row, number) in addition.rows.iter().zip(addition.last.saturating_add(1)..) {
        cuts.push(writer.row(xml, row, number)?);
    }
    let left_blank = writer.left_blank.iter().map(|column| column_letters(*column)).collect();
    cuts.extend(grown(xml, &all, growth));
    Ok(Done { xml: spliced(xml, cuts), left_blank })
}

/// Refuses what would be written over, torn apart or run into.
fn in_the_way(all: &[Tag<'_>], addition: &Addition, growth: &Growth, rows: &SheetRows<'_>) -> Result<(), NotPatched> {
    let new = CellRange { first: (growth.last.saturating_add(1), growth.span.0), last: (growth.now, growth.wide) };
    // One row stays free between the new ones and what follows.
    let below = (new.first.0..=growth.now.saturating_add(1)).find_map(|row| {
        let filled = |cell: &&CellPart<'_>| cell.filled && (growth.span.0..=growth.wide).contains(&cell.column);
        rows.get(row)?.cells.iter().find(filled).map(|cell| (row, cell.column))
    });
    if let Some(cell) = below {
        return Err(NotPatched(format!(
            "below the prices on its sheet {} something stands in {}: put it on a sheet of its own",
            addition.sheet,
            ranges::name(cell)
        )));
    }
    for tag in all.iter().filter(|tag| tag.name == "mergeCell") {
        let Some(merged) = tag.attribute("ref").and_then(|(text, _)| CellRange::read(text)) else { continue };
        if merged.meets(&new) {
            let merged = merged.written();
            return Err(NotPatched(format!("on its sheet {} the cells {merged} are merged", addition.sheet)));
        }
    }
    Ok(())
}

/// What ends with the table's last row: what is filtered, validated, coloured.
fn grown(xml: &str, all: &[Tag<'_>], growth: &Growth) -> Vec<Splice> {
    let mut cuts = Vec::new();
    let mut listed = None;
    for tag in all {
        let attribute = match tag.name {
            "autoFilter" => "ref",
            "dataValidation" | "conditionalFormatting" | "ignoredError" => "sqref",
            "dimension" => {
                if let Some((text, range)) = tag.attribute("ref")
                    && let Some(block) = CellRange::read(text)
                {
                    let last = (block.last.0.max(growth.now), block.last.1.max(growth.wide));
                    cuts.push((range, CellRange { first: block.first, last }.written()));
                }
                continue;
            }
            // The same in what newer programs add.
            "sqref" => {
                match tag.kind {
                    TagKind::Opens => listed = Some(tag.range.end),
                    TagKind::Closes => {
                        if let Some(start) = listed.take()
                            && let Some(now) = xml.get(start..tag.range.start).and_then(|text| growth.grown_list(text))
                        {
                            cuts.push((start..tag.range.start, now));
                        }
                    }
                    TagKind::Empty => {}
                }
                continue;
            }
            _ => continue,
        };
        if let Some((text, range)) = tag.attribute(attribute)
            && let Some(now) = growth.grown_list(text)
        {
            cuts.push((range, now));
        }
    }
    cuts
}

/// Writes the new rows.
struct Writer<'w, 'x> {
    growth: &'w Growth,
    rows: &'w SheetRows<'x>,
    template: &'w RowPart<'x>,
    styles: &'w mut StylesPart,
    from_1904: bool,
    left_blank: BTreeSet<u32>,
}

impl Writer<'_, '_> {
    /// The header row with new headers, which look like the last one.
    fn headers(&mut self, xml: &str, addition: &Addition) -> Result<Splice, NotPatched> {
        let row = self.rows.get(addition.header);
        let row = row.ok_or_else(|| NotPatched("the table's headers were not found".to_owned()))?;
        let like = row.cell(self.growth.span.1).and_then(|cell| cell.style);
        let mut cells = row.raw_cells();
        for (header, column) in addition.headers.iter().zip(self.growth.span.1.saturating_add(1)..) {
            if row.cell(column).is_some_and(|cell| cell.filled) {
                return Err(NotPatched(format!(
                    "right of the prices on its sheet {} stands {}, where a column {header} would go",
                    addition.sheet,
                    ranges::name((addition.header, column))
                )));
            }
            let cell = self.cell((addition.header, column), &NewContent::Text(header.clone()), like);
            cells.retain(|(at, _)| *at != column);
            cells.push((column, cell));
        }
        Ok(self.put(xml, addition.header, cells))
    }

    /// A new row, with whatever stands beside the table in it.
    fn row(&mut self, xml: &str, new: &NewRow, number: u32) -> Result<Splice, NotPatched> {
        let there = self.rows.get(number);
        let mut cells = there.map(RowPart::raw_cells).unwrap_or_default();
        for column in self.growth.span.0..=self.growth.wide {
            let existing = there.and_then(|row| row.cell(column));
            let above = self.template.cell(column);
            let written = match new.cells.iter().find(|cell| cell.column == column) {
                Some(cell) => Some(self.new_cell(cell, number, existing.or(above))),
                None => {
                    let formula = new.goes_on.contains(&column).then(|| self.formula(column, number)).flatten();
                    let style = existing.or(above).and_then(|cell| cell.style);
                    match formula {
                        Some(formula) => Some(self.formula_cell((number, column), &formula, style)?),
                        None if existing.is_some() => None,
                        None => style.map(|_| self.open((number, column), style, None, true)),
                    }
                }
            };
            if let Some(written) = written {
                cells.retain(|(at, _)| *at != column);
                cells.push((column, written));
            }
        }
        Ok(self.put(xml, number, cells))
    }

    /// The formula of the last row as it goes on; remembers where it cannot.
    fn formula(&mut self, column: u32, number: u32) -> Option<String> {
        let above = self.template.cell(column)?;
        let (text, from) = self.rows.formula(above, self.growth.last)?;
        let down = number.saturating_sub(from.0);
        let carried = text.and_then(|text| carried_formula::carried(&text, down, column.saturating_sub(from.1)));
        if carried.is_none() {
            self.left_blank.insert(column);
        }
        carried
    }

    fn formula_cell(&self, at: (u32, u32), formula: &str, style: Option<u32>) -> Result<String, NotPatched> {
        let mut text = Vec::new();
        crate::workbook::xlsx::xml::push_escaped(&mut text, formula);
        let text = String::from_utf8(text).map_err(NotPatched::damaged)?;
        let p = self.rows.prefix;
        Ok(format!("{}<{p}f>{text}</{p}f></{p}c>", self.open(at, style, None, false)))
    }

    fn new_cell(&mut self, cell: &NewCell, number: u32, base: Option<&CellPart<'_>>) -> String {
        let like = cell.like.and_then(|row| self.rows.get(row)).and_then(|row| row.cell(cell.column));
        let base = base.and_then(|cell| cell.style);
        let wanted = match cell.content {
            NewContent::Date(_) => Some(Shows::Day),
            NewContent::Percent(_) => Some(Shows::Percent),
            _ => None,
        };
        let style = match (like, wanted) {
            (Some(like), _) => like.style,
            (None, Some(shows)) => match self.styles.like(base.unwrap_or_default(), shows) {
                Some(style) => Some(style),
                // Nothing would show what it is: as text it does.
                None => return self.cell((number, cell.column), &NewContent::Text(cell.content.words()), base),
            },
            (None, None) => base,
        };
        self.cell((number, cell.column), &cell.content, style)
    }

    fn cell(&self, at: (u32, u32), content: &NewContent, style: Option<u32>) -> String {
        let p = self.rows.prefix;
        let value = match content {
            NewContent::Text(text) => {
                let mut escaped = Vec::new();
                push_text(&mut escaped, text);
                let escaped = String::from_utf8_lossy(&escaped).into_owned();
                let keep = if is_to_be_kept(text) { " xml:space=\"preserve\"" } else { "" };
                let open = self.open(at, style, Some("inlineStr"), false);
                return format!("{open}<{p}is><{p}t{keep}>{escaped}</{p}t></{p}is></{p}c>");
            }
            NewContent::Bool(yes) => {
                return format!("{}<{p}v>{}</{p}v></{p}c>", self.open(at, style, Some("b"), false), u8::from(*yes));
            }
            NewContent::Number(number) | NewContent::Percent(number) => stored(*number),
            NewContent::Date(day) => match serial(*day, self.from_1904) {
                Some(serial) => serial.to_string(),
                None => return self.cell(at, &NewContent::Text(day.to_string()), style),
            },
        };
        format!("{}<{p}v>{value}</{p}v></{p}c>", self.open(at, style, None, false))
    }

    /// The tag that opens a cell.
    fn open(&self, at: (u32, u32), style: Option<u32>, kind: Option<&str>, empty: bool) -> String {
        let style = style.map(|style| format!(" s=\"{style}\"")).unwrap_or_default();
        let kind = kind.map(|kind| format!(" t=\"{kind}\"")).unwrap_or_default();
        format!("<{}c r=\"{}\"{style}{kind}{}>", self.rows.prefix, ranges::name(at), if empty { "/" } else { "" })
    }

    /// The cut that puts `cells` into the row `number`.
    fn put(&self, xml: &str, number: u32, mut cells: Vec<(u32, String)>) -> Splice {
        cells.put_in_order_by_key(|(column, _)| *column);
        let cells: String = cells.into_iter().map(|(_, cell)| cell).collect();
        let p = self.rows.prefix;
        match self.rows.get(number) {
            Some(row) => {
                let open = xml.get(row.open.clone()).unwrap_or_default();
                let open = open.strip_suffix("/>").map_or_else(|| open.to_owned(), |open| format!("{open}>"));
                let open = row.in_sight(&open);
                (row.whole.clone(), format!("{open}{cells}</{p}row>"))
            }
            None => {
                let attributes = self.template.looks();
                let row = format!("<{p}row r=\"{}\"{attributes}>{cells}</{p}row>", number.saturating_add(1));
                self.rows.insert_at(number, row)
            }
        }
    }
}

/// The number of a day; `None` before the days that all programs count alike.
fn serial(day: Date, from_1904: bool) -> Option<i32> {
    let (zero, first) = if from_1904 { (date(1904, 1, 1), 0) } else { (date(1899, 12, 30), 61) };
    let days = zero.until(day).ok()?.get_days();
    (days >= first).then_some(days)
}

impl NewContent {
    /// As text, where nothing else can be.
    fn words(&self) -> String {
        match self {
            NewContent::Text(text) => text.clone(),
            NewContent::Number(number) => stored(*number),
            NewContent::Percent(share) => percent_in_full(*share),
            NewContent::Date(day) => day.to_string(),
            NewContent::Bool(yes) => if *yes { "yes" } else { "no" }.to_owned(),
        }
    }
}

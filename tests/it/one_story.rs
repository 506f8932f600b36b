//! One story: terminal, JSON, csv and the written workbook say the same of every figure that they share, over books of
//! chance and in cases worked by hand.
//!
//! The JSON has every figure in full, so the others are held against it: csv cell for cell, the workbook's stored values as
//! the floats that spreadsheets hold, the terminal after rounding half up as people do.

mod costs;
mod reprice;
mod trim;
mod worked;

use std::collections::HashMap;
use std::io::Cursor;

use calamine::{Data, Range, Reader, Xlsx};
use parings::output::text::View;
use rust_decimal::{Decimal, RoundingStrategy};
use serde_json::Value;

/// So wide that no name wraps.
const WIDE: View = View { width: 10_000, color: false };

/// What differs, and how many figures were compared.
#[derive(Default)]
pub struct Story {
    pub figures: usize,
    pub differences: Vec<String>,
}

impl Story {
    fn differ(&mut self, what: &str, found: impl std::fmt::Display, json: impl std::fmt::Display) {
        self.differences.push(format!("{what}: {found}, by the JSON {json}"));
    }

    /// A stored cell is a figure of the JSON over `size`; no number where the JSON knows none.
    fn cell(&mut self, what: &str, found: &Data, json: &Value, size: Decimal) {
        self.figures += 1;
        let found = if let Data::Float(number) = found { Some(*number) } else { None };
        match (found, number(json).map(|number| number / size)) {
            (None, None) => {}
            (Some(found), Some(json)) => {
                let json: f64 = json.to_string().parse().unwrap();
                if (found - json).abs() > 1e-9 * 1_f64.max(found.abs()).max(json.abs()) {
                    self.differ(what, found, json);
                }
            }
            (found, _) => self.differ(what, format!("{found:?}"), json),
        }
    }

    /// A csv cell is what the JSON has, blank where that is null.
    fn text(&mut self, what: &str, found: &str, json: &Value) {
        self.figures += 1;
        let told = match json {
            Value::Null => String::new(),
            Value::String(text) => text.clone(),
            other => other.to_string(),
        };
        if found != told {
            self.differ(what, found, told);
        }
    }

    /// The terminal has a row of these words.
    fn told(&mut self, report: &str, words: &[String]) {
        self.figures += words.len();
        let row = words.join(" ");
        if !report.contains(&row) {
            self.differ("the terminal", "not told", format!("“{row}”"));
        }
    }

    /// Nothing differs, and something was compared.
    fn end(self, at_least: usize) -> Result<usize, String> {
        if self.figures < at_least {
            return Err(format!("only {} figures", self.figures));
        }
        if self.differences.is_empty() { Ok(self.figures) } else { Err(self.differences.join("\n")) }
    }
}

/// The number in a JSON string.
fn number(json: &Value) -> Option<Decimal> {
    json.as_str().map(|text| text.parse().unwrap_or_else(|_| panic!("{text} is no number")))
}

/// A figure of the JSON over `size` as a person reads it: to so many places, half up; a dash where it is not known.
fn shown_in(json: &Value, size: Decimal, places: u32) -> String {
    number(json).map_or("–".to_owned(), |number| rounded(number / size, places))
}

fn shown(json: &Value, places: u32) -> String {
    shown_in(json, Decimal::ONE, places)
}

fn rounded(number: Decimal, places: u32) -> String {
    let rounded = number.round_dp_with_strategy(places, RoundingStrategy::MidpointAwayFromZero);
    let rounded = if rounded.is_zero() { Decimal::ZERO } else { rounded };
    format!("{rounded:.0$}", places as usize)
}

fn name(json: &Value) -> String {
    json["name"].as_str().unwrap().to_owned()
}

/// A terminal's report with every run of blanks as one.
fn on_one_line(report: &str) -> String {
    report.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn list(json: &Value) -> &[Value] {
    json.as_array().map_or(&[], Vec::as_slice)
}

/// The rows of a csv table by column.
fn csv_rows(text: &str) -> Vec<HashMap<String, String>> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let header = reader.headers().unwrap().clone();
    let row = |row: csv::StringRecord| header.iter().map(str::to_owned).zip(row.iter().map(str::to_owned)).collect();
    reader.records().map(|record| row(record.unwrap())).collect()
}

/// The stored values of a workbook.
pub struct Stored(Vec<(String, Range<Data>)>);

impl Stored {
    pub fn open(bytes: &[u8]) -> Self {
        let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).unwrap();
        let names = book.sheet_names();
        Stored(names.into_iter().map(|name| (name.clone(), book.worksheet_range(&name).unwrap())).collect())
    }

    fn sheet(&self, name: &str) -> Option<&Range<Data>> {
        self.0.iter().find(|(known, _)| known == name).map(|(_, range)| range)
    }
}

/// A sheet's cells, zero-based; empty ones beyond what it holds.
trait Cells {
    fn at(&self, row: u32, column: u32) -> &Data;
    fn says(&self, row: u32, column: u32) -> String;
    /// The first row from `from` on whose first cell says so.
    fn row_of(&self, from: u32, text: &str) -> Option<u32>;
    /// The column of a header.
    fn column(&self, row: u32, header: &str) -> Option<u32>;
}

impl Cells for Range<Data> {
    fn at(&self, row: u32, column: u32) -> &Data {
        self.get_value((row, column)).unwrap_or(&Data::Empty)
    }

    fn says(&self, row: u32, column: u32) -> String {
        if let Data::String(text) = self.at(row, column) { text.clone() } else { String::new() }
    }

    fn row_of(&self, from: u32, text: &str) -> Option<u32> {
        let last = self.end().map_or(0, |(row, _)| row);
        (from..=last).find(|row| self.says(*row, 0) == text)
    }

    fn column(&self, row: u32, header: &str) -> Option<u32> {
        let last = self.end().map_or(0, |(_, column)| column);
        (0..=last).find(|column| self.says(row, *column) == header)
    }
}

/// A planted difference is found, whichever way it is told.
#[test]
fn what_differs_is_seen() {
    let json = serde_json::json!("1.005");
    let mut story = Story::default();
    story.cell("cell", &Data::Float(1.005), &json, Decimal::ONE);
    story.text("csv", "1.005", &json);
    story.told("Soup 1.01 over target", &["Soup".to_owned(), shown(&json, 2)]);
    assert_eq!(story.end(4), Ok(4));
    for plant in [
        |story: &mut Story, json: &Value| story.cell("cell", &Data::Float(1.00501), json, Decimal::ONE),
        |story: &mut Story, json: &Value| story.cell("cell", &Data::Empty, json, Decimal::ONE),
        |story: &mut Story, _: &Value| story.cell("cell", &Data::Float(0.0), &Value::Null, Decimal::ONE),
        |story: &mut Story, json: &Value| story.text("csv", "1.00500", json),
        |story: &mut Story, json: &Value| story.told("Soup 1.00", &["Soup".to_owned(), shown(json, 2)]),
    ] {
        let mut story = Story::default();
        plant(&mut story, &json);
        assert!(story.end(0).is_err());
    }
}

//! Small faulty books and what is expected of them: every problem at its cell, with what was found and what to type; what
//! is still costed and what is not.

use std::io::{Cursor, Read, Write};

use parings::kitchen::settings::Setting;
use parings::problem::{Code, Severity};
use rust_xlsxwriter::{Workbook, Worksheet};
use serde_json::Value;

use super::cell::{Cell, put};
use crate::recalc::assert_recalculates_if_any;
use crate::support::{cost_bytes, is_its_turn, json_of};
use crate::workbook::STAMP;

/// Stands at the end of most books: nothing in it depends on what is wrong above. Leek soup costs 2 lb at 20.00 for ten
/// pounds: 2 × 20 ÷ 10 = 4.
pub const SOUND: &str = "\
Item,Pack,Price
Leeks,10 lb,20.00

Recipe,Leek soup
Portions,4
Ingredient,Qty,Unit
Leeks,2,lb
";

/// Settings that leave nothing to be noted.
pub const SETTINGS: &str = "\
Setting,Value
Currency,USD
Target food cost,30%
";

/// What Leek soup costs in every book that ends in [`SOUND`].
pub const SOUP: (&str, Option<&str>) = ("Leek soup", Some("4"));

/// The cells of a worksheet, row by row.
pub type Rows = &'static [&'static [Cell]];

/// How a book is written.
pub enum Written {
    /// As csv text, its sections below one another with a blank line between.
    Csv(&'static [&'static str]),
    /// As worksheets with their names.
    Xlsx(&'static [(&'static str, Rows)]),
}

/// A problem that is expected.
pub struct Met {
    pub code: Code,
    /// `C2`, or `Prices!C2` in a workbook; empty for a sheet as a whole.
    pub cell: &'static str,
    /// Parts of the message, parted by ` … `.
    pub says: &'static str,
    /// Parts of the help, parted by ` … `.
    pub help: &'static str,
}

/// A faulty book.
pub struct Book {
    pub name: &'static str,
    pub written: Written,
    /// Every problem it has.
    pub met: &'static [Met],
    /// Food costs of recipes; `None` for one that is stopped.
    pub costs: &'static [(&'static str, Option<&'static str>)],
}

fn put_rows(sheet: &mut Worksheet, rows: &[&[Cell]]) {
    for (row, cells) in (0_u32..).zip(rows) {
        for (column, cell) in (0_u16..).zip(*cells) {
            put(sheet, row, column, *cell);
        }
    }
}

/// A workbook of one worksheet.
pub fn sheet(rows: &[&[Cell]]) -> Vec<u8> {
    let mut workbook = Workbook::new();
    put_rows(workbook.add_worksheet(), rows);
    workbook.save_to_buffer().unwrap()
}

/// Short for a [`Met`].
pub const fn met(code: Code, cell: &'static str, says: &'static str, help: &'static str) -> Met {
    Met { code, cell, says, help }
}

impl Book {
    fn file(&self) -> (&'static str, Vec<u8>) {
        match &self.written {
            Written::Csv(sections) => ("book.csv", sections.join("\n").into_bytes()),
            Written::Xlsx(sheets) => {
                let mut workbook = Workbook::new();
                for (name, rows) in *sheets {
                    put_rows(workbook.add_worksheet().set_name(*name).unwrap(), rows);
                }
                ("book.xlsx", without_lost_results(&workbook.save_to_buffer().unwrap()))
            }
        }
    }

    /// Asserts all that is expected of it.
    #[track_caller]
    pub fn check(&self) {
        let (file, bytes) = self.file();
        let (reading, costing) = cost_bytes(&[(file, &bytes)]);
        let json = json_of(&reading, &costing);
        self.check_problems(&json);
        self.check_costs(&json);
        let once = self.written(&reading, &costing);
        let (reading, costing) = cost_bytes(&[("book.costed.xlsx", &once)]);
        let again = json_of(&reading, &costing);
        assert_eq!(errors(&json), errors(&again), "{}: the costed book has other errors", self.name);
        self.check_costs(&again);
        let twice = self.written(&reading, &costing);
        assert!(once == twice, "{}: the costed book is another book when it is costed", self.name);
    }

    #[track_caller]
    fn written(&self, reading: &parings::Reading, costing: &parings::Costing) -> Vec<u8> {
        let bytes = parings::write(reading, costing, STAMP).unwrap_or_else(|error| panic!("{}: {error}", self.name));
        if is_its_turn(3, self.name.as_bytes()) {
            assert_recalculates_if_any(&bytes, self.name);
        }
        bytes
    }

    #[track_caller]
    fn check_problems(&self, json: &Value) {
        // The leeks that most books cost state no yield, which is worth a note but not in each of them.
        let published = Code::YieldPublished.name();
        let is_about_yields = self.met.iter().any(|met| met.code == Code::YieldPublished);
        let all = json["problems"].as_array().unwrap().iter();
        let found: Vec<&Value> = all.filter(|problem| is_about_yields || problem["code"] != published).collect();
        let at = |problem: &Value| match (problem["sheet"].as_str().unwrap(), problem["cell"].as_str().unwrap()) {
            ("", cell) => cell.to_owned(),
            (sheet, "") => sheet.to_owned(),
            (sheet, cell) => format!("{sheet}!{cell}"),
        };
        let seen = |problem: &&Value| format!("{} {}", at(problem), problem["code"].as_str().unwrap());
        let mut seen: Vec<String> = found.iter().map(seen).collect();
        let mut wanted: Vec<String> = self.met.iter().map(|met| format!("{} {}", met.cell, met.code)).collect();
        seen.sort();
        wanted.sort();
        assert_eq!(seen, wanted, "{}: {found:#?}", self.name);
        for met in self.met {
            let problem = found.iter().find(|p| at(p) == met.cell && p["code"] == met.code.name()).unwrap();
            assert_eq!(problem["severity"], met.code.severity().to_string());
            for (field, parts) in [("message", met.says), ("help", met.help)] {
                let text = problem[field].as_str().unwrap();
                for part in parts.split(" … ") {
                    assert!(text.contains(part), "{}: no “{part}” in the {field}: {problem:#}", self.name);
                }
                assert_well_said(field, text);
            }
        }
    }

    #[track_caller]
    fn check_costs(&self, json: &Value) {
        for (name, cost) in self.costs {
            let recipe = json["recipes"].as_array().unwrap().iter().find(|recipe| recipe["name"] == *name);
            let recipe = recipe.unwrap_or_else(|| panic!("{}: no recipe {name}", self.name));
            assert_eq!(recipe["food_cost"].as_str(), *cost, "{}: {name}: {:#}", self.name, json["problems"]);
        }
    }
}

/// How messages and helps are worded, everywhere alike: a message goes on from its place, `prices.xlsx ▸ C2: …`; a help is
/// a sentence of its own.
#[track_caller]
pub fn assert_well_said(field: &str, text: &str) {
    let first = text.chars().next().unwrap_or(' ');
    let last = text.chars().next_back().unwrap_or(' ');
    assert!(!text.contains(parings::problem::THERE), "a place is not named: {text}");
    if field == "message" {
        // A column is called by its header and a word such as EACH stands as it does in the cell.
        let header = text.split(' ').next().unwrap_or_default();
        let settings = Setting::ALL.iter().map(|setting| setting.name());
        let is_name = !parings::internals::read_header(header).meanings().is_empty()
            || settings.chain(HEADS.iter().copied()).any(|head| text.starts_with(head));
        assert!(!first.is_uppercase() || is_name, "a message begins in lower case: {text}");
        assert!(last != '.', "a message has no full stop: {text}");
    } else {
        assert!(first.is_uppercase(), "a help is a sentence: {text}");
        assert!(matches!(last, '.' | '?'), "a help ends as a sentence does: {text}");
    }
}

/// Headers of two words and words quoted from cells, with which a message may begin.
const HEADS: &[&str] =
    &["Menu price", "Q in money", "Serving loss", "Further cost", "On hand", "Unit size", "Pack count", "EACH"];

/// The errors of a costing by code and message, wherever their cells stand now.
fn errors(json: &Value) -> Vec<(String, String)> {
    let error = Severity::Error.to_string();
    let errors = json["problems"].as_array().unwrap().iter().filter(|problem| problem["severity"] == error);
    let mut errors: Vec<_> = errors.map(|problem| (problem["code"].to_string(), problem["help"].to_string())).collect();
    errors.sort();
    errors
}

/// The result of a formula that [`without_lost_results`] takes away.
pub const LOST: &str = "lost";

/// The workbook with its formulas whose result is [`LOST`] left without one, as a program that does not calculate leaves
/// them.
pub fn without_lost_results(bytes: &[u8]) -> Vec<u8> {
    let mut zip = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    let mut out = zip::ZipWriter::new(Cursor::new(Vec::new()));
    for at in 0..zip.len() {
        let mut entry = zip.by_index(at).unwrap();
        let name = entry.name().unwrap().into_owned();
        let mut text = Vec::new();
        entry.read_to_end(&mut text).unwrap();
        if name.contains("worksheets/sheet") {
            let xml = String::from_utf8(text).unwrap();
            text = xml.replace(&format!("<v>{LOST}</v>"), "").replace(" t=\"str\"><f>", "><f>").into_bytes();
        }
        out.start_file(name, zip::write::SimpleFileOptions::default()).unwrap();
        out.write_all(&text).unwrap();
    }
    out.finish().unwrap().into_inner()
}

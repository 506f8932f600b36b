//! A large book, 20,000 prices, 10,000 recipes and 200,000 lines in lists, against the floor: one value-and-style pass over
//! the same file and writing the same cells and formula texts, each in a format of its style, with the same library in the
//! same process.
//!
//! `cargo bench --bench big_book`. Prints times of the stages and of the floor, by the clock and of the processors, taken in
//! turn; the most memory that a whole run takes (of a process of its own, as Linux tells it); and costing alone at 200,000
//! and at 2,000,000 lines.

#![allow(
    clippy::print_stdout,
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a bench prints, and stops when it cannot go on"
)]

mod kitchen;
mod timed;

use std::io::Cursor;

use calamine::{DataRef, Reader, Xlsx};
use jiff::civil::date;
use parings::{Options, Reading, Scenario, Source, cost, read, write};
use rust_xlsxwriter::{Format, Formula, Workbook};

use crate::kitchen::{LARGE, Size, book, files};
use crate::timed::{Took, in_turn, timed};

/// With this and a file the bench is one run over that file.
const ONE_RUN: &str = "--one-run";

fn main() {
    let mut arguments = std::env::args().skip(1);
    if let (Some(ONE_RUN), Some(file)) = (arguments.next().as_deref(), arguments.next()) {
        return one_run(&std::fs::read(file).expect("the file can be read"));
    }
    let bytes = book(LARGE).expect("the book can be written");
    println!("{LARGE:?}, {} bytes", bytes.len());
    let reading = reading(&bytes);
    let scenario = Scenario::of(&reading.kitchen);
    let costing = cost(&reading.kitchen, &scenario);
    let stamp = date(2026, 11, 20).at(12, 0, 0, 0);
    let written = write(&reading, &costing, stamp).expect("the workbook can be written");

    let cells = cells(&written);
    drop(written);
    let [whole, reading_alone, costing_alone, writing_alone, read_floor, write_floor] = in_turn(
        3,
        [
            ("whole: read, cost, write", &mut || {
                let reading = self::reading(&bytes);
                let costing = cost(&reading.kitchen, &scenario);
                drop(write(&reading, &costing, stamp).expect("as before"));
            }),
            ("  read", &mut || drop(self::reading(&bytes))),
            ("  cost", &mut || drop(cost(&reading.kitchen, &scenario))),
            ("  write", &mut || drop(write(&reading, &costing, stamp).expect("as before"))),
            ("floor: values and styles once", &mut || assert!(values(&bytes) > 0)),
            ("floor: the same cells written", &mut || drop(rewritten(&cells))),
        ],
    );
    let of = |one: Took, other: Took, more: Took| {
        let clock = ratio(one.wall, other.wall + more.wall);
        format!("{clock:.3} by the clock, {:.3} of the processors", ratio(one.cpu, other.cpu + more.cpu))
    };
    let nothing = Took::default();
    println!("whole ÷ floor {}", of(whole, read_floor, write_floor));
    println!("read ÷ its floor {}", of(reading_alone, read_floor, nothing));
    println!("write ÷ its floor {}", of(writing_alone, write_floor, nothing));
    println!("cost ÷ whole {}", of(costing_alone, whole, nothing));
    println!("whole: {} at the most", most_memory(&bytes));

    let larger = files(Size { recipes: 100_000, ..LARGE }).expect("the book can be written");
    let sources: Vec<Source<'_>> = larger.iter().map(|bytes| Source { name: "kitchen.xlsx", bytes }).collect();
    let larger = read(&sources, OPTIONS).expect("the book can be read");
    let scenario = Scenario::of(&larger.kitchen);
    let ten = timed("cost alone, ten times the lines", 3, || drop(cost(&larger.kitchen, &scenario)));
    println!("ten times the lines take so many times as long: {}", of(ten, costing_alone, nothing));
}

#[expect(clippy::disallowed_types, clippy::float_arithmetic, reason = "a ratio of two times")]
fn ratio(time: std::time::Duration, other: std::time::Duration) -> f64 {
    time.as_secs_f64() / other.as_secs_f64()
}

/// Reads, costs and writes once, and prints the most memory that the process took.
fn one_run(bytes: &[u8]) {
    let reading = reading(bytes);
    let costing = cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
    let stamp = date(2026, 11, 20).at(12, 0, 0, 0);
    let written = write(&reading, &costing, stamp).expect("the workbook can be written");
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let most = status.lines().find_map(|line| line.strip_prefix("VmHWM:")).unwrap_or("unknown").trim();
    println!("{most}, {} bytes written", written.len());
}

/// The most memory that a whole run takes, in a process of its own.
fn most_memory(bytes: &[u8]) -> String {
    let folder = tempfile::tempdir().expect("there is room for a folder");
    let file = folder.path().join("kitchen.xlsx");
    std::fs::write(&file, bytes).expect("the book can be put there");
    let this = std::env::current_exe().expect("the bench knows where it is");
    let done = std::process::Command::new(this).arg(ONE_RUN).arg(file).output().expect("the bench starts once more");
    assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
    String::from_utf8_lossy(&done.stdout).trim().to_owned()
}

/// When it is costed.
const OPTIONS: Options = Options::on(date(2026, 11, 20));

fn reading(bytes: &[u8]) -> Reading {
    read(&[Source { name: "kitchen.xlsx", bytes }], OPTIONS).expect("the book can be read")
}

/// One pass over all values with their styles; gives how many there are.
fn values(bytes: &[u8]) -> usize {
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).expect("calamine opens the book");
    let mut count = 0;
    for name in book.sheet_names() {
        let mut reader = book.worksheet_cells_reader(&name).expect("a sheet");
        while let Some((cell, _)) = reader.next_cell_with_style_id().expect("a cell") {
            count += usize::from(*cell.get_value() != DataRef::Empty);
        }
    }
    count
}

/// What is in a cell of the finished workbook.
enum Written {
    Blank,
    Text(String),
    #[expect(clippy::disallowed_types, reason = "a spreadsheet's numbers are floats")]
    Number(f64),
    Formula(String),
}

/// A sheet's name and its cells in order, each with its style.
type Sheet = (String, Vec<(u32, u16, usize, Written)>);

/// The cells and formula texts of the finished workbook.
fn cells(bytes: &[u8]) -> Vec<Sheet> {
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).expect("calamine opens the workbook");
    let mut sheets = Vec::new();
    for name in book.sheet_names() {
        let mut cells = std::collections::BTreeMap::new();
        let mut reader = book.worksheet_cells_reader(&name).expect("a sheet");
        while let Some((cell, style)) = reader.next_cell_with_style_id().expect("a cell") {
            let written = match cell.get_value() {
                DataRef::String(text) => Written::Text(text.clone()),
                DataRef::SharedString(text) => Written::Text((*text).to_owned()),
                DataRef::Float(number) => Written::Number(*number),
                DataRef::Empty => Written::Blank,
                _ => continue,
            };
            cells.insert(cell.get_position(), (style, written));
        }
        drop(reader);
        let formulas = book.worksheet_formula(&name).expect("a sheet");
        let (row, column) = formulas.start().unwrap_or_default();
        for (r, c, formula) in formulas.used_cells() {
            let at = (row + u32::try_from(r).expect("a row"), column + u32::try_from(c).expect("a column"));
            let (_, written) = cells.entry(at).or_insert((0, Written::Blank));
            *written = Written::Formula(formula.clone());
        }
        let cells = cells
            .into_iter()
            .map(|((row, column), (style, cell))| (row, u16::try_from(column).expect("a column"), style, cell));
        sheets.push((name, cells.collect()));
    }
    sheets
}

/// The same cells in a workbook of their own, in as many formats as theirs are, packed as hard.
fn rewritten(sheets: &[Sheet]) -> Vec<u8> {
    let mut book = Workbook::new();
    book.set_zip_compression_level(2);
    let mut formats: Vec<Format> = Vec::new();
    for (name, cells) in sheets {
        let sheet = book.add_worksheet().set_name(name).expect("its name");
        for (row, column, style, cell) in cells {
            while formats.len() <= *style {
                formats.push(Format::new().set_num_format(format!("0.00\"{}\"", formats.len())));
            }
            let format = formats.get(*style).expect("it was made");
            match cell {
                Written::Blank => sheet.write_blank(*row, *column, format),
                Written::Text(text) => sheet.write_string_with_format(*row, *column, text, format),
                Written::Number(number) => sheet.write_number_with_format(*row, *column, *number, format),
                Written::Formula(text) => {
                    let formula = Formula::new(text).set_result("1.2345678901");
                    sheet.write_formula_with_format(*row, *column, formula, format)
                }
            }
            .expect("a cell");
        }
    }
    book.save_to_buffer().expect("a workbook")
}

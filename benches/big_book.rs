//! A large book, 20,000 prices, 10,000 recipes and 200,000 lines in lists, against its floor: what reading it and writing the
//! workbook take at the least.
//!
//! The floor is one pass over all values of the same file with their styles, and the cells of the finished workbook
//! written: blanks, texts, numbers, and formula texts with their results, each in the format of its style, given sheet by
//! sheet and row by row to the same library in the same process, which writes them with as many threads as it takes and packs
//! them as hard. Not in it is what the cells are worked out from, nor what stands round them: widths, links, notes, charts.
//!
//! Its time is told of cells that are held ready, so that to give them costs nothing; its memory of a process of its own that
//! takes them from the finished workbook's file as they come, so that none is held but by the library (beside the texts of
//! that file, which its reader keeps).
//!
//! `cargo bench --bench big_book`. Prints times of the stages and of the floor, by the clock and of the processors, taken in
//! turn, three times (`-- --turns 1` for once), and how many times the floor the whole is; beside it the floor without
//! formats, which is less than writing the same cells. Then the most memory that a whole run and the floor take, each in a
//! process of its own, as Linux tells it; and costing alone at 200,000 and at 2,000,000 lines.

#![allow(
    clippy::print_stdout,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_types,
    reason = "a bench prints, and stops when it cannot go on"
)]

mod kitchen;
mod timed;

use std::fs::File;
use std::io::{BufReader, Cursor, Read, Seek};
use std::path::Path;

use calamine::{DataRef, Reader, Xlsx};
use jiff::civil::date;
use parings::{Options, Reading, Scenario, Source, cost, read, write};
use rust_xlsxwriter::{Format, Formula, Workbook};

use crate::kitchen::{LARGE, Size, book, files};
use crate::timed::{Took, in_turn, timed};

/// With this and a file the bench is one run over that file.
const ONE_RUN: &str = "--one-run";
/// With this, a file, and the workbook that comes of it, the bench is their floor, once.
const FLOOR: &str = "--floor";
/// With this and a number everything is timed so often.
const TURNS: &str = "--turns";

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).filter(|argument| argument != "--bench").collect();
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    match arguments.as_slice() {
        [ONE_RUN, file] => one_run(Path::new(file)),
        [FLOOR, file, costed] => floor(Path::new(file), Path::new(costed)),
        [TURNS, turns] => bench(turns.parse().expect("a number of turns")),
        [] => bench(3),
        _ => panic!("{TURNS} and a number, or nothing"),
    }
}

fn bench(turns: u32) {
    let folder = tempfile::tempdir().expect("there is room for a folder");
    let [file, costed] = ["kitchen.xlsx", "costed.xlsx"].map(|name| folder.path().join(name));
    let bytes = book(LARGE).expect("the book can be written");
    println!("{LARGE:?}, {} bytes", bytes.len());
    std::fs::write(&file, &bytes).expect("the book can be put there");
    let reading = reading(&bytes);
    let scenario = Scenario::of(&reading.kitchen);
    let costing = cost(&reading.kitchen, &scenario);
    let stamp = date(2026, 11, 20).at(12, 0, 0, 0);
    let written = write(&reading, &costing, stamp).expect("the workbook can be written");
    std::fs::write(&costed, &written).expect("the workbook can be put there");
    println!("whole: {} at the most", alone(ONE_RUN, &[file.as_path()]));
    println!("floor: {} at the most", alone(FLOOR, &[file.as_path(), costed.as_path()]));

    let cells = cells(&written);
    drop(written);
    let [whole, reading_alone, costing_alone, writing_alone, read_floor, write_floor, plain_floor] = in_turn(
        turns,
        [
            ("whole: read, cost, write", &mut || {
                let reading = self::reading(&bytes);
                let costing = cost(&reading.kitchen, &scenario);
                drop(write(&reading, &costing, stamp).expect("as before"));
            }),
            ("  read", &mut || drop(self::reading(&bytes))),
            ("  cost", &mut || drop(cost(&reading.kitchen, &scenario))),
            ("  write", &mut || drop(write(&reading, &costing, stamp).expect("as before"))),
            ("floor: values and styles once", &mut || assert!(values(Cursor::new(&bytes)) > 0)),
            ("floor: the same cells written", &mut || drop(rewritten(&cells, true))),
            ("  without formats", &mut || drop(rewritten(&cells, false))),
        ],
    );
    let of = |one: Took, other: Took, more: Took| {
        let clock = ratio(one.wall, other.wall + more.wall);
        format!("{clock:.3} by the clock, {:.3} of the processors", ratio(one.cpu, other.cpu + more.cpu))
    };
    let nothing = Took::default();
    println!("whole ÷ floor {}", of(whole, read_floor, write_floor));
    println!("whole ÷ floor without formats {}", of(whole, read_floor, plain_floor));
    println!("read ÷ its floor {}", of(reading_alone, read_floor, nothing));
    println!("write ÷ its floor {}", of(writing_alone, write_floor, nothing));
    println!("cost ÷ whole {}", of(costing_alone, whole, nothing));

    let larger = files(Size { recipes: 100_000, ..LARGE }).expect("the book can be written");
    let sources: Vec<Source<'_>> = larger.iter().map(|bytes| Source { name: "kitchen.xlsx", bytes }).collect();
    let larger = read(&sources, OPTIONS).expect("the book can be read");
    let scenario = Scenario::of(&larger.kitchen);
    let ten = timed("cost alone, ten times the lines", turns, || drop(cost(&larger.kitchen, &scenario)));
    println!("ten times the lines take so many times as long: {}", of(ten, costing_alone, nothing));
}

#[expect(clippy::disallowed_types, clippy::float_arithmetic, reason = "a ratio of two times")]
fn ratio(time: std::time::Duration, other: std::time::Duration) -> f64 {
    time.as_secs_f64() / other.as_secs_f64()
}

/// Reads, costs and writes once, and prints the most memory that the process took.
fn one_run(file: &Path) {
    let bytes = std::fs::read(file).expect("the file can be read");
    let reading = reading(&bytes);
    let costing = cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
    let stamp = date(2026, 11, 20).at(12, 0, 0, 0);
    let written = write(&reading, &costing, stamp).expect("the workbook can be written");
    tell_memory(written.len());
}

/// Reads the values of a file, writes the cells of the workbook that comes of it, and prints the most memory that the process
/// took.
fn floor(file: &Path, costed: &Path) {
    let open = |file: &Path| BufReader::new(File::open(file).expect("the file can be opened"));
    assert!(values(open(file)) > 0);
    let mut again = Rewriting::new(true);
    each_cell(|| open(costed), |met| again.take(&met));
    tell_memory(again.bytes().len());
}

fn tell_memory(written: usize) {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let most = status.lines().find_map(|line| line.strip_prefix("VmHWM:")).unwrap_or("unknown").trim();
    println!("{most}, {written} bytes written");
}

/// What the bench says in a process of its own.
fn alone(what: &str, files: &[&Path]) -> String {
    let this = std::env::current_exe().expect("the bench knows where it is");
    let done = std::process::Command::new(this).arg(what).args(files).output().expect("the bench starts once more");
    assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
    String::from_utf8_lossy(&done.stdout).trim().to_owned()
}

/// When it is costed.
const OPTIONS: Options = Options::on(date(2026, 11, 20));

fn reading(bytes: &[u8]) -> Reading {
    read(&[Source { name: "kitchen.xlsx", bytes }], OPTIONS).expect("the book can be read")
}

/// One pass over all values with their styles; gives how many there are.
fn values(file: impl Read + Seek) -> usize {
    let mut book: Xlsx<_> = Xlsx::new(file).expect("calamine opens the book");
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
    /// With its result.
    Formula(String, String),
}

/// What is met on the way through a workbook.
enum Met {
    /// A sheet of this name begins.
    Sheet(String),
    /// A cell: its row and column, its style, and what is in it.
    Cell(u32, u16, usize, Written),
}

/// The cells and formula texts of the finished workbook.
fn cells(bytes: &[u8]) -> Vec<Met> {
    let mut all = Vec::new();
    each_cell(|| Cursor::new(bytes), |met| all.push(met));
    all
}

/// Hands over what is in a workbook, row by row. One reader knows of styles, the other of formulas.
fn each_cell<R: Read + Seek>(open: impl Fn() -> R, mut take: impl FnMut(Met)) {
    let [mut book, mut beside]: [Xlsx<R>; 2] =
        [(), ()].map(|()| Xlsx::new(open()).expect("calamine opens the workbook"));
    for name in book.sheet_names() {
        take(Met::Sheet(name.clone()));
        let mut styled = book.worksheet_cells_reader(&name).expect("a sheet");
        let mut formulas = beside.worksheet_cells_reader(&name).expect("a sheet");
        while let Some((cell, style)) = styled.next_cell_with_style_id().expect("a cell") {
            let other = formulas.next_cell_with_formula().expect("a cell").expect("as many cells");
            let (row, column) = cell.get_position();
            assert_eq!(other.pos, (row, column), "the same cells in the same order");
            let value = match cell.get_value() {
                DataRef::String(text) => Written::Text(text.clone()),
                DataRef::SharedString(text) => Written::Text((*text).to_owned()),
                DataRef::Float(number) => Written::Number(*number),
                DataRef::DateTime(date) => Written::Number(date.as_f64()),
                DataRef::Bool(yes) => Written::Number(f64::from(u8::from(*yes))),
                _ => Written::Blank,
            };
            let written = match (other.formula, value) {
                (None, value) => value,
                (Some(formula), Written::Text(result)) => Written::Formula(formula, result),
                (Some(formula), Written::Number(result)) => Written::Formula(formula, result.to_string()),
                (Some(formula), Written::Blank | Written::Formula(..)) => Written::Formula(formula, String::new()),
            };
            take(Met::Cell(row, u16::try_from(column).expect("a column"), style, written));
        }
    }
}

/// The same cells in a workbook of their own, packed as hard.
fn rewritten(all: &[Met], styled: bool) -> Vec<u8> {
    let mut again = Rewriting::new(styled);
    all.iter().for_each(|met| again.take(met));
    again.bytes()
}

/// A workbook that is written again by the library, in as many formats as it has, or in none.
struct Rewriting {
    book: Workbook,
    formats: Vec<Format>,
    styled: bool,
}

impl Rewriting {
    fn new(styled: bool) -> Self {
        let mut book = Workbook::new();
        book.set_zip_compression_level(2);
        Rewriting { book, formats: Vec::new(), styled }
    }

    fn take(&mut self, met: &Met) {
        let (row, column, style, written) = match met {
            Met::Sheet(name) => {
                self.book.add_worksheet().set_name(name).expect("its name");
                return;
            }
            Met::Cell(row, column, style, written) => (*row, *column, *style, written),
        };
        let formats = &mut self.formats;
        while formats.len() <= style {
            formats.push(Format::new().set_num_format(format!("0.00\"{}\"", formats.len())));
        }
        let sheet = self.book.worksheets_mut().last_mut().expect("a sheet began");
        let formula = |text: &str, result: &str| Formula::new(text).set_result(result);
        match (written, formats.get(style).filter(|_| self.styled)) {
            (Written::Blank, Some(format)) => sheet.write_blank(row, column, format),
            (Written::Blank, None) => Ok(sheet),
            (Written::Text(text), Some(format)) => sheet.write_string_with_format(row, column, text, format),
            (Written::Text(text), None) => sheet.write_string(row, column, text),
            (Written::Number(number), Some(format)) => sheet.write_number_with_format(row, column, *number, format),
            (Written::Number(number), None) => sheet.write_number(row, column, *number),
            (Written::Formula(text, result), Some(format)) => {
                sheet.write_formula_with_format(row, column, formula(text, result), format)
            }
            (Written::Formula(text, result), None) => sheet.write_formula(row, column, formula(text, result)),
        }
        .expect("a cell");
    }

    fn bytes(mut self) -> Vec<u8> {
        self.book.save_to_buffer().expect("a workbook")
    }
}

//! A usual book from the start of the process to the finished file: 60 recipes on cards, 250 prices, 8 yield tests. Then
//! the same where 60 of the items borrow the weight of a cup from a built-in food.
//!
//! `cargo bench --bench usual_book`. Prints the median, the fastest and the slowest of many runs of the command, and
//! beside it the command that only says its version: what starting a process costs here. Then what the three stages take
//! within one process.

#![allow(
    clippy::print_stdout,
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a bench prints, and stops when it cannot go on"
)]

mod kitchen;
mod timed;

use std::process::Command;

use jiff::civil::date;
use parings::problem::Code;
use parings::{Options, Scenario, Source, cost, read, write};

use crate::kitchen::{Size, book};
use crate::timed::timed;

/// A usual book.
const USUAL: Size = Size { prices: 250, recipes: 60, lines: 12, tests: 8, borrowing: 0, cards: true };
/// One whose cooks weigh less: the built-in foods are read and used.
const BORROWING: Size = Size { borrowing: 60, ..USUAL };

fn main() {
    time(USUAL);
    time(BORROWING);
}

fn time(size: Size) {
    let bytes = book(size).expect("the book can be written");
    let folder = tempfile::tempdir().expect("there is room for a folder");
    let (path, out) = (folder.path().join("kitchen.xlsx"), folder.path().join("out.xlsx"));
    std::fs::write(&path, &bytes).expect("the book can be put there");
    let run = |arguments: &mut Command| {
        let done = arguments.output().expect("the command starts");
        assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
    };
    let parings = || Command::new(env!("CARGO_BIN_EXE_parings"));
    println!("{size:?}, {} bytes", bytes.len());
    timed("cost, start to finished file", 60, || {
        run(parings().arg("cost").arg(&path).arg("-o").arg(&out).arg("--force"))
    });
    timed("--version, for comparison", 60, || run(parings().arg("--version")));

    let sources = [Source { name: "kitchen.xlsx", bytes: &bytes }];
    let options = Options::on(date(2026, 11, 20));
    let reading = read(&sources, options).expect("the book can be read");
    let scenario = Scenario::of(&reading.kitchen);
    let costing = cost(&reading.kitchen, &scenario);
    let borrowed = costing.problems.iter().filter(|problem| problem.code == Code::MeasureBorrowed).count();
    assert!(borrowed >= size.borrowing as usize, "only {borrowed} measures are borrowed");
    let stamp = date(2026, 11, 20).at(12, 0, 0, 0);
    timed("  read", 60, || drop(read(&sources, options).expect("as before")));
    timed("  cost", 60, || drop(cost(&reading.kitchen, &scenario)));
    timed("  write", 60, || drop(write(&reading, &costing, stamp).expect("the workbook can be written")));
}

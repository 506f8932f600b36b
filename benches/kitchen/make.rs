//! Writes the benches' large book, or one of the same shape with fewer recipes, to a file.
//!
//! `cargo run --example make-big-book -- FILE [RECIPES]`; 10,000 recipes of 20 lines over 20,000 prices unless another
//! number is asked for. `.ci/libreoffice-check --large` costs it and has LibreOffice recalculate the workbook.

#![allow(clippy::print_stderr, reason = "a program that is run by hand says what it needs")]

#[path = "mod.rs"]
mod kitchen;

use std::env;
use std::process::ExitCode;

use crate::kitchen::{LARGE, Size, book};

fn main() -> ExitCode {
    let mut arguments = env::args().skip(1);
    let recipes = |text: String| text.parse::<u32>().ok().filter(|recipes| *recipes > 0);
    let (Some(file), Some(recipes)) = (arguments.next(), arguments.next().map_or(Some(LARGE.recipes), recipes)) else {
        eprintln!("make-big-book FILE [RECIPES]");
        return ExitCode::from(2);
    };
    let size = Size { recipes, ..LARGE };
    let made = book(size).map_err(|error| error.to_string());
    match made.and_then(|bytes| std::fs::write(&file, bytes).map_err(|error| error.to_string())) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("make-big-book: {file}: {error}");
            ExitCode::from(2)
        }
    }
}

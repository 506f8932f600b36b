//! `mix`: the menu by popularity and margin. Writes nothing.

use super::{costed, tell};
use crate::analysis::MenuMix;
use crate::cli::args::{Common, Format, MixArgs};
use crate::cli::exit::Exit;
use crate::cli::inputs::BookFiles;
use crate::cli::stop::Stop;
use crate::cli::terminal::Terminal;
use crate::output::{csv, json, text};

/// Runs the command.
///
/// # Errors
/// [`Stop`] when a file cannot be read, or none holds a table that parings knows.
pub fn run(args: &MixArgs, common: &Common, terminal: &Terminal) -> Result<Exit, Stop> {
    let inputs = BookFiles::open(&args.books)?;
    let progress = terminal.progress();
    let (reading, costing) = costed(inputs, common, &progress)?;
    let kitchen = &reading.kitchen;
    let mix = MenuMix::of(kitchen, &costing);
    let problems = reading.problems_with(&costing);
    drop(progress);
    let results = match common.format {
        Format::Table => text::menu_mix(kitchen, &costing, &mix, terminal.results_view()),
        Format::Json => json::menu_mix(kitchen, &costing, &mix, &problems),
        Format::Csv => csv::menu_mix(kitchen, &costing, &mix),
    };
    terminal.results(common.format, &results)?;
    tell(&problems, &args.books, common, terminal);
    Ok(Exit::after(&problems))
}

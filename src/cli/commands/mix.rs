//! `mix`: the menu by popularity and margin. Writes nothing.

use super::{how_to_see_all, told};
use crate::analysis::MenuMix;
use crate::cli::args::{Common, Format, MixArgs};
use crate::cli::exit::Exit;
use crate::cli::inputs::{BookFiles, holds_a_table};
use crate::cli::stop::Stop;
use crate::cli::terminal::Terminal;
use crate::output::{csv, json, text};
use crate::{Scenario, cost};

/// Runs the command.
///
/// # Errors
/// [`Stop`] when a file cannot be read, or none holds a table that parings knows.
pub fn run(args: &MixArgs, common: &Common, terminal: &Terminal) -> Result<Exit, Stop> {
    let inputs = BookFiles::open(&args.books)?;
    let progress = terminal.progress();
    let reading = inputs.read(common.as_of, &progress)?;
    holds_a_table(&reading, &args.books)?;
    progress.doing("Costing");
    let kitchen = &reading.kitchen;
    let costing = cost(kitchen, &Scenario::of(kitchen));
    let mix = MenuMix::of(kitchen, &costing);
    let problems = reading.problems_with(&costing);
    drop(progress);
    let results = match common.format {
        Format::Table => text::menu_mix(kitchen, &costing, &mix, terminal.results_view()),
        Format::Json => json::menu_mix(kitchen, &costing, &mix, &problems),
        Format::Csv => csv::menu_mix(kitchen, &costing, &mix),
    };
    terminal.results(common.format, &results)?;
    let told = told(&problems, common);
    if !told.is_empty() {
        let worst = text::worst(&told, &how_to_see_all(&args.books, common), terminal.notes_view());
        terminal.problems(&format!("\n{worst}"));
    }
    Ok(Exit::after(&problems))
}

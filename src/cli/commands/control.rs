//! `control`: actual against standard food cost. Writes nothing.

use super::{how_to_see_all, told};
use crate::analysis::FoodControl;
use crate::cli::args::{Common, ControlArgs, Format};
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
pub fn run(args: &ControlArgs, common: &Common, terminal: &Terminal) -> Result<Exit, Stop> {
    let inputs = BookFiles::open(&args.books)?;
    let progress = terminal.progress();
    let reading = inputs.read(common.as_of, &progress)?;
    holds_a_table(&reading, &args.books)?;
    progress.doing("Costing");
    let kitchen = &reading.kitchen;
    let costing = cost(kitchen, &Scenario::of(kitchen));
    let control = FoodControl::of(kitchen, &costing);
    let problems = reading.problems_with(&costing);
    drop(progress);
    let results = match common.format {
        Format::Table => text::food_control(kitchen, &costing, &control, terminal.results_view()),
        Format::Json => json::food_control(kitchen, &costing, &control, &problems),
        Format::Csv => csv::food_control(kitchen, &costing, &control),
    };
    terminal.results(common.format, &results)?;
    let told = told(&problems, common);
    if !told.is_empty() {
        let worst = text::worst(&told, &how_to_see_all(&args.books, common), terminal.notes_view());
        terminal.problems(&format!("\n{worst}"));
    }
    Ok(Exit::after(&problems))
}

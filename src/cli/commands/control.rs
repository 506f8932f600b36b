//! `control`: actual against standard food cost. Writes nothing.

use super::{costed, rows_without_csv, tell};
use crate::analysis::FoodControl;
use crate::cli::args::{Common, ControlArgs, ControlRows, Format};
use crate::cli::exit::Exit;
use crate::cli::inputs::BookFiles;
use crate::cli::stop::Stop;
use crate::cli::terminal::Terminal;
use crate::output::{csv, json, text};

/// Runs the command.
///
/// # Errors
/// [`Stop`] when a file cannot be read, or none holds a table that parings knows.
pub fn run(args: &ControlArgs, common: &Common, terminal: &Terminal) -> Result<Exit, Stop> {
    if args.rows.is_some() && common.format != Format::Csv {
        return Ok(rows_without_csv());
    }
    let inputs = BookFiles::open(&args.books)?;
    let progress = terminal.progress();
    let (reading, costing) = costed(inputs, common, &progress)?;
    let kitchen = &reading.kitchen;
    let control = FoodControl::of(kitchen, &costing);
    let problems = reading.problems_with(&costing);
    drop(progress);
    let results = match common.format {
        Format::Table => text::food_control(kitchen, &costing, &control, terminal.results_view()),
        Format::Json => json::food_control(kitchen, &costing, &control, &problems),
        Format::Csv => match args.rows.unwrap_or_default() {
            ControlRows::Periods => csv::food_control(kitchen, &costing, &control),
            ControlRows::Items => csv::counted_items(kitchen, &costing, &control),
        },
    };
    terminal.results(common.format, &results)?;
    tell(&problems, &args.books, common, terminal);
    Ok(Exit::after(&problems))
}

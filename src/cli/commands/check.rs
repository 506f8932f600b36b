//! `check`: what was found in a book, what was understood, and everything that is wrong. Writes nothing.

use super::told;
use crate::cli::args::{CheckArgs, Common, Format};
use crate::cli::exit::Exit;
use crate::cli::inputs::{Inputs, holds_a_table};
use crate::cli::stop::Stop;
use crate::cli::terminal::Terminal;
use crate::output::text;
use crate::output::text::{Origin, View};
use crate::output::{csv, json};
use crate::problem::Problem;
use crate::{Reading, Scenario, cost};

/// Runs the command.
///
/// # Errors
/// [`Stop`] when a file cannot be read, or none holds a table that parings knows.
pub fn run(args: &CheckArgs, common: &Common, terminal: &Terminal) -> Result<Exit, Stop> {
    let inputs = Inputs::open(&args.books)?;
    let progress = terminal.progress();
    let reading = inputs.read(common.as_of, &progress)?;
    progress.doing("Costing");
    let costing = cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
    let problems = reading.problems_with(&costing);
    let results = match common.format {
        Format::Table => page(&reading, &problems, common, terminal.results_view()),
        Format::Json => json::found(costing.scenario.date, &reading.sheets, &problems),
        Format::Csv => csv::problems(&problems),
    };
    drop(progress);
    terminal.results(results.as_bytes())?;
    holds_a_table(&reading, &args.books)?;
    Ok(Exit::after(&problems))
}

fn page(reading: &Reading, problems: &[Problem], common: &Common, view: View) -> String {
    let origin = Origin { date_asked: common.as_of.is_some() };
    let mut page = text::found(&reading.kitchen, &reading.sheets, view);
    page.push('\n');
    page.push_str(&text::settings(&reading.kitchen, origin, view));
    page.push('\n');
    let told = told(problems, common);
    if problems.is_empty() {
        page.push_str("No problems.\n");
    } else if told.is_empty() {
        page.push_str("No errors, no warnings.\n");
    } else {
        page.push_str(&text::all_problems(&told, view));
    }
    page
}

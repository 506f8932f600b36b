//! `check`: what was found in a book, what was understood, and everything that is wrong. Writes nothing but, where it is
//! asked for, what is missing as tables to fill in.

use std::path::PathBuf;

use jiff::ZonedDateTime;

use super::told;
use crate::cli::args::{CheckArgs, Common, Format};
use crate::cli::exit::Exit;
use crate::cli::inputs::{BookFiles, as_arguments, holds_a_table};
use crate::cli::output::Target;
use crate::cli::stop::Stop;
use crate::cli::terminal::Terminal;
use crate::output::text;
use crate::output::text::{Origin, View};
use crate::output::{csv, json};
use crate::problem::Problem;
use crate::results::missing::Missing;
use crate::{Reading, Scenario, cost, write_missing};

/// Runs the command.
///
/// # Errors
/// [`Stop`] when a file cannot be read, or none holds a table that parings knows.
pub fn run(args: &CheckArgs, common: &Common, terminal: &Terminal) -> Result<Exit, Stop> {
    let inputs = BookFiles::open(&args.books)?;
    let asked = args.missing.clone();
    let target = asked.map(|file| Target::named("--missing", file, inputs.paths(), common.force)).transpose()?;
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
    terminal.results(common.format, &results)?;
    holds_a_table(&reading, &args.books)?;
    if let Some(target) = target {
        let missing = Missing::of(&reading.kitchen, &costing, &problems);
        terminal.notes(&fill_in(&missing, target, &args.books)?);
    }
    Ok(Exit::after(&problems))
}

/// Writes what is missing, and says so.
fn fill_in(missing: &Missing, target: Target, books: &[PathBuf]) -> Result<String, Stop> {
    let file = target.name().to_owned();
    let name = text::printable(&file.to_string_lossy());
    let Some(bytes) = write_missing(missing, ZonedDateTime::now().datetime())? else {
        return Ok(format!("\nNothing is missing that a table could answer, so {name} was not written.\n"));
    };
    target.write(&bytes)?;
    let all: Vec<PathBuf> = books.iter().cloned().chain([file]).collect();
    let again = text::printable(&as_arguments(&all));
    Ok(format!(
        "\nWrote {name}\nNext: fill in what you know of it, save it, then read it together with the book:\n  parings cost {again}\n"
    ))
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

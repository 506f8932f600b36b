//! `cost`: what every dish costs, and the costed workbook.

use jiff::ZonedDateTime;

use super::{rows_without_csv, tell};
use crate::cli::args::{Common, CostArgs, Format, TableRows};
use crate::cli::exit::Exit;
use crate::cli::inputs::{BookFiles, expect_memory_of_json, holds_a_table};
use crate::cli::output::Target;
use crate::cli::stop::Stop;
use crate::cli::terminal::Terminal;
use crate::output::{csv, json, text};
use crate::{Cards, Scenario, cost, write_with_cards};

/// Runs the command.
///
/// # Errors
/// [`Stop`] when a file cannot be read or written, or none holds a table that parings knows.
pub fn run(args: &CostArgs, common: &Common, terminal: &Terminal) -> Result<Exit, Stop> {
    if args.rows.is_some() && common.format != Format::Csv {
        return Ok(rows_without_csv());
    }
    let inputs = BookFiles::open(&args.books)?;
    let wanted = args.output.is_some() || common.format == Format::Table;
    let target =
        wanted.then(|| Target::find(args.output.as_deref(), inputs.paths(), "costed", common.force)).transpose()?;
    let progress = terminal.progress();
    let reading = inputs.read(common.as_of, &progress)?;
    holds_a_table(&reading, &args.books)?;
    let cards = Cards::named(&reading.kitchen, &args.cards)?;
    progress.doing("Costing");
    let costing = cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
    let problems = reading.problems_with(&costing);
    let written = match target {
        Some(target) => {
            let name = target.name().to_owned();
            progress.doing(format!("Writing {}", name.display()));
            let (bytes, counts) = write_with_cards(&reading, &costing, &cards, ZonedDateTime::now().datetime())?;
            target.write(&bytes)?;
            Some((name, counts))
        }
        None => None,
    };
    drop(progress);
    let kitchen = &reading.kitchen;
    let results = match common.format {
        Format::Table => text::dishes(kitchen, &costing, &problems, terminal.results_view()),
        Format::Json => {
            expect_memory_of_json(&reading)?;
            json::costing(kitchen, &costing, &problems)
        }
        Format::Csv => match args.rows.unwrap_or_else(|| TableRows::usual(kitchen)) {
            TableRows::Dishes => csv::dishes(kitchen, &costing),
            TableRows::Recipes => csv::recipes(kitchen, &costing),
            TableRows::Lines => csv::lines(kitchen, &costing),
            TableRows::Parts => csv::parts(kitchen, &costing),
        },
    };
    terminal.results(common.format, &results)?;
    tell(&problems, &args.books, common, terminal);
    if let Some((name, counts)) = written {
        let others = text::not_in_workbook(&problems, counts);
        terminal.notes(&format!("\nWrote {}\n{others}", text::printable(&name.to_string_lossy())));
    }
    let exit = Exit::after(&problems);
    // The process ends with this: a large book need not be given back piece by piece.
    std::mem::forget((reading, costing, problems));
    Ok(exit)
}

//! Commands, one file each; here the choice between them.

mod buy;
mod check;
mod control;
mod cost;
mod explain;
mod food;
mod mix;
mod new;
mod page;
mod reprice;
mod scale;
mod shell;
mod trim;
mod why;

use std::path::PathBuf;

use clap::CommandFactory;
use clap::error::ErrorKind;

use super::args::{Args, Command, Common};
use super::exit::Exit;
use super::inputs::{BookFiles, as_arguments, holds_a_table};
use super::progress::Progress;
use super::stop::Stop;
use super::terminal::Terminal;
use crate::output::text;
use crate::problem::{Problem, Severity};
use crate::{Costing, Reading, Scenario, cost};

/// Runs the command asked for; a book alone is costed.
///
/// # Errors
/// [`Stop`] when it could not be done.
pub fn run(args: &Args, terminal: &Terminal) -> Result<Exit, Stop> {
    let Some(command) = &args.command else {
        return cost::run(&args.cost, &args.common, terminal);
    };
    for (given, flag) in [(args.cost.output.is_some(), "-o"), (args.cost.rows.is_some(), "--rows")] {
        if given {
            return Ok(misused(ErrorKind::ArgumentConflict, &format!("put {flag} behind the command")));
        }
    }
    match command {
        Command::Check(check) => check::run(check, &args.common, terminal),
        Command::Cost(cost) => cost::run(cost, &args.common, terminal),
        Command::Trim(trim) => trim::run(trim, &args.common, terminal),
        Command::Mix(mix) => mix::run(mix, &args.common, terminal),
        Command::Buy(buy) => buy::run(buy, &args.common, terminal),
        Command::Control(control) => control::run(control, &args.common, terminal),
        Command::Reprice(reprice) => reprice::run(reprice, &args.common, terminal),
        Command::Why(why) => why::run(why, &args.common, terminal),
        Command::Scale(scale) => scale::run(scale, &args.common, terminal),
        Command::New(new) => new::run(new, &args.common, terminal),
        Command::Page(page) => page::run(page, &args.common, terminal),
        Command::Food(food) => food::run(food, &args.common, terminal),
        Command::Explain(explain) => explain::run(explain, &args.common, terminal),
        Command::Completions { shell } => shell::completions(*shell, terminal),
        Command::Man => shell::man(terminal),
    }
}

/// Says that flags do not go together, as clap says it.
fn misused(kind: ErrorKind, why: &str) -> Exit {
    // Nobody is left to be told when standard error cannot be written.
    let _ = Args::command().error(kind, why).print();
    Exit::CouldNotRun
}

/// Says that rows are chosen for csv alone.
fn rows_without_csv() -> Exit {
    misused(ErrorKind::MissingRequiredArgument, "--rows chooses what --format csv prints: add --format csv")
}

/// A book, read and costed.
fn costed(inputs: BookFiles<'_>, common: &Common, progress: &Progress) -> Result<(Reading, Costing), Stop> {
    let books = inputs.paths();
    let reading = inputs.read(common.as_of, progress)?;
    holds_a_table(&reading, books)?;
    progress.doing("Costing");
    let costing = cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
    Ok((reading, costing))
}

/// Tells the count of the problems, and the worst of them.
fn tell(problems: &[Problem], books: &[PathBuf], common: &Common, terminal: &Terminal) {
    let told = told(problems, common);
    if !told.is_empty() {
        let worst = text::worst(&told, &how_to_see_all(books, common), terminal.notes_view());
        terminal.problems(&format!("\n{worst}"));
    }
}

/// The command that lists every problem of the same book on the same day.
fn how_to_see_all(books: &[PathBuf], common: &Common) -> String {
    let day = common.as_of.map(|day| format!(" --as-of {day}")).unwrap_or_default();
    format!("parings check {}{day}", text::printable(&as_arguments(books)))
}

/// The problems worth telling: a quiet run leaves out the notes.
fn told(problems: &[Problem], common: &Common) -> Vec<Problem> {
    let is_told = |problem: &&Problem| !common.quiet || problem.severity() != Severity::Note;
    problems.iter().filter(is_told).cloned().collect()
}

//! Commands, one file each; here the choice between them.

mod buy;
mod check;
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
use super::inputs::as_arguments;
use super::stop::Stop;
use super::terminal::Terminal;
use crate::output::text::printable;
use crate::problem::{Problem, Severity};

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

/// The command that lists every problem of the same book on the same day.
fn how_to_see_all(books: &[PathBuf], common: &Common) -> String {
    let day = common.as_of.map(|day| format!(" --as-of {day}")).unwrap_or_default();
    format!("parings check {}{day}", printable(&as_arguments(books)))
}

/// The problems worth telling: a quiet run leaves out the notes.
fn told(problems: &[Problem], common: &Common) -> Vec<Problem> {
    let is_told = |problem: &&Problem| !common.quiet || problem.severity() != Severity::Note;
    problems.iter().filter(is_told).cloned().collect()
}

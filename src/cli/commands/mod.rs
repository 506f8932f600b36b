//! Commands, one file each; here the choice between them.

mod check;
mod cost;
mod explain;
mod food;
mod new;
mod reprice;
mod shell;
mod trim;

use clap::CommandFactory;
use clap::error::ErrorKind;

use super::args::{Args, Command, Common};
use super::exit::Exit;
use super::stop::Stop;
use super::terminal::Terminal;
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
        Command::Reprice(reprice) => reprice::run(reprice, &args.common, terminal),
        Command::New(new) => new::run(new, &args.common, terminal),
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

/// The problems worth telling: a quiet run leaves out the notes.
fn told(problems: &[Problem], common: &Common) -> Vec<Problem> {
    let is_told = |problem: &&Problem| !common.quiet || problem.severity() != Severity::Note;
    problems.iter().filter(is_told).cloned().collect()
}

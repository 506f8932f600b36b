//! `explain`: what problem codes mean, each with an example; all of them listed when none is named. Reads no book.

use crate::cli::args::{Common, ExplainArgs, Format};
use crate::cli::exit::Exit;
use crate::cli::flags;
use crate::cli::stop::Stop;
use crate::cli::terminal::Terminal;
use crate::output::{csv, json, text};
use crate::problem::explanation::{bare, explanations, named};
use crate::problem::{Code, Explanation, suggest};

/// Runs the command.
///
/// # Errors
/// [`Stop::NoCode`] when a word names no code.
pub fn run(args: &ExplainArgs, common: &Common, terminal: &Terminal) -> Result<Exit, Stop> {
    let mut asked: Vec<&Explanation> = Vec::new();
    for word in &args.codes {
        let found = named(word).ok_or_else(|| no_code(word))?;
        if asked.iter().all(|one| one.code != found.code) {
            asked.push(found);
        }
    }
    let shown = if asked.is_empty() { explanations().iter().collect() } else { asked };
    let shown: Vec<Explanation> = shown.into_iter().map(|one| one.saying(flags::words)).collect();
    let shown: Vec<&Explanation> = shown.iter().collect();
    let results = match common.format {
        Format::Table if args.codes.is_empty() => text::listed(explanations(), terminal.results_view()),
        Format::Table => text::explained(&shown, terminal.results_view()),
        Format::Json => json::explained(&shown),
        Format::Csv => csv::explanations(&shown),
    };
    terminal.results(common.format, &results)?;
    Ok(Exit::Done)
}

fn no_code(word: &str) -> Stop {
    let names = Code::ALL.iter().map(|code| code.name());
    let near = suggest::did_you_mean(&bare(word), names);
    Stop::NoCode { word: word.to_owned(), near: near.map(|question| format!(". {question}")).unwrap_or_default() }
}

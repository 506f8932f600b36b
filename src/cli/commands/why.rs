//! `why`: how a figure came about. Writes nothing.

use std::path::PathBuf;

use super::costed;
use crate::analysis::Why;
use crate::cli::args::{Common, Format, WhyArgs};
use crate::cli::exit::Exit;
use crate::cli::inputs::{BookFiles, as_arguments};
use crate::cli::stop::Stop;
use crate::cli::terminal::Terminal;
use crate::output::{csv, json, text};
use crate::results::why;

/// Runs the command.
///
/// # Errors
/// [`Stop`] when a file cannot be read, none holds a table that parings knows, or the name means nothing.
pub fn run(args: &WhyArgs, common: &Common, terminal: &Terminal) -> Result<Exit, Stop> {
    let AskedWhy { books, name, line } = asked(&args.given)?;
    let inputs = BookFiles::open(books)?;
    let progress = terminal.progress();
    let (reading, costing) = costed(inputs, common, &progress)?;
    let kitchen = &reading.kitchen;
    let behind = Why::named(kitchen, &costing, &name, line.as_deref())?;
    let problems = reading.problems_with(&costing);
    let found = why::why(kitchen, &costing, &behind, &problems);
    drop(progress);
    let results = match common.format {
        Format::Table => {
            let again = format!("parings why {} --all", as_arguments(&args.given));
            text::why(&found, args.all, &again, terminal.results_view())
        }
        Format::Json => json::why(&found),
        Format::Csv => csv::why(&found),
    };
    terminal.results(common.format, &results)?;
    Ok(Exit::after(&problems))
}

/// The files of a book, a name and perhaps a line, as they were given.
#[derive(Debug)]
struct AskedWhy<'a> {
    books: &'a [PathBuf],
    name: String,
    line: Option<String>,
}

/// How the names of books end.
const ENDINGS: [&str; 6] = ["xlsx", "xlsm", "xlsb", "xls", "ods", "csv"];

/// Parts the files from the names behind them: what is a file, or ends as one, is a file. The first argument always is.
fn asked(given: &[PathBuf]) -> Result<AskedWhy<'_>, Stop> {
    let is_book = |path: &PathBuf| {
        let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase());
        ending.is_some_and(|ending| ENDINGS.contains(&ending.as_str())) || path.is_file()
    };
    let files = given.iter().take_while(|path| is_book(path)).count().max(1);
    let (books, names) = given.split_at_checked(files).unwrap_or((given, &[]));
    let word = |path: &PathBuf| path.to_string_lossy().into_owned();
    let is_empty = |path: &PathBuf| path.to_string_lossy().trim().is_empty();
    match names {
        some if some.len() <= 2 && some.iter().any(is_empty) => {
            BookFiles::open(books)?;
            Err(Stop::NoName { why: "a name to ask about is empty".to_owned() })
        }
        [name] => Ok(AskedWhy { books, name: word(name), line: None }),
        [name, line] => Ok(AskedWhy { books, name: word(name), line: Some(word(line)) }),
        [] => {
            // A wrong file is told before a name is asked for.
            BookFiles::open(books)?;
            Err(Stop::NoName { why: "there is no name to ask about".to_owned() })
        }
        several => {
            let words: Vec<String> = several.iter().map(word).collect();
            Err(Stop::NoName { why: format!("{} are more than a name and a line", words.join(", ")) })
        }
    }
}

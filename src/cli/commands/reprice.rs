//! `reprice`: suppliers' new lists beside a book, the costed workbook at the new prices, and the book with them.

use jiff::ZonedDateTime;

use super::told;
use crate::cli::args::{Common, Format, RepriceArgs};
use crate::cli::exit::Exit;
use crate::cli::flags;
use crate::cli::inputs::{BookFiles, as_arguments, holds_a_table};
use crate::cli::new_book::{NewBook, WrittenFile};
use crate::cli::output::Target;
use crate::cli::stop::Stop;
use crate::cli::terminal::Terminal;
use crate::kitchen::list::ListOptions;
use crate::output::{csv, json, text};
use crate::problem::{Code, Problem, Severity};
use crate::{Source, reprice, write_repriced};

/// Runs the command.
///
/// # Errors
/// [`Stop`] when a file cannot be read or written, the book holds no table that parings knows, or a list no price.
pub fn run(args: &RepriceArgs, common: &Common, terminal: &Terminal) -> Result<Exit, Stop> {
    let inputs = BookFiles::open(&args.books)?;
    let lists = BookFiles::open(&args.prices)?;
    inputs.refuse_twins(&lists)?;
    let wanted = args.output.is_some() || common.format == Format::Table;
    let all: Vec<_> = args.books.iter().chain(&args.prices).cloned().collect();
    let target = wanted.then(|| Target::find(args.output.as_deref(), &all, "repriced", common.force)).transpose()?;
    let book = args
        .write_book
        .as_deref()
        .map(|named| NewBook::at(named, &args.books, &all, target.as_ref(), common.force))
        .transpose()?;
    let progress = terminal.progress();
    let (reading, mut files) = inputs.read_kept(common.as_of, &progress)?;
    if book.is_none() {
        files.clear();
    }
    holds_a_table(&reading, &args.books)?;
    let contents = lists.contents(&progress)?;
    let sources: Vec<Source<'_>> = contents.iter().map(|(name, bytes)| Source { name, bytes }).collect();
    progress.doing("Comparing");
    let options = ListOptions {
        supplier: args.supplier.clone(),
        columns: args.column.clone(),
        dated: args.dated,
        bound: args.bound,
        accepted: args.accept.clone(),
    };
    let mut repriced = reprice(reading, &sources, &options, common.as_of.is_some())?;
    let now = ZonedDateTime::now().datetime();
    let mut written = Vec::new();
    if let Some(target) = target {
        written.push(WrittenFile { name: target.name().to_owned(), said: Vec::new() });
        progress.doing(format!("Writing {}", target.name().display()));
        target.write(&write_repriced(&repriced, now)?)?;
    }
    if let Some(book) = book {
        progress.doing(format!("Writing {}", book.name().display()));
        written.push(book.write(&files, &repriced, now)?);
    }
    drop(progress);
    // The workbook is no terminal; what is printed names the flags.
    flags::said_of_list(&mut repriced.list);
    let changes = repriced.changes();
    // Those of the lists, then the book's own at the new prices, of which the old prices belong to the matter.
    let of_book = repriced.after.problems_with(&repriced.now);
    let all: Vec<Problem> = repriced.list.problems.iter().chain(&of_book).cloned().collect();
    let results = match common.format {
        Format::Table => text::reprice(&changes, terminal.results_view()),
        Format::Json => json::reprice(&changes, &all),
        Format::Csv => csv::reprice(&changes),
    };
    terminal.results(common.format, &results)?;
    let (old_prices, others): (Vec<Problem>, Vec<Problem>) =
        told(&of_book, common).into_iter().partition(|problem| problem.code == Code::PriceOld);
    let of_lists: Vec<Problem> = told(&repriced.list.problems, common).into_iter().chain(old_prices).collect();
    if !of_lists.is_empty() {
        terminal.problems(&format!("\n{}", text::all_problems(&of_lists, terminal.notes_view())));
    }
    // What `check` notes of a book at any time is no news here.
    let others: Vec<Problem> = others.into_iter().filter(|problem| problem.severity() != Severity::Note).collect();
    if !others.is_empty() {
        let see = format!("parings check {}", text::printable(&as_arguments(&args.books)));
        terminal.problems(&format!("\nIn the book itself, {}", text::worst(&others, &see, terminal.notes_view())));
    }
    for WrittenFile { name, said } in written {
        terminal.notes(&format!("\nWrote {}\n", text::printable(&name.to_string_lossy())));
        for said in said {
            terminal.notes(&format!("{}\n", text::wrap(&text::printable(&said), text::WIDEST).join("\n")));
        }
    }
    Ok(Exit::after(&all))
}

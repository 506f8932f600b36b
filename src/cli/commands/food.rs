//! `food`: what the built-in foods say of one of them, those that bear some words, or which a book's items might borrow
//! from. Changes nothing.

use crate::cli::args::{Common, FoodArgs, Format};
use crate::cli::exit::Exit;
use crate::cli::inputs::BookFiles;
use crate::cli::stop::Stop;
use crate::cli::terminal::Terminal;
use crate::food::search;
use crate::kitchen::{Field, Kitchen, Reference};
use crate::output::{csv, json, text};

/// The most foods that a search lists.
const MOST: usize = 25;

/// Runs the command.
///
/// # Errors
/// [`Stop::NoFood`] when no food bears the words; [`Stop`] when a file of the book cannot be read.
pub fn run(args: &FoodArgs, common: &Common, terminal: &Terminal) -> Result<Exit, Stop> {
    let results = if args.books.is_empty() {
        let foods = asked(&args.words.join(" "))?;
        match common.format {
            Format::Table => text::foods(&foods, terminal.results_view()),
            Format::Json => json::foods(&foods),
            Format::Csv => csv::foods(&foods),
        }
    } else {
        let inputs = BookFiles::open(&args.books)?;
        let progress = terminal.progress();
        let reading = inputs.read(common.as_of, &progress)?;
        drop(progress);
        let proposed = proposals(&reading.kitchen);
        match common.format {
            Format::Table => text::proposals(&proposed, terminal.results_view()),
            Format::Json => json::proposals(&proposed),
            Format::Csv => csv::proposals(&proposed),
        }
    };
    terminal.results(common.format, &results)?;
    Ok(Exit::Done)
}

/// The food of this very name or number, else those that bear the words.
fn asked(words: &str) -> Result<Vec<Reference>, Stop> {
    if let Some(food) = Reference::named(words) {
        return Ok(vec![food]);
    }
    let found: Vec<Reference> = search(words, MOST)
        .into_iter()
        .map(|(food, kitchen)| kitchen.map_or(Reference::Listed(food), Reference::Kitchen))
        .collect();
    if found.is_empty() { Err(Stop::NoFood { words: words.to_owned() }) } else { Ok(found) }
}

/// Every bought item whose rows name no built-in food, with those that it might borrow from, the likeliest first.
fn proposals(kitchen: &Kitchen) -> Vec<(String, Vec<Reference>)> {
    let names_one =
        |row: &usize| kitchen.entries.prices.get(*row).is_some_and(|row| !matches!(row.reference, Field::Blank));
    let items = kitchen.items.iter().filter(|item| !item.rows.is_empty() && !item.rows.iter().any(names_one));
    items.map(|item| (item.name.clone(), Reference::proposed(&item.name))).collect()
}

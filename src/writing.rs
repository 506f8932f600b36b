//! From a costed book to the bytes of its workbook, and from a book to its own.

mod cards;

use jiff::civil::DateTime;
use rust_xlsxwriter::XlsxError;

use crate::analysis::{OrderList, Resized, RowYields, Trim};
use crate::costing::Costing;
use crate::reading::Reading;
use crate::repricing::Repriced;
use crate::results::changes::Changes;
use crate::results::missing::Missing;
use crate::results::problem_counts::Counts;
use crate::results::scale::scale;
use crate::workbook::xlsx;
use crate::workbook::xlsx::Book;
pub use cards::{Cards, NoCard};

/// Why a workbook could not be made.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("the workbook could not be made: {reason}")]
#[non_exhaustive]
pub struct WriteError {
    /// What was too much for a workbook, or went wrong.
    pub reason: String,
}

impl WriteError {
    fn of(error: XlsxError) -> Self {
        WriteError { reason: error.to_string() }
    }
}

/// The costed workbook of a book, stamped with `at`. Writes no file.
///
/// # Errors
/// [`WriteError`] when the book has more rows or sheets than a workbook can hold.
pub fn write(reading: &Reading, costing: &Costing, at: DateTime) -> Result<Vec<u8>, WriteError> {
    write_counted(reading, costing, at).map(|(bytes, _)| bytes)
}

/// As [`write()`], with how many problems the workbook tells of. What is about the shape of the files that were read alone
/// has no cell in it.
///
/// # Errors
/// [`WriteError`] when the book has more rows or sheets than a workbook can hold.
pub fn write_counted(reading: &Reading, costing: &Costing, at: DateTime) -> Result<(Vec<u8>, Counts), WriteError> {
    workbook(reading, costing, None, &Cards::default(), at)
}

/// As [`write_counted()`], with `cards` of the recipes that are chosen where there are too many for each to have one: a recipe
/// stands on its card or in the lists, never in both. Read again it is the same book.
///
/// # Errors
/// [`WriteError`] when the book has more rows or sheets than a workbook can hold.
pub fn write_with_cards(
    reading: &Reading,
    costing: &Costing,
    cards: &Cards,
    at: DateTime,
) -> Result<(Vec<u8>, Counts), WriteError> {
    workbook(reading, costing, None, cards, at)
}

/// The costed workbook at new prices, with a sheet of what changed, stamped with `at`. Writes no file.
///
/// # Errors
/// [`WriteError`] when the book has more rows or sheets than a workbook can hold.
pub fn write_repriced(repriced: &Repriced, at: DateTime) -> Result<Vec<u8>, WriteError> {
    workbook(&repriced.after, &repriced.now, Some(&repriced.changes()), &Cards::default(), at).map(|(bytes, _)| bytes)
}

fn workbook(
    reading: &Reading,
    costing: &Costing,
    changes: Option<&Changes<'_>>,
    cards: &Cards,
    at: DateTime,
) -> Result<(Vec<u8>, Counts), WriteError> {
    let problems = reading.problems_with(costing);
    let kitchen = &reading.kitchen;
    let trim = || Trim::of_book(kitchen, costing);
    let book = Book {
        kitchen,
        costing,
        problems: &problems,
        carried: &reading.carried,
        cards: cards.asked(),
        origins: &reading.origins,
        changes,
        trim: Trim::concerns(kitchen).then_some(&trim),
        yields: &|| RowYields::of(kitchen, costing),
    };
    xlsx::write(book, at).map_err(WriteError::of)
}

/// Kitchen cards of a recipe in another size, and of the recipes within it where they were scaled as well, made at `at`. They
/// hold no money. Writes no file.
///
/// # Errors
/// [`WriteError`] when a card has more rows than a workbook can hold.
pub fn write_scaled(
    reading: &Reading,
    costing: &Costing,
    resized: &Resized,
    at: DateTime,
) -> Result<Vec<u8>, WriteError> {
    let results = scale(&reading.kitchen, costing, resized, &[]);
    let subs = resized.sub_recipes.iter().map(|sub| sub.recipe).zip(&results.sub_recipes);
    let all: Vec<_> = std::iter::once((resized.recipe, &results.recipe)).chain(subs).collect();
    xlsx::scaled_cards::write(&reading.kitchen, costing, &all, &reading.origins, at).map_err(WriteError::of)
}

/// The order list as a workbook to print and tick, made at `at`: a sheet for each supplier, and one of what is on none, what
/// there is enough of, and which trim comes out. Read as a book it is passed over. Writes no file.
///
/// # Errors
/// [`WriteError`] when an order has more rows than a workbook can hold.
pub fn write_order(
    reading: &Reading,
    costing: &Costing,
    list: Option<&OrderList>,
    at: DateTime,
) -> Result<Vec<u8>, WriteError> {
    xlsx::order_sheets::write(&reading.kitchen, costing, list, &reading.origins, at).map_err(WriteError::of)
}

/// What a book lacks as tables to fill in, made at `at`: filled in and read together with the book, they are the answer.
/// `None` where nothing is missing. Writes no file.
///
/// # Errors
/// [`WriteError`] when more is missing than a workbook can hold.
pub fn write_missing(missing: &Missing, at: DateTime) -> Result<Option<Vec<u8>>, WriteError> {
    if missing.is_empty() {
        return Ok(None);
    }
    xlsx::fill_in::write(missing, at).map(Some).map_err(WriteError::of)
}

/// The book itself as a workbook made at `at`: every table and card as typed and nothing that was figured, what was carried
/// as it was. Read again it is the same book, and written again the same bytes. Writes no file.
///
/// # Errors
/// [`WriteError`] when the book has more rows or sheets than a workbook can hold.
pub fn write_book(reading: &Reading, at: DateTime) -> Result<Vec<u8>, WriteError> {
    xlsx::write_inputs(&reading.kitchen, &reading.carried, at).map_err(WriteError::of)
}

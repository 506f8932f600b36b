//! From a costed book to the bytes of its workbook.

use jiff::civil::DateTime;

use crate::costing::Costing;
use crate::reading::Reading;
use crate::report::xlsx::{self, Book, WriteError};

/// The costed workbook of a book, stamped with `at`. Writes no file.
///
/// # Errors
/// [`WriteError`] when the book has more rows or sheets than a workbook can hold.
pub fn write(reading: &Reading, costing: &Costing, at: DateTime) -> Result<Vec<u8>, WriteError> {
    let problems = reading.problems_with(costing);
    let book = Book {
        kitchen: &reading.kitchen,
        costing,
        problems: &problems,
        carried: &reading.carried,
        origins: &reading.origins,
    };
    xlsx::write(book, at)
}

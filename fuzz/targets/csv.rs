//! Books of chance as csv files, one a sheet.

#![no_main]

use arbitrary::Unstructured;
use libfuzzer_sys::fuzz_target;
use parings_fuzz::book::Book;
use parings_fuzz::laws;

fuzz_target!(|bytes: &[u8]| {
    if let Ok(book) = Book::of(&mut Unstructured::new(bytes)) {
        laws::hold(&book.csv());
    }
});

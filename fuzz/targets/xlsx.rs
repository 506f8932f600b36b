//! Books of chance as xlsx.

#![no_main]

use arbitrary::Unstructured;
use libfuzzer_sys::fuzz_target;
use parings_fuzz::book::Book;
use parings_fuzz::{laws, xlsx};

fuzz_target!(|bytes: &[u8]| {
    if let Ok(book) = Book::of(&mut Unstructured::new(bytes)) {
        laws::hold(&[("book.xlsx".to_owned(), xlsx::written(&book))]);
    }
});

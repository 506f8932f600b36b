//! Engine of the page: the library behind four functions that a browser calls, and what a page asks of it.
//!
//! A question is a line of JSON, with bytes behind it where a file is handed over; so is an answer (`engine`). Figures are
//! the library's records as they are: the page shows and computes none.

mod card;
mod engine;
mod exports;
mod knobs;
mod list;
mod overview;
mod question;
mod samples;
#[cfg(test)]
mod tests;
mod two_books;
mod wording;

pub use engine::Engine;

//! Faulty books: every fault is named at its cell with what to type instead, costs nothing but what depends on it, and
//! never ends the run. One fault alone, for every code, is the example of its explanation: see `explain`.

mod breakdowns;
pub mod cell;
mod cells;
pub mod chance;
mod edited;
pub mod expect;
mod hostile;
mod mended;
mod packs;
mod prices;
mod random;
mod recipes;
mod sheets;
mod words;

use expect::Book;

/// Every faulty book.
const BOOKS: [&[Book]; 6] =
    [sheets::BOOKS, cells::BOOKS, packs::BOOKS, prices::BOOKS, breakdowns::BOOKS, recipes::BOOKS];

#[test]
fn every_fault_is_met_where_it_stands() {
    let failed: Vec<&str> = BOOKS
        .iter()
        .copied()
        .flatten()
        .filter(|book| std::panic::catch_unwind(|| book.check()).is_err())
        .map(|book| book.name)
        .collect();
    assert!(failed.is_empty(), "see above: {failed:#?}");
}

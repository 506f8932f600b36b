//! Faulty books: every fault is named at its cell with what to type instead, costs nothing but what depends on it, and
//! never ends the run.

mod breakdowns;
mod cell;
mod cells;
mod chance;
mod edited;
mod expect;
mod hostile;
mod mended;
mod packs;
mod prices;
mod random;
mod recipes;
mod sheets;
mod words;

use std::collections::BTreeSet;

use parings::problem::Code;

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

#[test]
fn no_code_is_left_out() {
    let met: BTreeSet<Code> = BOOKS.iter().copied().flatten().flat_map(|book| book.met).map(|met| met.code).collect();
    let missed: Vec<&Code> = Code::ALL.iter().filter(|code| !met.contains(code)).collect();
    assert!(missed.is_empty(), "no book here has {missed:?}");
}

//! The messy kitchen: a supplier's price file as it is really sent, and recipes as three cooks keep them, faults and all.
//! What is planted stands in `messy-kitchen.md` and, problem by problem, in `messy-kitchen.faults.tsv`.

mod bakes;
mod cards;
mod house;
mod lists;
mod prices;

use rust_xlsxwriter::XlsxError;

use super::pen::{Book, Paper};

/// The supplier's file.
pub fn supplier() -> Result<Vec<u8>, XlsxError> {
    let mut book = Book::new("Price list week 46", Paper::Letter)?;
    prices::list(&mut book)?;
    prices::dry_store(&mut book)?;
    prices::last_year(&mut book)?;
    book.bytes_with_unfigured()
}

/// The kitchen's own file.
pub fn recipes() -> Result<Vec<u8>, XlsxError> {
    let mut book = Book::new("Recipes", Paper::Letter)?;
    house::notes(&mut book)?;
    cards::sheets(&mut book)?;
    bakes::sheets(&mut book)?;
    lists::soups(&mut book)?;
    lists::the_rest(&mut book)?;
    house::yields(&mut book)?;
    house::measures(&mut book)?;
    house::stall(&mut book)?;
    house::settings(&mut book)?;
    book.bytes()
}

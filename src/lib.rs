//! parings costs recipes from a kitchen's own spreadsheets and gives trim its due.
//!
//! Bytes in, values out, in three steps that touch no file, clock, terminal or environment:
//!
//! 1. [`read`] takes the files of a book and gives a [`Reading`]: its [`Kitchen`], every name resolved, and the
//!    [`Problem`]s met, each at its cell.
//! 2. [`cost()`] takes the kitchen and a [`Scenario`] and gives a [`Costing`]: what everything bought, fabricated and
//!    made costs, with where each figure came from.
//! 3. [`write`](fn@write) takes both and gives the bytes of the costed workbook.
//!
//! ```
//! use jiff::civil::date;
//! use parings::{Options, Scenario, Source, cost, read, write};
//!
//! let book = "\
//! Item,Pack,Price
//! Onions,50 lb,$25.00
//!
//! Recipe,Onion broth
//! Portions,4
//! Menu price,$3.00
//! Ingredient,Qty,Unit
//! Onions,2,lb
//! ";
//! let files = [Source { name: "broth.csv", bytes: book.as_bytes() }];
//! let reading = read(&files, Options::on(date(2026, 11, 20)))?;
//! let costing = cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
//!
//! // 25.00 ÷ 50 = 0.50 a pound; 2 lb for 4 portions is 0.25 a portion.
//! let dish = costing.dishes[0].as_ref().expect("nothing is wrong with it");
//! assert_eq!(dish.portion_cost.to_string(), "0.25");
//!
//! let workbook = write(&reading, &costing, date(2026, 11, 20).at(9, 0, 0, 0))?;
//! assert!(workbook.starts_with(b"PK"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! A book that is [`open`](fn@open) keeps its cells: what a cell would hold instead can be tried, read and costed.
//! The book is costed under a [`Scenario`]: another day, by-products charged otherwise, one run of a yield test alone.
//! [`reprice`] puts suppliers' new price lists beside it and gives a [`Repriced`]: both sides and what the new prices do;
//! [`read_list`] compares them only. [`write_repriced`] and [`write_book`] give the workbook at the new prices and the
//! kitchen's own book with them, written anew; [`patch_book`] puts them into the file that holds its prices.
//!
//! # What came out
//!
//! [`results`] holds a record for every figure that anybody shows, serialisable, with decimals as text; JSON and its
//! schemas, csv tables and reports for a terminal are made from them ([`output`]). A [`Costing`] itself has the figures
//! beside the kitchen's own lists, with where each came from; [`analysis`] says what it means for trim. Money and
//! quantities are [`number::Decimal`]s from door to door.
//!
//! # What is wrong
//!
//! A fault in a book is a [`Problem`] at its cell, and reading goes on; what it touches is `None` in the costing. What ends
//! a call is a [`ReadError`] or a [`WriteError`]. Messages say what to type in the book. What only the caller can offer (to
//! take a price that was held back, to say which column is the price) is a [`problem::Choice`] in the advice, and
//! [`Problem::saying`] puts the caller's words there: a flag, a drop-down.
//!
//! # Features
//!
//! `cli`, on by default, holds the command. Without it (`default-features = false`) the library needs no file system,
//! clock, terminal or environment and builds for `wasm32-unknown-unknown`.
//!
//! Inside, one direction: `number → problem → measure → schema → food → kitchen → costing → analysis → results →
//! { workbook | output } → lib → cli`, each using only what stands before it; `book` uses up to `kitchen`.

pub mod analysis;
mod book;
#[cfg(feature = "cli")]
pub mod cli;
pub mod costing;
pub mod food;
mod in_order;
pub mod kitchen;
pub mod measure;
pub mod number;
pub mod output;
pub mod problem;
pub mod results;
pub mod schema;
mod workbook;

#[cfg(feature = "cli")]
#[doc(hidden)]
pub mod internals;

mod patching;
mod reading;
mod repricing;
mod writing;

pub use analysis::supplier_list::PriceList;
pub use book::{ReadError, Source};
pub use costing::{Costing, Scenario, cost};
pub use kitchen::Kitchen;
pub use kitchen::list::ListOptions;
pub use kitchen::resolve::Options;
pub use patching::{PatchError, PatchedBook, patch_book};
pub use problem::Problem;
pub use reading::{Opened, Reading, open, read, read_list};
pub use repricing::{Repriced, reprice};
pub use schema::{CarriedSheet, FoundTable, Limits, SheetFound};
pub use writing::{
    Cards, NoCard, WriteError, write, write_book, write_counted, write_missing, write_order, write_repriced,
    write_scaled, write_with_cards,
};

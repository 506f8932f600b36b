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
//! let reading = read(&files, Options { today: date(2026, 11, 20), as_of: None })?;
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
//! [`read_list`] compares suppliers' new price lists with a book; [`Reading::with_list`] gives the book with the prices
//! that are taken.
//!
//! [`analysis`] says what a costing means for trim. Inside, one direction: `number → problem → measure → schema → food →
//! kitchen → costing → analysis → results → { workbook | output } → lib → cli`, each using only what stands before it; `book`
//! uses up to `kitchen`.
//! Money and quantities are decimals from door to door.

pub mod analysis;
pub mod book;
#[cfg(feature = "cli")]
pub mod cli;
pub mod costing;
pub mod food;
pub mod kitchen;
pub mod measure;
pub mod number;
pub mod output;
pub mod problem;
pub mod results;
pub mod schema;
pub mod workbook;

#[cfg(feature = "cli")]
#[doc(hidden)]
pub mod internals;

mod reading;
mod repricing;
mod writing;

pub use analysis::supplier_list::PriceList;
pub use book::{ReadError, Source};
pub use costing::{Costing, Scenario, cost};
pub use kitchen::Kitchen;
pub use kitchen::list::ListOptions;
pub use kitchen::resolve::Options;
pub use problem::Problem;
pub use reading::{Reading, read, read_list};
pub use repricing::{Repriced, reprice};
pub use schema::{FoundTable, SheetFound};
pub use workbook::xlsx::WriteError;
pub use writing::{write, write_book, write_counted, write_repriced};

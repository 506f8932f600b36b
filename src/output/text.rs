//! Reports as a person reads them in a terminal: the dishes as a table, what was found in a book, its problems and
//! what they mean.
//!
//! Takes the reading and the costing; gives text no wider than a [`View`] allows, each line ended. What comes from a
//! user's cells is shown without control characters, so that no cell can steer a terminal.

mod dishes;
mod explanations;
mod food_control;
mod foods;
mod found;
mod ink;
mod menu_mix;
mod order_list;
mod problems;
mod reprice;
mod scale;
mod settings;
mod table;
mod trim;
mod why;
pub(crate) mod width;

pub use dishes::dishes;
pub use explanations::{explained, listed};
pub use food_control::food_control;
pub use foods::{foods, proposals};
pub use found::found;
pub use ink::Emphasis;
pub use menu_mix::menu_mix;
pub use order_list::order_list;
pub use problems::{all_problems, counted, not_in_workbook, worst};
pub use reprice::reprice;
pub use scale::scale;
pub use settings::{Origin, settings};
pub use trim::trim;
pub use why::why;
pub use width::{printable, wrap};

/// The widest report.
pub const WIDEST: usize = 100;

/// How a report is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct View {
    /// The columns of a line, at most [`WIDEST`].
    pub width: usize,
    /// Whether colour is shown, as ANSI escape sequences.
    pub color: bool,
}

impl Default for View {
    /// As wide as reports get, without colour.
    fn default() -> Self {
        View { width: WIDEST, color: false }
    }
}

/// `1 dish`, `2 dishes`: a number with its noun.
fn many(count: usize, one: &str, several: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { several })
}

/// A word with a capital letter.
fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

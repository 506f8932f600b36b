//! Doors for the tests and benches of parings, which look at pieces that no program needs: grids as they were read, names
//! before they are resolved, what is near. No part of the API: anything here may change or go at any time.

pub use crate::analysis::where_used::Reach;
pub use crate::book::grid::{Grid, GridRow};
pub use crate::cli::flags::words as flags_in_words;
pub use crate::kitchen::resolve::resolve;
pub mod decimal {
    //! Numbers as they are typed.
    pub use crate::number::decimal::*;
}
pub use crate::measure::currency::minor_digits;
pub use crate::problem::names::nearest_names;
pub use crate::problem::short_names::written_out;
pub use crate::problem::spelling::words as words_of_name;
pub use crate::schema::header::{HeaderText, Meaning, read as read_header};
pub use crate::schema::output::is_card_label;

/// The sheets of a file within the usual limits.
///
/// # Errors
/// When the file cannot be read.
pub fn grids(source: &crate::Source<'_>) -> Result<Vec<Grid>, crate::ReadError> {
    crate::book::grids(source, &crate::Limits::USUAL)
}

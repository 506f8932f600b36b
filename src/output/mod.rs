//! Results as text: JSON with its schemas, tidy csv tables, and reports for the terminal.

pub mod csv;
pub mod json;
pub mod schemas;
pub(crate) mod steering;
pub mod text;

//! What comes out: rows of plain typed cells, rendered as a workbook, JSON, csv or a table on the terminal.
//!
//! Takes a [`Kitchen`](crate::kitchen::Kitchen) and its [`Costing`](crate::costing::Costing); gives text or bytes.
//! Computes nothing that the costing does not know: formulas and figures are rendered from the same trace.

pub(crate) mod cells;
mod context;
mod layout;
mod sheets;
pub mod stamp;
pub mod xlsx;

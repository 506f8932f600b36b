//! Workbook of a costing: rows of plain typed cells, laid out and rendered as xlsx.
//!
//! Takes a kitchen, its costing and what was analysed; gives bytes. Formulas and figures are rendered from the same trace.

pub(crate) mod cells;
mod context;
pub mod figured;
mod layout;
mod measure_guards;
mod sheets;
pub mod stamp;
pub mod xlsx;

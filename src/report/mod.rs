//! What comes out: rows of plain typed cells, rendered as a workbook, JSON, csv or a table on the terminal.
//!
//! Takes a [`Kitchen`](crate::kitchen::Kitchen) and its [`Costing`](crate::costing::Costing); gives text or bytes.
//! Computes nothing that the costing does not know: formulas and figures are rendered from the same trace.

mod allergens;
mod answer;
mod apart;
mod beside;
pub mod blame;
pub mod changes;
mod charge;
mod context;
pub mod csv;
mod dish_cells;
mod formula;
mod in_force;
mod inputs;
pub mod json;
mod layout;
mod loss;
mod named;
mod names;
mod number;
mod picture;
pub mod problems;
mod recipe_layout;
mod row;
mod scale;
mod shape;
mod sheets;
pub mod stamp;
pub mod standing;
pub mod text;
pub mod xlsx;

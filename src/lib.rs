//! parings costs recipes from a kitchen's own spreadsheets and gives trim its due.

pub mod costing;
pub mod food;
pub mod kitchen;
pub mod measure;
pub mod number;
pub mod problem;
pub mod schema;

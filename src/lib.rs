//! parings costs recipes from a kitchen's own spreadsheets and gives trim its due.

pub mod book;
pub mod cli;
pub mod costing;
pub mod food;
pub mod kitchen;
pub mod measure;
pub mod number;
pub mod problem;
pub mod report;
pub mod schema;

mod reading;
mod writing;

pub use book::{ReadError, Source};
pub use costing::{Costing, Scenario, cost};
pub use kitchen::Kitchen;
pub use kitchen::resolve::Options;
pub use problem::Problem;
pub use reading::{Reading, read};
pub use report::xlsx::WriteError;
pub use schema::{FoundTable, SheetFound};
pub use writing::write;

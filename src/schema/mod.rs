//! Schema of a book, on which both its doors must agree: which tables there are, their columns and labels, what an
//! input cell holds, and which headers and sheets are our own output.
//!
//! All of it is data: `book` finds tables by it, `report` writes tables by it.

pub mod carried;
pub mod column;
pub mod found;
pub mod header;
pub mod label;
pub mod marker;
pub mod output;
pub mod row_names;
pub mod table_signature;
mod tables;
pub mod typed;

pub use carried::CarriedSheet;
pub use column::{Column, ColumnDef, Role};
pub use found::{FoundTable, SheetFound};
pub use header::HeaderText;
pub use label::Label;
pub use table_signature::{Signature, TableKind};
pub use typed::{MOST_CHARACTERS, Shown, Typed, Value, characters, fitting};

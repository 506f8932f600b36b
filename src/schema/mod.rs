//! Schema of a book, on which both its doors must agree: which tables there are, their columns and labels, what an
//! input cell holds, and which headers and sheets are our own output.
//!
//! All of it is data: `book` finds tables by it, `report` writes tables by it.

pub(crate) mod as_written;
pub(crate) mod carried;
pub(crate) mod column;
pub(crate) mod fill_in;
pub(crate) mod found;
pub(crate) mod header;
pub(crate) mod label;
mod limits;
pub(crate) mod marker;
pub(crate) mod memory;
pub(crate) mod output;
pub(crate) mod own_sheets;
pub(crate) mod row_names;
pub(crate) mod table_signature;
mod tables;
pub(crate) mod typed;

pub use carried::CarriedSheet;
pub use column::{Column, ColumnDef, ColumnNeed};
pub use found::{FoundTable, SheetFound};
pub(crate) use header::HeaderText;
pub use label::Label;
pub use limits::Limits;
pub use table_signature::{Signature, TableKind};
pub(crate) use typed::{MOST_CHARACTERS, characters, fitting};
pub use typed::{Shown, Typed, Value};

//! The marks by which a workbook of ours is known again: what the writer puts into the document properties, and what
//! is looked for before such a file is written over.

/// The custom document property that says the program wrote the file; its text is the version.
pub const PROPERTY: &str = "parings";

/// What the property holds.
pub const VERSION: &str = env!("CARGO_PKG_VERSION");

/// The application that `docProps/app.xml` names, as rust_xlsxwriter writes it.
pub const APPLICATION: &str = "Microsoft Excel";

/// The application's version beside it, as rust_xlsxwriter writes it.
pub const APP_VERSION: &str = "12.0000";

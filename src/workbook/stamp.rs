//! Marks by which a workbook of ours is known again, which the writer puts into the document properties.

/// The custom document property that says the program wrote the file; its text is the version.
pub const PROPERTY: &str = "parings";

/// What the property holds.
pub const VERSION: &str = env!("CARGO_PKG_VERSION");

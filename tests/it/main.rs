//! The tests of parings: one binary, one module per subject.

mod laws;
mod published;
mod recalc;
mod support;
mod workbook;

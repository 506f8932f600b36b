//! The tests of parings: one binary, one module per subject.

mod follow;
mod laws;
mod published;
mod recalc;
mod samples;
mod support;
mod workbook;

//! The tests of parings: one binary, one module per subject.

mod laws;
mod published;
mod support;

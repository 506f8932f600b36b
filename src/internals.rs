//! Doors for the tests of parings. No part of the API: what stands here may change or go at any time.

pub use crate::cli::flags::words as flags_in_words;

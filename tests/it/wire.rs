//! What other programs are given: JSON as its published schemas say.

pub mod schemas;

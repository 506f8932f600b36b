//! What other programs are given: csv tables that any of them reads, and JSON as its published schemas say.

mod guard;
pub mod schemas;
mod tables;

//! What is known about foods in general, embedded: for now the listed allergens.
//!
//! Takes words from a book; gives codes of the allergen list. The kitchen's own rows always come first.

pub mod allergens;

pub use allergens::{Allergen, Stated};

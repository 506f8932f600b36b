//! Foods in general, embedded: the listed allergens, and reference foods with the measures, refuse
//! and cooked yields that were published for them.
//!
//! Takes words from a book; gives codes of the allergen list, and foods by number, name or search. Nothing is taken from
//! here unless a book leaves it open: the kitchen's own rows always come first. The tables are read when they are first
//! needed.

pub mod allergens;
pub mod care;
pub(crate) mod flour;
mod measure;
mod reference;
mod search;
mod tables;
mod words;

pub use allergens::{Allergen, StatedAllergens};
pub use measure::{FoodMeasure, MeasureText};
pub use reference::{CookedYield, Food, KitchenFood, Refuse};
pub use search::{kitchen_names, listed, search};

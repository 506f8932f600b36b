//! Recipes in another size: kitchen units against a table worked by hand, books worked by hand, laws over random ones, and
//! what is refused.

mod books;
mod card;
mod command;
mod kitchen_units;
mod laws;
mod packages;
mod refused;
mod support;

//! The sheets of the costed workbook, one file each: every one gives its frame, then its rows one by one.

pub mod cards;
pub mod carried;
pub mod changed;
pub mod defined_names;
mod dish_formulas;
pub mod food_cost;
pub mod groups;
pub mod in_pictures;
pub mod kitchen_cards;
pub mod lists;
mod menu;
pub mod menu_mix;
pub mod money;
pub mod order;
pub mod plain;
pub mod prices;
pub mod problems;
mod ranked;
pub mod recipe;
mod sales;
pub mod settings;
pub mod summary;
pub mod table;
pub mod trim;
pub mod what_if;
pub mod working;
pub mod yield_tests;

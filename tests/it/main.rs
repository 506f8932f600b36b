//! The tests of parings: one binary, one module per subject.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::float_arithmetic,
    clippy::disallowed_types,
    reason = "a test that cannot go on says so by stopping, and an independent engine speaks in floats"
)]

mod analysis;
mod api;
mod babble;
mod back;
mod bakers_percentages;
mod cards;
mod charges;
mod chosen_cards;
mod circles;
mod cli;
mod contract;
mod corners;
mod docs;
mod doubts;
mod explain;
mod faults;
mod fill_in;
mod follow;
mod food_control;
mod foods;
mod formats;
mod hands;
mod hostile;
mod ingredient_lines;
mod invoices;
mod kitchen_cards;
mod laws;
mod layers;
mod life;
mod lists;
mod look;
mod measures;
mod menu_mix;
mod menu_portion;
mod model;
mod names;
mod one_story;
mod order_list;
mod ounces;
mod package_words;
mod packs;
mod pictures;
mod prices;
mod print;
mod published;
mod quantities;
mod recalc;
mod recipe_files;
mod regression;
mod reprice;
mod rounds;
mod samples;
mod scale;
mod scenario;
mod screen;
mod set_menus;
mod stock_units;
mod summary;
mod suppliers;
mod supply;
mod support;
mod templates;
mod units;
mod why;
mod wire;
mod workbook;
mod worked;
mod written;

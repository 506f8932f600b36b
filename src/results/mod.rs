//! Records of what came out: one for every figure that anybody shows, in the units that its field names. What JSON,
//! csv, the terminal, the workbook and the page show comes from here, so that they say the same.

pub(crate) mod allergen_words;
pub(crate) mod answer;
pub(crate) mod basket_way;
pub mod changes;
pub(crate) mod charge_words;
pub mod costs;
pub(crate) mod dearest;
pub mod dish;
pub(crate) mod display_units;
pub(crate) mod distinguishing_decimals;
pub mod explained;
pub(crate) mod figures;
pub mod foods;
pub mod found;
pub mod line;
pub(crate) mod loss_words;
pub mod menu_mix;
pub mod missing;
pub(crate) mod on_the_way;
pub(crate) mod price_apart;
pub mod problem;
pub mod problem_counts;
pub(crate) mod problem_groups;
pub(crate) mod purchases;
pub mod recipe;
pub mod reprice;
pub mod stopped_by;
pub mod target_status;
pub(crate) mod test_row;
pub mod trim;
pub mod value;
pub(crate) mod weight_flow;
pub mod word;
pub mod yield_test;

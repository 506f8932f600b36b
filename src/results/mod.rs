//! Records of what came out: one for every figure that anybody shows, in the units that its field names. What JSON,
//! csv, the terminal, the workbook and the page show comes from here, so that they say the same.

pub(crate) mod allergen_words;
pub(crate) mod answer;
pub mod changes;
pub(crate) mod charge_words;
pub(crate) mod costs;
pub(crate) mod dearest;
pub(crate) mod dish;
pub(crate) mod display_units;
pub(crate) mod distinguishing_decimals;
pub(crate) mod explained;
pub(crate) mod figures;
pub(crate) mod foods;
pub(crate) mod found;
pub(crate) mod line;
pub(crate) mod loss_words;
pub(crate) mod on_the_way;
pub(crate) mod problem;
pub(crate) mod problem_counts;
pub(crate) mod purchases;
pub(crate) mod recipe;
pub(crate) mod reprice;
pub mod stopped_by;
pub mod target_status;
pub(crate) mod test_row;
pub(crate) mod trim;
pub(crate) mod value;
pub(crate) mod weight_flow;
pub(crate) mod word;
pub(crate) mod yield_test;

//! Cells of the workbook before anything renders them: rows, frames, formulas with their results, charts.

pub(crate) mod chart;
pub(crate) mod formula;
pub(crate) mod number;
pub(crate) mod row;
pub(crate) mod unprintable;

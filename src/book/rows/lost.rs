//! Lost values: error cells, formulas without their result, numbers that no decimal holds.

use crate::problem::{Code, Fault};
use crate::schema::Typed;

/// Whether `text` is a number with an exponent, as the grid holds numbers that no decimal can.
pub(super) fn is_scientific(text: &str) -> bool {
    let number =
        |part: &str| part.chars().any(|c| c.is_ascii_digit()) && part.chars().all(|c| c.is_ascii_digit() || c == '.');
    let unsigned = |part: &str| part.trim_start_matches(['-', '+']).to_owned();
    text.trim().split_once(['e', 'E']).is_some_and(|(a, b)| number(&unsigned(a)) && number(&unsigned(b)))
}

/// The fault of a cell whose value is not there: an error, or a formula without its result.
pub(super) fn lost(typed: &Typed) -> Option<Fault> {
    if let Some(formula) = typed.lost_formula() {
        return Some(Fault::new(
            Code::FormulaWithoutValue,
            format!("the formula {formula} was saved without its result"),
            "Open the file in a spreadsheet program and save it once, or type the value.",
        ));
    }
    let error = typed.error()?;
    Some(Fault::new(Code::CellError, format!("the cell shows {error}"), "Mend the formula, or type the value."))
}

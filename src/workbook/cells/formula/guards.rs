//! Guards of a formula: what stands in for a cell that was cleared, that holds no number as one may be typed, or that does
//! not say any more what was read in it.

use super::{Formula, NOT_KNOWN, OR_NOT_KNOWN, Ref, literal};
use crate::number::{Decimal, plain};
use crate::problem::place::{push_column, push_row};
use crate::schema::Typed;

/// Nothing, as a formula says it.
pub const BLANK: &str = "\"\"";

/// `filled` where something stands in the cell, else `otherwise`.
pub fn or_else(cell: &str, filled: &str, otherwise: &str) -> String {
    ["IF(", cell, "=\"\",", otherwise, ",", filled, ")"].concat()
}

/// A number that was typed, as a formula reads it: a cell that was cleared is no nought.
pub fn needed(cell: &str) -> String {
    ["IF(", &is_typed(cell), ",", cell, OR_NOT_KNOWN].concat()
}

/// A cell that may be blank, and is no number that may be typed where it is below nought.
pub fn not_below_nought(cell: &str) -> String {
    ["IF(", cell, "<0,\"", NOT_KNOWN, "\",", cell, ")"].concat()
}

/// Whether a cell holds a number as one may be typed: none below nought is read.
pub fn is_typed(cell: &str) -> String {
    ["AND(ISNUMBER(", cell, "),", cell, ">=0)"].concat()
}

/// What was read of cells of words, as long as none of them was cleared; the number alone where there are none.
pub fn while_filled(cells: &[String], number: Decimal) -> Option<Formula> {
    let blank: Vec<String> = cells.iter().map(|cell| [cell, "=", BLANK].concat()).collect();
    unless(&blank, number)
}

/// A number as long as none of these is so; the number alone where there are none.
pub fn unless(conditions: &[String], number: Decimal) -> Option<Formula> {
    (!conditions.is_empty()).then(|| Formula::number(not_if(conditions, &plain(number)), number))
}

/// What `text` says as long as none of these is so.
pub fn not_if(conditions: &[String], text: &str) -> String {
    let [before, after] = match conditions {
        [] => return text.to_owned(),
        [_] => ["IF(", ",\""],
        _ => ["IF(OR(", "),\""],
    };
    [before, &conditions.join(","), after, NOT_KNOWN, "\",", text, ")"].concat()
}

/// The condition that a cell no longer says the words that were read in it, or that it was cleared where they were none.
pub fn says_other(cell: &str, words: Option<&str>) -> String {
    match words.and_then(literal) {
        Some(words) => [cell, "<>", &words].concat(),
        None => [cell, "=", BLANK].concat(),
    }
}

/// The condition that a cell no longer says what was typed in it: that it says other words, or was filled where it was blank.
pub fn not_as_typed(cell: &str, typed: &Typed) -> String {
    if typed.is_blank() { [cell, "<>", BLANK].concat() } else { says_other(cell, typed.words()) }
}

/// That a cell in the row of the formula was cut and pasted elsewhere, which takes along whatever reads it; or that it stands
/// no more under the header `words` in the zero-based row `over`.
pub fn elsewhere(cell: &Ref, over: u32, words: &str) -> [String; 3] {
    let (at, mut header) = (cell.cell(), String::new());
    push_column(&mut header, u32::from(cell.column));
    header.push('$');
    push_row(&mut header, u64::from(over).saturating_add(1));
    [
        ["ROW(", &at, ")<>ROW()"].concat(),
        ["COLUMN(", &at, ")<>COLUMN(", &header, ")"].concat(),
        [&header, "<>\"", words, "\""].concat(),
    ]
}

/// A figure as long as cells say what they said: where rows were sorted, others stand in their place.
pub fn while_there(cells: &[(Ref, String)], sheet: &str, figure: &str) -> String {
    let says = |(cell, words): &(Ref, String)| Some([&cell.from(sheet), "=", &literal(words)?].concat());
    let said: Vec<String> = cells.iter().filter_map(says).collect();
    let [before, after] = match said.as_slice() {
        [] => return figure.to_owned(),
        [_] => ["IF(", ","],
        _ => ["IF(AND(", "),"],
    };
    [before, &said.join(","), after, figure, OR_NOT_KNOWN].concat()
}

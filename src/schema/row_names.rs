//! Names for which a row is taken for something else than a row: totals, and headings between the rows of a table.

use super::header::same;

/// Whether a text is how people name a total.
pub fn is_total(text: &str) -> bool {
    ["total", "totals", "subtotal", "subtotals", "grand total"].iter().any(|total| same(total, text))
}

/// Whether a text is clearly a heading: in capitals, or with a colon at its end.
pub fn is_clear_heading(text: &str) -> bool {
    text.ends_with(':') || is_capitals(text)
}

/// Whether letters are there and none is small.
fn is_capitals(text: &str) -> bool {
    text.chars().any(char::is_uppercase) && !text.chars().any(char::is_lowercase)
}

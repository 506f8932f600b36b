//! Withdrawn items: what a supplier offers no more, by the remark beside it or in place of its price, and what takes its place.

use super::reader::Reader;
use crate::problem::{Code, Fault};
use crate::schema::{Column, Value};

impl Reader<'_> {
    /// Reports what the supplier offers no more, and whether the row says so.
    pub(super) fn withdrawn(&mut self) -> bool {
        // A price that says OUT is none for a while.
        let says = |column: Column| {
            let text = self.input.text(column);
            let for_now = column == Column::Price && text.trim().eq_ignore_ascii_case("out");
            matches!(self.input.typed(column).value, Value::Text(_)) && is_withdrawn(&text) && !for_now
        };
        let column = [Column::Note, Column::Price].into_iter().find(|column| says(*column));
        let Some(column) = column else { return false };
        let name = self.input.text(Column::Item);
        let instead = substitute(&self.input.text(column)).or_else(|| substitute(&self.input.text(Column::Note)));
        let fault = match instead {
            Some(other) => Fault::new(
                Code::ItemWithdrawn,
                format!("“{}” is withdrawn, {other} offered instead", name.trim()),
                format!("Compare {other} per unit, for its pack may be another; then price the item by it."),
            ),
            None => Fault::new(
                Code::ItemWithdrawn,
                format!("“{}” is withdrawn, nothing named instead", name.trim()),
                "Ask the supplier what takes its place, or price the item from another.",
            ),
        };
        self.report(column, fault);
        true
    }

    /// Whether a price's text says that there is none at present: `OUT`, `sold out`.
    pub(super) fn is_out(&self) -> bool {
        let text = self.input.text(Column::Price).trim().to_lowercase();
        matches!(text.as_str(), "out" | "o/s" | "oos" | "out of stock" | "sold out" | "n/a" | "disc" | "disc.")
    }
}

/// Whether a remark says that an item is offered no more. One that asks, or that speaks of a while, does not.
fn is_withdrawn(text: &str) -> bool {
    let lower = text.to_lowercase();
    let gone =
        |word: &str| matches!(word, "disc" | "discontinued" | "withdrawn" | "wdrn" | "delisted" | "out" | "dropped");
    let mut words = lower.split(|c: char| !c.is_alphanumeric());
    let for_now =
        lower.contains('?') || ["til", "until", "till"].iter().any(|word| lower.split_whitespace().any(|w| w == *word));
    let only_sub = lower.trim_start().starts_with("sub ") && !for_now;
    !lower.contains('?') && (words.any(gone) || only_sub)
}

/// What is offered instead: the word behind `sub`, `use` or `replaced by`.
fn substitute(text: &str) -> Option<String> {
    let words: Vec<&str> =
        text.split(|c: char| c.is_whitespace() || c == '/').filter(|word| !word.is_empty()).collect();
    let at = words.iter().position(|word| {
        let lower = word.to_lowercase();
        matches!(lower.trim_end_matches([':', '.']), "sub" | "use" | "by" | "substitute" | "instead")
    })?;
    let next = words.get(at.checked_add(1)?)?.trim_matches(|c: char| !c.is_alphanumeric());
    next.contains(|c: char| c.is_ascii_digit()).then(|| next.to_owned())
}

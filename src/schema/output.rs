//! The closed list of headers and labels that our own workbooks add to a user's tables: readings (what was
//! understood or chosen) and figures (what was computed). Columns under them, and card rows that begin with them, are
//! skipped silently when a costed workbook is read again; so none may equal an input header or label.

use crate::schema::header::same;
use crate::schema::kind::TableKind;

/// Reading and figure columns per kind of table, as we write them.
pub const COLUMNS: &[(TableKind, &[&str])] = &[
    (
        TableKind::Prices,
        &[
            "Pack read as",
            "Pack in base units",
            "Base unit",
            "Row used",
            "AP unit cost",
            "Yield used",
            "Yield from",
            "EP unit cost",
            "Better row",
        ],
    ),
    (TableKind::Measures, &["Measure read as"]),
    (
        TableKind::YieldTests,
        &[
            "Grams per unit",
            "Weight in grams",
            "Pieces",
            "Priced units per gram",
            "AP unit cost",
            "Cost today",
            "Weight pooled",
            "Loss in grams",
            "Share of weight",
            "Charge read as",
            "Value used",
            "Value per grams",
            "Charge per gram",
            "Joint key",
            "Cost carried",
            "Cost per gram",
            "Cost factor",
        ],
    ),
    (TableKind::Stock, &["On hand read as"]),
    (TableKind::Menu, &["Recipe used", "Portion cost", "Food cost %", "Price at target", "Margin", "Standing"]),
    (
        TableKind::RecipeFacts,
        &[
            "Food cost",
            "Q added",
            "Spice added",
            "Batch cost",
            "Makes in base units",
            "Base unit",
            "Cost per base unit",
            "Portion in base units",
            "Portions used",
            "Portion cost",
            "Lines not costed",
            "Allergens found",
            "May contain found",
            "Allergens not stated",
        ],
    ),
    (
        TableKind::RecipeLines,
        &[
            "Source",
            "Unit factor",
            "Base unit",
            "Qty in base units",
            "Yield used",
            "Unit cost",
            "Line cost",
            "Share of cost",
        ],
    ),
];

/// Labels of a card's readings and totals, as we write them.
pub const CARD_LABELS: &[&str] = &[
    "Food cost",
    "Q added",
    "Spice added",
    "Batch cost",
    "Makes in base units",
    "Cost per base unit",
    "Portion in base units",
    "Portions used",
    "Portion cost",
    "Lines not costed",
    "Allergens found",
    "May contain found",
    "Allergens not stated",
];

/// The reading and figure columns of a kind of table. Those of recipe lines serve card lines too.
pub fn columns(kind: TableKind) -> &'static [&'static str] {
    let kind = if kind == TableKind::CardLines { TableKind::RecipeLines } else { kind };
    COLUMNS.iter().find(|(known, _)| *known == kind).map_or(&[], |(_, headers)| headers)
}

/// Whether a column of a `kind` table under the header `text` is our own. The columns of recipe lines serve card
/// lines too.
pub fn is_column(kind: TableKind, text: &str) -> bool {
    let kind = if kind == TableKind::CardLines { TableKind::RecipeLines } else { kind };
    COLUMNS.iter().filter(|(of, _)| *of == kind).any(|(_, headers)| headers.iter().any(|header| same(header, text)))
}

/// Whether a card row or cell that begins with `text` is one of our own readings or totals.
pub fn is_card_label(text: &str) -> bool {
    CARD_LABELS.iter().any(|label| same(label, text))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::schema::header::{self, normal};

    #[test]
    fn none_of_our_headers_is_an_input_header_or_label() {
        let columns = COLUMNS.iter().flat_map(|(_, headers)| headers.iter());
        for text in columns.chain(CARD_LABELS) {
            assert!(header::read(text).meanings().is_empty(), "{text} is an input header");
            assert!(!normal(text).is_empty(), "{text}");
        }
    }

    #[test]
    fn our_headers_are_known_however_they_are_spaced() {
        assert!(is_column(TableKind::Prices, "ep  unit-cost"));
        assert!(is_column(TableKind::CardLines, "Line cost"));
        assert!(!is_column(TableKind::Prices, "Line cost"));
        assert!(is_card_label("Portion cost:"));
        assert!(!is_card_label("Portion"));
    }
}

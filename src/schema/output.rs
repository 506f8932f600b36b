//! The closed list of headers and labels that our own workbooks add to a user's tables: readings (what was
//! understood or chosen) and figures (what was computed). Columns under them, and card rows that begin with them, are
//! skipped silently when a costed workbook is read again; so none may equal an input header or label.

use crate::schema::as_written::HEADER;
use crate::schema::fill_in;
use crate::schema::header::same;
use crate::schema::table_signature::TableKind;

/// Reading and figure columns per kind of table, as we write them: those for everybody, then the working behind them.
pub const COLUMNS: &[(TableKind, &[&str], &[&str])] = &[
    (
        TableKind::Prices,
        &["Row used", "Cost unit", "AP cost per unit", "Yield used", "EP cost per unit", "Better row"],
        &[
            ROW_KEY,
            "Pack read as",
            "Pack in g, ml, each",
            "Figured in",
            "AP per g, ml, each",
            "AP that counts",
            "Yield from",
            "EP per g, ml, each",
            "Units per cost unit",
            HEADER,
        ],
    ),
    (TableKind::Measures, &["Measure read as"], &[ROW_KEY, HEADER]),
    (
        TableKind::YieldTests,
        &["Share of weight", "Charge read as", "Cost carried", "Cost per unit", "Cost factor"],
        &[
            ROW_KEY,
            "Grams per unit",
            "Weight in grams",
            "Pieces",
            "Priced units per gram",
            "AP per g, ml, each",
            "Cost today",
            "Weight pooled",
            "Loss in grams",
            "Taken up in grams",
            "Test adds up",
            "Value used",
            "Value for grams",
            "Charge per gram",
            "Key to share by",
            "Left to share",
            "Cost per gram",
            HEADER,
        ],
    ),
    (TableKind::Stock, &[ON_HAND], &[HEADER]),
    (TableKind::Counts, &[COUNTED], &[HEADER]),
    (TableKind::SupplierLayouts, &["Column read as"], &[HEADER]),
    (TableKind::Suppliers, &["Minimum read as"], &[HEADER]),
    (
        TableKind::Menu,
        &["Recipe used", "Portion cost", "Food cost %", "Price at target", "Margin", "Standing"],
        &[ROW_KEY, "Menu price used", "Target used", "Tax used", HEADER],
    ),
    (TableKind::Plan, &[], &[ROW_KEY, HEADER]),
    (
        TableKind::RecipeFacts,
        &[
            "Food cost",
            "Q added",
            "Spice added",
            "Batch cost",
            "Portions used",
            "Portion cost",
            "Cost per unit made",
            "Lines not costed",
            "Allergens found",
            "May contain found",
            "Allergens not stated",
        ],
        &[
            ROW_KEY,
            LINES_IN_PLACE,
            "Makes in g, ml, each",
            "Figured in",
            "Cost per g, ml, each",
            "Portion in g, ml, each",
            HEADER,
        ],
    ),
    (
        TableKind::RecipeLines,
        &["AP or EP", "Yield used", "Cost per unit", "Unit costed", "Line cost", "Share of cost"],
        &["Source", "Unit factor", "Figured in", "Qty in g, ml, each", "Cost per g, ml, each", HEADER],
    ),
];

/// Labels of a card's totals and readings, as we write them.
pub const CARD_LABELS: &[&str] = &[
    "Food cost",
    "Q added",
    "Spice added",
    "Batch cost",
    "Portions used",
    "Portion cost",
    "Cost per unit made",
    "Makes in g, ml, each",
    "Cost per g, ml, each",
    "Portion in g, ml, each",
    "Lines not costed",
    "Allergens found",
    "May contain found",
    "Allergens not stated",
    "Not costed, because",
    "On the menu",
    "Against the target",
    "Used in",
    "Problems here",
    "Costed on",
    "Made by, date",
    "Checked by, date",
    PORTION_OF_BATCH,
];

/// What a portion costs as the card's batch has it, on a card that says above what the dish costs that is sold of it: that
/// may hold the settings' Q and spice, or be another portion.
pub const PORTION_OF_BATCH: &str = "Portion of batch";

/// Columns whose numbers are formulas wherever we write one: a constant in them was typed.
const FIGURES: &[&str] = &[
    "AP cost per unit",
    "EP cost per unit",
    "EP per g, ml, each",
    "Share of weight",
    "Cost carried",
    "Cost per unit",
    "Cost factor",
    "Cost per gram",
    "Weight in grams",
    "Portion cost",
    "Food cost",
    "Food cost %",
    "Batch cost",
    "Price at target",
    "Margin",
    "Cost per unit made",
    "Qty in g, ml, each",
    "Line cost",
    "Share of cost",
];

/// Of those, the ones in which a zero is written as such: what water costs.
const MAY_BE_NOTHING: &[&str] = &["Cost per unit"];

/// Totals of a card whose numbers are formulas.
const TOTALS: &[&str] = &["Food cost", "Batch cost", "Portion cost", PORTION_OF_BATCH, "Cost per unit made"];

/// The one column of ours in Stock.
const ON_HAND: &str = "On hand read as";

/// The one column of ours in the counts.
const COUNTED: &str = "Counts read as";

/// The header of what became of a price row.
pub const ROW_USED: &str = "Row used";

/// The words that stand under it.
pub const ROW_STATES: [&str; 8] =
    ["in use", "older price", "not yet", "ended", "not chosen", "dearer", "contradicted", "not read"];

/// Whether a number under this header of ours is always a formula.
pub fn is_figure(header: &str) -> bool {
    FIGURES.iter().any(|known| same(known, header))
}

/// Whether a zero under this header may be no formula.
pub fn may_be_nothing(header: &str) -> bool {
    MAY_BE_NOTHING.iter().any(|known| same(known, header))
}

/// Whether the number beside this label of a card is always a formula.
pub fn is_total(label: &str) -> bool {
    TOTALS.iter().any(|known| same(known, label))
}

/// The header of the one column that a book of inputs may have besides them, in a table of any kind: it says that a row is
/// one where it could be taken for something else.
pub const ROW_READ_AS: &str = "Row read as";

/// The header of the column of the bench form in which words are printed to write beside.
const PRINTED_ON_THE_BENCH: &str = "What it is";

/// What stands before the boxes above its table.
const BENCH_LABELS: &[&str] = &["Name of the test", "Date of the test", "Weighed by"];

/// Whether a row above a table begins as one of the bench form does: the table has what counts of it.
pub fn is_bench_label(text: &str) -> bool {
    BENCH_LABELS.iter().any(|label| same(label, text))
}

/// The header of the column that tells a row from the others, however they are sorted.
pub const ROW_KEY: &str = "Row key";

/// The header of the column that says of a recipe in lists whether its lines stand where they stood, and no other.
pub const LINES_IN_PLACE: &str = "Lines in place";

/// The text that leads from a sheet back to the Summary.
pub const BACK: &str = "To Summary";

/// The text that leads from a card to its face for the kitchen.
pub const KITCHEN_CARD: &str = "Kitchen card";

/// What a row of a dish begins with that is sold at the price on its card and stands on no menu, below those that do.
pub const ON_ITS_CARD: &str = "On its card: ";

/// What a card's row on one of the dishes served from it begins with.
pub const SOLD_AS: &str = "Sold as: ";

/// The reading and figure columns of a kind of table. Those of recipe lines serve card lines too.
pub fn columns(kind: TableKind) -> impl Iterator<Item = &'static str> {
    let (shown, working) = of(kind);
    shown.iter().chain(working).copied()
}

/// Whether a column of our own holds the working, which is for the screen and not for paper.
pub fn is_working(kind: TableKind, header: &str) -> bool {
    of(kind).1.contains(&header)
}

/// Whether a table with these headers beside its own is one that we costed: the working behind our columns is nobody
/// else's, though others may have a margin or a portion cost too.
pub fn is_costed<'t>(kind: TableKind, mut headers: impl Iterator<Item = &'t str>) -> bool {
    let (_, working) = of(kind);
    headers.any(|header| working.iter().chain([&ON_HAND, &COUNTED]).any(|known| same(known, header)))
}

/// Whether a column of a `kind` table under the header `text` is our own.
pub fn is_column(kind: TableKind, text: &str) -> bool {
    if kind == TableKind::YieldTests && same(PRINTED_ON_THE_BENCH, text) {
        return true;
    }
    columns(kind).chain([ROW_READ_AS]).chain(fill_in::COLUMNS.iter().copied()).any(|header| same(header, text))
}

fn of(kind: TableKind) -> (&'static [&'static str], &'static [&'static str]) {
    let kind = if kind == TableKind::CardLines { TableKind::RecipeLines } else { kind };
    COLUMNS.iter().find(|(known, ..)| *known == kind).map_or((&[], &[]), |(_, shown, working)| (*shown, *working))
}

/// Whether a row of a menu that begins with `text` may be ours, of a dish that is on no menu.
pub fn is_on_its_card(text: &str) -> bool {
    text.starts_with(ON_ITS_CARD)
}

/// Whether a card row or cell that begins with `text` is one of our own readings or totals.
pub fn is_card_label(text: &str) -> bool {
    CARD_LABELS.iter().chain([&BACK, &KITCHEN_CARD]).any(|label| same(label, text)) || text.starts_with(SOLD_AS)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::schema::header::{self, normal};

    #[test]
    fn none_of_our_headers_is_an_input_header_or_label() {
        let columns = COLUMNS.iter().flat_map(|(_, shown, working)| shown.iter().chain(*working));
        for text in columns.chain(CARD_LABELS).chain([&ROW_READ_AS]).chain(fill_in::COLUMNS) {
            assert!(header::read(text).meanings().is_empty(), "{text} is an input header");
            assert!(!normal(text).is_empty(), "{text}");
        }
    }

    #[test]
    fn our_headers_are_known_however_they_are_spaced() {
        assert!(is_column(TableKind::Prices, "ep  cost-per unit"));
        assert!(is_column(TableKind::CardLines, "Line cost"));
        assert!(!is_column(TableKind::Prices, "Line cost"));
        assert!(is_card_label("Portion cost:"));
        assert!(!is_card_label("Portion"));
    }
}

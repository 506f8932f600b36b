//! Recipes of the first cook: one card on a sheet.

use rust_xlsxwriter::XlsxError;

use super::super::pen::{Book, Cell, pct, row, usd};

const WIDTHS: &[u16] = &[28, 12, 10, 34];
const LINES: &[&str] = &["Ingredient", ">Qty", "Unit", "Note"];

fn card(book: &mut Book, sheet: &str, labels: &[&[Cell]], lines: &[&[Cell]]) -> Result<(), XlsxError> {
    book.sheet(sheet, WIDTHS, false)?.card(labels, LINES, lines)
}

/// Six sheets.
#[rustfmt::skip]
pub fn sheets(book: &mut Book) -> Result<(), XlsxError> {
    card(
        book,
        "Chicken breast",
        &[row!["Recipe", "Pan-fried chicken breast"], row!["Portions", 12], row!["Menu price", usd(9.95)]],
        &[
            row!["Chicken breast", "4 lb 8 oz", "", "from our own birds"],
            row!["BUTTER, unsalted", 8, "oz", ""],
            row!["Lemon", 4, "each", ""],
            row!["parsley,  flat leaf", 1, "bunch", ""],
            row!["Salt, kosher", "to taste", "", ""],
        ],
    )?;
    card(
        book,
        "Chicken legs",
        &[row!["Recipe", "Braised chicken legs"], row!["Portions", 12], row!["Menu price", usd(8.95)]],
        &[
            row!["Chicken legs", 6, "lb", ""],
            row!["Onions, yellow", 1, "lb", ""],
            row!["Red wine, cooking", 750, "ml", ""],
            row!["CHICKEN STOCK", 2, "qt", ""],
        ],
    )?;
    card(
        book,
        "Chowder",
        &[
            row!["Recipe", "Cod chowder"],
            row!["Makes", "5 qt"],
            row!["Portion", "8 fl oz"],
            row!["Menu price", usd(6.95)],
            row!["Method", "Sweat the celery, thicken, poach the cod off the heat."],
        ],
        &[
            row!["Cod fillet", 3, "lb", ""],
            row!["Chicken stock", 2, "qt", ""],
            row!["Heavy cream", 8, "oz", ""],
            row!["Celery", 2, "each", ""],
            row!["Roux", 6, "oz", ""],
            row!["Bay leaves", "as needed", "", ""],
        ],
    )?;
    card(
        book,
        "Mash",
        &[row!["Recipe", "Mashed potatoes"], row!["Makes", "12 lb"], row!["Portion", "6 oz"], row!["Menu price", usd(3.5)]],
        &[
            row!["Potatoes, russet", 10, "lb", ""],
            row!["Crème fraîche", 1, "lb", ""],
            row!["Butter, unsalted", 1, "lb", ""],
        ],
    )?;
    card(
        book,
        "Fish supper",
        &[row!["Recipe", "Fish supper"], row!["Portions", 10], row!["Menu price", usd(15.5)], row!["Q factor", 4], row!["Target", pct(35.0)]],
        &[row!["Cod fillet", 5, "lb", ""], row!["Lemons", 5, "each", ""]],
    )?;
    card(
        book,
        "Brunch board",
        &[row!["Recipe", "Brunch board"], row!["Portions", 8], row!["Menu price", usd(18.0)]],
        &[
            row!["Bacon, sliced", 2, "lb", ""],
            row!["Smoked trout", 500, "g", ""],
            row!["Yogurt, plain", 1, "lb", ""],
            row!["Shrimp, peeled", 2, "lb", ""],
        ],
    )
}

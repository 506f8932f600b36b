//! Recipes of the second cook: cards under one another on a sheet, with headings and totals among the lines.

use rust_xlsxwriter::XlsxError;

use super::super::pen::{Book, Cell, row, usd};

const WIDTHS: &[u16] = &[28, 12, 10, 34];
const LINES: &[&str] = &["Product", ">Amount", "UOM", "Note"];

/// Two sheets.
pub fn sheets(book: &mut Book) -> Result<(), XlsxError> {
    sweet(book)?;
    savory(book)
}

#[rustfmt::skip]
fn sweet(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Sweet", WIDTHS, false)?;
    page.title("Sweet", "All from the pastry corner. T is a tablespoon, t a teaspoon.")?;
    page.card(
        &[row!["Recipe", "Custard"], row!["Makes", "40 fl oz"]],
        LINES,
        &[
            row!["Milk, whole", 1, "qt", ""],
            row!["Eggs, large", 6, "ea", ""],
            row!["Sugar", 4, "oz", ""],
            row!["Vanilla extract", 1, "t", ""],
        ],
    )?;
    page.card(
        &[row!["Recipe", "Bread pudding"], row!["Makes", "6 lb"], row!["Portion", "8 oz"], row!["Portions", 10], row!["Menu price", usd(4.95)]],
        LINES,
        &[
            row!["Brioche loaf", 2, "each", ""],
            row!["Custard", 1, "batch", ""],
            row!["Butter, unsalted", 4, "oz", ""],
            row!["Sugar", 2, "oz", "on top"],
        ],
    )?;
    page.card(
        &[row!["Recipe", "Lemon tart"], row!["Portions", 12], row!["Menu price", usd(4.5)]],
        LINES,
        &[
            row!["For the filling:"],
            row!["Lemons", 6, "each", ""],
            row!["Eggs, large", 8, "", ""],
            row!["Sugar", 1, "lb", ""],
            row!["Heavy cream", 1, "pt", ""],
            row!["For the crust:"],
            row!["Butter, unsalted", 8, "oz", ""],
            row!["Flour, all-purpose", 1, "lb", ""],
            row!["Total", 6, "lb", ""],
        ],
    )
}

#[rustfmt::skip]
fn savory(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Pies and bakes", WIDTHS, false)?;
    page.title("Pies and bakes", "Bake from cold.")?;
    page.card(
        &[row!["Recipe", "Pie crust"], row!["Makes", "5 lb"]],
        LINES,
        &[row!["Flour, all-purpose", 3, "lb", ""], row!["Butter, unsalted", 2, "lb", ""], row!["Water", 1, "cup", "cold"]],
    )?;
    page.card(
        &[row!["Recipe", "Chicken pie"], row!["Portions", 12], row!["Menu price", usd(9.5)]],
        LINES,
        &[
            row!["Chicken legs", 4, "lb", ""],
            row!["Roux", 8, "oz", ""],
            row!["Chicken stock", 1, "qt", ""],
            row!["Pie crust", 3, "lb", ""],
        ],
    )?;
    page.card(
        &[row!["Recipe", "Biscuits"], row!["Makes", "24 each"]],
        LINES,
        &[row!["Flour, all-purpose", 2, "lb", ""], row!["Buter, unsalted", 8, "oz", ""], row!["Milk, whole", 3, "cup", ""]],
    )?;
    page.card(
        &[row!["Recipe", "Parmesan crisps"], row!["Makes", "48 each"]],
        LINES,
        &[row!["Parmesan wedge", 2, "cup", "grated"], row!["Flour, all-purpose", 2, "T", ""]],
    )?;
    page.card(
        &[row!["Recipe", "Baked eggs"], row!["Portions", 12], row!["Menu price", usd(8.95)]],
        LINES,
        &[row!["Eggs, large", 24, "each", ""], row!["Tomato sauce", 1, "batch", ""], row!["Parmesan wedge", 1, "lb", ""]],
    )
}

//! Recipes of the third cook: what they make in one table, their lines in another.

use rust_xlsxwriter::XlsxError;

use super::super::pen::{Book, Cell, row, usd};

const WIDTHS: &[u16] = &[22, 24, 12, 12, 28];
const LINES: &[&str] = &["Recipe", "Ingredient", ">Quantity", "UOM", "Note"];

/// Stocks, sauces and soups.
#[rustfmt::skip]
pub fn soups(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Soups and sauces", WIDTHS, false)?;
    page.header(&["Recipe", "Makes", ">Portions", ">Menu price"])?;
    page.rows(&[
        row!["Roux", "30 oz", "", ""],
        row!["Chicken stock", "6 qt", "", ""],
        row!["Tomato sauce", "3 qt", "", ""],
        row!["Onion soup", "", 20, usd(5.95)],
    ])?;
    page.skip(2);
    page.header(LINES)?;
    page.lines(&[
        row!["Roux", "Butter, unsalted", 1, "lb", ""],
        row!["Roux", "Flour, all-purpose", 1, "lb", ""],
        row!["Chicken stock", "Chicken carcass", 10, "lb", ""],
        row!["Chicken stock", "Onions, yellow", 2, "lb", ""],
        row!["Chicken stock", "Carrots", 1, "lb", ""],
        row!["Chicken stock", "Celery", 14, "oz", "half a head"],
        row!["Chicken stock", "Water", 8, "qt", ""],
        row!["Tomato sauce", "Plum tomatoes, canned", "6 lb 6 oz", "", "one can"],
        row!["Tomato sauce", "Onions, yellow", 1, "lb", ""],
        row!["Tomato sauce", "Olive oil", 100, "ml", ""],
        row!["Onion soup", "Onions, yellow", 10, "lb", ""],
        row!["Onion soup", "Butter, unsalted", "1/2", "lb", ""],
        row!["Onion soup", "Flour, all-purpose", 4, "T", ""],
        row!["Onion soup", "Chicken stock", 5, "qt", ""],
        row!["Onion soup", "Red wine, cooking", 250, "ml", ""],
    ], Some(2))
}

/// All the rest.
#[rustfmt::skip]
pub fn the_rest(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Everything else", WIDTHS, false)?;
    page.header(&["Recipe", "Makes", ">Portions", ">Menu price"])?;
    page.rows(&[
        row!["Saffron risotto", "", 12, usd(7.5)],
        row!["Coconut rice", "", 8, usd(2.95)],
        row!["Vinaigrette", "950 ml", "", ""],
        row!["Leaf salad", "", "", usd(12.0)],
        row!["Braised pork", "", 20, usd(9.0)],
        row!["Pickled carrots", "2 qt", "", ""],
        row!["Green sauce", "1 qt", "", ""],
        row!["House dressing", "1 qt", "", ""],
        row!["Chickpea curry", "", 12, usd(7.95)],
        row!["Pie crust", "6 lb", "", ""],
    ])?;
    page.skip(2);
    page.header(LINES)?;
    page.lines(&[
        row!["Saffron risotto", "Saffron", 2, "g", ""],
        row!["Saffron risotto", "Rice, short grain", 2, "lb", ""],
        row!["Saffron risotto", "Butter, unsalted", 4, "oz", ""],
        row!["Saffron risotto", "Onions, yellow", 8, "oz", ""],
        row!["Saffron risotto", "Chicken stock", 3, "qt", ""],
        row!["Coconut rice", "Rice, short grain", 1, "lb", ""],
        row!["Coconut rice", "Coconut milk", 27, "fl oz", "two cans"],
        row!["Vinaigrette", "Olive oil", 500, "ml", ""],
        row!["Vinaigrette", "Cider vinegar", 2, "cups", ""],
        row!["Leaf salad", "Salad leaves", 2, "lb", ""],
        row!["Leaf salad", "Vinaigrette", 190, "ml", ""],
        row!["Braised pork", "Pork shoulder", 10, "lb", ""],
        row!["Braised pork", "Onions, yellow", 2, "lb", ""],
        row!["Pickled carrots", "Carrots", "3-4", "lb", ""],
        row!["Pickled carrots", "Cider vinegar", Cell::TurnedToDay(1, 2), "gal", ""],
        row!["Green sauce", "Parsley, flat leaf", 6, "bunch", ""],
        row!["Green sauce", "House dressing", 1, "cup", ""],
        row!["House dressing", "Olive oil", 500, "ml", ""],
        row!["House dressing", "Green sauce", 1, "cup", ""],
        row!["Chickpea curry", "Chickpeas, dried", 3, "lb", ""],
        row!["Chickpea curry", "Peanut butter", 1, "lb", ""],
        row!["Chickpea curry", "Vegetable bouillon", 4, "oz", ""],
        row!["Pie crust", "Flour, all-purpose", 4, "lb", ""],
        row!["Pie crust", "Butter, unsalted", 2, "lb", ""],
    ], Some(2))
}

//! What else is in the kitchen's file: notes for the crew, yield tests, measures, the market stall and the settings.

use rust_xlsxwriter::XlsxError;

use super::super::pen::{Book, Cell, day, pct, row, usd};

/// A page for people: it holds no table.
pub fn notes(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("READ ME", &[70], false)?;
    page.title("Before you touch anything", "Hob and Heron Canteen: an invented kitchen.")?;
    page.rows(&[
        row!["Three of us write recipes in here. Do not tidy up the others' sheets."],
        row!["Prices come from the list the supplier sends on Mondays; do not copy them in here."],
    ])
}

/// Two yield tests, by another hand.
#[rustfmt::skip]
pub fn yields(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Butchery", &[24, 14, 22, 13, 11, 10, 13, 12], false)?;
    page.title("Butchery book", "Weigh everything, the bin too.")?;
    page.header(&["TEST", "role", "Part", ">Weight (lb)", "Credit", ">Value", ">Date", "Weighed by"])?;
    page.rows(&[
        row!["Breaking down chickens", "As purchased", "Whole chickens", 35, "", "", day(10, 19), "Mo"],
        row!["Breaking down chickens", "Main", "Chicken breast", 10, "", usd(4.0), day(10, 19), "Mo"],
        row!["Breaking down chickens", "Main", "Chicken legs", 12, "", usd(2.5), day(10, 19), "Mo"],
        row!["Breaking down chickens", "By-product", "Chicken carcass", 10, "price", usd(0.35), day(10, 19), "Mo"],
        row!["Breaking down chickens", "Waste", "Skin and fat", 2, "", "", day(10, 19), "Mo"],
        row!["Boning pork", "As purchased", "Pork shoulder", 15, "", "", day(10, 20), "Mo"],
        row!["Boning pork", "Main", "Pork shoulder", 11.25, "", "", day(10, 20), "Mo"],
        row!["Boning pork", "Waste", "Bone", 3.25, "", "", day(10, 20), "Mo"],
    ])
}

/// Three measures, one of them for something that is no longer bought.
#[rustfmt::skip]
pub fn measures(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Scales", &[24, 12, 12, 8], false)?;
    page.header(&["Item", "Measure", ">Weighs", "Basis"])?;
    page.rows(&[
        row!["Flour, all-purpose", "cup", "4 oz", ""],
        row!["Celery", "each", "28 oz", ""],
        row!["Rice vinegar", "cup", "8 oz", ""],
    ])
}

/// What is bought across the square.
#[rustfmt::skip]
pub fn stall(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Market stall", &[24, 12, 11, 9], false)?;
    page.title("Market stall", "Cash only.")?;
    page.header(&["Product", "Pack", ">Price paid", ">Yield %"])?;
    page.rows(&[row!["Chickpeas, dried", "25 lb", usd(31.25), pct(240.0)]])
}

/// The house's settings.
pub fn settings(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("House", &[24, 24], false)?;
    page.header(&["Setting", "Value"])?;
    page.rows(&[
        row!["House name", "Hob and Heron Canteen"],
        row!["Costing date", day(11, 16)],
        row!["Currency", "USD"],
        row!["Target food cost", pct(30.0)],
        row!["Price ending", 0.95],
    ])
}

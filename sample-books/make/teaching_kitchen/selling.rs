//! What the teaching kitchen sells, plans and holds: the Menu, Plan and stock, and Settings sheets.

use rust_xlsxwriter::XlsxError;

use super::super::pen::{Book, Cell, day, pct, row, usd};

/// The menu. One soup is two dishes; the duck soup is priced on its own card and so does not stand here.
#[rustfmt::skip]
pub fn menu(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Menu", &[42, 34, 10, 12, 9, 10, 8], false)?;
    page.title("Menu", "Prices without tax. Sold is last month's count.")?;
    page.lasting_header(&["Dish", "Recipe", "Portion", ">Menu price", ">Target", "Group", ">Sold"], 1)?;
    page.rows(&[
        row!["Smoky shrimp soup, cup", "Smoky shrimp and butternut soup", "8 fl oz", usd(5.95), "", "Soups", 212],
        row!["Smoky shrimp soup, bowl", "Smoky shrimp and butternut soup", "12 fl oz", usd(7.95), "", "Soups", 148],
        row!["Chilled shrimp with grapefruit and fennel", "", "", usd(16.95), "", "Plates", 187],
        row!["Duck breast with honeyed apples", "", "", usd(24.95), pct(28.0), "Plates", 96],
        row!["Duck and lentil plate", "", "", usd(15.95), "", "Plates", 121],
        row!["Warm lentils with a soft egg", "", "", usd(7.95), pct(25.0), "Plates", 74],
    ])
}

/// A plan for two evenings, and what is in the freezer before them.
#[rustfmt::skip]
pub fn plan_and_stock(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Plan and stock", &[42, 12, 14], false)?;
    page.title("Plan and stock", "Two evenings, and what is on hand before the first.")?;
    page.header(&["Dish", ">Portions", ">Day"])?;
    page.rows(&[
        row!["Chilled shrimp with grapefruit and fennel", 24, day(11, 24)],
        row!["Smoky shrimp soup, cup", 20, day(11, 24)],
        row!["Duck breast with honeyed apples", 16, day(11, 24)],
        row!["Duck and lentil plate", 12, day(11, 24)],
        row!["Warm lentils with a soft egg", 8, day(11, 24)],
        row!["Smoky shrimp soup, cup", 24, day(11, 25)],
        row!["Smoky shrimp soup, bowl", 30, day(11, 25)],
        row!["Duck and barley soup", 23, day(11, 25)],
        row!["Chilled shrimp with grapefruit and fennel", 12, day(11, 25)],
    ])?;
    page.skip(2);
    page.header(&["Item", ">On hand", "Unit"])?;
    page.lines(&[
        row!["Shrimp shells", "1 lb 8 oz", ""],
        row!["Duck frame", "5 lb", ""],
        row!["Butter, unsalted", 12, "lb"],
        row!["Green lentils", 9.5, "lb"],
        row!["Dry sherry", 2.25, "L"],
    ], Some(1))
}

/// The rules of the house.
#[rustfmt::skip]
pub fn settings(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Settings", &[26, 36], false)?;
    page.title("Settings", "They hold for the whole book; a card or the menu may say otherwise.")?;
    page.header(&["Setting", "Value"])?;
    page.rows(&[
        row!["House name", "Quince and Ladle Teaching Kitchen"],
        row!["Currency", "USD"],
        row!["Costing date", day(11, 20)],
        row!["Target food cost", pct(30.0)],
        row!["Q factor", pct(4.0)],
        row!["Spice factor", pct(1.0)],
        row!["Spice covers Q", "yes"],
        row!["Price ending", usd(0.95)],
        row!["Price age", 60],
        row!["Volumes", "US"],
        row!["Waste haulage", "$0.06 / lb"],
    ])
}

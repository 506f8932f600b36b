//! What the metric kitchen sells, plans and holds: the Menu, Plan and stock, and Settings sheets.

use rust_xlsxwriter::XlsxError;

use super::super::pen::{Book, Cell, day, pct, row};
use super::eur;

/// The menu. The soup is two dishes, the chicken rillettes a plate and a jar.
#[rustfmt::skip]
pub fn menu(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Menu", &[42, 30, 10, 12, 9, 7, 11, 8], false)?;
    page.title("Menu", "Prices hold tax: 10 % at the table, 5 % to take home. Sold is last month's count.")?;
    page.lasting_header(&["Dish", "Recipe", ">Portion", ">Menu price", ">Target", ">Tax", "Group", ">Sold"], 1)?;
    page.lines(&[
        row!["Saffron fish soup, small", "Saffron fish soup", "250 ml", eur(7.50), "", "", "Starters", 164],
        row!["Saffron fish soup, large", "Saffron fish soup", "400 ml", eur(10.50), "", "", "Starters", 97],
        row!["Fish rillettes with toast", "", "", eur(6.50), "", "", "Starters", 121],
        row!["Chicken rillettes", "", "", eur(6.50), "", "", "Starters", 88],
        row!["Chicken rillettes, jar to take home", "Chicken rillettes", "225 g", eur(8.50), pct(35.0), pct(5.0), "To take home", 46],
        row!["Giblet terrine", "", "", eur(6.50), "", "", "Starters", 71],
        row!["Hake with vermouth sauce", "", "", eur(24.00), "", "", "Mains", 143],
        row!["Trout with capers and brown butter", "", "", eur(21.00), "", "", "Mains", 102],
        row!["Prawns with saffron rice", "", "", eur(21.50), "", "", "Mains", 95],
        row!["Chicken breast with tarragon and mushrooms", "", "", eur(17.50), "", "", "Mains", 118],
        row!["Confit chicken with lentils", "", "", eur(14.50), pct(28.0), "", "Mains", 84],
    ], Some(2))
}

/// A plan for a weekend, and what is on hand before it.
#[rustfmt::skip]
pub fn plan_and_stock(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Plan and stock", &[42, 12, 14], false)?;
    page.title("Plan and stock", "Friday and Saturday, and what is on hand before.")?;
    page.header(&["Dish", ">Portions", ">Day"])?;
    page.rows(&[
        row!["Saffron fish soup, small", 18, day(11, 27)],
        row!["Fish rillettes with toast", 10, day(11, 27)],
        row!["Hake with vermouth sauce", 20, day(11, 27)],
        row!["Trout with capers and brown butter", 10, day(11, 27)],
        row!["Chicken breast with tarragon and mushrooms", 20, day(11, 27)],
        row!["Saffron fish soup, small", 14, day(11, 28)],
        row!["Saffron fish soup, large", 12, day(11, 28)],
        row!["Chicken rillettes", 12, day(11, 28)],
        row!["Giblet terrine", 10, day(11, 28)],
        row!["Hake with vermouth sauce", 20, day(11, 28)],
        row!["Prawns with saffron rice", 16, day(11, 28)],
        row!["Confit chicken with lentils", 20, day(11, 28)],
    ])?;
    page.skip(2);
    page.header(&["Item", ">On hand", "Unit"])?;
    page.lines(&[
        row!["Hake frames", "1,2 kg", ""],
        row!["Chicken carcasses", "2,5 kg", ""],
        row!["Butter, unsalted", 4.5, "kg"],
        row!["White wine, dry", 36, "bottle"],
        row!["Green lentils", 3.25, "kg"],
        row!["Olive oil", "7,5 l", ""],
    ], Some(1))
}

/// The rules of the house.
#[rustfmt::skip]
pub fn settings(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Settings", &[26, 30], false)?;
    page.title("Settings", "They hold for the whole book; a recipe or the menu may say otherwise.")?;
    page.header(&["Setting", "Value"])?;
    page.rows(&[
        row!["House name", "Heron and Samphire"],
        row!["Currency", "EUR"],
        row!["Costing date", day(11, 20)],
        row!["Target food cost", pct(30.0)],
        row!["Q factor", pct(5.0)],
        row!["Spice factor", pct(1.5)],
        row!["Spice covers Q", "no"],
        row!["Menu prices include tax", pct(10.0)],
        row!["Price step", eur(0.50)],
        row!["Price age", 90],
        row!["Volumes", "Metric"],
        row!["Waste haulage", "0,18 € / kg"],
    ])
}

//! The teaching kitchen's yield tests: shrimp peeled twice, ducks broken down, their legs braised, their skin rendered.

use rust_xlsxwriter::XlsxError;

use super::super::pen::{Book, Cell, day, pct, row, usd};

/// One flat table; rows of one test share its name, the two runs of the shrimp test are pooled.
#[rustfmt::skip]
pub fn tests(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet(
        "Yield tests",
        &[21, 6, 13, 10, 14, 24, 19, 7, 16, 10, 13, 9, 28, 16, 8, 8],
        true,
    )?;
    page.title("Yield tests", "Weigh what goes in, then everything that comes out. What is missing is the loss.")?;
    page.lasting_header(
        &["Test", ">Run", ">Date", "Kind", "Role", "Part", ">Weight", "Unit", "Charged as", ">Value", ">Further cost",
          ">Price", "Instead of", "Otherwise", ">Eaten", ">Keeps"],
        1,
    )?;
    page.lines(&[
        row!["Peeling shrimp", 1, day(10, 6), "trim", "as purchased", "White shrimp, head on", 10, "lb", "", "", "", usd(5.95), "", "", "", ""],
        row!["Peeling shrimp", 1, day(10, 6), "trim", "main", "Shrimp tails", "4 lb 15 oz", "", "", "", "", "", "", "", "", ""],
        row!["Peeling shrimp", 1, day(10, 6), "trim", "by-product", "Shrimp shells", "1 lb 4 oz", "", "fraction", pct(20.0), "", "", "2 oz Shellfish base per lb", "binned", "", 2],
        row!["Peeling shrimp", 1, day(10, 6), "trim", "by-product", "Shrimp heads", 3.5, "lb", "free", "", "", "", "1/2 oz Shellfish base per lb", "binned", "", 2],
        row!["Peeling shrimp", 1, day(10, 6), "trim", "waste", "Veins and legs", 3, "oz", "", "", "", "", "", "", "", ""],
        row!["Peeling shrimp", 2, day(11, 4), "trim", "as purchased", "White shrimp, head on", 5, "lb", "", "", "", usd(6.30), "", "", "", ""],
        row!["Peeling shrimp", 2, day(11, 4), "trim", "main", "Shrimp tails", "2 lb 7 oz", "", "", "", "", "", "", "", "", ""],
        row!["Peeling shrimp", 2, day(11, 4), "trim", "by-product", "Shrimp shells", 10, "oz", "fraction", pct(20.0), "", "", "2 oz Shellfish base per lb", "binned", "", 2],
        row!["Peeling shrimp", 2, day(11, 4), "trim", "by-product", "Shrimp heads", "1 lb 13 oz", "", "free", "", "", "", "1/2 oz Shellfish base per lb", "binned", "", 2],
        row!["Peeling shrimp", 2, day(11, 4), "trim", "waste", "Veins and legs", 1, "oz", "", "", "", "", "", "", "", ""],
    ], Some(6))?;
    page.skip(1);
    page.lines(&[
        row!["Breaking down duck", 1, day(11, 10), "trim", "as purchased", "Whole duck", "6 each, 31 lb 8 oz", "", "", "", "", usd(4.35), "", "", "", ""],
        row!["Breaking down duck", 1, day(11, 10), "trim", "main", "Duck breast", "7 lb 14 oz", "", "by sales value", usd(15.50), "", "", "", "", "", ""],
        row!["Breaking down duck", 1, day(11, 10), "trim", "main", "Duck legs", "8 lb 3 oz", "", "by sales value", usd(7.25), "", "", "", "", "", ""],
        row!["Breaking down duck", 1, day(11, 10), "trim", "by-product", "Duck frame", "8 lb 10 oz", "", "market", "", usd(0.15), "", "1 lb Chicken backs per lb", "binned", "", 3],
        row!["Breaking down duck", 1, day(11, 10), "trim", "by-product", "Duck skin and fat", "4 lb 4 oz", "", "price", usd(1.60), "", "", "10 fl oz Olive oil per lb", "sold 0.80 / lb", pct(75.0), 3],
        row!["Breaking down duck", 1, day(11, 10), "trim", "by-product", "Duck wing tips", "1 lb 2 oz", "", "free", "", "", "", "1 lb Chicken backs per lb", "binned", "", 3],
        row!["Breaking down duck", 1, day(11, 10), "trim", "waste", "Glands and loose bits", 9, "oz", "", "", "", "", "", "", "", ""],
    ], Some(6))?;
    page.skip(1);
    page.lines(&[
        row!["Braising duck legs", 1, day(11, 11), "cooking", "as purchased", "Duck legs", "8 lb 3 oz", "", "", "", "", "", "", "", "", ""],
        row!["Braising duck legs", 1, day(11, 11), "cooking", "main", "Braised duck meat", "4 lb 2 oz", "", "", "", "", "", "", "", "", ""],
        row!["Braising duck legs", 1, day(11, 11), "cooking", "waste", "Leg bones and skin", "2 lb 1 oz", "", "", "", "", "", "", "", "", ""],
    ], Some(6))?;
    page.skip(1);
    page.lines(&[
        row!["Rendering duck fat", 1, day(11, 11), "cooking", "as purchased", "Duck skin and fat", "4 lb 4 oz", "", "", "", "", "", "", "", "", ""],
        row!["Rendering duck fat", 1, day(11, 11), "cooking", "added", "Water", 1, "lb", "", "", "", "", "", "", "", ""],
        row!["Rendering duck fat", 1, day(11, 11), "cooking", "main", "Rendered duck fat", "2 lb 12 oz", "", "", "", "", "", "", "", "", ""],
        row!["Rendering duck fat", 1, day(11, 11), "cooking", "by-product", "Duck cracklings", 9, "oz", "free", "", "", "", "1 lb Green lentils per lb", "binned", pct(100.0), 5],
        row!["Rendering duck fat", 1, day(11, 11), "cooking", "waste", "Strainings", 2, "oz", "", "", "", "", "", "", "", ""],
    ], Some(6))
}

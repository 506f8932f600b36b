//! What two suppliers send the teaching kitchen on 23 November 2026: Fernhollow Produce a tidy list, Oxbarrow Foods one as
//! it comes out of an old order system. What each row is for stands in `teaching-kitchen.md`.

use rust_xlsxwriter::XlsxError;

use super::super::pen::{Book, Cell, Page, Paper, row};

/// The tidy list: a header row, a row for each product, a date in each.
const FERNHOLLOW: &str = "\
Supplier,Code,Item,Pack,Price,Date
Fernhollow Produce,F-05,Butternut squash,35 lb,26.25,2026-11-23
Fernhollow Produce,F-11,Yellow onions,50 lb,27.00,2026-11-23
Fernhollow Produce,F-14,Carrots,50 lb,33.00,2026-11-23
Fernhollow Produce,F-15,Celery,24 ct,38.40,2026-11-23
Fernhollow Produce,F-17,Leeks,12 ct,19.80,2026-11-23
Fernhollow Produce,F-19,Fennel,18 ct,36.00,2026-11-23
Fernhollow Produce,F-22,\"Garlic, peeled\",4/5 lb,54.00,2026-11-23
Fernhollow Produce,F-27,Flat parsley,60 bunch,48.00,2026-11-23
Fernhollow Produce,F-30,\"Potatoes, yellow\",50 lb,24.00,2026-11-23
Fernhollow Produce,F-41,\"Apples, tart\",88ct 40#,48.40,2026-11-23
Fernhollow Produce,F-44,\"Grapefruit, ruby\",36 ct,34.20,2026-11-23
";

/// The list of Fernhollow Produce.
#[allow(clippy::unnecessary_wraps, reason = "files are made by functions of one kind")]
pub fn fernhollow() -> Result<Vec<u8>, XlsxError> {
    Ok(FERNHOLLOW.as_bytes().to_vec())
}

/// The headings that stand over every table of Oxbarrow's list.
const HEADINGS: [&str; 5] = ["Prod #", "Description of goods", "Pk/Sz", "Priced by", "Net amt USD"];

/// The list of Oxbarrow Foods: titles, several tables on one sheet, prices as text, a date in the title alone.
#[rustfmt::skip]
pub fn oxbarrow() -> Result<Vec<u8>, XlsxError> {
    let mut book = Book::new("Price list", Paper::Letter)?;
    let mut page = book.sheet("Sheet1", &[10, 30, 22, 11, 14], false)?;
    page.heading("OXBARROW FOODS")?;
    page.rows(&[row!["Wholesale price list, in force from 23 November 2026"]])?;
    page.skip(1);
    page.rows(&[row!["Orders taken until noon. CS is by the case, LB by the pound."]])?;
    page.skip(1);
    table(&mut page, "MEAT AND SEAFOOD", &[
        row!["X-220", "DUCK WHOLE", "6/5 lb avg", "LB", "$4.50"],
        row!["X-231", "CHICKEN BACKS FRESH", "40 lb", "CS", "$30.00"],
        row!["X-236", "HEAD-ON SHRIMP", "6/5 lb", "CS", "$198.00"],
    ])?;
    table(&mut page, "DAIRY AND PRODUCE", &[
        row!["X-310", "BUTTER UNSLTD 1 LB SOLIDS", "36/1 lb", "CS", "$122.40"],
        row!["X-402", "CARROTS JUMBO", "50 lb", "CS", "$32.00"],
    ])?;
    table(&mut page, "DRY GOODS", &[
        row!["X-501", "FLOUR A-P", "50 lb", "CS", "$0.44"],
        row!["X-510", "LENTILS GREEN", "25 lb", "CS", "$61.00"],
        row!["X-512", "BARLEY PEARLED", "24/1 lb", "CS", "$33.60"],
        row!["X-520", "HONEY WILDFLOWER", "12/32 oz", "CS", "$156.00"],
        row!["X-533", "TOMATO PASTE", "6/#10 (6 lb 15 oz)", "CS", "$69.93"],
        row!["X-533", "TOMATO PASTE", "6/#10 (6 lb 15 oz)", "CS", "$69.93"],
        row!["X-541", "PAPRIKA SMOKED", "6/18 oz", "CS", "$78.30"],
        row!["X-545", "SALT KOSHER", "12/3 lb", "CS", "$30.60"],
        row!["X-546", "BAY LEAVES", "8 oz", "CS", "$9.20"],
        row!["X-560", "BASE SHELLFISH", "6/1 lb", "CS", "$91.80"],
    ])?;
    table(&mut page, "OILS, VINEGARS, CONDIMENTS", &[
        row!["X-602", "OIL OLIVE", "4 x 3 L", "CS", "$138.00"],
        row!["X-615", "MUSTARD DIJON", "6 x 1 kg", "CS", "$57.60"],
        row!["X-618", "CIDER VINEGER", "4/1 gal", "CS", "$22.80"],
    ])?;
    book.bytes()
}

/// A table under its heading, with a header row of its own.
fn table(page: &mut Page<'_>, heading: &str, rows: &[&[Cell]]) -> Result<(), XlsxError> {
    page.heading(heading)?;
    page.header(&HEADINGS)?;
    page.rows(rows)?;
    page.skip(1);
    Ok(())
}

//! The supplier's file: a printed list with its letterhead, page break and footnotes, a second sheet laid out in another
//! way, and last year's prices on a hidden one.

use rust_xlsxwriter::XlsxError;

use super::super::pen::{Book, Cell, day, row, usd};

/// The weekly list.
#[rustfmt::skip]
pub fn list(book: &mut Book) -> Result<(), XlsxError> {
    const HEADER: &[&str] =
        &["Item #", "Article", "Origin", "Pack/size", ">Case\u{a0}price", "Price unit", ">Effective", "Order qty"];
    let mut page = book.sheet("Wk 46", &[11, 30, 12, 16, 13, 10, 13, 10], false)?;
    page.title("Price list week 46", "Marrowby Wholesale Provisions. Catch weights are billed as weighed.")?;
    page.rows(&[row!["Order desk", "before 4 pm for the next morning", "", "", "", "", "", ""]])?;
    page.skip(1);
    page.header(HEADER)?;
    page.heading("PRODUCE")?;
    page.rows(&[
        row!["MP-1101", "ONIONS,  YELLOW", "home", "50 lb", "$24.00", "", day(11, 9), ""],
        row!["MP-1102", "Carrots ", "home", "25 lb", usd(14.5), "CS", day(11, 9), ""],
        row!["MP-1103", "Celery", "abroad", "24 ct", "38.40/cs", "", day(11, 9), ""],
        row!["MP-1104", "LEMONS", "abroad", "140 ct 35 lb", usd(42.0), "", day(11, 9), ""],
        row!["MP-1105", "Parsley, flat leaf", "home", "30 bunch", usd(27.0), "", day(11, 9), ""],
        row!["MP-1106", "Potatoes, russet", "home", Cell::TurnedToDay(10, 5), usd(18.5), "", day(11, 9), ""],
        row!["MP-1107", "Salad leaves", "home", "4/3 lb", usd(28.8), "", day(11, 9), ""],
        row!["MP-1108", "Plum tomatoes, canned", "abroad", "6/#10 (6 lb 6 oz)", usd(38.25), "", day(11, 9), ""],
    ])?;
    page.heading("DAIRY & EGGS")?;
    page.rows(&[
        row!["MP-2201", "Butter,  Unsalted", "home", "36/1 lb", usd(118.8), "", day(11, 9), ""],
        row!["MP-2202", "Heavy\u{a0}cream", "home", "12/1 qt", "$58.80/cs", "", day(11, 9), ""],
        row!["MP-2203", "Milk, whole", "home", "4/1 gal", 18.4, "", day(11, 9), ""],
        row!["MP-2204", "Eggs, large", "home", "15 dz", " $ 48.60 ", "", day(11, 9), ""],
        row!["MP-2205", "Parmesan wedge", "abroad", "2/10 lb avg", usd(9.8), "LB", day(11, 9), ""],
        row!["MP-2206", "Creme fraiche", "home", "6/5", usd(31.5), "", day(11, 9), ""],
        row!["MP-2207", "Yogurt, plain", "home", "6/32 oz", usd(4.1), "EA", day(11, 9), ""],
    ])?;
    page.heading("MEAT & FISH")?;
    page.rows(&[
        row!["MP-3301", "Whole chickens", "home", "8/3.5 lb avg", usd(2.1), "lb", day(11, 9), ""],
        row!["MP-3302", "Pork shoulder", "home", "14-16 lb avg", usd(2.45), "LB", day(11, 9), ""],
        row!["MP-3303", "Bacon, sliced", "home", "15 lb", Cell::Error("#REF!"), "", day(11, 9), ""],
        row!["MP-3304", "Cod fillet", "abroad", "10 lb", usd(92.0), "", day(10, 12), ""],
        row!["MP-3304", "Cod fillet", "abroad", "10 lb", "MKT", "", day(11, 9), ""],
        row!["MP-3305", "Shrimp, peeled", "abroad", "16/20 ct", usd(62.0), "", day(11, 9), ""],
        row!["MP-3306", "Smoked trout", "abroad", "2 kg", "€21.50", "", day(11, 9), ""],
    ])?;
    page.skip(1);
    page.header(HEADER)?;
    page.heading("DRY STORE")?;
    page.rows(&[
        row!["MP-4401", "Flour, all-purpose", "home", "1/50#", usd(21.0), "", day(11, 9), ""],
        row!["MP-4402", "Sugar", "abroad", "2/25 lb", usd(27.0), "", day(11, 9), ""],
        row!["MP-4403", "SALT, KOSHER", "home", "12/3 lb", usd(18.0), "", day(11, 9), ""],
        row!["MP-4404", "Rice, short grain", "abroad", "11 lb", usd(23.1), "", day(10, 12), ""],
        row!["MP-4404", "Rice, short grain", "abroad", "11 lb", usd(24.2), "", day(11, 9), ""],
        row!["MP-4404", "Rice, short grain", "abroad", "11 lb", usd(25.3), "", day(11, 30), ""],
        row!["MP-4405", "Saffron", "abroad", "1 kg", "1,234.50", "", day(11, 9), ""],
        row!["MP-4406", "Olive oil", "abroad", "4 x 3 L", usd(132.0), "", day(11, 9), ""],
        row!["MP-4407", "Vanilla extract", "abroad", "1 qt", usd(96.0), "", day(7, 6), ""],
        row!["MP-4408", "Red wine, cooking", "abroad", "12 x 750 ml", usd(99.0), "", day(11, 9), ""],
        row!["MP-4409", "Sherry vinegar", "abroad", "12 x 500 ml", usd(72.0), "", day(11, 9), ""],
    ])?;
    page.hide_row()?;
    page.rows(&[
        row!["MP-4410", "Vegetable bouillon", "home", "12/1 lb", Cell::Unfigured("=E45*1.1"), "", day(11, 9), ""],
    ])?;
    page.skip(1);
    page.rows(&[row!["", "TOTAL", "", "", usd(0.0), "", "", ""]])?;
    page.skip(1);
    page.rows(&[row!["Claims within 24 hours of delivery."], row!["All prices subject to change without notice."]])
}

/// What comes once a month, on a sheet that another hand laid out: the pack in three columns.
#[rustfmt::skip]
pub fn dry_store(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Monthly", &[26, 12, 10, 8, 11, 14], false)?;
    page.title("Monthly delivery", "First Monday of the month.")?;
    page.header(&["Description", ">Units per case", ">Pack size", "UOM", ">Cost", "Vendor"])?;
    page.rows(&[
        row!["Coffee beans", 6, 5, "lb", usd(210.0), "Marrowby"],
        row!["Cider vinegar", 4, 1, "gal", usd(21.6), "Marrowby"],
        row!["Coconut milk", 24, 13.5, "fl oz", usd(36.0), "Marrowby"],
        row!["Brioche loaf", 10, 1, "each", usd(45.0), "Marrowby"],
        row!["Peanut butter", 6, 5, "", usd(66.0), "Marrowby"],
    ])
}

/// Last year's prices, which nobody deleted.
#[rustfmt::skip]
pub fn last_year(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("2025", &[26, 14, 11, 14], false)?;
    page.header(&["Article", "Pack/size", ">Case price", ">Effective"])?;
    page.rows(&[
        row!["Butter, unsalted", "36/1 lb", usd(104.4), Cell::Day(2025, 11, 10)],
        row!["Olive oil", "4 x 3 L", usd(118.0), Cell::Day(2025, 11, 10)],
    ])?;
    page.hide();
    Ok(())
}
